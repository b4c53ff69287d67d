#pragma once

/// \file
/// A plan's calendar, for a person at the stove.

#include <string>

#include "output/calendar.h"
#include "output/page.h"

namespace starter {

/// When to begin, when somebody is needed, the table of steps by day, the bars, what gives way when
/// a step is late, and the cautions in short.
std::string calendar_text(const Calendar& calendar, const Judgement& judgement, const Look& look);

}  // namespace starter
