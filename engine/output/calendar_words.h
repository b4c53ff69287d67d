#pragma once

/// \file
/// What a calendar says in its cells: a step in one phrase, and stretches of time.

#include <string>

#include "plan/model.h"
#include "quantity/write.h"

namespace starter {

/// The word the member wrote, and what somebody who reads nothing else needs: "weigh 140 g light
/// dry malt", "chill to 21 °C in tub", "crash at 4 °C". Neither the stage nor how long it takes.
std::string step_in_words(const Plan& plan, const Step& step, UnitSystem units);

/// "45 s", "10 min", "2 h 05 min", "31 h", "4 days 6 h": the minute up to a day, the hour up to a
/// week, else days. Rounded to the nearest.
/// \pre `d` is not negative
std::string time_in_words(Duration d);

/// The same, rounded down, for time that a reader may use up; "" when it is under a minute.
std::string time_to_use(Duration d);

}  // namespace starter
