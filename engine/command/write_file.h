#pragma once

/// \file
/// Writing a whole file, or leaving what was there.

#include <optional>
#include <string>
#include <string_view>

namespace starter {

/// Writes `bytes` to a file beside the named one and then gives it that name, so that a reader
/// finds the old file or the new one, never half. A link is followed; a pipe or a device is written
/// to. \return why it could not be written, as the end of a sentence; nothing when it was
std::optional<std::string> write_file(const std::string& name, std::string_view bytes);

/// Whether two names are the same file that exists.
bool same_file(const std::string& a, const std::string& b);

}  // namespace starter
