#include "output/calendar.h"

#include <fmt/format.h>

#include <algorithm>

#include "output/step_words.h"
#include "quantity/sorted.h"

namespace starter {
namespace {

/// The growth between a pitch and what waits for it, where no step of the plan speaks of it.
CalendarRow growth_after(const Plan& plan, const CalendarRow& pitch, Duration lasts) {
  CalendarRow row = pitch;
  const int stage = plan.steps[static_cast<std::size_t>(pitch.step)].stage;
  row.growth = true;
  row.where = fmt::format("/stages/{}/duration", stage);
  row.words = "growth";
  row.start = pitch.end;
  row.end = pitch.end + lasts;
  row.hands_on = false;
  return row;
}

std::vector<CalendarRow> rows_of(const Judgement& j, UnitSystem units) {
  const Schedule& times = j.workings.times;
  const auto late = lateness(j.process, j.workings.durations, times);
  std::vector<CalendarRow> rows;
  for (std::size_t i = 0; i < j.plan.steps.size(); ++i) {
    const Step& step = j.plan.steps[i];
    CalendarRow row;
    row.step = static_cast<int>(i);
    row.where = step.path;
    row.words = step_in_words(j.plan, step, units, Said::alone);
    if (const auto keep = keep_in_words(j, row.step, units); !keep.empty())
      row.words += "; " + keep;
    row.start = times.times[i].start;
    row.end = times.times[i].end;
    row.hands_on = !step.does || hands_on(*step.does);
    row.critical = times.critical[i];
    row.may_wait = times.may_wait[i];
    row.late = late[i];
    if (step.lasts && *step.lasts + Duration::minutes(1) < row.end - row.start)
      row.at_least = step.lasts;
    rows.push_back(row);
    const Duration grows = j.workings.durations.then_waits[i];
    if (grows > Duration()) rows.push_back(growth_after(j.plan, row, grows));
  }
  sort_short(rows, [](const CalendarRow& a, const CalendarRow& b) { return a.start < b.start; });
  return rows;
}

/// Somebody has to come for every step, be it only to set it going; growth begins by itself.
std::vector<Visit> visits_of(const std::vector<CalendarRow>& rows) {
  std::vector<Visit> visits;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const CalendarRow& row = rows[i];
    if (row.growth) continue;
    if (visits.empty() || row.start - visits.back().end > same_visit)
      visits.push_back({i, i, row.start, row.start});
    Visit& visit = visits.back();
    visit.last = i;
    visit.end = std::max(visit.end, row.hands_on ? row.end : row.start);
  }
  return visits;
}

Duration handwork(const std::vector<CalendarRow>& rows) {
  Duration sum, until;
  for (const CalendarRow& row : rows) {
    if (!row.hands_on) continue;
    const Duration from = std::max(row.start, until);
    if (row.end > from) sum += row.end - from;
    until = std::max(until, row.end);
  }
  return sum;
}

}  // namespace

Calendar calendar_of(const Judgement& j, UnitSystem units) {
  const Schedule& times = j.workings.times;
  Calendar c;
  c.rows = rows_of(j, units);
  c.visits = visits_of(c.rows);
  c.hands_on = handwork(c.rows);
  c.ready = times.ready;
  c.origin = times.origin;
  c.start = c.rows.empty() ? c.origin : c.clock(c.rows.front().start);
  c.due = times.due;
  c.latest_start = times.latest_start;
  c.slack = times.slack;
  return c;
}

void by_number(Calendar& calendar) {
  calendar.visits.clear();
  std::stable_sort(calendar.rows.begin(), calendar.rows.end(),
                   [](const CalendarRow& a, const CalendarRow& b) {
                     return a.step != b.step ? a.step < b.step : a.growth < b.growth;
                   });
}

std::string gives_way(const Plan& plan, const CalendarRow& row) {
  switch (row.late.first) {
    case GivesWay::cold_rest:
      return fmt::format("the cold rest gets shorter ({})", step_label(plan, *row.late.step));
    case GivesWay::pause:
      return fmt::format("{}, could not start sooner anyway", step_label(plan, *row.late.step));
    case GivesWay::nothing:
      return "the yeast does not wait for it";
    case GivesWay::yeast:
      break;
  }
  return "the yeast comes later by as much";
}

}  // namespace starter
