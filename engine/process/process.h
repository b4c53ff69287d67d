#pragma once

/// \file
/// From a list of steps to what depends on what.
///
/// A step waits for the one written before it, unless `after` says otherwise; `during` lays it
/// inside another. To these come the trade's own dependencies (trade_order.h), as long as they do
/// not contradict what is written: where they do, the plan is at fault and a rule tells it, and the
/// written order stands.

#include <bitset>
#include <optional>
#include <string>
#include <vector>

#include "plan/limits.h"
#include "plan/model.h"
#include "process/trade_order.h"

namespace starter {

/// An arrow of the graph: `to` starts when `from` is done.
struct Dependency {
  enum class Why {
    written_order,  ///< `to` stands after `from` in the plan
    after,          ///< the plan says so
    during,         ///< `to` follows a step laid inside another, or the other way round
    trade,          ///< the trade needs it and the plan leaves it open
  };
  int from = 0;
  int to = 0;
  Why why = Why::written_order;
};

/// A name in a step that no step or word answers to.
struct UnknownName {
  int step = 0;
  std::string field;    ///< "do", "after" or "during"
  std::string word;     ///< as typed
  std::string nearest;  ///< empty when nothing is near
};

/// A step that the trade needs and the plan lacks.
struct MissingStep {
  Do what = Do::boil;
  int stage = 0;
  int before = 0;  ///< index of the step it belongs before; the number of steps when last
};

/// An item meets wort that no boil will clean again.
struct Touch {
  std::string item;
  int step = 0;
  bool assumed = false;             ///< the plan does not name the item; practice supplies it
  std::optional<int> cleaned_by;    ///< the last step that sanitised, boiled or steamed it before
  std::optional<int> cleaned_late;  ///< when nothing cleaned it before: the first that does after
  std::optional<int> last_touch;    ///< an earlier touch of the same item in the same stage
};

/// A pair of steps in the wrong order: the trade wants `first` before `then`.
struct Reversal {
  int first = 0;
  int then = 0;
};

/// The graph of one plan. Holds indices into `Plan::steps`; the plan is not kept.
struct Process {
  std::vector<Dependency> dependencies;    ///< without loops
  std::vector<int> order;                  ///< every step once, each after all it waits for
  std::vector<std::optional<int>> inside;  ///< per step: the step it is laid inside
  std::vector<std::vector<int>> loops;     ///< steps that wait for each other, or are laid inside
                                           ///< each other, in a ring
  std::vector<UnknownName> unknown;
  std::vector<MissingStep> missing;
  std::vector<Touch> touches;

  /// Whether `a` is done before `b` starts, by written order, `after`, `during` or the trade.
  bool precedes(int a, int b) const {
    return followers_[static_cast<std::size_t>(a)][static_cast<std::size_t>(b)];
  }

  std::vector<std::bitset<most_steps>> followers_;  ///< transitive closure; use precedes()
};

Process unfold(const Plan& plan);

/// Steps of one kind in one stage, in file order.
std::vector<int> steps_of(const Plan& plan, Do what, int stage);
std::optional<int> first_step(const Plan& plan, Do what, int stage);
std::optional<int> last_step(const Plan& plan, Do what, int stage);

/// All pairs where `then` happens in a stage with no `first` before it and a `first` after it.
/// With `until`: a `first` that comes during or after `then` and not after an `until`.
/// With `items`: only `first` steps that name one of them.
std::vector<Reversal> reversals(const Plan& plan, const Process& process, Do first, Do then,
                                std::optional<Do> until, const std::vector<std::string>& items);

/// Whether two names mean the same thing: case, articles and spaces aside, equal, or one is the
/// other with words put before it ("pack", "the yeast pack").
bool same_item(std::string_view a, std::string_view b);

/// The vessel the wort of a stage is in when this step begins.
std::string vessel_at(const Plan& plan, const Process& process, int step);

/// The vessel that a heat or boil step heats: its own `in`, else where the wort is by then.
std::string boiled_in(const Plan& plan, const Process& process, int step);

/// The step that lasts as long as the growth of a stage: its first agitate step, else its first
/// rest after the pitch; nothing when no step speaks of growth.
std::optional<int> growth_step(const Plan& plan, const Process& process, int stage);

/// "step 11, decant"
std::string step_label(const Plan& plan, int step);

}  // namespace starter
