#pragma once

/// \file
/// Says in plain words why bytes are not JSON.

#include <cstddef>
#include <string>
#include <string_view>

namespace starter {

/// How far reading came before it stopped.
struct SyntaxState {
  enum class Last { nothing, opened, name, value };
  enum class Inside { nothing, list, object };
  Last last = Last::nothing;     ///< what was read last
  std::size_t end = 0;           ///< the byte after it
  bool last_is_number = false;   ///< whether it was a number,
  std::size_t number_start = 0;  ///< which then began here
  bool last_is_text = false;
  std::string name;                 ///< the last name read
  Inside inside = Inside::nothing;  ///< the innermost list or object still open
  int opened_on = 0;                ///< the line of its bracket
};

/// What is wrong and what to write instead.
struct SyntaxProblem {
  std::size_t offset = 0;  ///< the byte at which to look
  std::string says;
  std::string write;
};

/// Explains why nothing valid follows `state.end` in `bytes`.
SyntaxProblem explain_syntax(std::string_view bytes, const SyntaxState& state);

/// Explains bytes that are not even text in UTF-8, or hold nothing: empty, white space only,
/// UTF-16, broken characters. `says` is empty when the bytes are sound text.
SyntaxProblem explain_encoding(std::string_view bytes);

}  // namespace starter
