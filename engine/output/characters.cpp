#include "output/characters.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>

#include "quantity/words.h"

namespace starter {
namespace {

struct Span {
  char32_t from, to;
};

bool within(const Span* first, const Span* last, char32_t c) {
  return std::any_of(first, last, [c](const Span& s) { return s.from <= c && c <= s.to; });
}

constexpr Span no_width[] = {
    {0x0300, 0x036F}, {0x0483, 0x0489}, {0x0591, 0x05BD},   {0x05BF, 0x05BF},  {0x05C1, 0x05C2},
    {0x05C4, 0x05C5}, {0x0610, 0x061A}, {0x064B, 0x065F},   {0x0670, 0x0670},  {0x06D6, 0x06DC},
    {0x06DF, 0x06E4}, {0x0900, 0x0902}, {0x093C, 0x093C},   {0x0941, 0x0948},  {0x094D, 0x094D},
    {0x0E31, 0x0E31}, {0x0E34, 0x0E3A}, {0x0E47, 0x0E4E},   {0x1AB0, 0x1AFF},  {0x1DC0, 0x1DFF},
    {0x200B, 0x200F}, {0x2060, 0x2064}, {0x20D0, 0x20FF},   {0x302A, 0x302D},  {0x3099, 0x309A},
    {0xFE00, 0xFE0F}, {0xFE20, 0xFE2F}, {0x1F3FB, 0x1F3FF}, {0xE0100, 0xE01EF}};

constexpr Span two_columns[] = {{0x1100, 0x115F},   {0x2E80, 0x303E},   {0x3041, 0x33FF},
                                {0x3400, 0x4DBF},   {0x4E00, 0x9FFF},   {0xA000, 0xA4CF},
                                {0xA960, 0xA97C},   {0xAC00, 0xD7A3},   {0xF900, 0xFAFF},
                                {0xFE30, 0xFE6F},   {0xFF00, 0xFF60},   {0xFFE0, 0xFFE6},
                                {0x1F300, 0x1F3FA}, {0x1F400, 0x1F64F}, {0x1F680, 0x1F6FF},
                                {0x1F900, 0x1F9FF}, {0x1FA70, 0x1FAFF}, {0x20000, 0x3FFFD}};

/// Characters that hide or turn the reading direction of what follows them.
constexpr Span unsafe[] = {{0x00, 0x1F},     {0x7F, 0x9F},      {0x200B, 0x200B}, {0x200E, 0x200F},
                           {0x2028, 0x202E}, {0x2060, 0x2064},  {0x2066, 0x206F}, {0xFEFF, 0xFEFF},
                           {0xFFF9, 0xFFFB}, {0xE0000, 0xE007F}};

constexpr char32_t joiner = 0x200D;

/// Bytes that the first byte of a well-formed sequence promises.
std::size_t length_by(char first) {
  const auto byte = static_cast<unsigned char>(first);
  return byte < 0x80 ? 1 : byte < 0xE0 ? 2 : byte < 0xF0 ? 3 : 4;
}

/// The first character of well-formed, non-empty UTF-8.
char32_t code_of(std::string_view text) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  const std::size_t length = length_by(text[0]);
  if (length == 1) return byte(0);
  char32_t code = byte(0) & (0xFFu >> (length + 1));
  for (std::size_t i = 1; i < length; ++i) code = code << 6 | (byte(i) & 0x3Fu);
  return code;
}

/// The bytes of the first character when it is well formed; 0 when it is not.
std::size_t well_formed(std::string_view text) {
  const std::size_t length = std::min(length_by(text[0]), text.size());
  return valid_utf8(text.substr(0, length)) ? length : 0;
}

bool is_space(char32_t c) {
  return c == U' ' || (c >= U'\t' && c <= U'\r') || c == 0x85 || c == 0x2028 || c == 0x2029;
}

}  // namespace

std::string visible(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  while (!text.empty()) {
    const std::size_t length = well_formed(text);
    if (length == 0) {
      out += fmt::format("\\x{:02x}", static_cast<unsigned>(static_cast<unsigned char>(text[0])));
      text.remove_prefix(1);
      continue;
    }
    const char32_t c = code_of(text);
    if (is_space(c))
      out += ' ';
    else if (within(std::begin(unsafe), std::end(unsafe), c))
      out += fmt::format("\\u{{{:x}}}", static_cast<unsigned>(c));
    else
      out += text.substr(0, length);
    text.remove_prefix(length);
  }
  return out;
}

std::size_t columns(std::string_view text) {
  std::size_t count = 0;
  while (!text.empty()) {
    const char32_t c = code_of(text);
    if (within(std::begin(two_columns), std::end(two_columns), c))
      count += 2;
    else if (!within(std::begin(no_width), std::end(no_width), c))
      count += 1;
    text.remove_prefix(std::min(length_by(text[0]), text.size()));
  }
  return count;
}

std::size_t first_character(std::string_view text) {
  std::size_t end = std::min(length_by(text[0]), text.size());
  bool joined = false;
  while (end < text.size()) {
    const char32_t next = code_of(text.substr(end));
    if (!joined && !within(std::begin(no_width), std::end(no_width), next)) break;
    joined = next == joiner;
    end = std::min(end + length_by(text[end]), text.size());
  }
  return end;
}

}  // namespace starter
