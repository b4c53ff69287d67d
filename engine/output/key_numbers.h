#pragma once

/// \file
/// The few numbers of a plan that a brewer asks for first.

#include <string>
#include <utility>
#include <vector>

#include "rules/judge.h"

namespace starter {

/// Rows of a table: what it is, and the numbers.
struct KeyNumbers {
  std::string title;  ///< "Stage 2"; empty when the plan has one stage only
  std::vector<std::pair<std::string, std::string>> rows;
};

/// Stage by stage, then the plan as a whole.
std::vector<KeyNumbers> key_numbers(const Judgement& judgement, UnitSystem units);

}  // namespace starter
