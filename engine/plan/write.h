#pragma once

/// \file
/// From a Plan back to a plan file.

#include <string>

#include "plan/model.h"

namespace starter {

/// The plan as a file that `read_plan`, given the same defaults, reads back to an equal plan.
///
/// Everything the plan holds is written, except what it lists as assumed: that stays for club
/// practice to supply. Units are metric wherever a metric number of a few digits says the value
/// exactly, else the US customary one that does ("4.2 oz"), else metric with as many digits as it
/// takes. What the member wrote as his or her own words (names, verbs) stays as it is.
std::string write_plan(const Plan& plan);

}  // namespace starter
