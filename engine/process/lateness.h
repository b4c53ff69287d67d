#pragma once

/// \file
/// What a late step moves.

#include <optional>
#include <vector>

#include "process/process.h"
#include "process/schedule.h"

namespace starter {

/// The first thing to give way when a step begins late.
enum class GivesWay {
  yeast,      ///< nothing does: the yeast comes later by as much
  cold_rest,  ///< a rest in the cold gets shorter
  pause,      ///< a later step was going to wait anyway
  nothing,    ///< the yeast does not wait for this step
};

struct Lateness {
  GivesWay first = GivesWay::yeast;
  std::optional<int> step;  ///< the rest that gets shorter, or the step that was going to wait
};

/// Per step of the plan.
std::vector<Lateness> lateness(const Process& process, const StepDurations& durations,
                               const Schedule& schedule);

}  // namespace starter
