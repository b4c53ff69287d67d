#pragma once

/// \file
/// What a rule read to find something: measures, facts, steps and touches, and its own bounds. An
/// acceptance holds as long as these stay what they were.

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "rules/accepted.h"
#include "rules/evaluate.h"

namespace starter {

/// In a fixed order, no two with the same `what`. Nothing in them depends on how the plan is laid
/// out or where a step stands in its list.
/// \param numbers every measure that the finding tells, the rule's own among them.
std::vector<Reading> readings_of(const Spoken& spoken, const Evidence& evidence,
                                 std::span<const Measure> numbers);

/// A name-based UUID (RFC 4122, version 5) of the rule and of every reading's name and value: the
/// same on every build, and another when any of them differs.
std::string fingerprint_of(std::string_view rule, std::span<const Reading> read);

}  // namespace starter
