#pragma once

/// \file
/// CommonMark (published: CommonMark Spec 0.31.2, read by md4c) as a page and on a terminal. Raw
/// HTML in it is shown as text; pictures are shown by their words; what links point at is not
/// followed.

#include <string>
#include <string_view>

#include "output/page.h"

namespace starter {

/// HTML of our own making, to stand in a page. \throws std::bad_alloc
std::string prose_markup(std::string_view commonmark);

/// Paragraphs, headings, lists and quotations, wrapped to the page; emphasis is plain.
void prose_text(Page& page, std::string_view commonmark);

}  // namespace starter
