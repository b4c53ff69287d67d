#pragma once

/// \file
/// How a member works a number out with a pencil, for sheets that ask for it. Only what four rules
/// of arithmetic and a root or a power give; the rest is left to the program.

#include <string_view>

#include "measures/measures.h"
#include "plan/model.h"

namespace starter {

/// The way to a measure in words and signs, without a number of the plan, in metric units; empty
/// for what the plan states itself and for what nobody works out by hand. Where it comes within a
/// few per cent only, it says “about”.
std::string_view by_hand(const Plan& plan, const Measure& measure);

}  // namespace starter
