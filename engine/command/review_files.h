#pragma once

/// \file
/// The plans below a folder.

#include <optional>
#include <string>
#include <vector>

#include "plan/read.h"

namespace starter {

struct FoundPlan {
  std::string path;  ///< to open it
  std::string name;  ///< below the folder; any bytes
  std::optional<PlanError>
      problem;  ///< why there is nothing to open: a folder that may not be read
};

/// Every plan.json and *.plan.json below `folder`, by the bytes of their names. Links are followed;
/// each folder is looked into once, so a loop of links ends, and one that links lead to as well is
/// known by its own name. The folder that is `skipped`, if it exists, is left out. What cannot be
/// looked into, and a plan's name on what is no file, are in the list with the problem.
std::vector<FoundPlan> find_plans(const std::string& folder, const std::string& skipped);

}  // namespace starter
