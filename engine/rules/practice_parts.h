#pragma once

/// \file
/// The parts of a practice file, each read by one function, and what these share.

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "plan/defaults.h"
#include "plan/fields.h"
#include "rules/practice.h"

namespace starter::practice {

/// Reads "defaults"; what is not there keeps its value. `node` may be nullptr.
void read_defaults(const Node* node, Defaults& defaults, Report& report);

/// Lays one member of "rules" over a copy of the catalogue's rule of that name. \return whether the
/// rule stays on
bool change_rule(const Member& member, const std::string& club, Rule& rule,
                 std::vector<SwitchedOff>& off, Report& report);

/// Reads one of "own_rules". \param taken ids of the catalogue and of the own rules before.
std::optional<Rule> read_own_rule(const Node& node, const std::string& where,
                                  const std::string& club, const PracticeBase& base,
                                  const std::vector<std::string>& taken, Report& report);

// --- shared ---------------------------------------------------------------------------------

/// The fields of one object; a misplaced one is not looked for elsewhere.
Fields fields_of(const Node* object, std::string where, std::span<const std::string_view> known,
                 Report& report);

/// Reports a word that names nothing: "there is no measure “boil_tim”", with the nearest.
void unknown(const std::string& where, Position at, std::string_view kind, std::string_view typed,
             std::span<const std::string_view> known, Report& report);

std::vector<std::string_view> measure_names();
std::vector<std::string_view> fact_names();

/// The measure's unit, and how its bounds are written: "numbers in g/L".
std::string unit_in_words(const Rule& rule);

/// Bounds as the file has them: "[80, 110]", "[null, 30]".
std::string as_pair(const Bounds& bounds);

/// A pair of numbers or nulls; ends the wrong way round are reported.
std::optional<Bounds> read_bounds(const Fields& fields, std::string_view name, const Rule& rule,
                                  Report& report);

/// Reports bounds that no plan could keep, or hard ones inside the comfortable.
/// \param at the field to point at.
bool check_bounds(const RuleBounds& bounds, const Rule& rule, const Fields& fields,
                  std::string_view at);

std::optional<Severity> read_severity(const Fields& fields, std::string_view name);

/// A message; places that nothing fills are reported.
std::optional<std::string> read_message(const Fields& fields, std::string_view name,
                                        const Rule& rule, bool counts_number);

/// Reports a value that the fact never has.
void check_value(const std::string& where, Position at, std::string_view fact,
                 std::string_view value, Report& report);

}  // namespace starter::practice
