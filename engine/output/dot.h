#pragma once

/// \file
/// A drawing as a graph in the DOT language, for Graphviz to draw, here or in a browser.

#include <string>

#include "output/layout.h"
#include "output/process_graph.h"

namespace starter {

/// Places are those of layout_of() and stand in the graph, which asks for the layout engine “nop2”;
/// it needs no fonts and no Graphviz to write. Every text goes through label_text() into an
/// HTML-like label, so whatever a member typed is shown as typed.
std::string dot_of(const Drawing& drawing, const SheetOptions& options = {});

}  // namespace starter
