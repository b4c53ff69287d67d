#pragma once

/// \file
/// Which stage a step belongs to when it does not say: that of the step before it, until weighing
/// or dissolving after a pitch begins the next one.

#include <cstddef>
#include <optional>
#include <vector>

#include "plan/words.h"

namespace starter {

/// Walks along the steps of a plan.
class StageOfStep {
 public:
  /// \param stages how many the plan has.
  explicit StageOfStep(std::size_t stages) : pitched_(stages, false) {}

  /// The index of the stage that the next step, doing `does`, belongs to unless it says another.
  int unless_said(std::optional<Do> does) const { return begins_next(does) ? now_ + 1 : now_; }

  /// Whether that is because the step begins the next stage.
  bool begins_next(std::optional<Do> does) const {
    const auto now = static_cast<std::size_t>(now_);
    return (does == Do::weigh || does == Do::dissolve) && now + 1 < pitched_.size() &&
           pitched_[now];
  }

  /// Takes note that the next step, doing `does`, belongs to `stage`, and goes on to the one after.
  /// \pre `stage` is an index of a stage.
  void walk(std::optional<Do> does, int stage) {
    now_ = stage;
    if (does == Do::pitch && now_ < static_cast<int>(pitched_.size()))
      pitched_[static_cast<std::size_t>(now_)] = true;
  }

 private:
  std::vector<bool> pitched_;
  int now_ = 0;
};

}  // namespace starter
