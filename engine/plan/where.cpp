#include "plan/where.h"

#include <algorithm>
#include <charconv>
#include <cstddef>
#include <string>

#include "plan/document.h"

namespace starter {
namespace {

/// A reference token of RFC 6901 with its escapes undone.
std::string unescaped(std::string_view token) {
  std::string out;
  for (std::size_t i = 0; i < token.size(); ++i) {
    if (token[i] == '~' && i + 1 < token.size())
      out += token[++i] == '1' ? '/' : '~';
    else
      out += token[i];
  }
  return out;
}

}  // namespace

int line_of(std::string_view bytes, std::string_view pointer) {
  Report report;
  const auto document = read_document(bytes, report);
  if (!document) return 0;
  const Node* node = &*document;
  int line = node->at.line;
  while (!pointer.empty()) {
    pointer.remove_prefix(1);  // the slash
    const auto end = std::min(pointer.find('/'), pointer.size());
    const std::string token = unescaped(pointer.substr(0, end));
    pointer.remove_prefix(end);
    if (node->kind == Node::Kind::object) {
      const auto member = std::find_if(node->members.begin(), node->members.end(),
                                       [&](const Member& m) { return m.name == token; });
      if (member == node->members.end()) break;
      node = &member->value;
      line = member->at.line;
    } else {
      std::size_t index = 0;
      const auto read = std::from_chars(token.data(), token.data() + token.size(), index);
      if (read.ec != std::errc{} || index >= node->items.size()) break;
      node = &node->items[index];
      line = node->at.line;
    }
  }
  return line;
}

}  // namespace starter
