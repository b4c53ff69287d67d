#pragma once

/// \file
/// A whole plan for somebody who has only said what beer it is for, what yeast there is and what
/// stands in the kitchen.

#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <vector>

#include "rules/judge.h"
#include "rules/practice.h"

namespace starter {

/// How this member does things.
struct Habits {
  Agitation agitation = Agitation::shaken;
  HeatSource heat = HeatSource::gas;
};

struct FirstPlan {
  nlohmann::ordered_json document;  ///< as it is written
  Judgement judgement;              ///< of that
  std::vector<std::string> bought;  ///< vessels in it that the member does not have yet
};

/// \param document a plan with all but its stages and steps
/// \param practice outlives the result
/// \return nothing when no size of starter brings this beer its cells from this yeast, or the
///         document cannot be a plan.
std::optional<FirstPlan> first_plan(const nlohmann::ordered_json& document, const Habits& habits,
                                    const Practice& practice, UnitSystem units);

}  // namespace starter
