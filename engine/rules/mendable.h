#pragma once

/// \file
/// What stands to be mended in a plan, with every way the catalogue knows: for a search over them.

#include <functional>
#include <span>
#include <string>
#include <vector>

#include "rules/fixes.h"

namespace starter {

/// One thing that a rule says of a plan at likely values.
struct Mendable {
  Verdict verdict;
  std::vector<Way> ways;  ///< told without step numbers, as steps move while a plan is mended
};

/// All of `least` or worse that `wanted` wants, at likely values, in the order of the catalogue.
/// Deterministic.
std::vector<Mendable> mendables(const Plan& plan, std::span<const Rule> rules, UnitSystem units,
                                const std::function<bool(const Verdict&)>& wanted,
                                Severity least = Severity::weakens);

}  // namespace starter
