#pragma once

/// \file
/// All findings of a plan in one sentence or two; how bad and how sure one is.

#include <string>
#include <string_view>
#include <vector>

#include "rules/finding.h"

namespace starter {

/// "Not yet: 1 danger, 2 things that spoil it. Start with the first." The same in text and JSON.
/// What a mentor accepted is counted apart.
std::string verdict_of(const std::vector<Finding>& findings);

/// "▲ DANGER", "■ spoils", "◆ weakens", "○ note": in black and white the sign and the word tell it.
std::string_view sign_of(Severity severity);

/// How far a finding can be relied on, and what would settle it; "" when it is certain.
std::string sure_in_words(const Finding& finding);

}  // namespace starter
