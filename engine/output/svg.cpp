#include "output/svg.h"

#include <algorithm>

#include "output/label.h"

namespace starter {
namespace {

/// Without comments; Graphviz writes the names of nodes into them.
std::string without_comments(std::string_view svg) {
  std::string out;
  out.reserve(svg.size());
  while (true) {
    const std::size_t begin = svg.find("<!--");
    out += svg.substr(0, begin);
    if (begin == std::string_view::npos) return out;
    const std::size_t end = svg.find("-->", begin);
    if (end == std::string_view::npos) return out;
    svg.remove_prefix(end + 3);
    if (!svg.empty() && svg[0] == '\n') svg.remove_prefix(1);
  }
}

/// Without `<title>` elements and `id`s; texts are escaped, so neither can stand in one.
std::string without_names(std::string_view svg) {
  constexpr std::string_view title = "<title>", title_end = "</title>\n", id = " id=\"";
  std::string out;
  out.reserve(svg.size());
  while (!svg.empty()) {
    const std::size_t at = std::min(svg.find(title), svg.find(id));
    out += svg.substr(0, at);
    if (at == std::string_view::npos) return out;
    svg.remove_prefix(at);
    const bool is_title = svg.starts_with(title);
    const std::size_t end = is_title ? svg.find(title_end) : svg.find('"', id.size());
    if (end == std::string_view::npos) return out;
    svg.remove_prefix(end + (is_title ? title_end.size() : 1));
  }
  return out;
}

/// Puts `id` before every name in the quoted list `names`, where that stands in `markup`. Texts
/// hold no bare quotes, so it cannot stand in one.
void prefix_names(std::string& markup, std::string_view names, std::string_view id) {
  const std::size_t at = markup.find(names);
  if (at == std::string::npos) return;
  std::string with;
  for (const char c : names) {
    with += c;
    if (c == ' ' || (c == '"' && with.size() == 1)) with += id;
  }
  markup.replace(at, names.size(), with);
}

}  // namespace

std::string stand_alone_svg(std::string_view svg, std::string_view title, std::string_view about) {
  const std::size_t begin = svg.find("<svg");
  const std::size_t end = begin == std::string_view::npos ? begin : svg.find('>', begin);
  if (end == std::string_view::npos) return std::string(svg);
  std::string out = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n";
  out += svg.substr(begin, end - begin);
  out +=
      " role=\"img\" lang=\"en-GB\" xml:lang=\"en-GB\" "
      "aria-labelledby=\"picture-title picture-desc\">\n";
  out += "<title id=\"picture-title\">" + xml_text(title) + "</title>\n";
  out += "<desc id=\"picture-desc\">" + xml_text(about) + "</desc>\n";
  std::string rest = without_comments(svg.substr(end + 1));
  if (!rest.empty() && rest[0] == '\n') rest.erase(0, 1);
  return out + rest;
}

std::string inline_svg(std::string_view svg, std::string_view id) {
  const std::size_t begin = svg.find("<svg");
  if (begin == std::string_view::npos) return "";
  // Our own title and description come first; what follows them is Graphviz's.
  constexpr std::string_view last_of_ours = "</desc>\n";
  const std::size_t ours = svg.find(last_of_ours, begin);
  if (ours == std::string_view::npos) return "";
  std::string head(svg.substr(begin, ours + last_of_ours.size() - begin));
  if (!id.empty())
    for (const std::string_view ours_named :
         {"\"picture-title picture-desc\"", "\"picture-title\"", "\"picture-desc\""})
      prefix_names(head, ours_named, id);
  return head + without_names(svg.substr(ours + last_of_ours.size()));
}

}  // namespace starter
