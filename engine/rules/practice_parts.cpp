#include "rules/practice_parts.h"

#include <algorithm>

#include "measures/facts.h"
#include "plan/pointer.h"
#include "quantity/words.h"
#include "quantity/write.h"
#include "rules/message.h"

namespace starter::practice {
namespace {

std::string number_or_null(const std::optional<double>& end) {
  return end ? write_number(*end, 6) : "null";
}

bool contains(const std::vector<std::string>& words, std::string_view word) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

}  // namespace

Fields fields_of(const Node* object, std::string where, std::span<const std::string_view> known,
                 Report& report) {
  return {object, std::move(where), known, report, {}};
}

void unknown(const std::string& where, Position at, std::string_view kind, std::string_view typed,
             std::span<const std::string_view> known, Report& report) {
  const auto nearest = nearest_word(typed, known);
  report.add(where, at, "there is no " + std::string(kind) + " " + starter::quoted(typed),
             nearest ? *nearest : one_of(known));
}

std::vector<std::string_view> measure_names() {
  std::vector<std::string_view> names;
  for (const MeasureKind& kind : measure_kinds()) names.push_back(kind.name);
  return names;
}

std::vector<std::string_view> fact_names() {
  std::vector<std::string_view> names;
  for (const FactKind& kind : fact_kinds()) names.push_back(kind.name);
  return names;
}

std::string unit_in_words(const Rule& rule) {
  const MeasureKind* kind = find_measure_kind(rule.measure);
  if (!kind) return "";
  return kind->unit == "ratio" ? " as a ratio, so that 0.8 is 80 %"
                               : " in " + std::string(kind->unit);
}

std::string as_pair(const Bounds& b) {
  return "[" + number_or_null(b.low) + ", " + number_or_null(b.high) + "]";
}

std::optional<Bounds> read_bounds(const Fields& fields, std::string_view name, const Rule& rule,
                                  Report& report) {
  const Node* node = fields.find(name);
  if (node == nullptr) return std::nullopt;
  const std::string wanted = "the lowest and the highest value that are fine, numbers" +
                             unit_in_words(rule) + ", or null where there is no such end";
  const std::string example =
      rule.bounds.comfortable.any() ? as_pair(rule.bounds.comfortable) : std::string("[null, 30]");
  if (node->kind != Node::Kind::list || node->items.size() != 2) {
    fields.wrong(name, described(*node) + " stands here; wanted are " + wanted, example);
    return std::nullopt;
  }
  Bounds read;
  for (std::size_t i = 0; i < 2; ++i) {
    const Node& end = node->items[i];
    if (end.kind == Node::Kind::null) continue;
    if (end.kind != Node::Kind::number) {
      report.add(pointer_to(fields.where(name), i), end.at,
                 described(end) + " stands here; wanted are " + wanted, example);
      return std::nullopt;
    }
    (i == 0 ? read.low : read.high) = end.number;
  }
  if (read.low && read.high && *read.low > *read.high) {
    fields.wrong(name,
                 "the low end " + write_number(*read.low, 6) + " lies above the high end " +
                     write_number(*read.high, 6) + ", so no value could be fine",
                 as_pair({read.high, read.low}));
    return std::nullopt;
  }
  return read;
}

bool check_bounds(const RuleBounds& bounds, const Rule& rule, const Fields& fields,
                  std::string_view at) {
  const auto& [comfortable, hard] = bounds;
  if (const MeasureKind* kind = find_measure_kind(rule.measure)) {
    for (const Bounds& b : {comfortable, hard})
      if ((b.low && *b.low > kind->most) || (b.high && *b.high < kind->least)) {
        fields.wrong(at,
                     "no plan could keep these bounds: " + std::string(kind->title) +
                         " is never outside " + write_number(kind->least, 6) + " to " +
                         write_number(kind->most, 6) + unit_in_words(rule),
                     "bounds within that");
        return false;
      }
  }
  const bool low = hard.low && (!comfortable.low || *hard.low > *comfortable.low);
  const bool high = hard.high && (!comfortable.high || *hard.high < *comfortable.high);
  if (!low && !high) return true;
  Bounds around = hard;
  if (low) around.low = comfortable.low;
  if (high) around.high = comfortable.high;
  fields.wrong(at,
               "the comfortable bounds " + as_pair(comfortable) + " reach outside the hard ones " +
                   as_pair(hard) + "; past the hard ones things are worse, so they lie further out",
               "\"hard\": " + as_pair(around) + ", or comfortable bounds inside " + as_pair(hard));
  return false;
}

std::optional<Severity> read_severity(const Fields& fields, std::string_view name) {
  constexpr std::string_view words[] = {"note", "weakens", "spoils", "danger"};
  const auto typed = fields.name(name);
  if (!typed) return std::nullopt;
  const auto read = severity_from(*typed);
  if (!read) {
    const auto nearest = nearest_word(*typed, words);
    fields.wrong(name, starter::quoted(*typed) + " is no severity: " + one_of(words),
                 nearest ? *nearest : one_of(words));
  }
  return read;
}

std::optional<std::string> read_message(const Fields& fields, std::string_view name,
                                        const Rule& rule, bool counts_number) {
  auto text = fields.name(name);
  if (!text) return std::nullopt;
  const std::string& fact = rule.kind == RuleKind::range ? rule.by_fact : rule.fact;
  for (const std::string& place : unknown_places(*text, rule.kind, fact))
    fields.wrong(name,
                 "nothing fills the place {" + place +
                     "}; a place is {value}, {comfortable}, "
                     "{stage}, {step} or the name of a measure",
                 "take it out");
  const auto places = places_in(*text);
  if (counts_number && !contains(places, "value") && !contains(places, "beyond"))
    fields.wrong(name, "this message does not tell the number", "{value} somewhere in it");
  if (counts_number && !contains(places, "comfortable"))
    fields.wrong(name, "this message does not tell the bounds", "{comfortable} somewhere in it");
  return text;
}

void check_value(const std::string& where, Position at, std::string_view fact,
                 std::string_view value, Report& report) {
  for (const FactKind& kind : fact_kinds()) {
    if (kind.name != fact || kind.values.empty()) continue;
    if (std::find(kind.values.begin(), kind.values.end(), value) == kind.values.end())
      unknown(where, at, "value of " + std::string(fact), value, kind.values, report);
  }
}

}  // namespace starter::practice
