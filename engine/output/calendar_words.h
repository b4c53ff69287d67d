#pragma once

/// \file
/// Stretches of time, as a calendar says them.

#include <string>

#include "quantity/quantity.h"

namespace starter {

/// "45 s", "10 min", "2 h 05 min", "31 h", "4 days 6 h": the minute up to a day, the hour up to a
/// week, else days. Rounded to the nearest.
/// \pre `d` is not negative
std::string time_in_words(Duration d);

/// The same, rounded down, for time that a reader may use up; "" when it is under a minute.
std::string time_to_use(Duration d);

}  // namespace starter
