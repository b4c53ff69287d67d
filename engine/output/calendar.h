#pragma once

/// \file
/// A plan's steps as a calendar: what text, JSON and calendar files are written from.

#include <optional>
#include <string>
#include <vector>

#include "process/lateness.h"
#include "quantity/write.h"
#include "rules/judge.h"

namespace starter {

/// A step in time, or growth that no step speaks of.
struct CalendarRow {
  int step = 0;         ///< index into Plan::steps; for growth that of the pitch before it
  bool growth = false;  ///< no step of the plan, but the time its yeast is given to grow
  std::string where;    ///< JSON pointer; "" in the standard process of a short plan
  std::string words;
  Duration start;  ///< from the calendar's hour zero
  Duration end;
  bool hands_on = false;  ///< somebody works; else the clock does
  bool critical = false;
  std::optional<Duration> may_wait;  ///< as in Schedule
  /// What the plan gives it, where the clock gives it more: a cold rest goes on until brew day.
  std::optional<Duration> at_least;
  Lateness late;
};

/// A stretch at the bench: somebody has to come, and works until its end.
struct Visit {
  std::size_t row = 0;   ///< index of the row it begins with
  std::size_t last = 0;  ///< index of the last row it takes in
  Duration start;
  Duration end;  ///< of its handwork; `start` when there is only something to set going
};

struct Calendar {
  std::vector<CalendarRow> rows;    ///< by start, then in the order of the plan
  std::vector<Visit> visits;        ///< in order
  Duration hands_on;                ///< time somebody works, overlapping steps counted once
  Duration ready;                   ///< when the yeast is with the beer
  std::optional<LocalTime> origin;  ///< the clock at hour zero
  std::optional<LocalTime> start;   ///< when the first step begins
  std::optional<LocalTime> due;
  std::optional<LocalTime> latest_start;
  std::optional<Duration> slack;

  std::optional<LocalTime> clock(Duration t) const {
    return origin ? std::optional(*origin + t) : std::nullopt;
  }
};

/// Work that starts this soon after other work is one visit (common practice, no source).
inline constexpr Duration same_visit = Duration::minutes(15);

Calendar calendar_of(const Judgement& judgement, UnitSystem units);

/// Puts the rows in the order of the plan's numbers, for who reads them without the clock. The
/// visits, which go by the clock, are taken out.
void by_number(Calendar& calendar);

/// What gives way first when a row is late: "the cold rest gets shorter (step 11, crash)".
std::string gives_way(const Plan& plan, const CalendarRow& row);

}  // namespace starter
