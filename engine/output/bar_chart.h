#pragma once

/// \file
/// A calendar as bars over its days, in block characters that read without colour.

#include "output/calendar.h"
#include "output/page.h"

namespace starter {

/// One line a visit with its handwork ("█") and one line a wait ("░"), under the days or hours,
/// with a mark below where the yeast is due. \pre the page is at least 40 columns wide
void bar_chart(Page& page, const Calendar& calendar, const Plan& plan);

/// "weigh" for one row, "weigh – pitch" for several: what is done in a visit.
std::string visit_in_words(const Visit& visit, const Calendar& calendar, const Plan& plan);

/// "3", "1–9", "1–6, 8": numbers of steps, those in a row drawn together.
/// \param steps indices, counted from 0
std::string step_numbers(std::vector<int> steps);

/// `text` with spaces up to that many columns, or cut to them with an ellipsis.
std::string padded(const std::string& text, std::size_t wide);

}  // namespace starter
