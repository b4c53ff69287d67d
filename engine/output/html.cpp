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
  css.set("markup", data(std::string(text_of(style_sheet))));
  into.set("css", css);
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
