#pragma once

/// \file
/// JSON pointers (published: RFC 6901), which name a place in a plan: "/beer/volume",
/// "/steps/3/to".

#include <cstddef>
#include <string>
#include <string_view>

namespace starter {

/// `pointer` led one member further; "~" and "/" in the name become "~0" and "~1".
inline std::string pointer_to(std::string_view pointer, std::string_view name) {
  std::string longer(pointer);
  longer += '/';
  for (const char c : name) {
    if (c == '~')
      longer += "~0";
    else if (c == '/')
      longer += "~1";
    else
      longer += c;
  }
  return longer;
}

/// `pointer` led to an item of its list, counted from 0 as RFC 6901 does.
inline std::string pointer_to(std::string_view pointer, std::size_t index) {
  return std::string(pointer) + '/' + std::to_string(index);
}

}  // namespace starter
