#pragma once

/// \file
/// The stable machine form of the list of lessons; lessons.schema.json documents it.

#include "output/json.h"

namespace starter {

/// [{"number", "name", "title", "summary", "teaches": [ids of rules]}], in teaching order. What the
/// check finds in their plans is left for the reader to find.
Json lessons_json();

}  // namespace starter
