#pragma once

/// \file
/// The steps that a plan without any is taken to mean.

#include <vector>

#include "plan/model.h"

namespace starter {

/// Weigh, dissolve, boil under foil, chill, sanitise, check the temperature, pitch, grow; then, for
/// every stage, crash and decant; for the last, warm and pitch to the beer.
///
/// Durations and temperatures are common practice, no source. Steps have no `path`.
/// \pre the stages of `plan` are complete.
std::vector<Step> standard_process(const Plan& plan);

}  // namespace starter
