#pragma once

/// \file
/// What every text about a plan has in common.

#include <string>

#include "output/page.h"
#include "plan/model.h"

namespace starter {

/// The title and who brews.
void plan_head(Page& page, const Plan& plan);

/// "No altitude is given, so a usual one is taken: 100 m." A value of several fields is left to its
/// sentence.
Pieces assumption_in_words(const Assumption& assumption);

/// What club practice supplied, as the last part of a page; nothing when the plan says all.
void assumptions(Page& page, const Plan& plan);

/// `text` with a capital letter (ASCII) at its start and a full stop at its end.
std::string sentence(std::string text);

}  // namespace starter
