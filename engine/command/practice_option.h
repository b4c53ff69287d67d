#pragma once

/// \file
/// --practice FILE, the same for every command that judges or reads plans.

#include <CLI/CLI.hpp>
#include <optional>
#include <string>

#include "rules/practice.h"

namespace starter {

struct PracticeOption {
  std::string file;  ///< empty for the usual practice
};

/// Adds --practice. `option` must outlive the parsing.
void add_practice(CLI::App& command, PracticeOption& option);

/// The club's practice, or the usual one where none is named. Nothing after telling on standard
/// error what is wrong with the file; the command then ends with Exit::unusable.
std::optional<Practice> load_practice(const PracticeOption& option);

}  // namespace starter
