#pragma once

/// \file
/// What to have at hand before a plan begins, and what must be clean before it meets boiled wort.

#include <optional>
#include <string>
#include <vector>

#include "quantity/write.h"
#include "rules/judge.h"

namespace starter {

/// Something to buy, fetch or lay out.
struct Needed {
  enum class Shelf { ingredient, water, thing, cleaning };
  Shelf shelf = Shelf::thing;
  std::string what;        ///< "light dry malt extract", or a name of the member's
  std::string amount;      ///< "360 g", "by its label"; empty where one is enough
  std::string note;        ///< "100 g for stage 1, 260 g for stage 2"; may be empty
  std::vector<int> steps;  ///< indices of the steps that use it; may be empty
  bool assumed = false;    ///< the plan does not name it; the work needs it (common practice)
};

/// By shelf, in the order of use. Amounts over all stages; what boils off is in the water.
std::vector<Needed> shopping_list(const Judgement& judgement, UnitSystem units);

/// Something that meets boiled wort in one stage.
struct ToClean {
  enum class How {
    boiled,     ///< holds the wort while it boils, or goes in before it
    steamed,    ///< lies over the boil
    sanitised,  ///< in a step of its own
    hot,        ///< goes into wort still at the boil: a danger of its own, and no question of dirt
    late,       ///< only after it has met the wort
    never,      ///< by no step of the plan
  };
  std::string what;
  int stage = 0;
  How how = How::never;
  std::optional<int> cleaned_in;  ///< index of the step that cleans it, or does so too late
  std::vector<int> meets;         ///< indices of the steps where it meets boiled wort, in order
  bool assumed = false;           ///< the plan does not name it
};

/// By stage, in the order in which the things meet the wort.
std::vector<ToClean> cleaning_list(const Judgement& judgement);

/// Whether a step adds something to wort that has boiled and not yet been chilled. Of that the
/// danger is told, by rule `bumping`; moved before the boil, as it tells, the thing is boiled too.
bool into_hot_wort(const Judgement& judgement, int step);

/// "sanitised in step 7", "not clean: no step cleans it".
std::string clean_in_words(const ToClean& thing);

}  // namespace starter
