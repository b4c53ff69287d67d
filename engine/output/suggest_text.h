#pragma once

/// \file
/// What to change in a plan, for a person.

#include <string>

#include "output/page.h"
#include "suggest/suggest.h"

namespace starter {

struct SuggestText {
  bool patch = false;  ///< also the changes as a JSON Patch
};

/// Every change with what it was and what it becomes, the findings it clears, what the member must
/// decide, what is left and why, and the cautions of the mended plan.
std::string suggest_text(const Suggestion& suggestion, const Look& look,
                         const SuggestText& how = {});

}  // namespace starter
