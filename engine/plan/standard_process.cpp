#include "plan/standard_process.h"

#include <algorithm>
#include <string>

namespace starter {
namespace {

Duration crash_for(const Plan& plan) {
  switch (plan.yeast.flocculation) {
    case Flocculation::low:
      return plan.defaults().crash_low;
    case Flocculation::medium:
      return plan.defaults().crash_medium;
    case Flocculation::high:
      return plan.defaults().crash_high;
  }
  return plan.defaults().crash_medium;
}

Step step_of(Do does, int stage) {
  Step step;
  step.does = does;
  step.verb = std::string(spelling(does));
  step.stage = stage;
  return step;
}

/// The first vessel of that kind, by name.
std::optional<std::string> vessel_of_kind(const Plan& plan, VesselKind kind) {
  for (const auto& [name, vessel] : plan.vessels)
    if (vessel.kind == kind) return name;
  return std::nullopt;
}

std::optional<std::string> chilling_bath(const Plan& plan) {
  const auto tub = vessel_of_kind(plan, VesselKind::tub);
  return tub ? tub : vessel_of_kind(plan, VesselKind::sink);
}

bool must_not_be_heated(Material material) {
  return material == Material::soda_lime_glass || material == Material::plastic;
}

/// Where the wort boils: in the vessel it grows in, unless that must not be heated, or still holds
/// the yeast of the stage before, and the member has a pot.
std::string boiling_vessel(const Plan& plan, int stage) {
  const auto& own = plan.stages[static_cast<std::size_t>(stage)].vessel;
  const bool holds_yeast =
      stage > 0 && plan.stages[static_cast<std::size_t>(stage) - 1].vessel == own;
  if (!holds_yeast && !must_not_be_heated(plan.vessels.at(own).material)) return own;
  return vessel_of_kind(plan, VesselKind::pot).value_or(own);
}

void add_wort_making(const Plan& plan, int index, std::vector<Step>& steps) {
  const Stage& stage = plan.stages[static_cast<std::size_t>(index)];
  const std::string boils_in = boiling_vessel(plan, index);
  if (stage.extract_kind != ExtractKind::wort) {
    steps.push_back(step_of(Do::weigh, index));
    steps.push_back(step_of(Do::dissolve, index));
    steps.back().in = boils_in;
  }
  Step boil = step_of(Do::boil, index);
  boil.in = boils_in;
  boil.heat = plan.defaults().heat;
  boil.lasts = plan.defaults().boil_for;
  steps.push_back(boil);
  Step foil = step_of(Do::cover, index);
  foil.with = {"foil"};
  foil.during = std::string(spelling(Do::boil));
  steps.push_back(foil);
  Step chill = step_of(Do::chill, index);
  chill.in = chilling_bath(plan);
  chill.to = plan.defaults().chill_to;
  steps.push_back(chill);
  Step sanitise = step_of(Do::sanitise, index);
  const bool moves = boils_in != stage.vessel;
  sanitise.items = {"thermometer"};
  sanitise.items.push_back(index == 0 ? "pack" : "funnel");
  if (stage.agitation == Agitation::stir_plate) sanitise.items.push_back("stir bar");
  if (moves && index == 0) sanitise.items.push_back(stage.vessel);
  sanitise.lasts = plan.defaults().sanitise_for;
  steps.push_back(sanitise);
  if (!moves) return;
  Step move = step_of(Do::move, index);
  move.from = boils_in;
  move.into = stage.vessel;
  if (index > 0) move.with = {"funnel"};
  steps.push_back(move);
}

void add_growth(const Plan& plan, int index, std::vector<Step>& steps) {
  const Stage& stage = plan.stages[static_cast<std::size_t>(index)];
  Step check = step_of(Do::check_temperature, index);
  check.with = {"thermometer"};
  steps.push_back(check);
  Step pitch = step_of(Do::pitch, index);
  if (index > 0) {
    pitch.from = plan.stages[static_cast<std::size_t>(index) - 1].vessel;
    if (pitch.from != stage.vessel) pitch.with = {"funnel"};
  } else {
    pitch.from = plan.yeast.form == YeastForm::slurry ? "slurry" : "pack";
  }
  steps.push_back(pitch);
  const bool moved = stage.agitation != Agitation::none;
  Step grow = step_of(moved ? Do::agitate : Do::rest, index);
  if (stage.agitation == Agitation::stir_plate) grow.with = {"stir bar"};
  grow.lasts = stage.duration;
  steps.push_back(grow);
}

void add_settling(const Plan& plan, int index, std::vector<Step>& steps) {
  Step crash = step_of(Do::crash, index);
  crash.at = plan.place.fridge;
  crash.lasts = crash_for(plan);
  steps.push_back(crash);
  steps.push_back(step_of(Do::decant, index));
}

}  // namespace

std::vector<Step> standard_process(const Plan& plan) {
  std::vector<Step> steps;
  const int stages = static_cast<int>(plan.stages.size());
  for (int index = 0; index < stages; ++index) {
    add_wort_making(plan, index, steps);
    add_growth(plan, index, steps);
    add_settling(plan, index, steps);
  }
  Step warm = step_of(Do::warm, stages - 1);
  // No warmer than the room can make it, else as warm as the beer it goes into.
  warm.to = std::min(plan.beer.ferment_at, plan.place.room);
  steps.push_back(warm);
  steps.push_back(step_of(Do::pitch_to_beer, stages - 1));
  return steps;
}

}  // namespace starter
