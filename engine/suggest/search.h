#pragma once

/// \file
/// The search for the smallest set of changes that clears what can be cleared.
///
/// From the plan as it is, the change that clears most is made, of what asks least of the member;
/// the whole plan is judged anew after each. A change that would cause a new finding is made only
/// together with those that mend what it causes. In the end every change is left out once more, and
/// stays out when nothing comes back. No step may leave more findings at or above any severity, nor
/// one that was not there before, so the plan never gets worse; only a danger may give way to
/// something milder that is new. The search counts its tries, looks
/// at no clock, and gives the same answer everywhere.

#include <functional>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "rules/mendable.h"
#include "suggest/draft.h"

namespace starter {

/// One change that was made.
struct Made {
  std::vector<StableOp> ops;
  std::string says;
  std::function<std::string(const Plan&)> retell;  ///< may be empty
  Asks asks = Asks::nothing;
  bool fills = false;  ///< writes down what a short plan leaves open; is never left out
};

/// A plan in the making.
struct Draft {
  Plan plan;
  StepIds ids;
  std::vector<Verdict> verdicts;  ///< above a note only
  std::vector<Made> made;
};

/// Above a note, at likely values.
std::vector<Verdict> verdicts_above_note(const Plan& plan, std::span<const Rule> rules);

Draft draft_of(Plan plan, std::span<const Rule> rules);

/// The draft with one more change; nothing when it does not fit.
std::optional<Draft> with_change(const Draft& draft, const Way& way, std::span<const Rule> rules,
                                 bool fills = false);

/// `original` with these changes, one after the other; nothing when they do not fit.
std::optional<Draft> replay(const Draft& original, const std::vector<Made>& changes,
                            std::span<const Rule> rules);

/// What of `now` was not said, or not so badly, by `before`; each as often as it is more.
std::vector<Verdict> said_newly(const std::vector<Verdict>& now,
                                const std::vector<Verdict>& before);

/// Whether `now` is nowhere worse than `before`.
bool no_worse(const std::vector<Verdict>& now, const std::vector<Verdict>& before);

struct Search {
  Draft draft;
  bool finished = true;  ///< false when the tries ran out
};

/// Mends `start`; `original` is the plan before anything was filled in.
Search search(const Draft& original, Draft start, std::span<const Rule> rules, UnitSystem units,
              int most_tries);

/// All ways, the catalogue's and the remedies, of what stands in a plan.
std::vector<Mendable> all_ways(const Plan& plan, std::span<const Rule> rules, UnitSystem units,
                               const std::function<bool(const Verdict&)>& wanted);

}  // namespace starter
