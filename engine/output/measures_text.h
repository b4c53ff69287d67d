#pragma once

/// \file
/// Every measure of a plan, for people.

#include <span>
#include <string>

#include "measures/measures.h"
#include "output/page.h"
#include "plan/model.h"

namespace starter {

/// The part of the plan that a measure belongs to, as a heading: "The yeast", "Stage 2, in
/// “flask”".
std::string measured_part(const Plan& plan, const Measure& measure);

/// Part by part: the number, its range, how it was computed; then what would narrow the ranges.
std::string measures_text(const Plan& plan, std::span<const Measure> measures, const Look& look);

}  // namespace starter
