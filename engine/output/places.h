#pragma once

/// \file
/// Places in a plan, in words.

#include <string>

#include "plan/model.h"

namespace starter {

/// What a JSON pointer into the plan points at, for people: "step 6, sanitise", "stage 2, extract",
/// "the yeast, viability". A pointer that is not of a plan is given back as it is.
std::string place_in_words(const Plan& plan, const std::string& pointer);

/// The same for a field, with its name where that does not say it yet: "the extract, mass", "step
/// 6, sanitise, items", "the vessel “jug”, capacity".
std::string field_in_words(const Plan& plan, const std::string& pointer);

/// The index of the step that `pointer` points at or into; nothing when it points elsewhere.
std::optional<int> step_at(const Plan& plan, const std::string& pointer);

}  // namespace starter
