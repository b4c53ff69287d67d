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

/// One page, from 0, of a drawing that was laid out with these options.
std::string dot_of(const Drawing& drawing, const SheetOptions& options, const Layout& layout,
                   std::size_t page = 0);

}  // namespace starter
