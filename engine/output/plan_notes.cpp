#include "output/plan_notes.h"

#include <fmt/format.h>

#include "output/calendar.h"
#include "output/calendar_words.h"
#include "output/cautions_of.h"
#include "output/key_numbers.h"
#include "output/plan_parts.h"
#include "output/step_words.h"
#include "output/verdict.h"
#include "rules/telling.h"

namespace starter {
namespace {

constexpr std::size_t field_room = 18;

/// The parts of a plan, told with its numbers.
class Notes {
 public:
  Notes(const Judgement& j, const Look& look) : j_(j), units_(look.units), page_(look) {}

  void head(const std::string& name) {
    plan_head(page_, j_.plan);
    page_.paragraph("What each part of " + name +
                    " means. Change the plan with any text editor, then look at it again with "
                    "starter-plan check " +
                    name + ".");
    page_.paragraph(verdict_of(j_.findings));
  }

  void place() {
    part("place – where you brew");
    const Place& place = j_.plan.place;
    field("altitude", write(place.altitude, units_) + " above the sea" + boils_at());
    field("tap_water", write(place.tap_water, units_) + ": it fills the bath that chills the wort");
    field("room", write(place.room, units_) + ": where the starter grows");
    field("fridge", write(place.fridge, units_) + ": where it settles");
  }

  void beer() {
    part("beer – what the yeast is for");
    const Beer& beer = j_.plan.beer;
    field("kind, volume",
          fmt::format("{} of {} at {}; it wants {} cells", write(beer.volume, units_),
                      spelling(beer.kind), write(beer.gravity, units_),
                      write(j_.workings.beer_needs, units_)));
    if (beer.keep_cells)
      field("keep_cells", write(*beer.keep_cells, units_) + " cells are grown on top to keep");
    if (beer.brew_day) field("brew_day", spoken(*beer.brew_day) + ": when brewing begins");
    field("ferment_at", write(beer.ferment_at, units_) + ": the slurry is brought near it");
  }

  void yeast() {
    part("yeast – what you start from");
    const Measure* living = find_measure(j_.measures, "cells_available", -1);
    const Measure* share = find_measure(j_.measures, "viability", -1);
    if (living != nullptr)
      field("living cells",
            value_text(*living, units_) +
                (share == nullptr ? std::string()
                                  : ", a living share of " + value_text(*share, units_)));
    if (j_.plan.yeast.packaged)
      field("packaged", spoken_day(*j_.plan.yeast.packaged) + ", from which its age is counted");
    field("out_of_fridge",
          write(j_.plan.yeast.out_of_fridge, units_) + " at room temperature before it is pitched");
    field("flocculation", std::string(spelling(j_.plan.yeast.flocculation)) +
                              ": how readily it settles, and so how long the cold rest is");
  }

  void vessels() {
    part("vessels – what you have");
    for (const auto& [name, vessel] : j_.plan.vessels)
      field(name, fmt::format("{} of {}, {}", spelling(vessel.kind), write(vessel.capacity, units_),
                              spelling(vessel.material)));
  }

  void stages() {
    part("stages – what is grown");
    for (std::size_t i = 0; i < j_.plan.stages.size(); ++i) {
      const Stage& stage = j_.plan.stages[i];
      const StageWorking& working = j_.workings.stages[i];
      if (j_.plan.stages.size() > 1) page_.heading("Stage " + std::to_string(i + 1));
      field("extract, water",
            fmt::format("{} in {}, which makes {} of wort", extract(stage),
                        write(stage.water, units_), write(working.volume, units_)));
      field("vessel", fmt::format("it grows in “{}”, which it fills to {}", stage.vessel,
                                  write(working.growth_fill, units_)));
      field("agitation",
            std::string(stage.agitation == Agitation::none ? "none: it stands still"
                                                           : spelling(stage.agitation)));
      field("duration",
            fmt::format("{} at {}; it needs about {}", write(stage.duration, units_),
                        write(stage.temperature, units_), write(working.growth_needed, units_)));
      field("cells", fmt::format("{} living go in, about {} are there at the end",
                                 write(working.living_pitched, units_),
                                 write(working.living_after, units_)));
    }
  }

  void steps() {
    part("steps – what you do, in order");
    const Calendar calendar = calendar_of(j_, units_);
    for (const CalendarRow& row : calendar.rows) {
      if (row.growth) continue;
      const auto clock = calendar.clock(row.start);
      page_.item({std::to_string(row.step + 1) + ".", Ink::strong},
                 {{row.words}, {(clock ? " – " + spoken(*clock) : "")}}, 2, 4);
    }
    page_.paragraph("The whole calendar: starter-plan schedule", 2);
  }

  void numbers() {
    part("What it comes to");
    for (const KeyNumbers& table : key_numbers(j_, units_)) {
      if (!table.title.empty()) page_.heading(table.title);
      for (const auto& [name, text] : table.rows) field(name, text);
    }
  }

  void cautions() {
    part("Take care");
    for (const NeededCaution& n : cautions_of(j_)) {
      page_.paragraph({{n.caution->title, Ink::strong}}, 2);
      page_.paragraph(n.caution->text, 4);
    }
  }

  std::string text() && {
    assumptions(page_, j_.plan);
    return std::move(page_).text();
  }

 private:
  void part(const std::string& title) {
    page_.blank();
    page_.ruled(title);
  }
  void field(const std::string& name, const std::string& text) {
    page_.item(name, text, 2, field_room);
  }

  std::string boils_at() const {
    const Measure* m = find_measure(j_.measures, "boil_temperature", 0);
    return m == nullptr ? ""
                        : ", where this wort boils at " + write_value(m->value, m->unit, units_);
  }

  std::string extract(const Stage& stage) const {
    if (stage.extract_kind == ExtractKind::wort) return "ready wort";
    return write(stage.extract_mass, units_) + " of " + std::string(spelling(stage.extract_kind));
  }

  const Judgement& j_;
  UnitSystem units_;
  Page page_;
};

}  // namespace

std::string plan_notes(const std::string& name, const Judgement& judgement, const Look& look) {
  Notes notes(judgement, look);
  notes.head(name);
  notes.place();
  notes.beer();
  notes.yeast();
  notes.vessels();
  notes.stages();
  notes.steps();
  notes.numbers();
  notes.cautions();
  return std::move(notes).text();
}

}  // namespace starter
