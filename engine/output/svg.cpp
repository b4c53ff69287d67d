#include "output/svg.h"

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

}  // namespace starter
