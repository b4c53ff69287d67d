#pragma once

/// \file
/// Which cautions a plan calls for, and where.

#include <set>
#include <string>
#include <vector>

#include "rules/catalogue.h"
#include "rules/judge.h"

namespace starter {

struct NeededCaution {
  const Caution* caution = nullptr;
  std::set<int> steps;          ///< indices of the steps that need it
  std::set<std::string> rules;  ///< ids of the findings that need it and are about no step
};

/// The cautions of the findings and of the steps the plan has, by the first step that needs them.
std::vector<NeededCaution> cautions_of(const Judgement& judgement);

}  // namespace starter
