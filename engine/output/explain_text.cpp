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
  Facts(const Rule& rule, Page& page) : rule_(rule), page_(page) {}

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
  void severity(const char* outside, Severity s) {
    page_.item({outside, Ink::faint}, {{std::string(meaning(s)), ink_of(s)}}, 0, name_room);
  }
  void bounds(const RuleBounds& b, const std::string& where) {
    const UnitSystem units = page_.look().units;
    const std::string label = where.empty() ? "" : " (" + where + ")";
    const MeasureKind* kind = find_measure_kind(rule_.measure);
    const Telling telling = telling_of(rule_, kind ? kind->unit : "");
    const auto told = [&](const Bounds& of) {
      return bounds_text(telling.of(of), telling.unit, units) + label;
    };
    row("Comfortable", told(b.comfortable));
    if (b.hard.any()) row("Hard bounds", told(b.hard));
  }

  void range() {
    row("Looks at", measure_name(rule_.measure));
    bool any_hard = rule_.bounds.hard.any();
    if (rule_.bounds.comfortable.any() || rule_.bounds.hard.any())
      bounds(rule_.bounds, rule_.by_value.empty() ? "" : "otherwise");
    for (const auto& [value, b] : rule_.by_value) {
      bounds(b, value);
      any_hard |= b.hard.any();
    }
    severity("Outside", rule_.outside_comfortable);
    if (any_hard) severity("Far outside", rule_.outside_hard);
  }

  void order() {
    std::string text =
        fmt::format("whether “{}” comes before “{}”", spelling(rule_.first), spelling(rule_.then));
    if (rule_.until)
      text = fmt::format("whether “{}” keeps clear of “{}”, until “{}”", spelling(rule_.first),
                         spelling(rule_.then), spelling(*rule_.until));
    if (!rule_.items.empty()) text += ", for " + list_of(rule_.items, "or");
    row("Looks at", text);
    severity("If not", rule_.severity);
  }

  void contact() {
    row("Looks at", "whether whatever touches the cooled wort was cleaned before it, and lately");
    severity("If not", rule_.severity);
  }

  void present() {
    row("Looks at", spaced(rule_.fact));
    if (!rule_.fine.empty()) row("Fine", list_of(rule_.fine, "or"));
    for (const auto& [value, s] : rule_.others)
      page_.item({"Not", Ink::faint},
                 {{spaced(value) + ": "}, {std::string(meaning(s)), ink_of(s)}}, 0, name_room);
    if (rule_.otherwise) severity("Anything else", *rule_.otherwise);
  }

  void consistent() {
    row("Looks at",
        measure_name(rule_.measures[0]) + " against " + measure_name(rule_.measures[1]));
    row("Comfortable", gap(rule_.comfortable_gap));
    if (rule_.hard_gap) row("Hard bounds", gap(*rule_.hard_gap));
    severity("Outside", rule_.outside_comfortable);
    if (rule_.hard_gap) severity("Far outside", rule_.outside_hard);
  }

  std::string gap(double size) const {
    if (rule_.relative) return "apart by at most " + write_number(100 * size) + " %";
    const MeasureKind* kind = find_measure_kind(rule_.measures[0]);
    return "apart by at most " + write_value(size, kind ? kind->unit : "", page_.look().units);
  }

  const Rule& rule_;
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

std::string explain_text(const Rule& rule, const Look& look) {
  Page page(look);
  page.paragraph({{rule.title, Ink::strong}, {" · " + rule.id, Ink::faint}});
  page.blank();
  Facts(rule, page).tell();
  part(page, "Why", rule.why);
  part(page, "What to do", rule.advice);
  page.blank();
  page.heading("For example");
  page.item({"not", Ink::spoils}, {{rule.wrong}}, 2, 5);
  page.item({"but", Ink::good}, {{rule.right}}, 2, 5);
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
  page.blank();
  page.item("Lesson", rule.lesson, 0, name_room);
  return std::move(page).text();
}

std::string catalogue_text(std::span<const Rule> rules, const Look& look) {
  Page page(look);
  std::size_t longest = 0;
  std::vector<std::string> lessons;
  for (const Rule& rule : rules) {
    longest = std::max(longest, rule.id.size());
    if (std::find(lessons.begin(), lessons.end(), rule.lesson) == lessons.end())
      lessons.push_back(rule.lesson);
  }
  std::sort(lessons.begin(), lessons.end());
  page.paragraph(
      {{fmt::format("{} rules, by the lesson that teaches them", rules.size()), Ink::strong}});
  for (const std::string& lesson : lessons) {
    page.blank();
    page.heading(lesson);
    for (const Rule& rule : rules)
      if (rule.lesson == lesson) page.item({rule.id}, {{rule.title}}, 2, longest + 2);
  }
  page.blank();
  page.paragraph("To read one: starter-plan explain RULE");
  return std::move(page).text();
}

}  // namespace starter
