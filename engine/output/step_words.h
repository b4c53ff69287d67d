#pragma once

/// \file
/// A step in few words: what is done and with what, its one number, and what joins it.

#include <string>
#include <vector>

#include "output/process_graph.h"

namespace starter {

/// Where a step is told.
enum class Said {
  alone,  ///< a phrase for somebody who reads nothing else: "weigh 140 g light dry malt", "chill to
          ///< 21 °C in tub"; neither the stage nor, but for a boil, how long it takes
  drawn,  ///< beside its number and what joins it, which aren't said again: "Weigh", "Chill in tub"
};

/// A step in one phrase, with the verb that the member wrote.
std::string step_in_words(const Plan& plan, const Step& step, UnitSystem units, Said said);

/// "Boil": the verb alone, with a capital letter; one that is not known stays as typed.
std::string step_verb(const Step& step);

/// The number that matters most: "12 min", "21 °C", "36 h", "62 billion cells"; empty when the step
/// has none.
std::string step_key(const Judgement& judgement, int step, UnitSystem units);

/// What to keep of the yeast for another batch, at the step that hands it to the beer: "keep back
/// 45 mL of the slurry, 50 billion cells, for another batch"; empty elsewhere, and where nothing is
/// kept.
std::string keep_in_words(const Judgement& judgement, int step, UnitSystem units);

/// Extract, water, yeast, beer, and the things used. `cleaned_in` is an index of a step here.
std::vector<Joining> joinings_of(const Judgement& judgement, int step, UnitSystem units);

}  // namespace starter
