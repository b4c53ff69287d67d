#include "lesson/fill.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <iterator>
#include <optional>
#include <stdexcept>
#include <string_view>
#include <utility>

#include "lesson/difference.h"
#include "lesson/markdown.h"
#include "output/places.h"
#include "output/verdict.h"
#include "plan/json.h"
#include "plan/lines.h"
#include "plan/read.h"
#include "quantity/local_time.h"
#include "rules/catalogue.h"
#include "rules/judge.h"
#include "rules/telling.h"

namespace starter {
namespace {

/// Why a placeholder cannot be filled: a sentence for its author.
struct CannotFill {
  std::string says;
};
using Filled = std::variant<std::string, CannotFill>;

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
  while (!text.empty() && text.back() == ' ') text.remove_suffix(1);
  return text;
}

/// The part before the first `mark`, and what follows it; both trimmed.
std::pair<std::string_view, std::string_view> split(std::string_view text, char mark) {
  const std::size_t at = text.find(mark);
  if (at == std::string_view::npos) return {trimmed(text), {}};
  return {trimmed(text.substr(0, at)), trimmed(text.substr(at + 1))};
}

Filled unknown(std::string_view what, std::string_view word) {
  return CannotFill{fmt::format("“{}” is no {}", word, what)};
}

template <class Item>
struct Named {
  std::string_view name;
  Item item;
};

template <class Item, std::size_t size>
const Item* item_named(const Named<Item> (&table)[size], std::string_view name) {
  for (const auto& row : table)
    if (row.name == name) return &row.item;
  return nullptr;
}

// ---- Rules

/// The bounds of a rule as people are told them; for rules that compare, how far apart is still
/// fine.
Filled bounds_of(const Rule& rule, bool hard, std::string_view value, UnitSystem units) {
  const auto gap = [&](double size) {
    return rule.relative ? write_value(100 * size, "%", units)
                         : write_value(size, find_measure_kind(rule.measures[0])->unit, units);
  };
  if (rule.kind == RuleKind::consistent) {
    if (hard && !rule.hard_gap) return CannotFill{"rule " + rule.id + " has no hard bounds"};
    return "at most " + gap(hard ? *rule.hard_gap : rule.comfortable_gap);
  }
  if (rule.kind != RuleKind::range) return CannotFill{"rule " + rule.id + " has no bounds"};
  RuleBounds bounds = rule.bounds;
  if (!value.empty()) {
    const auto found = rule.by_value.find(std::string(value));
    if (found == rule.by_value.end()) return unknown("value that its bounds differ by", value);
    bounds = found->second;
  }
  const Bounds& wanted = hard ? bounds.hard : bounds.comfortable;
  if (!wanted.any()) return CannotFill{"rule " + rule.id + " has no such bounds"};
  const Telling telling = telling_of(rule, find_measure_kind(rule.measure)->unit);
  return bounds_text(telling.of(wanted), telling.unit, units);
}

using RulePart = std::string (*)(const Rule&);
constexpr Named<RulePart> rule_parts[] = {
    {"title", [](const Rule& r) { return r.title; }},
    {"why", [](const Rule& r) { return r.why; }},
    {"do", [](const Rule& r) { return r.advice; }},
    {"wrong", [](const Rule& r) { return r.wrong; }},
    {"right", [](const Rule& r) { return r.right; }},
};

Filled rule_text(std::string_view words, UnitSystem units) {
  const auto [id, what] = split(words, ' ');
  const Rule* rule = find_rule(id);
  if (!rule) return unknown("rule of the catalogue", id);
  if (const RulePart* part = item_named(rule_parts, what)) return markdown_prose((*part)(*rule));
  const auto [which, rest] = split(what, ' ');
  const auto [word, value] = split(rest, ' ');
  if ((which != "comfortable" && which != "hard") || (!rest.empty() && word != "for"))
    return unknown("part of a rule", what);
  return bounds_of(*rule, which == "hard", value, units);
}

Filled caution_text_of(std::string_view id) {
  const Caution* caution = find_caution(id);
  if (!caution) return unknown("caution", id);
  return "**" + markdown_prose(caution->title) + ".** " + markdown_prose(caution->text);
}

// ---- Plans

/// A text of a plan as people say it: a day or time in words, anything else as it is.
std::string as_said(const std::string& text) {
  const auto time = read_time(text);
  if (!time) return text;
  const std::string words = spoken(time->at);
  return time->has_clock ? words : words.substr(0, words.rfind(' '));
}

/// "one", "ten"; digits past twelve.
std::string count_in_words(std::size_t count) {
  constexpr const char* words[] = {"no",    "one",   "two",  "three", "four",   "five",  "six",
                                   "seven", "eight", "nine", "ten",   "eleven", "twelve"};
  return count < std::size(words) ? words[count] : std::to_string(count);
}

/// A measure in the unit in which the rule that looks at it tells it.
Measure as_told(const Measure& m) {
  for (const Rule& rule : catalogue())
    if (rule.measure == m.name && rule.told_as_share) return telling_of(rule, m.unit).of(m);
  return m;
}

using MeasureForm = std::string (*)(const Measure&, UnitSystem);
constexpr Named<MeasureForm> measure_forms[] = {
    {"", [](const Measure& m, UnitSystem u) { return write_value(m.value, m.unit, u); }},
    {"value", [](const Measure& m, UnitSystem u) { return write_value(m.value, m.unit, u); }},
    {"range", [](const Measure& m, UnitSystem u) { return write_range(m.low, m.high, m.unit, u); }},
    {"both", [](const Measure& m, UnitSystem u) { return value_text(m, u); }},
    {"how", [](const Measure& m, UnitSystem) { return m.how; }},
};

using FindingPart = std::string (*)(const Finding&);
constexpr Named<FindingPart> finding_parts[] = {
    {"says", [](const Finding& f) { return f.says; }},
    {"fix", [](const Finding& f) { return f.fix ? f.fix->says : std::string(); }},
    {"margin", [](const Finding& f) { return f.margin; }},
    {"title", [](const Finding& f) { return f.rule->title; }},
    {"severity", [](const Finding& f) { return std::string(spelling(f.severity)); }},
};

/// What is said of one plan, and asked for after "plan:" or "mended:".
class PlanTexts {
 public:
  PlanTexts(std::string_view name, Judgement judgement, UnitSystem units)
      : name_(name), judgement_(std::move(judgement)), units_(units) {}

  const Plan& plan() const { return judgement_.plan; }

  Filled text(std::string_view words) const {
    const auto [asked, form] = split(words, '|');
    const auto [body, pointer] = split(asked, '@');
    const auto [verb, object] = split(body, ' ');
    if (verb == "field") return field(object);
    if (verb == "place") return markdown_text(place_in_words(plan(), std::string(object)));
    if (verb == "finding") return finding(object, pointer);
    if (body == "findings") return findings();
    if (body == "count") return count();
    if (body == "verdict") return markdown_text(verdict_of(judgement_.findings));
    return measure(body, pointer, form);
  }

 private:
  CannotFill none(std::string_view what, std::string_view name) const {
    return {
        fmt::format("the {} has no {} “{}”", name_ == "plan" ? "plan" : "mended plan", what, name)};
  }

  Filled measure(std::string_view name, std::string_view pointer, std::string_view form) const {
    if (!find_measure_kind(name)) return unknown("measure", name);
    const MeasureForm* write = item_named(measure_forms, form);
    if (!write) return unknown("form of a measure", form);
    const auto& all = judgement_.measures;
    const auto found = std::find_if(all.begin(), all.end(), [&, name = name](const Measure& m) {
      return m.name == name && (pointer.empty() || m.of == pointer);
    });
    if (found == all.end()) return none("measure", name);
    return markdown_text((*write)(as_told(*found), units_));
  }

  Filled finding(std::string_view words, std::string_view pointer) const {
    const auto [id, what] = split(words, ' ');
    if (!find_rule(id)) return unknown("rule of the catalogue", id);
    const FindingPart* part = item_named(finding_parts, what);
    if (!part) return unknown("part of a finding", what);
    for (const Finding& f : judgement_.findings) {
      if (f.rule->id != id || (!pointer.empty() && f.where != pointer)) continue;
      const std::string text = (*part)(f);
      if (text.empty()) return CannotFill{fmt::format("the finding of {} has no {}", id, what)};
      return markdown_text(text);
    }
    return none("finding of", id);
  }

  std::string count() const {
    const auto& all = judgement_.findings;
    return count_in_words(static_cast<std::size_t>(std::count_if(
        all.begin(), all.end(), [](const Finding& f) { return f.severity != Severity::note; })));
  }

  Filled findings() const {
    std::string list;
    for (const Finding& f : judgement_.findings)
      if (f.severity != Severity::note)
        list += fmt::format("- **{}** · {} – {}\n", spelling(f.severity),
                            markdown_text(f.rule->title), markdown_text(f.says));
    if (list.empty()) return CannotFill{"nothing above note is found in this plan"};
    list.pop_back();
    return list;
  }

  Filled field(std::string_view pointer) const {
    const Json document = parse_json(*plan().source);
    const Json* value = &document;
    try {
      value = &document.at(Json::json_pointer(std::string(pointer)));
    } catch (const Json::exception&) {
      return none("field", pointer);
    }
    if (value->is_string()) return markdown_text(as_said(value->get<std::string>()));
    if (value->is_structured()) return CannotFill{fmt::format("“{}” is no single value", pointer)};
    return markdown_text(value->dump());
  }

  std::string_view name_;
  Judgement judgement_;
  UnitSystem units_;
};

std::string change_text(const PlanChange& change) {
  const std::string what = "**" + markdown_text(change.what) + "**";
  const std::string before = markdown_text(spoken_if_time(change.before)),
                    after = markdown_text(spoken_if_time(change.after));
  const auto details = [](const std::string& text) { return text.empty() ? "" : " – " + text; };
  switch (change.kind) {
    case PlanChange::Kind::changed:
      return fmt::format("{}: {} → {}", what, before, after);
    case PlanChange::Kind::moved:
      return fmt::format("{}, is moved: {} → {}", what, before, after);
    case PlanChange::Kind::put_in:
      return fmt::format("put in: {}{}", what, details(after));
    case PlanChange::Kind::taken_out:
      return fmt::format("taken out: {}{}", what, details(before));
  }
  return "";
}

std::string change_list(const Plan& before, const Plan& after) {
  std::string list;
  for (const PlanChange& change : changes_between(before, after))
    list += (list.empty() ? "- " : "\n- ") + change_text(change);
  return list;
}

class Filling {
 public:
  Filling(const Lesson& lesson, const FillOptions& options, PlanTexts plan, PlanTexts mended)
      : lesson_(lesson),
        options_(options),
        plan_(std::move(plan)),
        mended_(std::move(mended)),
        lines_(lesson.text) {}

  FilledLesson result() {
    const std::string_view text = lesson_.text;
    std::string out;
    std::size_t at = 0;
    for (std::size_t open = text.find("{{"); open != std::string_view::npos;
         open = text.find("{{", at)) {
      out += text.substr(at, open - at);
      const std::size_t close = text.find("}}", open);
      const std::size_t line_end = std::min(text.find('\n', open), text.size());
      if (close == std::string_view::npos || close > line_end) {
        fault(open, "“{{” without “}}” on the same line");
        at = line_end;
        continue;
      }
      const std::string_view words = trimmed(text.substr(open + 2, close - open - 2));
      const Filled filled = fill(words);
      if (const auto* why = std::get_if<CannotFill>(&filled))
        fault(open, fmt::format("{{{{{}}}}}: {}", words, why->says));
      else
        out += std::get<std::string>(filled);
      at = close + 2;
    }
    out += text.substr(at);
    if (!faults_.empty()) return std::move(faults_);
    return out;
  }

 private:
  void fault(std::size_t offset, std::string says) {
    faults_.push_back({lesson_.name + "/lesson.md", lines_.of(offset), std::move(says)});
  }

  Filled fill(std::string_view words) const {
    if (words == "title") return markdown_text(lesson_.title);
    if (words == "summary") return markdown_prose(lesson_.summary);
    if (words == "diff") return change_list(plan_.plan(), mended_.plan());
    if (words == "diagram") return diagram();
    const auto [subject, of_plan] = split(words, ':');
    if (subject == "plan") return plan_.text(of_plan);
    if (subject == "mended") return mended_.text(of_plan);
    const auto [kind, rest] = split(words, ' ');
    if (kind == "rule") return rule_text(rest, options_.units);
    if (kind == "caution") return caution_text_of(rest);
    if (kind == "lesson") return title_of(rest);
    return unknown("placeholder", words);
  }

  Filled title_of(std::string_view name) const {
    const Lesson* other = find_lesson(name);
    return other ? Filled(markdown_text(other->title)) : unknown("lesson", name);
  }

  std::string diagram() const {
    if (!options_.diagram.empty()) return options_.diagram;
    return fmt::format("`starter-plan draw lessons/{}/plan.json -o plan.svg` draws it.",
                       lesson_.name);
  }

  const Lesson& lesson_;
  const FillOptions& options_;
  PlanTexts plan_;
  PlanTexts mended_;
  Lines lines_;
  std::vector<LessonFault> faults_;
};

/// The plan judged, or what is wrong with it.
std::variant<Judgement, std::vector<LessonFault>> judged(const std::string& bytes,
                                                         const std::string& file,
                                                         UnitSystem units) {
  PlanResult result = read_plan(bytes);
  if (auto* plan = std::get_if<Plan>(&result))
    return judge(std::move(*plan), catalogue(), {units, true});
  std::vector<LessonFault> faults;
  for (const PlanError& e : std::get<std::vector<PlanError>>(result))
    faults.push_back({file, e.line, e.says});
  return faults;
}

}  // namespace

FilledLesson filled_lesson(const Lesson& lesson, const FillOptions& options) {
  auto plan = judged(lesson.plan, lesson.name + "/plan.json", options.units);
  if (auto* faults = std::get_if<std::vector<LessonFault>>(&plan)) return std::move(*faults);
  auto mended = judged(lesson.mended, lesson.name + "/mended.json", options.units);
  if (auto* faults = std::get_if<std::vector<LessonFault>>(&mended)) return std::move(*faults);
  return Filling(lesson, options,
                 PlanTexts("plan", std::get<Judgement>(std::move(plan)), options.units),
                 PlanTexts("mended", std::get<Judgement>(std::move(mended)), options.units))
      .result();
}

std::string told_lesson(const Lesson& lesson, const FillOptions& options) {
  FilledLesson text = filled_lesson(lesson, options);
  if (auto* done = std::get_if<std::string>(&text)) return std::move(*done);
  throw std::runtime_error("the lesson " + lesson.name + " cannot be told: " +
                           std::get<std::vector<LessonFault>>(text).front().says);
}

}  // namespace starter
