#pragma once

/// \file
/// From a plan to its findings: the whole engine behind one door.

#include <span>
#include <vector>

#include "measures/facts.h"
#include "plan/read.h"
#include "quantity/write.h"
#include "rules/finding.h"

namespace starter {

/// Everything known about one plan.
struct Judgement {
  Plan plan;
  Process process;
  Workings workings;  ///< at the likely draw
  std::vector<Measure> measures;
  std::vector<Fact> facts;
  std::vector<Finding> findings;         ///< worst first, then by step
  std::vector<AcceptanceRecord> unused;  ///< acceptances of what is no longer found
};

struct JudgeOptions {
  UnitSystem units = UnitSystem::metric;  ///< of the texts; numbers are always metric
  bool fixes = true;                      ///< work out fixes, which re-measures the plan many times
  bool narrowing = true;  ///< find what would narrow a finding's range, which re-measures it too

  /// What is found, without advice.
  static JudgeOptions findings_only(UnitSystem units = UnitSystem::metric) {
    return {units, false, false};
  }
};

Judgement judge(Plan plan, std::span<const Rule> rules, const JudgeOptions& options = {});

/// The worst severity found, of findings that count; nothing when there is none.
std::optional<Severity> worst(const std::vector<Finding>& findings);

/// A rule that speaks of a plan at likely values, and where: for telling what a fix would cause.
struct Verdict {
  const Rule* rule = nullptr;
  Severity severity = Severity::note;
  std::string where;
  int stage = -1;
  /// How far the number lies outside what is comfortable, in widths of the band between comfortable
  /// and hard bounds (without a hard one, in sizes of the bound); 0 without a number.
  double beyond = 0;
};

/// Rules that speak at likely values only, without texts or fixes; much faster than judge().
std::vector<Verdict> quick_verdicts(const Plan& plan, std::span<const Rule> rules);

}  // namespace starter
