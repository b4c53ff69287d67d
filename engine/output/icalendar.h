#pragma once

/// \file
/// A calendar as an iCalendar file (published: RFC 5545, sections 3.1, 3.3.11, 3.6.1, 3.6.6; the
/// NAME property: RFC 7986, section 5.1).
///
/// One event a step. Times float: they carry no zone, and mean the clock on the wall of whoever
/// reads them, as those of a plan do. A step without length has no end, which RFC 5545 takes for a
/// moment. Waiting is marked as free time. An alarm goes off 15 minutes before somebody has to come
/// to the bench; the steps of the same visit that follow have none of their own.

#include <string>
#include <string_view>

#include "output/calendar.h"

namespace starter {

/// Lines end in CRLF and hold at most 75 octets.
/// \pre the calendar has a clock
std::string icalendar(const Calendar& calendar, const Judgement& judgement);

/// The name of an event, the same from run to run, so that a calendar program that is given a
/// changed plan moves its events: the 64-bit FNV-1a hash of the plan's title, its member, the index
/// of the step and its verb ("growth" for growth that no step speaks of), each ended by a zero
/// byte, in hexadecimal, after the number of the step, which alone keeps the events of a plan
/// apart.
std::string event_uid(const Plan& plan, const CalendarRow& row);

/// A value of type TEXT (section 3.3.11): backslash, semicolon, comma and line ends escaped; line
/// and paragraph separators are line ends too; a tab is a space; other control characters (C0, DEL,
/// C1) are left out; bytes that are no UTF-8 become U+FFFD.
std::string escaped_text(std::string_view text);

/// A content line with its CRLF, folded (section 3.1) so that no line is longer than 75 octets
/// and no UTF-8 sequence is split.
/// \param line well-formed UTF-8 without line ends
std::string folded(std::string_view line);

}  // namespace starter
