#pragma once

/// \file
/// Two plans side by side, for people.

#include <string>

#include "output/compare.h"
#include "output/page.h"

namespace starter {

/// Which is better, what became of each finding, the calendars, what the plans say differently, the
/// numbers.
/// \param first_name, second_name what the files are called
/// \param all also the findings and the numbers that are the same in both
std::string compare_text(const Comparison& comparison, const std::string& first_name,
                         const std::string& second_name, bool all, const Look& look);

}  // namespace starter
