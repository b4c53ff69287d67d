#include "output/by_hand.h"

#include <cstddef>

namespace starter {
namespace {

struct Way {
  std::string_view measure;
  std::string_view words;
};

/// The constants are those of the science, where each has its source; what is rounder than there
/// says “about”.
constexpr Way ways[] = {
    {"wort_volume",
     "litres of water + 0.63 × kilograms of dissolved extract (0.96 of dry malt, 0.8 of liquid) − "
     "litres boiled off (about 0.3 an hour under foil in a flask, 1.8 from an open pot)"},
    {"wort_gravity",
     "100 × grams of dissolved extract ÷ grams of finished wort (water left + that)"},
    {"extract_ratio",
     "grams of dry malt ÷ litres of finished wort (0.83 g for a gram of liquid malt)"},
    {"boil_temperature", "about 100 °C − 1 °C for each 300 m of altitude"},
    {"boil_off", "100 × litres boiled off ÷ litres before the boil"},
    {"boil_fill", "litres before the boil ÷ litres the vessel holds"},
    {"glass_shock", "°C of the hotter − °C of the colder, where glass and wort or water meet"},
    {"bath_equilibrium",
     "about (litres of wort × 100 °C + litres of bath × its °C − kilograms of ice × 80) ÷ (wort + "
     "bath + ice)"},
    {"chill_gap", "°C that bath and ice can reach − °C to chill to; below 0, nothing is short"},
    {"ice_needed",
     "about (litres of wort × (100 − target °C) − litres of bath × (target °C − its °C)) ÷ (80 + "
     "target °C); below 0, none"},
    {"bath_fill",
     "(litres of bath + kilograms of ice + litres the vessel pushes aside) ÷ litres "
     "the tub holds"},
    {"wort_wait", "clock at the pitch − clock at the end of chilling"},
    {"inoculation_rate", "billion living cells ÷ litres of wort"},
    {"growth_fill", "litres that grow ÷ litres the vessel holds"},
    {"stage_step", "litres that grow in this stage ÷ litres that grew in the stage before"},
    {"pack_age", "days from packaging to the pitch"},
    {"cells_needed",
     "0.75 for an ale, 1 for a hybrid, 1.5 for a lager × litres of beer × its °P; and "
     "billion cells to keep, if any"},
    {"starter_share", "100 × litres of starter ÷ litres of beer"},
    {"slurry_gap", "°C of the warmer − °C of the colder, of slurry and beer"},
    {"slurry_age", "clock at the pitch to beer − clock at the start of the cold rest, in days"},
    {"warm_wait", "clock at the pitch to beer − clock when the slurry leaves the cold"},
    {"slack",
     "clock when the yeast is due − clock when it is ready; below 0, the beer waits for it"},
};

std::string_view viability_by_hand(const Plan& plan) {
  if (plan.yeast.viability) return "";
  switch (plan.yeast.form) {
    case YeastForm::liquid:
      return "the middle of 100 − 0.67 × days of age (not below 0) and 100 × 0.8^(days ÷ 30)";
    case YeastForm::slurry:
      return "0.95 × the middle of 100 − 1.33 × days of age (not below 0) and 100 × 0.8^(days ÷ "
             "15)";
    case YeastForm::dry:
      break;
  }
  return "";
}

std::string_view cells_by_hand(const Plan& plan) {
  if (plan.yeast.form != YeastForm::liquid) return "";
  return plan.yeast.measured_cells ? "packs × billion cells you counted in a pack × living share"
                                   : "packs × billion cells a pack × living share";
}

}  // namespace

std::string_view by_hand(const Plan& plan, const Measure& m) {
  if (m.name == "viability") return viability_by_hand(plan);
  if (m.name == "cells_available") return cells_by_hand(plan);
  if (m.stage >= 0) {
    const Stage& stage = plan.stages[static_cast<std::size_t>(m.stage)];
    const bool weighed = stage.extract_kind != ExtractKind::wort;
    if (!weighed && (m.name == "wort_volume" || m.name == "wort_gravity")) return "";
    // Shaken and still growth are read off a table, which a sheet has no room for.
    if (stage.agitation == Agitation::stir_plate && m.name == "cells_grown")
      return "on a stir plate, given time enough: grams of dry malt × (7 − 2 × billion pitched a "
             "gram) ÷ 3, and at most 1.4 × grams";
    if (stage.agitation == Agitation::stir_plate && m.name == "cells_after_stage")
      return "living cells pitched + new cells";
  }
  for (const Way& way : ways)
    if (way.measure == m.name) return way.words;
  return "";
}

}  // namespace starter
