#pragma once

/// \file
/// A rule that a person names.

#include <string>

#include "rules/practice.h"

namespace starter {

/// That there is no rule of that name, with the nearest, as sentences.
std::string no_such_rule(const Practice& practice, const std::string& typed);

}  // namespace starter
