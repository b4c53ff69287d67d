#pragma once

/// \file
/// From a place in a plan to the line it stands on.

#include <string_view>

namespace starter {

/// The line, counted from 1, on which the value at a JSON pointer (RFC 6901) begins in a plan file;
/// where there is no such value, that of the nearest one around it. 0 for bytes that are not JSON.
int line_of(std::string_view bytes, std::string_view pointer);

}  // namespace starter
