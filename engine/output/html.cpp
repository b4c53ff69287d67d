#include "output/html.h"

#include <algorithm>
#include <kainjow/mustache.hpp>
#include <stdexcept>

#include "output/label.h"

namespace starter {
namespace {

using kainjow::mustache::data;
using kainjow::mustache::mustache;
using kainjow::mustache::partial;

constexpr std::string_view template_ending = ".mustache";
constexpr std::string_view colours = "colours.css";
constexpr std::string_view style_sheet = "page.css";

data filling(const Json& value) {
  switch (value.type()) {
    case Json::value_t::object: {
      data object(data::type::object);
      for (const auto& [key, inner] : value.items()) object.set(key, filling(inner));
      return object;
    }
    case Json::value_t::array: {
      data list(data::type::list);
      for (const Json& inner : value) list.push_back(filling(inner));
      return list;
    }
    case Json::value_t::string: {
      const auto& text = value.get_ref<const std::string&>();
      return text.empty() ? data(false) : data(text);
    }
    case Json::value_t::boolean:
      return data(value.get<bool>());
    case Json::value_t::number_integer:
    case Json::value_t::number_unsigned:
      return data(value.dump());
    case Json::value_t::null:
      return data(false);
    default:
      throw std::logic_error("a page is given a number that is not written for people");
  }
}

/// Escaped text with what stands between two backticks as code: `growth_time` of `measured`. It is
/// given escaped text alone, and adds no more than the element, so no text can become markup.
std::string with_code(std::string_view escaped) {
  std::string out;
  while (true) {
    const std::size_t open = escaped.find('`');
    const std::size_t close = open == std::string_view::npos ? open : escaped.find('`', open + 1);
    if (close == std::string_view::npos) return out + std::string(escaped);
    out += std::string(escaped.substr(0, open)) + "<code>" +
           std::string(escaped.substr(open + 1, close - open - 1)) + "</code>";
    escaped.remove_prefix(close + 1);
  }
}

std::string_view text_of(std::string_view file) {
  for (const PageFile& page : page_files())
    if (page.name == file) return page.text;
  throw std::logic_error("there is no page file " + std::string(file));
}

/// What every template may put in.
void add_parts(data& into) {
  for (const PageFile& page : page_files()) {
    if (!page.name.ends_with(template_ending)) continue;
    const std::string name(page.name.substr(0, page.name.size() - template_ending.size()));
    into.set(name, partial([text = page.text] { return std::string(text); }));
  }
  data css(data::type::object);
  css.set("markup", data(std::string(text_of(colours)) + std::string(text_of(style_sheet))));
  into.set("css", css);
  into.set("coded", data(kainjow::mustache::lambda2(
                        [](const std::string& text, const kainjow::mustache::renderer& fill) {
                          return with_code(fill(text, false));
                        })));
}

}  // namespace

std::string fill_page(std::string_view name, const Json& content) {
  mustache page(std::string(text_of(std::string(name) + std::string(template_ending))));
  page.set_custom_escape([](const std::string& text) { return xml_text(text); });
  data all = filling(content);
  add_parts(all);
  std::string out = page.render(all);
  if (!page.is_valid())
    throw std::logic_error("the page " + std::string(name) + ": " + page.error_message());
  return out;
}

}  // namespace starter
