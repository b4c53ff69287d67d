#pragma once

/// \file
/// Any text as a part of a label: how wide it is, broken into lines, and written so that it can
/// only be text.

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace starter {

/// How wide one line comes out in DejaVu Sans, in points, for type of `type` points: the advances
/// of that font for ASCII (measured from its version 2.37), and no less than the average for other
/// characters. Fonts of the same breed differ by a few per cent.
/// \pre `text` is what visible() returns
double text_width(std::string_view text, double type, bool bold = false);

/// `text` as visible() shows it, broken at spaces into lines of at most `width` points; a word that
/// is longer is broken where the line ends. More than `most` lines end in an ellipsis. Runs of
/// spaces stay as typed, except where a line is broken. Never empty.
std::vector<std::string> label_lines(std::string_view text, double width, std::size_t most,
                                     double type, bool bold = false);

/// `text`, as visible() shows it, as character data of XML: the characters that mean something
/// there are written as entities, and those that XML 1.0 does not allow at all as escapes
/// ("\u{ffff}").
std::string xml_text(std::string_view text);

/// `text` as a part of an HTML-like label of Graphviz: xml_text(), with backslashes doubled, since
/// Graphviz puts names in the place of "\N" and "\G" even there. A text of nothing but spaces,
/// which a label may not have, is written with no-break spaces.
std::string label_text(std::string_view text);

}  // namespace starter
