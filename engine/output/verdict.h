#pragma once

/// \file
/// All findings of a plan in one sentence or two.

#include <string>
#include <vector>

#include "rules/finding.h"

namespace starter {

/// "Not yet: 1 danger, 2 things that spoil it. Start with the first." The same in text and JSON.
/// What a mentor accepted is counted apart.
std::string verdict_of(const std::vector<Finding>& findings);

}  // namespace starter
