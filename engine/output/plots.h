#pragma once

/// \file
/// Small plots for pages: SVG without text, which stretches to any width; the page puts the words
/// beside it. Colours are those of the page's style sheet, by class.

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "rules/rule.h"

namespace starter {

/// A part of a bar.
struct BarPart {
  double share = 0;  ///< of the whole width, 0 to 1
  std::string kind;  ///< a class of the style sheet: "danger"
};

/// A bar of parts side by side, each with a pattern of its own besides its colour. For the eye
/// only: the page tells the numbers.
std::string bar_svg(std::span<const BarPart> parts);

/// A number, and whether it is off what is comfortable.
struct PlottedNumber {
  double value = 0;
  bool off = false;
};

/// Where numbers lie against comfortable bounds.
struct Histogram {
  struct Bin {
    int fine = 0, off = 0;
  };
  double from = 0, to = 0;  ///< ends of the axis
  std::vector<Bin> bins;    ///< all of one width; the outer two hold what lies beyond
  Bounds comfortable;
  /// Where on the axis, 0 to 1.
  double place(double value) const;
};

/// The axis takes in the comfortable bounds and nine tenths of the numbers.
/// \pre `sorted` by value, and not empty
Histogram histogram_of(std::span<const PlottedNumber> sorted, const Bounds& comfortable);

/// Columns over the axis, what is off hatched, with a band where it is comfortable.
std::string histogram_svg(const Histogram& histogram);

}  // namespace starter
