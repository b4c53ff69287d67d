#include "output/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "output/acceptance_words.h"
#include "output/cautions_of.h"
#include "output/key_numbers.h"
#include "output/places.h"
#include "output/plan_parts.h"
#include "output/scale.h"
#include "output/verdict.h"

namespace starter {
namespace {

constexpr std::size_t label_room = 8;   ///< of "Scale", "Fix", "Why", ...
constexpr std::size_t table_room = 16;  ///< of the names of key numbers
constexpr std::size_t badge_room = 11;  ///< of the severity
constexpr std::size_t most_errors = 20;

void head(Page& page, const Finding& f, const Judgement& j) {
  page.item({std::string(badge(f.severity)), ink_of(f.severity)},
            {{place_in_words(j.plan, f.where), Ink::strong}, {" · " + f.rule->title, Ink::faint}},
            0, badge_room);
}

/// A mentor's word on the finding, one that holds or one that no longer does.
void mentor(Page& page, const Finding& f) {
  if (f.accepted) {
    page.item({"Mentor", Ink::strong}, {{accepted_in_words(*f.accepted)}}, 2, label_room);
    if (f.counts()) page.paragraph(std::string(acknowledged_only), 2 + label_room);
  }
  if (f.reopened)
    page.item({"Again", Ink::weakens}, {{reopened_in_words(*f.reopened)}}, 2, label_room);
}

/// Whose bounds or rule it is, where not the catalogue's.
void club(Page& page, const Finding& f) {
  if (f.rule->club) page.item("Club", club_in_words(*f.rule->club), 2, label_room);
}

/// \param again whether the rule was told before, with its reason.
void serious(Page& page, const Finding& f, const Judgement& j, bool again) {
  head(page, f, j);
  page.paragraph(f.says, 2);
  if (const Pieces scale = scale_of(f, j, page.look().units); !scale.empty())
    page.item({"Scale", Ink::faint}, scale, 2, label_room);
  else if (!f.margin.empty())
    page.item("Number", f.margin, 2, label_room);
  if (f.fix)
    page.item({"Fix", Ink::good}, {{f.fix->says}}, 2, label_room);
  else
    page.item({"Do", Ink::good}, {{f.rule->advice}}, 2, label_room);
  if (!again) page.item("Why", f.rule->why, 2, label_room);
  if (f.certainty != Certainty::certain) page.item("Sure?", sure_in_words(f), 2, label_room);
  club(page, f);
  mentor(page, f);
  page.item("Rule", f.rule->id + " – more: starter-plan explain " + f.rule->id, 2, label_room);
}

/// Notes are told short: what, one line on what helps, and the rule.
void note(Page& page, const Finding& f, const Judgement& j) {
  head(page, f, j);
  page.paragraph(f.says, 2);
  if (f.certainty == Certainty::possible)
    page.item("Sure?", sure_in_words(f), 2, label_room);
  else if (f.fix)
    page.item({"Fix", Ink::good}, {{f.fix->says}}, 2, label_room);
  else
    page.item({"Do", Ink::good}, {{f.rule->advice}}, 2, label_room);
  club(page, f);
  mentor(page, f);
  page.item("Rule", f.rule->id, 2, label_room);
}

/// What stands with a mentor's word is told short, and after all that does not.
void accepted(Page& page, const Judgement& j) {
  const bool any = !j.unused.empty() || std::any_of(j.findings.begin(), j.findings.end(),
                                                    [](const Finding& f) { return !f.counts(); });
  if (!any) return;
  page.blank();
  page.ruled("Accepted");
  bool first = true;
  for (const Finding& f : j.findings) {
    if (f.counts()) continue;
    if (!first) page.blank();
    first = false;
    head(page, f, j);
    page.paragraph(f.says, 2);
    club(page, f);
    mentor(page, f);
    page.item("Rule", f.rule->id, 2, label_room);
  }
  for (const AcceptanceRecord& r : j.unused) {
    if (!first) page.blank();
    first = false;
    page.paragraph(
        fmt::format("{} To take it back: starter-plan accept PLAN {} --at {} --withdraw",
                    unused_in_words(r, j.plan), r.rule, r.where.empty() ? "''" : r.where),
        2);
  }
}

void findings(Page& page, const Judgement& j) {
  std::set<const Rule*> told;
  for (const Finding& f : j.findings) {
    if (f.severity == Severity::note || !f.counts()) continue;
    page.blank();
    serious(page, f, j, !told.insert(f.rule).second);
  }
  const auto is_note = [](const Finding& f) { return f.severity == Severity::note && f.counts(); };
  if (std::none_of(j.findings.begin(), j.findings.end(), is_note)) return;
  page.blank();
  page.ruled("Notes");
  bool first = true;
  for (const Finding& f : j.findings) {
    if (!is_note(f)) continue;
    if (!first) page.blank();
    first = false;
    note(page, f, j);
  }
}

void numbers(Page& page, const Judgement& j) {
  page.blank();
  page.ruled("Key numbers");
  for (const KeyNumbers& table : key_numbers(j, page.look().units)) {
    if (!table.title.empty()) page.heading(table.title);
    for (const auto& [name, text] : table.rows) page.item(name, text, 2, table_room);
  }
}

/// "weigh and boil (steps 1 and 3)"
std::string steps_in_words(const Plan& plan, const std::set<int>& steps) {
  std::vector<std::string> verbs, numbers;
  for (const int step : steps) {
    const std::string& verb = plan.steps[static_cast<std::size_t>(step)].verb;
    if (std::find(verbs.begin(), verbs.end(), verb) == verbs.end()) verbs.push_back(verb);
    numbers.push_back(std::to_string(step + 1));
  }
  const auto joined = [](const std::vector<std::string>& words) {
    std::string out;
    for (std::size_t i = 0; i < words.size(); ++i)
      out += (i == 0 ? "" : i + 1 == words.size() ? " and " : ", ") + words[i];
    return out;
  };
  return fmt::format("{} ({} {})", joined(verbs), numbers.size() == 1 ? "step" : "steps",
                     joined(numbers));
}

Ink ink_of_verdict(const Judgement& j) {
  const auto found = worst(j.findings);
  return !found || *found == Severity::note ? Ink::good : ink_of(*found);
}

}  // namespace

std::string_view badge(Severity severity) {
  switch (severity) {
    case Severity::danger:
      return "▲ DANGER";
    case Severity::spoils:
      return "■ SPOILS";
    case Severity::weakens:
      return "◆ WEAKENS";
    case Severity::note:
      break;
  }
  return "○ note";
}

void take_care(Page& page, const Judgement& j) {
  const auto all = cautions_of(j);
  if (all.empty()) return;
  page.blank();
  page.ruled("Take care");
  for (const NeededCaution& n : all) {
    std::string where = n.steps.empty() ? "" : " · " + steps_in_words(j.plan, n.steps);
    if (n.steps.empty())
      for (const std::string& rule : n.rules) where += (where.empty() ? " · " : ", ") + rule;
    page.paragraph({{n.caution->title, Ink::strong}, {where, Ink::faint}}, 2);
    page.paragraph(n.caution->text, 4);
  }
}

std::string check_text(const Judgement& j, const Look& look) {
  Page page(look);
  plan_head(page, j.plan);
  page.paragraph({{verdict_of(j.findings), ink_of_verdict(j)}});
  findings(page, j);
  accepted(page, j);
  numbers(page, j);
  take_care(page, j);
  assumptions(page, j.plan);
  return std::move(page).text();
}

std::string errors_text(std::string_view name, std::span<const PlanError> errors,
                        const Look& look) {
  Page page(look);
  page.paragraph(
      {{std::string(name), Ink::strong},
       {fmt::format(" cannot be used yet: {} to mend.",
                    errors.size() == 1 ? "1 thing" : fmt::format("{} things", errors.size())),
        Ink::danger}});
  for (std::size_t i = 0; i < errors.size() && i < most_errors; ++i) {
    const PlanError& e = errors[i];
    std::string where = e.line > 0 ? fmt::format("line {}", e.line) : "";
    if (!e.where.empty()) where += (where.empty() ? "" : ", ") + e.where;
    page.paragraph({{where.empty() ? "" : where + ": ", Ink::strong}, {sentence(e.says)}}, 2);
    if (!e.write.empty()) page.item({"Write", Ink::good}, {{e.write}}, 4, label_room);
  }
  if (errors.size() > most_errors)
    page.paragraph(fmt::format("… and {} more; mend these first.", errors.size() - most_errors), 2);
  return std::move(page).text();
}

std::string plan_divider(std::string_view name, const Look& look) {
  Page page(look);
  page.ruled(name);
  return std::move(page).text();
}

std::string tally_text(const Tally& tally, const Look& look) {
  Page page(look);
  std::string text = fmt::format("{} plans: {} good to go",
                                 tally.sound + tally.to_mend + tally.unusable, tally.sound);
  if (tally.to_mend) text += fmt::format(", {} to mend", tally.to_mend);
  if (tally.unusable) text += fmt::format(", {} that cannot be used yet", tally.unusable);
  page.blank();
  page.heading(text + ".");
  return std::move(page).text();
}

}  // namespace starter
