#pragma once

/// \file
/// From the bytes of a plan file to a Plan, or to every reason why not.

#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "plan/model.h"

namespace starter {

/// One thing that must be mended before the plan can be used.
struct PlanError {
  std::string where;  ///< JSON pointer; "" for the whole file
  int line = 0;       ///< counted from 1; 0 when there is no line to point at
  std::string says;   ///< what was found and why it cannot stand
  std::string write;  ///< what to write instead; empty only when nothing short would help
};

/// What club practice supplies where a plan is silent. A club's practice file may change these.
struct Defaults {
  Altitude altitude = Altitude::metres(100);
  Temperature tap_water = Temperature::celsius(15);
  Temperature room = Temperature::celsius(20);
  Temperature fridge = Temperature::celsius(4);
  Temperature ferment_ale = Temperature::celsius(19);
  Temperature ferment_lager = Temperature::celsius(10);
  Temperature ferment_hybrid = Temperature::celsius(16);
  CellCount cells_per_pack = CellCount::billion(100);
  Mass dry_pack_mass = Mass::grams(11);
  Duration out_of_fridge = Duration::hours(2);
  Temperature growth_temperature = Temperature::celsius(20);
  Duration growth_stirred = Duration::hours(36);
  Duration growth_unstirred = Duration::hours(48);
};

using PlanResult = std::variant<Plan, std::vector<PlanError>>;

/// The largest plan file read, in bytes: far above any real plan.
inline constexpr std::size_t largest_plan = 1 << 20;

/// Reads a plan. All errors are reported at once, in the order of the file.
/// Never throws for any bytes whatever.
PlanResult read_plan(std::string_view bytes, const Defaults& defaults = {});

/// The plan as a JSON Schema, draft 2020-12; agrees with read_plan on which documents pass as far
/// as a schema can say it.
std::string plan_schema();

}  // namespace starter
