#pragma once

/// \file
/// A page of text for a terminal: wrapped to its width, coloured when it has colour.
///
/// All text output is built here, and every text passes visible() on its way in, so nothing that a
/// member typed can move the cursor, colour the screen or break a line.

#include <cstddef>
#include <initializer_list>
#include <string>
#include <string_view>
#include <vector>

#include "quantity/write.h"
#include "rules/rule.h"

namespace starter {

/// How the reader's terminal is.
struct Look {
  std::size_t width = 80;  ///< columns
  bool colour = false;
  UnitSystem units = UnitSystem::metric;
};

enum class Ink { plain, strong, faint, good, note, weakens, spoils, danger };
Ink ink_of(Severity severity);

/// A piece of text in one ink.
struct Piece {
  std::string text;
  Ink ink = Ink::plain;
};
using Pieces = std::vector<Piece>;

class Page {
 public:
  explicit Page(const Look& look) : look_(look) {}

  const Look& look() const { return look_; }

  void blank();
  /// A paragraph, all its lines indented.
  void paragraph(const Pieces& pieces, std::size_t indent = 0);
  void paragraph(std::string_view text, std::size_t indent = 0);
  /// A label and what belongs to it, which hangs `hang` columns to the right of the indent. On a
  /// narrow page the label gets a line of its own.
  void item(const Piece& label, const Pieces& body, std::size_t indent, std::size_t hang);
  void item(std::string_view label, std::string_view body, std::size_t indent, std::size_t hang);
  /// One line as it stands, its spaces kept. The caller minds the width.
  void line(const Pieces& pieces);
  /// A heading over the next part.
  void heading(std::string_view text);
  /// A heading in a line across the page.
  void ruled(std::string_view text);

  std::string text() && { return std::move(out_); }

 private:
  void flow(const Piece& label, const Pieces& body, std::size_t indent, std::size_t hang);
  void put(std::string_view bytes, Ink ink);
  void end_line();

  Look look_;
  std::string out_;
  Ink ink_ = Ink::plain;
};

}  // namespace starter
