#pragma once

/// \file
/// What club practice supplies where a plan is silent. A club's practice file may change these
/// (rules/practice.h). All values here: common practice, no source.

#include <set>
#include <string>

#include "plan/words.h"
#include "quantity/quantity.h"

namespace starter {

/// Bounds of the fields are those of the plan fields they stand for (plan/kinds.h).
struct Defaults {
  // Place.
  Altitude altitude = Altitude::metres(100);
  Temperature tap_water = Temperature::celsius(15);
  Temperature room = Temperature::celsius(20);
  Temperature fridge = Temperature::celsius(4);

  // Beer.
  BeerKind beer_kind = BeerKind::ale;
  Temperature ferment_ale = Temperature::celsius(19);
  Temperature ferment_lager = Temperature::celsius(10);
  Temperature ferment_hybrid = Temperature::celsius(16);
  Duration brewing_begins = Duration::hours(9);  ///< after midnight of the brew day
  Duration brewing_takes = Duration::hours(5);   ///< from there until the yeast is due

  // Yeast.
  int packs = 1;
  CellCount cells_per_pack = CellCount::billion(100);
  Mass dry_pack_mass = Mass::grams(11);
  Duration pack_age = Duration::days(30);  ///< where no date tells it
  Duration out_of_fridge = Duration::hours(2);
  Flocculation flocculation = Flocculation::medium;

  // Growth.
  ExtractKind extract_kind = ExtractKind::light_dry_malt;  ///< never ready wort
  Agitation agitation = Agitation::none;
  Temperature growth_temperature = Temperature::celsius(20);
  Duration growth_stirred = Duration::hours(36);
  Duration growth_unstirred = Duration::hours(48);

  // The process of a plan that gives no steps.
  HeatSource heat = HeatSource::gas;  ///< never none
  Duration boil_for = Duration::minutes(12);
  Temperature chill_to = Temperature::celsius(21);
  Duration sanitise_for = Duration::minutes(2);
  Duration crash_low = Duration::hours(48);  ///< by how well the yeast settles
  Duration crash_medium = Duration::hours(36);
  Duration crash_high = Duration::hours(24);

  std::string club;  ///< whose practice file changed some; empty when they are the usual ones
  std::set<std::string, std::less<>> from_club;  ///< which: "altitude", "ferment_at/ale"
};

}  // namespace starter
