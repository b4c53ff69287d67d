#pragma once

/// \file
/// An SVG picture made to stand alone.

#include <string>
#include <string_view>

namespace starter {

/// The picture that Graphviz wrote, without the outside document type it points at and without
/// comments, and with a title, a description in words, a language and the role of a picture, for
/// screen readers and for pages that it is put into.
/// \pre `svg` is what Graphviz writes; a text without an svg element is given back as it is.
std::string stand_alone_svg(std::string_view svg, std::string_view title, std::string_view about);

/// The same picture to stand inside an HTML page: without the XML declaration, without the names
/// that Graphviz gives its parts (a browser would show them as tips), and with `id` before its own.
/// \pre `svg` is what stand_alone_svg() gives.
std::string inline_svg(std::string_view svg, std::string_view id = "");

}  // namespace starter
