#pragma once

/// \file
/// The commands. Each adds itself to the program and says what to run when it is chosen.

#include <CLI/CLI.hpp>
#include <functional>

#include "command/options.h"

namespace starter {

/// Set by the command that was chosen.
using Chosen = std::function<Exit(Output&)>;

void add_check(CLI::App& program, Chosen& chosen);
void add_explain(CLI::App& program, Chosen& chosen);
void add_measure(CLI::App& program, Chosen& chosen);
void add_schedule(CLI::App& program, Chosen& chosen);
void add_draw(CLI::App& program, Chosen& chosen);
void add_accept(CLI::App& program, Chosen& chosen);
void add_suggest(CLI::App& program, Chosen& chosen);
void add_compare(CLI::App& program, Chosen& chosen);
void add_new(CLI::App& program, Chosen& chosen);
void add_review(CLI::App& program, Chosen& chosen);
void add_handout(CLI::App& program, Chosen& chosen);
void add_lesson(CLI::App& program, Chosen& chosen);
void add_site(CLI::App& program, Chosen& chosen);

}  // namespace starter
