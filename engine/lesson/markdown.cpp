#include "lesson/markdown.h"

#include "output/characters.h"

namespace starter {
namespace {

std::string escaped(std::string_view text, std::string_view active) {
  std::string out;
  for (const char c : visible(text)) {
    if (active.find(c) != std::string_view::npos) out += '\\';
    out += c;
  }
  return out;
}

}  // namespace

std::string markdown_text(std::string_view text) {
  return escaped(text, "\\`*_[]<>&!#|~");
}

std::string markdown_prose(std::string_view text) {
  // Inside `code` a backslash would be shown, so only what stands outside is escaped.
  std::string out;
  while (!text.empty()) {
    const std::size_t open = text.find('`');
    const std::size_t close =
        open == std::string_view::npos ? std::string_view::npos : text.find('`', open + 1);
    if (close == std::string_view::npos) return out + markdown_text(text);
    out += markdown_text(text.substr(0, open));
    out += visible(text.substr(open, close - open + 1));
    text.remove_prefix(close + 1);
  }
  return out;
}

}  // namespace starter
