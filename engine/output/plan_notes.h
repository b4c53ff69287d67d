#pragma once

/// \file
/// What each part of a plan means, in this member's numbers: a text to lie beside the plan file,
/// since JSON has no comments.

#include <string>

#include "output/page.h"
#include "rules/judge.h"

namespace starter {

/// \param name what the plan's file is called
std::string plan_notes(const std::string& name, const Judgement& judgement, const Look& look);

}  // namespace starter
