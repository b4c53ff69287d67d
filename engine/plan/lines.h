#pragma once

/// \file
/// Which line of a file a byte stands on, whatever the line ends: LF, CRLF or a lone CR.

#include <algorithm>
#include <cstddef>
#include <string_view>
#include <vector>

namespace starter {

class Lines {
 public:
  explicit Lines(std::string_view bytes) {
    for (std::size_t i = 0; i < bytes.size(); ++i) {
      const bool lone_return = bytes[i] == '\r' && (i + 1 == bytes.size() || bytes[i + 1] != '\n');
      if (bytes[i] == '\n' || lone_return) ends_.push_back(i);
    }
  }

  /// The line, counted from 1, of the byte at `offset`; a line end belongs to the line it ends.
  int of(std::size_t offset) const {
    const auto before = std::lower_bound(ends_.begin(), ends_.end(), offset) - ends_.begin();
    return static_cast<int>(before) + 1;
  }

 private:
  std::vector<std::size_t> ends_;
};

}  // namespace starter
