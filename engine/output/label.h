#pragma once

/// \file
/// Any text as a part of a label: broken into lines, and written so that it can only be text.

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace starter {

/// `text` as visible() shows it, broken at spaces into lines of at most `width` columns; a word
/// that is longer is broken where the line ends. More than `most` lines end in an ellipsis.
/// Runs of spaces stay as typed, except where a line is broken. Never empty.
std::vector<std::string> label_lines(std::string_view text, std::size_t width, std::size_t most);

/// `text` as character data of an HTML-like label or of XML: the characters that mean something
/// there are written as entities, and those that XML 1.0 does not allow at all as escapes
/// ("\u{ffff}"). In an HTML-like label no backslash escape (\N, \G, \l) means anything, so none
/// has to be taken care of. A text of nothing but spaces, which a label may not have, is written
/// with no-break spaces.
std::string label_text(std::string_view text);

}  // namespace starter
