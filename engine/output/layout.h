#pragma once

/// \file
/// A drawing laid on a page: steps in rows, what joins them at the left, notes at the right, rows
/// cut into columns that stand side by side like those of a newspaper, and every line with its way.
/// The page lies the way, and has as many columns, as give the largest type.
///
/// On paper a drawing that would be small is laid tighter. A picture that is no page never has type
/// too small to read: it grows instead. One in a sheet goes over as many pages as it takes: their
/// columns stand side by side here, and each page shows its own.
///
/// Boxes are as large as their texts need (label.h measures them), so nothing can lie on anything
/// else, whatever a member typed, and the same drawing always comes out the same. Pure arithmetic;
/// Graphviz then only draws.

#include <optional>
#include <string>
#include <vector>

#include "output/process_graph.h"
#include "output/verdict.h"

namespace starter {

enum class Paper { a4, letter };

/// Room for a picture in the pages of a sheet, standing or lying, in points.
struct Inset {
  double standing_width = 0, standing_height = 0;
  double lying_width = 0, lying_height = 0;
  double least_type = 7.5;  ///< what would be smaller goes over several pages
};

struct SheetOptions {
  Paper paper = Paper::a4;
  bool large = false;       ///< for a projector: the shape of a screen, fewer words, larger type
  bool whole_page = false;  ///< the picture is the page; else it ends where the drawing does
  std::optional<Inset> inset =
      {};  ///< the picture stands in a sheet, which says itself of what plan
};

/// Points, 72 to the inch, x to the right and y down, from the upper left corner of the page.
struct Point {
  double x = 0, y = 0;
};
struct Box {
  double left = 0, top = 0, width = 0, height = 0;
  double right() const { return left + width; }
  double bottom() const { return top + height; }
  Point middle() const { return {left + width / 2, top + height / 2}; }
};

/// What was found, in lines.
struct PlacedEntry {
  Severity severity = Severity::note;
  std::vector<std::string> lines;
};
struct PlacedStep {
  Box box;
  std::vector<std::string> words;  ///< lines
  std::vector<std::string> key;
  std::vector<std::string> tag;      ///< "also after step 4"
  std::vector<PlacedEntry> entries;  ///< on a screen, which has no room for notes beside the steps
};
struct PlacedJoining {
  Box box;
  int row = 0;
  int index = 0;  ///< in DrawnStep::joins
  std::vector<std::string> what;
  std::vector<std::string> note;
};
struct PlacedNotes {
  Box box;
  int row = 0;
  std::vector<PlacedEntry> entries;  ///< nothing on a blank sheet
};
struct PlacedGroup {
  Box box;
  Phase phase = Phase::wort;
  std::string name;
};
/// Where the way goes on in another column: a circle with the number of the step there.
struct PlacedConnector {
  Box box;
  std::string number;
  bool goes_out = false;
};
struct PlacedText {
  Box box;
  std::vector<std::string> lines;
  double type = 0;
  bool bold = false;
};
struct PlacedLine {
  enum class Look { chain, trade, during, ghost, fault, ring, gap, rule, joins, unclean, note };
  Look look = Look::chain;
  bool critical = false;
  Severity severity = Severity::spoils;  ///< of a fault
  std::string from, to;                  ///< names of the boxes it joins
  std::vector<Point> way;                ///< corners, from its start to its tip
};

/// An entry of the legend.
struct PlacedSign {
  std::string sign, words;
  std::optional<Severity> severity;
};

/// How wide the parts of a row are, unscaled.
struct Widths {
  double number = 22, words = 132, key = 76;  ///< of a step
  double joins = 112;
  double sign = 62, notes = 192;  ///< of the notes, all of it
  double blank_unit = 38;         ///< beside a box to fill in
  double row_gap = 15;            ///< between rows
  double step() const { return number + words + key + 8; }
};

/// The sizes here are unscaled: multiply by `scale` for the page.
struct Layout {
  double page_width = 0, page_height = 0;  ///< scaled: the real page
  double scale = 1;
  double width = 0, height = 0;  ///< of what is drawn, the widest page where there are several
  double margin = 0;             ///< around it, unscaled
  int columns = 1;
  std::vector<double> pages = {0};  ///< x where each page begins; a page is as wide as `width`
  Widths widths;
  std::vector<PlacedText> title;
  std::vector<PlacedGroup> groups;
  std::vector<PlacedStep> steps;  ///< by row
  std::vector<PlacedJoining> joinings;
  std::vector<PlacedNotes> notes;
  std::vector<PlacedConnector> connectors;
  std::vector<PlacedLine> lines;
  std::vector<std::vector<PlacedSign>> legend;  ///< line by line
  Box legend_box;
};

/// Type sizes, unscaled.
inline constexpr double step_type = 10, small_type = 8.5, title_type = 17;
/// How much further right a box begins that hangs on another.
inline constexpr double indent = 34;

Layout layout_of(const Drawing& drawing, const SheetOptions& options = {});

}  // namespace starter
