#pragma once

/// \file
/// What a rule looks at, its bounds and how bad it is, as rows of a table: for the terminal and for
/// pages.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "quantity/write.h"
#include "rules/rule.h"

namespace starter {

struct RuleRow {
  std::string name;  ///< "Looks at", "Comfortable"
  std::string text;  ///< "80–110 g/L"; goes before the severity where there is one
  std::optional<Severity> severity;
  std::string instead;  ///< where a club's practice changed it: whose, and what the catalogue has
};

std::vector<RuleRow> rule_rows(const Rule& rule, UnitSystem units);

/// Where the rule comes from, a sentence a source.
std::vector<std::string> source_sentences(const Rule& rule);

/// How bad, in words: "spoils (the starter or the beer is likely to fail)".
std::string_view meaning_of(Severity severity);

}  // namespace starter
