#pragma once

/// \file
/// How a drawing is laid on a page: which way the page lies, and how the rows are cut into columns
/// that stand side by side like those of a newspaper, so that the type comes out as large as it
/// can.

#include <vector>

#include "output/process_graph.h"

namespace starter {

enum class Paper { a4, letter };

struct SheetOptions {
  Paper paper = Paper::a4;
  bool large = false;  ///< for a projector: the shape of a screen, fewer words, larger type
};

/// All lengths in points, 72 to the inch.
struct Sheet {
  double width = 0;  ///< of the page
  double height = 0;
  double margin = 0;
  std::vector<int> column_starts;  ///< the row that each column begins with; the first is 0
  double drawn_width = 0;          ///< what the drawing comes to before it is scaled to the page,
                                   ///< estimated from the length of its texts
  double scale = 1;                ///< estimated
};

Sheet sheet_for(const Drawing& drawing, const SheetOptions& options);

/// How wide the parts of a row are, in points and in columns of text.
struct RowMeasures {
  double number = 20, words = 132, key = 62;  ///< parts of a step
  double joins = 112, notes = 158;
  std::size_t words_columns = 22, key_columns = 9, joins_columns = 19, notes_columns = 26;
};
inline constexpr RowMeasures row_measures{};

/// Type sizes in points, before scaling.
inline constexpr double step_type = 10, small_type = 9, title_type = 17;

/// Whether any row has something at its left, or at its right.
bool has_joins(const Drawing& drawing);
bool has_notes(const Drawing& drawing);

/// Whether a row begins a group of its phase and stage.
bool begins_group(const Drawing& drawing, int row);

}  // namespace starter
