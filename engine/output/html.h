#pragma once

/// \file
/// HTML pages from the templates in pages/ (Mustache, as its manual of 2009 to today describes it).
///
/// A template is named after its file, without the ending. Each may put in the others, and the
/// style sheet pages/page.css as {{{css.markup}}}. Whatever stands in `data` is shown as text: it
/// passes visible() and is escaped. Only a string under the key "markup" is put in as it is, by
/// three braces; it is markup of our own making, never a member's text. What a template puts
/// between
/// {{#coded}} and {{/coded}} is escaped as any text, and then shows names between backticks as
/// code.

#include <span>
#include <string>
#include <string_view>

#include "output/json.h"

namespace starter {

struct PageFile {
  std::string_view name;  ///< "sheet.mustache"
  std::string_view text;
};
/// The templates and the style sheet, by name.
std::span<const PageFile> page_files();

/// The page, or the part of one, that the template makes of `data`, an object. A section opens for
/// true, for a text that is not empty, for an object and for each element of a list. Beware: a
/// name that an inner object lacks is looked up in the outer ones, so every object has all its
/// keys. \throws std::logic_error for a name that no template has, for a template with a mistake,
/// and for
///         a number with a fraction in `data`: those are written with units before they come here.
std::string fill_page(std::string_view name, const Json& data);

}  // namespace starter
