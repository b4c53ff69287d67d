#pragma once

/// \file
/// The stable machine form of a calendar; schedule.schema.json documents it.

#include <string>

#include "output/calendar.h"
#include "output/json.h"

namespace starter {

/// {"plan", "title", "times": [{"step", "where", "start", "end", "hands_on", "slack", "critical",
/// ...}], "start", "due", "slack", "latest_start", ...}
///
/// Clock times are local ("2027-03-16T18:00"), null without a clock; every row also has
/// "start_hours" and "end_hours" from the first step. "slack" is hours: of the plan, time to spare
/// before the yeast is due (negative: late); of a row, how much later it may begin (negative: late
/// already; null: the yeast does not wait for it). "step" counts from 1 and is null for growth that
/// no step speaks of.
Json calendar_json(const std::string& name, const Calendar& calendar, const Judgement& judgement);

}  // namespace starter
