#pragma once

/// \file
/// A rule, explained to a person.

#include <optional>
#include <string>

#include "output/page.h"
#include "rules/practice.h"

namespace starter {

/// What the rule looks at, its bounds, how bad it is, why, what to do, an example each way,
/// cautions and sources; and what a club's practice makes of it.
/// \param off where the club has switched it off.
std::string explain_text(const Rule& rule, const Look& look, const SwitchedOff* off = nullptr);

/// All rules, a line each, lesson by lesson, then the club's own and those it has switched off.
std::string catalogue_text(const Practice& practice, const Look& look);

/// Where a statement comes from: "published", "common practice, no source", "from memory".
std::string source_text(const RuleSource& source);
/// The same of a rule's source; "The club’s practice: …" for the word of the club itself.
std::string source_text(const Rule& rule, const RuleSource& source);

/// What a source says where it is the word of the club that changed or made the rule; else nothing.
/// \pre `source` is one of the rule's
std::optional<std::string> club_practice(const Rule& rule, const RuleSource& source);

}  // namespace starter
