#pragma once

/// \file
/// What a club gets wrong, counted over the rows of a review.

#include <array>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "output/plots.h"
#include "output/review_row.h"

namespace starter {

/// Findings of one rule that count, over all plans.
struct RuleTally {
  const Rule* rule = nullptr;
  int plans = 0;                     ///< that have at least one worse than a note
  int noted = 0;                     ///< that have notes of it only
  std::array<int, 4> by_severity{};  ///< findings, by Severity
  std::optional<Severity> worst;     ///< worst of all
  int findings() const;
};

/// A lesson and the plans it would have helped.
struct LessonTally {
  std::string lesson;
  int plans = 0;
  std::vector<const Rule*> rules;  ///< most plans first
};

struct MemberTally {
  std::string member;  ///< as shown; empty for plans that name nobody
  int plans = 0;
  int to_mend = 0;  ///< findings worse than a note that count
  std::optional<Severity> worst;
  const Rule* most = nullptr;  ///< the rule that most of the member's plans break
};

/// How the numbers that a range rule looks at lie against its bounds.
struct Spread {
  const Rule* rule = nullptr;
  std::vector<PlottedNumber> values;  ///< sorted, in the unit of the measure
  std::array<int, 5> by_level{};      ///< far below, below, comfortable, above, far above
  int off() const { return by_level[0] + by_level[1] + by_level[3] + by_level[4]; }
};

struct ReviewTally {
  int plans = 0;
  int unusable = 0;
  int sound = 0;
  std::array<int, 4> by_worst{};  ///< plans by their worst Severity; notes are in `sound`
  std::vector<RuleTally> rules;   ///< that any plan breaks or is told a note of; most plans first
  std::vector<LessonTally> lessons;  ///< most plans first
  std::vector<MemberTally> members;  ///< most to mend first
  std::vector<Spread> spreads;       ///< with two values or more, most off first
};

/// `rules`: what the plans were judged by. Rows of a rule that is not among them are not counted.
ReviewTally tally_of(std::span<const ReviewRow> rows, std::span<const Rule> rules);

}  // namespace starter
