#pragma once

/// \file
/// Text put into a CommonMark page (published: CommonMark Spec 0.31.2, section 2.4, backslash
/// escapes).

#include <string>
#include <string_view>

namespace starter {

/// `text` on one line such that CommonMark shows it as it is: whatever could begin emphasis, code,
/// a link, an image, HTML or an entity is escaped. What a person typed passes visible() first.
std::string markdown_text(std::string_view text);

/// The same for a text of the catalogue, in which `code` is meant.
std::string markdown_prose(std::string_view text);

}  // namespace starter
