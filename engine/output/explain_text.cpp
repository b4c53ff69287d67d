#include "output/explain_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <string_view>
#include <vector>

#include "measures/measures.h"
#include "output/plan_parts.h"
#include "quantity/write.h"
#include "rules/catalogue.h"
#include "rules/telling.h"

namespace starter {
namespace {

constexpr std::size_t name_room = 14;

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

std::string_view meaning(Severity severity) {
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

std::string measure_name(const std::string& name) {
  const MeasureKind* kind = find_measure_kind(name);
  return kind ? fmt::format("{} ({})", kind->title, name) : name;
}

/// What a rule looks at, when it speaks and how badly: kind by kind.
class Facts {
 public:
  Facts(const Rule& rule, Page& page)
      : rule_(rule),
        catalogue_(rule.club && !rule.club->own ? find_rule(rule.id) : nullptr),
        page_(page) {}

  void tell() {
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
  }

 private:
  void row(std::string_view name, const std::string& text) { page_.item(name, text, 0, name_room); }
  /// \param before of the catalogue's rule, where there is one.
  void severity(const char* outside, Severity s, std::optional<Severity> before) {
    Pieces told = {{std::string(meaning(s)), ink_of(s)}};
    if (before && *before != s)
      told.push_back({instead_of(std::string(spelling(*before))), Ink::strong});
    page_.item({outside, Ink::faint}, told, 0, name_room);
  }
  std::string instead_of(const std::string& before) const {
    return " – " + rule_.club->club + "; the catalogue has " + before;
  }
  template <class T>
  std::optional<T> catalogue_has(T Rule::*member) const {
    return catalogue_ ? std::optional(catalogue_->*member) : std::nullopt;
  }
  /// \param before of the catalogue's rule, where there is one.
  void bounds(const RuleBounds& b, const RuleBounds* before, const std::string& where) {
    const UnitSystem units = page_.look().units;
    const std::string label = where.empty() ? "" : " (" + where + ")";
    const MeasureKind* kind = find_measure_kind(rule_.measure);
    const Telling telling = telling_of(rule_, kind ? kind->unit : "");
    const auto told = [&](const Bounds& of) {
      return bounds_text(telling.of(of), telling.unit, units);
    };
    const auto tell = [&](const char* name, Bounds RuleBounds::*side) {
      const std::string now = told(b.*side);
      const std::string was = before ? told(before->*side) : now;
      row(name, now + label + (now == was ? "" : instead_of(was)));
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
    for (const auto& [value, s] : rule_.others) {
      Pieces told = {{spaced(value) + ": "}, {std::string(meaning(s)), ink_of(s)}};
      if (catalogue_ && catalogue_->others.at(value) != s)
        told.push_back(
            {instead_of(std::string(spelling(catalogue_->others.at(value)))), Ink::strong});
      page_.item({"Not", Ink::faint}, told, 0, name_room);
    }
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
    row(name, gap(size) + (before && *before != size ? instead_of(gap(*before)) : ""));
  }
  std::string gap(double size) const {
    if (rule_.relative) return "apart by at most " + write_number(100 * size) + " %";
    const MeasureKind* kind = find_measure_kind(rule_.measures[0]);
    return "apart by at most " + write_value(size, kind ? kind->unit : "", page_.look().units);
  }

  const Rule& rule_;
  const Rule* catalogue_;  ///< the rule as the catalogue has it, where a club changed it
  Page& page_;
};

void part(Page& page, std::string_view title, std::string_view text) {
  page.blank();
  page.heading(title);
  page.paragraph(text, 2);
}

bool begins_with(std::string_view text, std::string_view start) {
  return text.substr(0, start.size()) == start;
}

}  // namespace

std::string source_text(const RuleSource& source) {
  if (source.label == "published") return "Published: " + source.text;
  if (source.label == "memory") return "From memory, not confirmed: " + source.text;
  return begins_with(source.text, "Common practice") ? source.text
                                                     : "Common practice, no source: " + source.text;
}

std::string explain_text(const Rule& rule, const Look& look, const SwitchedOff* off) {
  Page page(look);
  page.paragraph({{rule.title, Ink::strong}, {" · " + rule.id, Ink::faint}});
  page.blank();
  if (off) page.item({"Switched off", Ink::weakens}, {{off->because}}, 0, name_room);
  if (rule.club) {
    const std::string who =
        rule.club->club + (rule.club->because.empty() ? "" : " – " + rule.club->because);
    page.item(rule.club->own ? "A rule of" : "Changed by", sentence(who), 0, name_room);
  }
  Facts(rule, page).tell();
  part(page, "Why", rule.why);
  part(page, "What to do", rule.advice);
  if (!rule.wrong.empty()) {
    page.blank();
    page.heading("For example");
    page.item({"not", Ink::spoils}, {{rule.wrong}}, 2, 5);
    page.item({"but", Ink::good}, {{rule.right}}, 2, 5);
  }
  if (!rule.cautions.empty()) {
    page.blank();
    page.heading("Take care");
    for (const std::string& id : rule.cautions)
      if (const Caution* caution = find_caution(id))
        page.paragraph({{caution->title + ". ", Ink::strong}, {caution->text}}, 2);
  }
  page.blank();
  page.heading("Sources");
  for (const RuleSource& source : rule.sources)
    page.item({"–"}, {{sentence(source_text(source))}}, 2, 2);
  if (!rule.lesson.empty()) {
    page.blank();
    page.item("Lesson", rule.lesson, 0, name_room);
  }
  return std::move(page).text();
}

std::string catalogue_text(const Practice& practice, const Look& look) {
  Page page(look);
  std::size_t longest = 0;
  std::vector<std::string> lessons;
  bool own = false;
  for (const Rule& rule : practice.rules()) {
    longest = std::max(longest, rule.id.size());
    own |= rule.lesson.empty();
    if (!rule.lesson.empty() &&
        std::find(lessons.begin(), lessons.end(), rule.lesson) == lessons.end())
      lessons.push_back(rule.lesson);
  }
  for (const SwitchedOff& off : practice.off) longest = std::max(longest, off.rule.size());
  std::sort(lessons.begin(), lessons.end());
  if (own) lessons.emplace_back();
  page.paragraph(
      {{fmt::format("{} rules, by the lesson that teaches them", practice.rules().size()),
        Ink::strong}});
  for (const std::string& lesson : lessons) {
    page.blank();
    page.heading(lesson.empty() ? "of " + practice.club : lesson);
    for (const Rule& rule : practice.rules()) {
      if (rule.lesson != lesson) continue;
      const char* mark = !rule.club ? "" : rule.club->own ? " · the club’s own" : " · changed";
      page.item({rule.id}, {{rule.title}, {mark, Ink::weakens}}, 2, longest + 2);
    }
  }
  if (!practice.off.empty()) {
    page.blank();
    page.heading("switched off by " + practice.club);
    for (const SwitchedOff& off : practice.off)
      page.item({off.rule}, {{off.title + " – " + off.because}}, 2, longest + 2);
  }
  page.blank();
  page.paragraph("To read one: starter-plan explain RULE");
  return std::move(page).text();
}

}  // namespace starter
