#include "output/rule_rows.h"

#include <fmt/format.h>

#include <algorithm>
#include <string_view>
#include <utility>

#include "measures/measures.h"
#include "output/explain_text.h"
#include "output/plan_parts.h"
#include "rules/catalogue.h"
#include "rules/telling.h"

namespace starter {
namespace {

std::string spaced(std::string text) {
  std::replace(text.begin(), text.end(), '_', ' ');
  return text;
}

std::string list_of(const std::vector<std::string>& words, const char* last) {
  std::string out;
  for (std::size_t i = 0; i < words.size(); ++i)
    out += (i == 0 ? "" : i + 1 == words.size() ? std::string(" ") + last + " " : ", ") + words[i];
  return out;
}

std::string measure_name(const std::string& name) {
  const MeasureKind* kind = find_measure_kind(name);
  return kind ? fmt::format("{} ({})", kind->title, name) : name;
}

/// What a rule looks at, when it speaks and how badly: kind by kind.
class Rows {
 public:
  Rows(const Rule& rule, UnitSystem units)
      : rule_(rule),
        catalogue_(rule.club && !rule.club->own ? find_rule(rule.id) : nullptr),
        units_(units) {}

  std::vector<RuleRow> take() && {
    switch (rule_.kind) {
      case RuleKind::range:
        range();
        break;
      case RuleKind::order:
        order();
        break;
      case RuleKind::contact:
        contact();
        break;
      case RuleKind::present:
        present();
        break;
      case RuleKind::consistent:
        consistent();
        break;
    }
    std::vector<std::string> conditions;
    for (const auto& [fact, values] : rule_.when)
      conditions.push_back(spaced(fact) + ": " + list_of(values, "or"));
    if (!conditions.empty()) row("Only where", list_of(conditions, "and"));
    if (!rule_.yields_to.empty())
      row("Silent where", list_of(rule_.yields_to, "or") + " speaks of the same cause");
    return std::move(rows_);
  }

 private:
  void row(std::string name, std::string text, std::string instead = "") {
    rows_.push_back({std::move(name), std::move(text), std::nullopt, std::move(instead)});
  }
  /// \param before of the catalogue's rule, where there is one.
  void severity(std::string outside, Severity s, std::optional<Severity> before,
                std::string text = "") {
    rows_.push_back({std::move(outside), std::move(text), s,
                     before && *before != s ? instead_of(std::string(spelling(*before))) : ""});
  }
  std::string instead_of(const std::string& before) const {
    return rule_.club->club + "; the catalogue has " + before;
  }
  template <class T>
  std::optional<T> catalogue_has(T Rule::*member) const {
    return catalogue_ ? std::optional(catalogue_->*member) : std::nullopt;
  }
  /// \param before of the catalogue's rule, where there is one.
  void bounds(const RuleBounds& b, const RuleBounds* before, const std::string& where) {
    const std::string label = where.empty() ? "" : " (" + where + ")";
    const MeasureKind* kind = find_measure_kind(rule_.measure);
    const Telling telling = telling_of(rule_, kind ? kind->unit : "");
    const auto told = [&](const Bounds& of) {
      return bounds_text(telling.of(of), telling.unit, units_);
    };
    const auto tell = [&](const char* name, Bounds RuleBounds::*side) {
      const std::string now = told(b.*side);
      const std::string was = before ? told(before->*side) : now;
      row(name, now + label, now == was ? "" : instead_of(was));
    };
    tell("Comfortable", &RuleBounds::comfortable);
    if (b.hard.any()) tell("Hard bounds", &RuleBounds::hard);
  }
  const RuleBounds* catalogue_bounds(const std::string& value) const {
    if (!catalogue_) return nullptr;
    const auto found = catalogue_->by_value.find(value);
    return found != catalogue_->by_value.end() ? &found->second : &catalogue_->bounds;
  }

  void range() {
    row("Looks at", measure_name(rule_.measure));
    bool any_hard = rule_.bounds.hard.any();
    if (rule_.bounds.comfortable.any() || rule_.bounds.hard.any())
      bounds(rule_.bounds, catalogue_ ? &catalogue_->bounds : nullptr,
             rule_.by_value.empty() ? "" : "otherwise");
    for (const auto& [value, b] : rule_.by_value) {
      bounds(b, catalogue_bounds(value), value);
      any_hard |= b.hard.any();
    }
    severity("Outside", rule_.outside_comfortable, catalogue_has(&Rule::outside_comfortable));
    if (any_hard) severity("Far outside", rule_.outside_hard, catalogue_has(&Rule::outside_hard));
  }

  void order() {
    std::string text =
        fmt::format("whether “{}” comes before “{}”", spelling(rule_.first), spelling(rule_.then));
    if (rule_.until)
      text = fmt::format("whether “{}” keeps clear of “{}”, until “{}”", spelling(rule_.first),
                         spelling(rule_.then), spelling(*rule_.until));
    if (!rule_.items.empty()) text += ", for " + list_of(rule_.items, "or");
    row("Looks at", text);
    severity("If not", rule_.severity, catalogue_has(&Rule::severity));
  }

  void contact() {
    row("Looks at", "whether whatever touches the cooled wort was cleaned before it, and lately");
    severity("If not", rule_.severity, catalogue_has(&Rule::severity));
  }

  void present() {
    row("Looks at", spaced(rule_.fact));
    if (!rule_.fine.empty()) row("Fine", list_of(rule_.fine, "or"));
    for (const auto& [value, s] : rule_.others)
      severity("Not", s, catalogue_ ? std::optional(catalogue_->others.at(value)) : std::nullopt,
               spaced(value) + ": ");
    if (rule_.otherwise)
      severity("Anything else", *rule_.otherwise,
               catalogue_ ? catalogue_->otherwise : std::nullopt);
  }

  void consistent() {
    row("Looks at",
        measure_name(rule_.measures[0]) + " against " + measure_name(rule_.measures[1]));
    gap_row("Comfortable", rule_.comfortable_gap, catalogue_has(&Rule::comfortable_gap));
    if (rule_.hard_gap)
      gap_row("Hard bounds", *rule_.hard_gap, catalogue_ ? catalogue_->hard_gap : std::nullopt);
    severity("Outside", rule_.outside_comfortable, catalogue_has(&Rule::outside_comfortable));
    if (rule_.hard_gap)
      severity("Far outside", rule_.outside_hard, catalogue_has(&Rule::outside_hard));
  }

  void gap_row(const char* name, double size, std::optional<double> before) {
    row(name, gap(size), before && *before != size ? instead_of(gap(*before)) : "");
  }
  std::string gap(double size) const {
    if (rule_.relative) return "apart by at most " + write_number(100 * size) + " %";
    const MeasureKind* kind = find_measure_kind(rule_.measures[0]);
    return "apart by at most " + write_value(size, kind ? kind->unit : "", units_);
  }

  const Rule& rule_;
  const Rule* catalogue_;  ///< the rule as the catalogue has it, where a club changed it
  UnitSystem units_;
  std::vector<RuleRow> rows_;
};

}  // namespace

std::string_view meaning_of(Severity severity) {
  switch (severity) {
    case Severity::note:
      return "note (teaches; nothing to mend)";
    case Severity::weakens:
      return "weakens (it works, but worse)";
    case Severity::spoils:
      return "spoils (the starter or the beer is likely to fail)";
    case Severity::danger:
      return "danger (a person may be hurt)";
  }
  return "";
}

std::vector<std::string> source_sentences(const Rule& rule) {
  std::vector<std::string> told;
  for (const RuleSource& source : rule.sources) told.push_back(sentence(source_text(rule, source)));
  return told;
}

std::vector<RuleRow> rule_rows(const Rule& rule, UnitSystem units) {
  return Rows(rule, units).take();
}

}  // namespace starter
