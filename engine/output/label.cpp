#include "output/label.h"

#include "output/characters.h"

namespace starter {
namespace {

constexpr std::string_view ellipsis = "…";

/// Where to end a line that begins at the start of `text`: bytes of the line, bytes up to the next.
struct Break {
  std::size_t line;
  std::size_t next;
};

Break break_of(std::string_view text, std::size_t width) {
  std::size_t at = 0, used = 0;
  std::size_t space = std::string_view::npos;
  while (at < text.size()) {
    const std::size_t length = first_character(text.substr(at));
    const std::size_t wide = columns(text.substr(at, length));
    if (text[at] == ' ' && at > 0 && text[at - 1] != ' ') space = at;
    if (used + wide > width && at > 0) {
      if (space == std::string_view::npos) return {at, at};
      std::size_t next = space;
      while (next < text.size() && text[next] == ' ') ++next;
      return {space, next};
    }
    used += wide;
    at += length;
  }
  return {text.size(), text.size()};
}

/// U+FFFE and U+FFFF, in every plane: no characters, and refused by XML parsers in the first.
bool is_no_character(std::string_view c) {
  if (c.size() == 3) return c == "\xEF\xBF\xBE" || c == "\xEF\xBF\xBF";
  return false;
}

}  // namespace

std::vector<std::string> label_lines(std::string_view typed, std::size_t width, std::size_t most) {
  const std::string text = visible(typed);
  std::vector<std::string> lines;
  std::string_view rest = text;
  do {
    if (lines.size() == most) {
      std::string& last = lines.back();
      while (!last.empty() && columns(last) + 1 > width) {
        std::size_t end = 0;
        for (std::size_t at = 0; at < last.size();
             at += first_character(std::string_view(last).substr(at)))
          end = at;
        last.resize(end);
      }
      last += ellipsis;
      break;
    }
    const Break cut = break_of(rest, width);
    lines.emplace_back(rest.substr(0, cut.line));
    rest.remove_prefix(cut.next);
  } while (!rest.empty());
  return lines;
}

std::string label_text(std::string_view text) {
  const std::string shown = visible(text);
  const bool only_spaces = shown.find_first_not_of(' ') == std::string::npos;
  std::string out;
  out.reserve(shown.size());
  std::string_view rest = shown;
  if (rest.empty()) return "&#160;";
  while (!rest.empty()) {
    switch (rest[0]) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      case '\'':
        out += "&#39;";
        break;
      case ' ':
        out += only_spaces ? "&#160;" : " ";
        break;
      default: {
        // visible() gives well-formed UTF-8, so the length is in the first byte.
        const auto byte = static_cast<unsigned char>(rest[0]);
        const std::size_t length = byte < 0x80 ? 1 : byte < 0xE0 ? 2 : byte < 0xF0 ? 3 : 4;
        const std::string_view c = rest.substr(0, length);
        if (is_no_character(c))
          out += c == "\xEF\xBF\xBE" ? "\\u{fffe}" : "\\u{ffff}";
        else
          out += c;
        rest.remove_prefix(c.size() - 1);
      }
    }
    rest.remove_prefix(1);
  }
  return out;
}

}  // namespace starter
