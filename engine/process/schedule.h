#pragma once

/// \file
/// When each step happens.
///
/// Up to the cold rest the clock runs forward from the plan's start. The steps of the last stage
/// that lead from the cold rest to the beer (decant, warm, pitch) are laid back from when the yeast
/// is due, and the cold rest, or a store that follows it, takes what lies between. Without a start
/// everything is laid back from when the yeast is due, and the start that comes out is the latest
/// one. Without a brew day everything runs forward. With neither, times are hours from the first
/// step.

#include <optional>
#include <vector>

#include "plan/model.h"
#include "process/process.h"

namespace starter {

/// How long each step takes, worked out by the science and handed in.
struct StepDurations {
  std::vector<Duration> lasts;       ///< per step of the plan
  std::vector<Duration> then_waits;  ///< per step: growth that no step of the plan speaks of
};

struct StepTime {
  Duration start;  ///< from the origin of the schedule
  Duration end;
};

struct Schedule {
  std::vector<StepTime> times;            ///< per step of the plan
  std::optional<LocalTime> origin;        ///< the clock time of hour zero, when the plan has one
  std::optional<LocalTime> due;           ///< when the yeast is wanted
  std::optional<Duration> slack;          ///< the plan has a start and a brew day: time to spare;
                                          ///< negative when the yeast comes late
  std::optional<LocalTime> latest_start;  ///< the last moment to begin and be ready when due
  std::vector<bool> critical;             ///< steps whose delay delays the yeast, the cold rest
                                          ///< counted at its shortest
  Duration ready;                         ///< when the yeast is with the beer
  std::vector<std::optional<Duration>> may_wait;  ///< per step: how much later than here it may
                                                  ///< begin without the yeast coming late, or later
                                                  ///< than `ready` when nothing is due; negative
                                                  ///< when it is late as it is; nothing when the
                                                  ///< yeast does not wait for it
  std::optional<int> takes_slack;  ///< the step in the cold that lasts longer for the slack

  std::optional<LocalTime> clock(Duration t) const {
    return origin ? std::optional(*origin + t) : std::nullopt;
  }
};

Schedule schedule(const Plan& plan, const Process& process, const StepDurations& durations);

/// When the yeast is wanted: as stated, or as long into the brew day as club practice says.
std::optional<LocalTime> yeast_due(const Plan& plan);

}  // namespace starter
