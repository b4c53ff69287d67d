#pragma once

/// \file
/// The terminal: how wide, whether coloured, and writing to it.

#include <cstddef>
#include <string_view>

#include "output/page.h"

namespace starter {

enum class Stream { out, error };

/// 80 columns without colour for a pipe or file. A terminal's own width up to 100, and colour
/// unless NO_COLOR is set to anything or TERM is "dumb".
Look look_of(Stream stream, UnitSystem units);

/// Writes to standard output and remembers what went wrong.
class Output {
 public:
  /// \return false once nothing more can be written.
  bool write(std::string_view text);
  /// Whether something was lost for another reason than a reader that had seen enough; told on
  /// standard error once.
  bool failed() const { return failed_; }

 private:
  bool open_ = true;
  bool failed_ = false;
};

/// Writes to standard error; what cannot be written there has nowhere else to go.
void complain(std::string_view text);

}  // namespace starter
