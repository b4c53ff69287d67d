#pragma once

/// \file
/// Text as a terminal shows it: what each character does there and how wide it is.

#include <cstddef>
#include <string>
#include <string_view>

namespace starter {

/// `text` such that printing it can only print: white space of every kind is one space; control
/// characters (C0, DEL, C1), characters that hide or turn the reading direction, and bytes that are
/// no UTF-8 are shown as escapes ("\u{1b}", "\xff"). Whatever a member typed passes through here
/// before it reaches a terminal.
std::string visible(std::string_view text);

/// How many columns a terminal gives to `text`, which is what visible() returns. East Asian wide
/// characters and emoji take two, combining marks none (Unicode Standard Annex #11 and the general
/// category Mn, from memory; the blocks of the scripts people write names in).
std::size_t columns(std::string_view text);

/// Bytes of the first character of non-empty UTF-8 `text`, with the marks that join it.
std::size_t first_character(std::string_view text);

}  // namespace starter
