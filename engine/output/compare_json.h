#pragma once

/// \file
/// Two plans side by side, for programs. compare.schema.json documents it.

#include <string>

#include "output/compare.h"
#include "output/json.h"

namespace starter {

/// Every finding and every measure of both, those that are the same too, which say so.
Json compare_json(const Comparison& comparison, const std::string& first_name,
                  const std::string& second_name);

/// Which of the plans cannot be used, and why: what errors_json() makes of each.
Json not_compared_json(std::vector<Json> unusable);

}  // namespace starter
