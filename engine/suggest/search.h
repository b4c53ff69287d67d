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
  std::string kind;                                ///< as in Way
  std::function<std::string(const Plan&)> retell;  ///< may be empty
  Asks asks = Asks::nothing;
  bool fills = false;  ///< writes down what a short plan leaves open; is never left out
};

/// Something that a mentor accepted in the plan as it was: it is left alone wherever its step goes.
struct StandingFinding {
  const Rule* rule = nullptr;
  Severity severity = Severity::note;  ///< something worse of the same rule is not left alone
  int stage = -1;
  std::optional<int> step;  ///< who its step is, by StepIds; none where it has no step of its own
};

/// What of the accepted findings of a plan does not count, so never a danger.
std::vector<StandingFinding> standing_of(const std::vector<Finding>& findings, const StepIds& ids);

/// A plan in the making.
struct Draft {
  Plan plan;
  StepIds ids;
  std::vector<StandingFinding> standing;
  std::vector<Verdict> verdicts;  ///< above a note only, without those that stand
  std::vector<Made> made;
};

/// Above a note, at likely values, without those that stand.
std::vector<Verdict> verdicts_above_note(const Plan& plan, std::span<const Rule> rules,
                                         const StepIds& ids,
                                         const std::vector<StandingFinding>& standing);

/// The steps of a plan as it was handed in.
StepIds ids_of(const Plan& plan);

Draft draft_of(Plan plan, std::span<const Rule> rules, std::vector<StandingFinding> standing = {});

/// Whether `now` has a vessel for a starter that is larger than any home should be sent to buy, and
/// that `before` does not have as large.
bool buys_too_big(const Plan& before, const Plan& now);

/// Whether a bath of `now` has less water than its wort, or than 2 L, and less than any of that
/// stage in `before`: so little does not reach up to the wort. Common practice, no source.
bool drains_bath(const Plan& before, const Plan& now);

/// The draft with one more change; nothing when it does not fit, buys_too_big or drains_bath.
std::optional<Draft> with_change(const Draft& draft, const Way& way, std::span<const Rule> rules,
                                 bool fills = false);

/// `original` with these changes, one after the other; nothing when they do not fit.
std::optional<Draft> replay(const Draft& original, const std::vector<Made>& changes,
                            std::span<const Rule> rules);

/// With every boil that is in glass and that the search, not the member, wrote down put in a pot
/// that the plan has, where that makes nothing worse. The member's own boils stay where they are.
Draft boiled_in_pots(const Draft& original, Draft draft, std::span<const Rule> rules,
                     UnitSystem units);

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
