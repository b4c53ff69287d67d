#include "process/lateness.h"

#include <algorithm>

namespace starter {
namespace {

std::size_t at(int i) {
  return static_cast<std::size_t>(i);
}

constexpr Duration tight = Duration::seconds(1);

/// What lies ahead of each step: the steps that must move with it at once, and those that need not.
class Ahead {
 public:
  Ahead(const Process& process, const StepDurations& durations, const Schedule& schedule)
      : schedule_(schedule), then_(durations.lasts.size()) {
    for (const Dependency& arrow : process.dependencies) {
      const Duration gap = schedule.times[at(arrow.to)].start - schedule.times[at(arrow.from)].end -
                           durations.then_waits[at(arrow.from)];
      then_[at(arrow.from)].push_back({arrow.to, gap < tight});
    }
  }

  Lateness of(int step) const {
    if (!schedule_.may_wait[at(step)]) return {GivesWay::nothing, std::nullopt};
    if (*schedule_.may_wait[at(step)] < tight) return {GivesWay::yeast, std::nullopt};
    std::vector<bool> moves(then_.size(), false);
    std::vector<int> waiting_anyway;
    std::vector<int> moving = {step};
    while (!moving.empty()) {
      const int moved = moving.back();
      moving.pop_back();
      if (schedule_.takes_slack == moved) return {GivesWay::cold_rest, moved};
      for (const Next& next : then_[at(moved)]) {
        if (moves[at(next.step)] || !schedule_.may_wait[at(next.step)]) continue;
        if (!next.at_once) {
          waiting_anyway.push_back(next.step);
          continue;
        }
        moves[at(next.step)] = true;
        moving.push_back(next.step);
      }
    }
    std::optional<int> pause;
    for (const int next : waiting_anyway)
      if (!moves[at(next)] && (!pause || starts_before(next, *pause))) pause = next;
    if (pause) return {GivesWay::pause, pause};
    return {GivesWay::yeast, std::nullopt};
  }

 private:
  struct Next {
    int step;
    bool at_once;
  };

  bool starts_before(int a, int b) const {
    return schedule_.times[at(a)].start < schedule_.times[at(b)].start;
  }

  const Schedule& schedule_;
  std::vector<std::vector<Next>> then_;
};

}  // namespace

std::vector<Lateness> lateness(const Process& process, const StepDurations& durations,
                               const Schedule& schedule) {
  const Ahead ahead(process, durations, schedule);
  std::vector<Lateness> made;
  for (std::size_t i = 0; i < schedule.times.size(); ++i)
    made.push_back(ahead.of(static_cast<int>(i)));
  return made;
}

}  // namespace starter
