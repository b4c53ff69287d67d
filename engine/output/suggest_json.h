#pragma once

/// \file
/// What to change in a plan, for machines. suggest.schema.json documents it.

#include <string>

#include "output/json.h"
#include "suggest/suggest.h"

namespace starter {

/// `name` is the plan's file as the caller calls it.
Json suggest_json(const std::string& name, const Suggestion& suggestion);

}  // namespace starter
