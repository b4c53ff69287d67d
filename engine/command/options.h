#pragma once

/// \file
/// Options that several commands share, and how the program ends.

#include <CLI/CLI.hpp>
#include <optional>
#include <string>
#include <vector>

#include "command/terminal.h"
#include "quantity/write.h"
#include "rules/rule.h"

namespace starter {

/// What the program tells its caller. The worst wins.
enum class Exit { sound = 0, findings = 1, unusable = 2 };

enum class Format { text, json, sarif };

struct Told {
  Format format = Format::text;
  UnitSystem units = UnitSystem::metric;
};

/// --format and --units.
void add_told(CLI::App& command, Told& told);
/// The same, where findings can be told as SARIF too.
void add_told_with_sarif(CLI::App& command, Told& told);

/// --units alone, for what is told in one form only.
void add_units(CLI::App& command, UnitSystem& units);

/// PLAN..., one or more.
void add_plans(CLI::App& command, std::vector<std::string>& plans);

/// --fail-at
void add_fail_at(CLI::App& command, Severity& least);

}  // namespace starter
