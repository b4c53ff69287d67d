#pragma once

/// \file
/// Words: the nearest known one to what was typed, and small helpers for text.

#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace starter {

/// The known word with the smallest edit distance (optimal string alignment, case folded) to
/// `typed`, if that distance is small enough for a slip of the fingers: at most a third of the
/// longer word's length, rounded up.
std::optional<std::string> nearest_word(std::string_view typed,
                                        std::span<const std::string_view> known);

/// Lower case of ASCII letters; other bytes as they are.
std::string lower_ascii(std::string_view text);

/// Whether the bytes are well-formed UTF-8 (RFC 3629).
bool valid_utf8(std::string_view bytes);

/// `text` in double quotes, control characters shown as escapes, cut to `most` characters with an
/// ellipsis, so that any bytes a person typed can stand in a message.
std::string quoted(std::string_view text, std::size_t most = 60);

}  // namespace starter
