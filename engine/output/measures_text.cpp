#include "output/measures_text.h"

#include <set>

#include "measures/facts.h"
#include "output/plan_parts.h"
#include "rules/telling.h"

namespace starter {
namespace {

constexpr std::size_t title_room = 34;

void narrowing(Page& page, std::span<const Measure> measures) {
  std::set<Unknown> told;
  for (const Measure& m : measures)
    if (m.widest && !m.certain()) told.insert(*m.widest);
  if (told.empty()) return;
  page.blank();
  page.ruled("What would narrow the ranges");
  for (const Unknown u : told)
    page.item({"–"},
              {{std::string(text_of(u).name), Ink::strong},
               {": " + std::string(text_of(u).narrow) + "."}},
              2, 2);
}

/// Why there is no age of the yeast, and what that makes of the numbers below.
void dates_that_contradict(Page& page, const Plan& plan) {
  const Process process = unfold(plan);
  const Workings workings = work_out(plan, process, Draw{});
  const auto facts = facts_of({plan, process, workings});
  const Fact* date = find_fact(facts, "pack_date", -1);
  if (date == nullptr || date->value != "after the pitch") return;
  page.item({"Wrong", Ink::weakens},
            {{"Your yeast is dated " + date->about.at("with") +
              ", but by this plan it goes in on " + date->about.at("word") +
              ". One of the dates is wrong, so the yeast has no age here, and the numbers of cells "
              "are those of fresh yeast. More: starter-plan explain pack-date"}},
            0, 8);
}

}  // namespace

std::string measured_part(const Plan& plan, const Measure& m) {
  switch (find_measure_kind(m.name)->of) {
    case Of::stage: {
      const std::string vessel = plan.stages[static_cast<std::size_t>(m.stage)].vessel;
      return (plan.stages.size() == 1 ? "The starter" : "Stage " + std::to_string(m.stage + 1)) +
             ", in “" + vessel + "”";
    }
    case Of::yeast:
      return "The yeast";
    case Of::beer:
      return "The beer";
    case Of::plan:
      break;
  }
  return "The end of the plan";
}

std::string measures_text(const Plan& plan, std::span<const Measure> measures, const Look& look) {
  Page page(look);
  plan_head(page, plan);
  if (look.units == UnitSystem::us)
    page.paragraph({{"How each number was computed is told in metric units.", Ink::faint}});
  dates_that_contradict(page, plan);
  std::string part;
  for (const Measure& m : measures) {
    const MeasureKind* kind = find_measure_kind(m.name);
    const std::string now = measured_part(plan, m);
    if (now != part) {
      page.blank();
      page.ruled(now);
      part = now;
    }
    page.item({std::string(kind->title)}, {{value_text(m, look.units), Ink::strong}}, 2,
              title_room);
    page.paragraph({{m.how, Ink::faint}}, 4);
  }
  narrowing(page, measures);
  assumptions(page, plan);
  return std::move(page).text();
}

}  // namespace starter
