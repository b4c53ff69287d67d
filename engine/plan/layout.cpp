#include "plan/layout.h"

#include <string_view>

#include "plan/fields.h"
#include "plan/json.h"

namespace starter {
namespace {

constexpr std::size_t columns = 100;
constexpr std::size_t columns_of_entry = 120;  // a step reads best on one line

std::string plain(const Json& value) {
  return value.dump(-1, ' ', false, Json::error_handler_t::replace);
}

std::string on_one_line(const Json& value) {
  if (!value.is_structured()) return plain(value);
  const bool is_object = value.is_object();
  std::string line(1, is_object ? '{' : '[');
  for (auto item = value.begin(); item != value.end(); ++item) {
    if (item != value.begin()) line += ", ";
    if (is_object) line += plain(item.key()) + ": ";
    line += on_one_line(*item);
  }
  return line + (is_object ? '}' : ']');
}

bool is_catalogue(std::string_view name) {
  return name == "vessels" || name == "stages" || name == "steps";
}

enum class Fill { as_many_a_line_as_fit, one_a_line };

std::string laid_out(const Json& value, std::size_t indent, Fill fill,
                     std::size_t widest = columns);

/// One item as it stands after its name: on one line if it fits there.
std::string item_text(const Json& item, std::string_view name, std::size_t indent, std::size_t used,
                      std::size_t widest) {
  std::string line = on_one_line(item);
  // One column is for the comma after it.
  const bool fits = indent + used + count_characters(line) + 1 <= widest;
  const bool must_open = is_catalogue(name) && item.is_structured() && !item.empty();
  if (!item.is_structured() || (fits && !must_open)) return line;
  return must_open ? laid_out(item, indent, Fill::one_a_line, columns_of_entry)
                   : laid_out(item, indent, Fill::as_many_a_line_as_fit);
}

/// `value`, a list or object, opened over several lines; its closing bracket stands at `indent`.
/// An item that fits into `widest` columns is not opened.
std::string laid_out(const Json& value, std::size_t indent, Fill fill, std::size_t widest) {
  const bool is_object = value.is_object();
  const std::size_t inside = indent + 2;
  const std::string new_line = '\n' + std::string(inside, ' ');
  std::string text(1, is_object ? '{' : '[');
  std::size_t column = 0;
  bool last_was_flat = false;
  for (auto item = value.begin(); item != value.end(); ++item) {
    const bool is_first = item == value.begin();
    const std::string name = is_object ? plain(item.key()) + ": " : "";
    const std::string body = item_text(*item, is_object ? std::string_view(item.key()) : "", inside,
                                       count_characters(name), widest);
    const bool flat = body.find('\n') == std::string::npos;
    const std::size_t width = count_characters(name) + count_characters(body) + 1;
    const bool same_line = fill == Fill::as_many_a_line_as_fit && !is_first && flat &&
                           last_was_flat && column + 1 + width <= columns;
    if (!is_first) text += ',';
    text += same_line ? " " : new_line;
    column = same_line ? column + 1 + width : inside + width;
    text += name + body;
    last_was_flat = flat;
  }
  return text + '\n' + std::string(indent, ' ') + (is_object ? '}' : ']');
}

}  // namespace

std::string lay_out(const Json& plan) {
  if (!plan.is_structured() || plan.empty()) return on_one_line(plan) + '\n';
  return laid_out(plan, 0, Fill::one_a_line) + '\n';
}

}  // namespace starter
