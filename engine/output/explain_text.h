#pragma once

/// \file
/// A rule, explained to a person.

#include <span>
#include <string>

#include "output/page.h"
#include "rules/rule.h"

namespace starter {

/// What the rule looks at, its bounds, how bad it is, why, what to do, an example each way,
/// cautions and sources.
std::string explain_text(const Rule& rule, const Look& look);

/// All rules, a line each, lesson by lesson.
std::string catalogue_text(std::span<const Rule> rules, const Look& look);

/// Where a statement comes from: "published", "common practice, no source", "from memory".
std::string source_text(const RuleSource& source);

}  // namespace starter
