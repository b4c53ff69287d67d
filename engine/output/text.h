#pragma once

/// \file
/// What is found in a plan, for a person at the stove.

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "output/page.h"
#include "plan/read.h"
#include "rules/judge.h"

namespace starter {

/// The verdict, the findings worst first, the key numbers, the cautions and what was assumed.
std::string check_text(const Judgement& judgement, const Look& look);

/// The cautions that a plan calls for, as a part of a page; nothing when it calls for none.
void take_care(Page& page, const Judgement& judgement);

/// Severity as a shape and a word, so that it is told without colour too: "▲ DANGER".
std::string_view badge(Severity severity);

/// Why a plan cannot be used, every mistake with its line and what to write instead.
std::string errors_text(std::string_view name, std::span<const PlanError> errors, const Look& look);

/// A line across the page with the name of the plan that follows.
std::string plan_divider(std::string_view name, const Look& look);

/// One line on several plans.
struct Tally {
  int sound = 0;  ///< nothing at or above the severity that fails
  int to_mend = 0;
  int unusable = 0;
};
std::string tally_text(const Tally& tally, const Look& look);

}  // namespace starter
