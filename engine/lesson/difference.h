#pragma once

/// \file
/// What was changed from one plan to another, as a person would say it: a value changed, a step
/// moved, put in or taken out. For a plan and its mended version, which are much alike.

#include <string>
#include <vector>

#include "plan/model.h"

namespace starter {

struct PlanChange {
  enum class Kind { changed, moved, put_in, taken_out };
  Kind kind = Kind::changed;
  /// "step 4, chill, to". Every step number says whose it is: "old step 5, store" taken out, "new
  /// step 3, add" put in, "step 4 (now step 5), chill, to" where both plans have it under different
  /// numbers. Of a moved step only its verb.
  std::string what;
  std::string before;  ///< as the member wrote it; of a moved step its old place, "old step 2"
  std::string after;   ///< likewise; of a moved step its new place, "new step 3"
};

/// In the order of the earlier plan, what was put in where it stands in the later one. Both plans
/// must have been read from bytes (Plan::source).
std::vector<PlanChange> changes_between(const Plan& before, const Plan& after);

}  // namespace starter
