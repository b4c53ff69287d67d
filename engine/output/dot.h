#pragma once

/// \file
/// A drawing as a graph in the DOT language, for Graphviz's dot to lay out, here or in a browser.

#include <string>

#include "output/process_graph.h"
#include "output/sheet.h"

namespace starter {

/// Every text goes through label_text() into an HTML-like label, so whatever a member typed is
/// shown as typed. Steps are called "step 4"; needs no fonts and no Graphviz to write.
std::string dot_of(const Drawing& drawing, const SheetOptions& options = {});

/// "▲ DANGER", "■ spoils", "◆ weakens", "○ note": in black and white the sign and the word tell it.
std::string_view sign_of(Severity severity);

}  // namespace starter
