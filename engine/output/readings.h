#pragma once

/// \file
/// What is worth writing down at a step: a place for each reading, with what the plan expects.

#include <string>
#include <vector>

#include "quantity/write.h"
#include "rules/judge.h"

namespace starter {

struct ReadingPlace {
  std::string what;     ///< "weighed", "begun at", "temperature"
  std::string planned;  ///< "140 g"; empty where the plan says nothing
  std::string unit;     ///< to stand after the line to write on: "g", "°F"; empty for the clock
};

/// In the order they are read. Which step has which: common practice, no source.
std::vector<ReadingPlace> reading_places(const Judgement& judgement, int step, UnitSystem units);

}  // namespace starter
