#pragma once

/// \file
/// From the bytes of a plan file to a Plan, or to every reason why not.

#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "plan/defaults.h"
#include "plan/model.h"

namespace starter {

/// One thing that must be mended before the plan can be used.
struct PlanError {
  std::string where;  ///< JSON pointer; "" for the whole file
  int line = 0;       ///< counted from 1; 0 when there is no line to point at
  std::string says;   ///< what was found and why it cannot stand
  std::string write;  ///< what to write instead; empty only when nothing short would help
};

using PlanResult = std::variant<Plan, std::vector<PlanError>>;

/// The largest plan file read, in bytes: far above any real plan.
inline constexpr std::size_t largest_plan = 1 << 20;

/// Reads a plan. All errors are reported at once, in the order of the file.
/// Never throws for any bytes whatever. The plan remembers what it was read with.
PlanResult read_plan(std::string_view bytes, const Defaults& defaults = {});

/// The plan as a JSON Schema, draft 2020-12; agrees with read_plan on which documents pass as far
/// as a schema can say it.
std::string plan_schema();

}  // namespace starter
