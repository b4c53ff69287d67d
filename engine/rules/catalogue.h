#pragma once

/// \file
/// The catalogue of rules, embedded at build from catalogue/*.json.

#include <span>
#include <string_view>

#include "rules/rule_file.h"

namespace starter {

/// All rules, by id.
std::span<const Rule> catalogue();
const Rule* find_rule(std::string_view id);

/// All cautions; `find_caution` by id.
std::span<const Caution> cautions();
const Caution* find_caution(std::string_view id);

}  // namespace starter
