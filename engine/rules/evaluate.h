#pragma once

/// \file
/// Rules against measures, facts and process: what speaks, how badly, how surely. No texts yet.

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "measures/facts.h"
#include "rules/finding.h"

namespace starter {

/// The parts of one plan that rules look at.
struct Evidence {
  const Plan& plan;
  const Process& process;
  const Schedule& times;
  std::span<const Measure> measures;
  std::span<const Fact> facts;
};

/// A rule that speaks, with what made it.
struct Spoken {
  const Rule* rule = nullptr;
  Severity severity = Severity::note;
  Certainty certainty = Certainty::certain;
  std::string where;
  int stage = -1;
  int step = -1;
  std::string message;               ///< which of the rule's messages: "", "low", "high", a value
  const Measure* measure = nullptr;  ///< range: the number; consistent: the first of the two
  const Measure* against = nullptr;  ///< consistent: the second
  Bounds comfortable;                ///< range: the bounds that held here
  Bounds hard;
  const Fact* fact = nullptr;  ///< present: the fact; range: the one its bounds differ by
  const Touch* touch = nullptr;
  std::optional<Duration> idle;  ///< contact: since it was last clean
  std::optional<Reversal> reversal;
};

/// An item sanitised longer ago than this is told as stale. Common practice, no source.
inline constexpr Duration stale_after = Duration::hours(12);

/// What all rules say, a rule that yields to another and lies behind it left out.
std::vector<Spoken> evaluate(std::span<const Rule> rules, const Evidence& evidence);

/// The bounds of a range rule at this place; they may differ by a fact.
RuleBounds bounds_at(const Rule& rule, std::span<const Fact> facts, int stage);

/// Where a number that a range rule looks at stands, whether the rule speaks of it or not.
struct Standing {
  const Rule* rule = nullptr;
  const Measure* measure = nullptr;  ///< of those handed in
  RuleBounds bounds;
  int level = 0;  ///< 0 comfortable, ±1 outside comfortable, ±2 outside hard; negative below
};

/// Those of all range rules, by rule and then by measure.
std::vector<Standing> standings(std::span<const Rule> rules, std::span<const Measure> measures,
                                std::span<const Fact> facts);

/// How far the two measures of a consistent rule are apart, as the rule counts it.
double gap_between(const Rule& rule, double first, double second);

}  // namespace starter
