#include "process/schedule.h"

#include <algorithm>

namespace starter {
namespace {

std::size_t at(int i) {
  return static_cast<std::size_t>(i);
}

/// Start and end of every step when each begins as soon as what it waits for is done.
std::vector<StepTime> forward(const Process& process, const StepDurations& durations) {
  const std::size_t count = durations.lasts.size();
  std::vector<std::vector<int>> waits_for(count);
  for (const Dependency& arrow : process.dependencies)
    waits_for[at(arrow.to)].push_back(arrow.from);
  std::vector<StepTime> times(count);
  for (int step : process.order) {
    Duration start;
    for (int earlier : waits_for[at(step)])
      start = std::max(start, times[at(earlier)].end + durations.then_waits[at(earlier)]);
    times[at(step)] = {start, start + durations.lasts[at(step)]};
  }
  return times;
}

/// The latest each step may begin for the yeast to be ready at `finish`; nothing for a step that
/// leads to none of `goals`.
std::vector<std::optional<Duration>> latest_starts(const Process& process,
                                                   const StepDurations& durations,
                                                   const std::vector<bool>& goals,
                                                   Duration finish) {
  const std::size_t count = durations.lasts.size();
  std::vector<std::vector<int>> then(count);
  for (const Dependency& arrow : process.dependencies) then[at(arrow.from)].push_back(arrow.to);
  std::vector<std::optional<Duration>> latest(count);
  for (auto step = process.order.rbegin(); step != process.order.rend(); ++step) {
    std::optional<Duration> end;
    if (goals[at(*step)]) end = finish;
    for (int next : then[at(*step)]) {
      if (!latest[at(next)]) continue;
      const Duration by_next = *latest[at(next)] - durations.then_waits[at(*step)];
      end = end ? std::min(*end, by_next) : by_next;
    }
    if (end) latest[at(*step)] = *end - durations.lasts[at(*step)];
  }
  return latest;
}

bool is_handover(const Step& step) {
  return step.does == Do::pitch_to_beer || step.does == Do::krausen_pitch;
}

/// The cold rest before the beer: the last crash of the last stage. One that comes only after the
/// yeast is given away keeps something else.
std::optional<int> cold_rest(const Plan& plan, const Process& process) {
  const auto rest = last_step(plan, Do::crash, static_cast<int>(plan.stages.size()) - 1);
  if (!rest) return rest;
  bool any = false;
  for (std::size_t i = 0; i < plan.steps.size(); ++i) {
    if (!is_handover(plan.steps[i])) continue;
    any = true;
    if (process.precedes(*rest, static_cast<int>(i))) return rest;
  }
  return any ? std::nullopt : rest;
}

/// What waits for brew day, and the step in the cold that lasts until then.
struct BrewDay {
  std::vector<bool> steps;  ///< per step of the plan
  std::optional<int> cold;
};

BrewDay brew_day(const Plan& plan, const Process& process) {
  const std::size_t count = plan.steps.size();
  const int last_stage = static_cast<int>(plan.stages.size()) - 1;
  BrewDay made{std::vector<bool>(count, false), cold_rest(plan, process)};
  const auto rest = made.cold;
  for (std::size_t i = 0; i < count; ++i) {
    const Step& step = plan.steps[i];
    made.steps[i] =
        rest ? process.precedes(*rest, static_cast<int>(i)) && step.does != Do::store
             : step.does && phase_of(*step.does) == Phase::brew_day && step.stage == last_stage;
  }
  // What follows such a step is one too.
  for (int step : process.order)
    if (made.steps[at(step)])
      for (std::size_t i = 0; i < count; ++i)
        if (process.precedes(step, static_cast<int>(i))) made.steps[i] = true;
  if (!rest) return made;
  // A store between the cold rest and brew day is what lasts; one beside them waits with them.
  for (int step : process.order) {
    if (made.steps[at(step)] || !process.precedes(*rest, step)) continue;
    for (std::size_t i = 0; i < count; ++i)
      if (made.steps[i] && process.precedes(step, static_cast<int>(i))) made.cold = step;
  }
  for (std::size_t i = 0; i < count; ++i)
    if (process.precedes(*made.cold, static_cast<int>(i))) made.steps[i] = true;
  return made;
}

}  // namespace

std::optional<LocalTime> yeast_due(const Plan& plan) {
  if (plan.beer.yeast_due) return plan.beer.yeast_due;
  if (plan.beer.brew_day) return *plan.beer.brew_day + plan.defaults().brewing_takes;
  return std::nullopt;
}

Schedule schedule(const Plan& plan, const Process& process, const StepDurations& durations) {
  Schedule made;
  made.times = forward(process, durations);
  made.due = yeast_due(plan);
  const std::size_t count = plan.steps.size();

  // The yeast is ready when the last step that hands it to the beer ends, or the last step at all.
  std::vector<bool> goals(count);
  std::transform(plan.steps.begin(), plan.steps.end(), goals.begin(), is_handover);
  if (std::find(goals.begin(), goals.end(), true) == goals.end()) goals.assign(count, true);
  for (std::size_t i = 0; i < count; ++i)
    if (goals[i]) made.ready = std::max(made.ready, made.times[i].end);
  const Duration ready = made.ready;

  made.critical.assign(count, false);
  made.may_wait = latest_starts(process, durations, goals, ready);
  for (std::size_t i = 0; i < count; ++i) {
    if (!made.may_wait[i]) continue;
    *made.may_wait[i] -= made.times[i].start;
    made.critical[i] = *made.may_wait[i] < Duration::seconds(1);
    if (made.critical[i]) made.may_wait[i] = Duration();
  }

  if (made.due) made.latest_start = *made.due - ready;
  if (plan.start) {
    made.origin = plan.start;
    // Not due less the clock time of being ready, which is a whole minute.
    if (made.due) made.slack = *made.due - *plan.start - ready;
  } else if (made.due) {
    made.origin = made.latest_start;
  }

  if (made.slack)
    for (auto& wait : made.may_wait)
      if (wait) *wait += *made.slack;
  if (made.slack && *made.slack > Duration::hours(0)) {
    const BrewDay waits = brew_day(plan, process);
    for (std::size_t i = 0; i < count; ++i) {
      if (!waits.steps[i]) continue;
      made.times[i].start += *made.slack;
      made.times[i].end += *made.slack;
      if (made.may_wait[i]) *made.may_wait[i] -= *made.slack;
    }
    // The cold takes the slack: it lasts until the first step that ends it.
    made.takes_slack = waits.cold;
    if (waits.cold) made.times[at(*waits.cold)].end += *made.slack;
    for (std::size_t i = 0; i < count; ++i)
      if (goals[i]) made.ready = std::max(made.ready, made.times[i].end);
  }
  return made;
}

}  // namespace starter
