#pragma once

/// \file
/// Pictures made by Graphviz, in this process.

#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <variant>

namespace starter {

enum class Picture { svg, pdf, png, dot };

/// "svg"; nothing for another word.
std::optional<Picture> picture_from(std::string_view word);
std::string_view spelling(Picture picture);

struct DrawingProblem {
  std::string says;
};

/// Lays out graphs and renders them. Starting Graphviz is slow, so one of these serves all pictures
/// of a process; Graphviz keeps state of its own, so there is never more than one at a time.
class DiagramMaker {
 public:
  DiagramMaker();
  ~DiagramMaker();
  DiagramMaker(const DiagramMaker&) = delete;
  DiagramMaker& operator=(const DiagramMaker&) = delete;

  /// The bytes of the picture. A PDF has exactly the page of the sheet; the other forms are as
  /// large as what is drawn. The same text gives the same bytes.
  std::variant<std::string, DrawingProblem> make(const std::string& dot, Picture picture);

  /// Graphviz's plain text form: where every node came to stand.
  std::variant<std::string, DrawingProblem> positions(const std::string& dot);

 private:
  struct Engine;
  std::unique_ptr<Engine> engine_;
};

}  // namespace starter
