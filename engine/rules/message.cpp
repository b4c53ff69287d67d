#include "rules/message.h"

namespace starter {
namespace {

/// Calls `plain` on the text between places and `place` on each place's name.
template <class Plain, class Place>
void walk(std::string_view text, Plain plain, Place place) {
  while (!text.empty()) {
    const auto open = text.find('{');
    const auto close = open == std::string_view::npos ? open : text.find('}', open);
    if (close == std::string_view::npos) {
      plain(text);
      return;
    }
    plain(text.substr(0, open));
    place(text.substr(open + 1, close - open - 1));
    text.remove_prefix(close + 1);
  }
}

}  // namespace

std::string fill_places(std::string_view text, const FillPlace& fill) {
  std::string out;
  walk(
      text, [&](std::string_view plain) { out += plain; },
      [&](std::string_view place) { out += fill(place).value_or("—"); });
  return out;
}

std::vector<std::string> places_in(std::string_view text) {
  std::vector<std::string> names;
  walk(
      text, [](std::string_view) {}, [&](std::string_view place) { names.emplace_back(place); });
  return names;
}

}  // namespace starter
