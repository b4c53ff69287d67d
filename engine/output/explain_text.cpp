#include "output/explain_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <string_view>
#include <vector>

#include "output/plan_parts.h"
#include "output/rule_rows.h"
#include "rules/catalogue.h"

namespace starter {
namespace {

constexpr std::size_t name_room = 14;

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

std::string source_text(const Rule& rule, const RuleSource& source) {
  const auto word = club_practice(rule, source);
  return word ? "The club’s practice: " + *word : source_text(source);
}

std::optional<std::string> club_practice(const Rule& rule, const RuleSource& source) {
  // A practice file puts the club's word first, with its name in front.
  if (!rule.club || &source != &rule.sources.front() || source.label != "practice" ||
      !begins_with(source.text, rule.club->club))
    return std::nullopt;
  const std::string named = rule.club->club + ": ";
  return begins_with(source.text, named) ? source.text.substr(named.size()) : source.text;
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
  for (const RuleRow& row : rule_rows(rule, look.units)) {
    Pieces pieces = {{row.text}};
    if (row.severity)
      pieces.push_back({std::string(meaning_of(*row.severity)), ink_of(*row.severity)});
    if (!row.instead.empty()) pieces.push_back({" – " + row.instead, Ink::strong});
    page.item({row.name, Ink::faint}, pieces, 0, name_room);
  }
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
  for (const std::string& source : source_sentences(rule)) page.item({"–"}, {{source}}, 2, 2);
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
