#include "output/label.h"

#include "output/characters.h"

namespace starter {
namespace {

constexpr std::string_view ellipsis = "…";

/// Advances of the characters from space to tilde, in thousandths of the type size.
constexpr int advances[] = {
    318, 401, 460, 838, 636, 950, 780, 275, 390, 390, 500, 838, 318, 361,  318, 337, 636, 636, 636,
    636, 636, 636, 636, 636, 636, 636, 337, 337, 838, 838, 838, 531, 1000, 684, 686, 698, 770, 632,
    575, 775, 752, 295, 295, 656, 557, 863, 748, 787, 603, 787, 695, 635,  611, 732, 684, 989, 685,
    611, 685, 390, 337, 390, 838, 500, 500, 613, 635, 550, 635, 615, 352,  635, 634, 278, 278, 579,
    278, 974, 634, 612, 635, 635, 411, 521, 392, 634, 592, 818, 592, 592,  525, 636, 337, 636, 838};
constexpr double bolder = 1.12;        // DejaVu Sans Bold against the regular cut, the widest words
constexpr double other_advance = 0.8;  // Latin, Greek and Cyrillic average 0.61 to 0.69

/// The advance of one character with its marks, in type sizes.
double advance(std::string_view character) {
  const auto byte = static_cast<unsigned char>(character[0]);
  if (character.size() == 1 && byte >= 32 && byte < 127) return advances[byte - 32] / 1000.0;
  if (character == "\u00A0") return advances[0] / 1000.0;
  return other_advance * static_cast<double>(columns(character));
}

/// Where to end a line that begins at the start of `text`: bytes of the line, bytes up to the next.
struct Break {
  std::size_t line;
  std::size_t next;
};

Break break_of(std::string_view text, double width, double type, bool bold) {
  std::size_t at = 0;
  double used = 0;
  std::size_t space = std::string_view::npos;
  while (at < text.size()) {
    const std::size_t length = first_character(text.substr(at));
    const double wide = text_width(text.substr(at, length), type, bold);
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

/// Takes characters off the end until the ellipsis has room.
void end_in_ellipsis(std::string& line, double width, double type, bool bold) {
  while (!line.empty() && text_width(line + std::string(ellipsis), type, bold) > width) {
    std::size_t end = 0;
    for (std::size_t at = 0; at < line.size();
         at += first_character(std::string_view(line).substr(at)))
      end = at;
    line.resize(end);
  }
  line += ellipsis;
}

}  // namespace

double text_width(std::string_view text, double type, bool bold) {
  double width = 0;
  while (!text.empty()) {
    const std::size_t length = first_character(text);
    width += advance(text.substr(0, length));
    text.remove_prefix(length);
  }
  return width * type * (bold ? bolder : 1);
}

std::vector<std::string> label_lines(std::string_view typed, double width, std::size_t most,
                                     double type, bool bold) {
  const std::string text = visible(typed);
  std::vector<std::string> lines;
  std::string_view rest = text;
  do {
    if (lines.size() == most) {
      end_in_ellipsis(lines.back(), width, type, bold);
      break;
    }
    const Break cut = break_of(rest, width, type, bold);
    lines.emplace_back(rest.substr(0, cut.line));
    rest.remove_prefix(cut.next);
  } while (!rest.empty());
  return lines;
}

std::string xml_text(std::string_view text) {
  const std::string shown = visible(text);
  std::string out;
  out.reserve(shown.size());
  for (std::size_t i = 0; i < shown.size(); ++i) {
    switch (shown[i]) {
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
      default: {
        // U+FFFE and U+FFFF are no characters, and XML parsers refuse them.
        const std::string_view next = std::string_view(shown).substr(i, 3);
        if (next == "\xEF\xBF\xBE" || next == "\xEF\xBF\xBF") {
          out += next == "\xEF\xBF\xBE" ? "\\u{fffe}" : "\\u{ffff}";
          i += 2;
        } else {
          out += shown[i];
        }
      }
    }
  }
  return out;
}

std::string label_text(std::string_view text) {
  const std::string xml = xml_text(text);
  if (xml.empty()) return "&#160;";
  const bool only_spaces = xml.find_first_not_of(' ') == std::string::npos;
  std::string out;
  out.reserve(xml.size());
  for (const char c : xml) {
    if (c == ' ' && only_spaces)
      out += "&#160;";
    else if (c == '\\')
      out += "\\\\";
    else
      out += c;
  }
  return out;
}

}  // namespace starter
