#pragma once

/// \file
/// Ways to mend that need more than one rule's knob: several things cleaned at once, whole days
/// earlier, another vessel of the member's, one more stage.

#include <span>
#include <vector>

#include "rules/mendable.h"

namespace starter {

std::vector<Way> remedies(const Plan& plan, std::span<const Rule> rules, const Verdict& verdict,
                          UnitSystem units);

}  // namespace starter
