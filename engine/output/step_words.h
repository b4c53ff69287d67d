#pragma once

/// \file
/// A step in few words: what is done and with what, its one number, and what joins it.

#include <string>
#include <vector>

#include "output/process_graph.h"

namespace starter {

/// "Boil in flask, gas", "Sanitise thermometer, pack". What joins the step is not named again.
std::string step_words(const Plan& plan, const Step& step, UnitSystem units);

/// "Boil": the verb alone, with a capital letter; one that is not known stays as typed.
std::string step_verb(const Step& step);

/// The number that matters most: "12 min", "21 °C", "36 h", "62 billion cells"; empty when the step
/// has none.
std::string step_key(const Judgement& judgement, int step, UnitSystem units);

/// Extract, water, yeast, beer, and the things used. `cleaned_in` is an index of a step here.
std::vector<Joining> joinings_of(const Judgement& judgement, int step, UnitSystem units);

}  // namespace starter
