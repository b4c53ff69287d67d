#include "quantity/words.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <vector>

namespace starter {
namespace {

/// One character of a text, or one byte that is not part of any.
struct Character {
  char32_t code = 0;       ///< the code point; the byte itself when not well formed
  std::size_t length = 1;  ///< in bytes
  bool well_formed = false;
};

unsigned byte_at(std::string_view text, std::size_t at) {
  return static_cast<unsigned char>(text[at]);
}

/// What the first byte of a sequence promises (RFC 3629, section 3 and its table in section 4:
/// overlong forms, surrogates and code points past U+10FFFF are not well formed).
struct Lead {
  std::size_t length;
  char32_t bits;
  char32_t least;
};

Lead lead_of(unsigned byte) {
  if (byte < 0x80) return {1, byte, 0};
  if (byte >= 0xC2 && byte <= 0xDF) return {2, byte & 0x1F, 0x80};
  if (byte >= 0xE0 && byte <= 0xEF) return {3, byte & 0x0F, 0x800};
  if (byte >= 0xF0 && byte <= 0xF4) return {4, byte & 0x07, 0x10000};
  return {0, 0, 0};
}

/// \pre `at` is inside `text`.
Character character_at(std::string_view text, std::size_t at) {
  const Lead lead = lead_of(byte_at(text, at));
  const Character broken{byte_at(text, at), 1, false};
  if (lead.length == 0 || text.size() - at < lead.length) return broken;
  char32_t code = lead.bits;
  for (std::size_t i = 1; i < lead.length; ++i) {
    const unsigned next = byte_at(text, at + i);
    if ((next & 0xC0) != 0x80) return broken;
    code = code << 6 | (next & 0x3F);
  }
  const bool surrogate = code >= 0xD800 && code <= 0xDFFF;
  if (code < lead.least || code > 0x10FFFF || surrogate) return broken;
  return {code, lead.length, true};
}

/// The code points of `text`, ASCII letters in lower case. A broken byte stands as a code of its
/// own that no character has.
std::u32string folded(std::string_view text) {
  std::u32string out;
  for (std::size_t at = 0; at < text.size();) {
    const Character c = character_at(text, at);
    const bool upper = c.code >= U'A' && c.code <= U'Z';
    constexpr char32_t past_unicode = 0x110000;
    out += c.well_formed ? (upper ? c.code + 32 : c.code) : past_unicode + c.code;
    at += c.length;
  }
  return out;
}

/// Insertions, deletions, substitutions and swaps of neighbours that turn `a` into `b`, no part
/// edited twice (optimal string alignment).
std::size_t edits(const std::u32string& a, const std::u32string& b) {
  const std::size_t width = b.size() + 1;
  std::vector<std::size_t> before(width);
  std::vector<std::size_t> last(width);
  std::vector<std::size_t> row(width);
  for (std::size_t j = 0; j < width; ++j) last[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    row[0] = i;
    for (std::size_t j = 1; j < width; ++j) {
      const std::size_t change = a[i - 1] == b[j - 1] ? 0 : 1;
      row[j] = std::min({last[j] + 1, row[j - 1] + 1, last[j - 1] + change});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
        row[j] = std::min(row[j], before[j - 2] + 1);
    }
    std::swap(before, last);
    std::swap(last, row);
  }
  return last[b.size()];
}

/// Characters that would break a line, hide, or turn the reading direction of a message.
bool invisible(char32_t c) {
  struct Span {
    char32_t from, to;
  };
  constexpr std::array<Span, 9> spans = {{{0x00, 0x1F},
                                          {0x7F, 0x9F},
                                          {0x200B, 0x200B},
                                          {0x200E, 0x200F},
                                          {0x2028, 0x202E},
                                          {0x2066, 0x2069},
                                          {0xFEFF, 0xFEFF},
                                          {0xFFF9, 0xFFFB},
                                          {0xE0000, 0xE007F}}};
  return std::any_of(spans.begin(), spans.end(),
                     [c](const Span& s) { return s.from <= c && c <= s.to; });
}

std::string shown(std::string_view bytes, const Character& c) {
  if (!c.well_formed) return fmt::format("\\x{:02x}", static_cast<unsigned>(c.code));
  switch (c.code) {
    case U'\n':
      return "\\n";
    case U'\r':
      return "\\r";
    case U'\t':
      return "\\t";
    case U'"':
      return "\\\"";
    case U'\\':
      return "\\\\";
    default:
      break;
  }
  if (invisible(c.code)) return fmt::format("\\u{{{:x}}}", static_cast<unsigned>(c.code));
  return std::string(bytes);
}

}  // namespace

std::optional<std::string> nearest_word(std::string_view typed,
                                        std::span<const std::string_view> known) {
  if (typed.empty()) return std::nullopt;
  const std::u32string wanted = folded(typed);
  std::optional<std::string> nearest;
  std::size_t fewest = 0;
  for (const std::string_view word : known) {
    const std::u32string candidate = folded(word);
    const std::size_t shorter = std::min(wanted.size(), candidate.size());
    const std::size_t longer = std::max(wanted.size(), candidate.size());
    const std::size_t allowed = (longer + 2) / 3;
    if (longer - shorter > allowed) continue;  // also keeps an absurdly long text cheap
    const std::size_t distance = edits(wanted, candidate);
    if (distance > allowed || (nearest && distance >= fewest)) continue;
    nearest = std::string(word);
    fewest = distance;
  }
  return nearest;
}

std::string lower_ascii(std::string_view text) {
  std::string out(text);
  for (char& c : out)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return out;
}

bool valid_utf8(std::string_view bytes) {
  for (std::size_t at = 0; at < bytes.size();) {
    const Character c = character_at(bytes, at);
    if (!c.well_formed) return false;
    at += c.length;
  }
  return true;
}

std::string quoted(std::string_view text, std::size_t most) {
  std::string out = "\"";
  std::size_t count = 0;
  for (std::size_t at = 0; at < text.size(); ++count) {
    if (count == most) {
      out += "\u2026";
      break;
    }
    const Character c = character_at(text, at);
    out += shown(text.substr(at, c.length), c);
    at += c.length;
  }
  return out + '"';
}

}  // namespace starter
