#pragma once

/// \file
/// Stretches of time and moments, as a calendar says them.

#include <string>

#include "output/calendar.h"
#include "quantity/local_time.h"
#include "quantity/quantity.h"

namespace starter {

/// "45 s", "10 min", "2 h 05 min", "31 h", "4 days 6 h": the minute up to a day, the hour up to a
/// week, else days. Rounded to the nearest.
/// \pre `d` is not negative
std::string time_in_words(Duration d);

/// The same, rounded down, for time that a reader may use up; "" when it is under a minute.
std::string time_to_use(Duration d);

/// "Tue 16 Mar"
std::string day_of(LocalTime t);
/// "2027"
std::string year_of(LocalTime t);
/// "Tue 16 Mar 2027"
std::string day_in_words(LocalTime t);

/// "18:00", or hours and minutes since the first step when the calendar has no clock.
std::string clock_of(const Calendar& calendar, Duration t);
/// "Tue 16 Mar 18:00"; "26:30 h" without a clock.
std::string moment(const Calendar& calendar, Duration t);

/// How long a row lasts: "10 min", "a moment".
std::string takes(const CalendarRow& row);
/// Whether it is too late already for the brew day.
bool is_late(const CalendarRow& row);
/// Whether the last moment at which it would be in time comes before the plan begins.
bool is_past(const Calendar& calendar, const CalendarRow& row);
/// "2 h", "not at all", "as you like".
std::string may_be_late(const CalendarRow& row);
/// The number of the row's step; "" for growth that no step speaks of.
std::string number_of(const CalendarRow& row);

}  // namespace starter
