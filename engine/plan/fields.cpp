#include "plan/fields.h"

#include <cmath>
#include <functional>
#include <utility>

#include "plan/pointer.h"
#include "plan/shape.h"
#include "quantity/words.h"

namespace starter {
namespace {

bool continues_character(char c) {
  return (static_cast<unsigned char>(c) & 0xC0) == 0x80;
}

/// The first control character that is no line end or tab; its bytes. C0, delete and C1 (Unicode
/// U+0000–1F, 7F–9F): a terminal may obey them.
std::string_view first_control(std::string_view text) {
  for (std::size_t i = 0; i < text.size(); ++i) {
    const auto byte = static_cast<unsigned char>(text[i]);
    const bool allowed = text[i] == '\n' || text[i] == '\r' || text[i] == '\t';
    if ((byte < 0x20 && !allowed) || byte == 0x7F) return text.substr(i, 1);
    if (byte == 0xC2 && i + 1 < text.size() && static_cast<unsigned char>(text[i + 1]) < 0xA0)
      return text.substr(i, 2);
  }
  return {};
}

bool is_blank(std::string_view text) {
  return text.find_first_not_of(" \t\r\n") == std::string_view::npos;
}

bool contains(std::span<const std::string_view> words, std::string_view word) {
  for (const auto known : words)
    if (known == word) return true;
  return false;
}

/// Where fields of that name belong: "/beer or a stage"; empty when nowhere.
std::string home_of(std::string_view name, std::span<const shape::Object> objects) {
  std::vector<std::string_view> homes;
  for (const auto& object : objects)
    if (contains(object.fields, name)) homes.push_back(object.called);
  return homes.empty() ? "" : one_of(homes);
}

}  // namespace

std::size_t count_characters(std::string_view text) {
  std::size_t count = 0;
  for (const char c : text)
    if (!continues_character(c)) ++count;
  return count;
}

std::string one_of(std::span<const std::string_view> words) {
  std::string joined;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0) joined += i + 1 == words.size() ? " or " : ", ";
    joined += words[i];
  }
  return joined;
}

std::string described(const Node& node) {
  switch (node.kind) {
    case Node::Kind::null:
      return "null";
    case Node::Kind::boolean:
      return node.truth ? "true" : "false";
    case Node::Kind::number:
      return "the number " + short_number(node);
    case Node::Kind::text:
      return "the text " + starter::quoted(node.text);
    case Node::Kind::list:
      return "a list";
    case Node::Kind::object:
      return "an object";
  }
  return "something else";
}

bool check_text(std::string_view text, const std::string& where, Position at, Report& report) {
  if (const auto characters = count_characters(text); characters > most_characters) {
    report.add(where, at,
               "this text has " + std::to_string(characters) + " characters; at most " +
                   std::to_string(most_characters) + " are read",
               "shorten it");
    return false;
  }
  if (const auto control = first_control(text); !control.empty()) {
    report.add(where, at, "this text holds the control character " + starter::quoted(control),
               "take it out");
    return false;
  }
  return true;
}

bool check_name(std::string_view text, const std::string& where, Position at, Report& report) {
  if (is_blank(text)) {
    report.add(where, at, "this is blank; a name is wanted here", "a name");
    return false;
  }
  return check_text(text, where, at, report);
}

std::string short_number(const Node& number) {
  constexpr std::size_t most = 30;
  return number.text.size() <= most ? number.text : number.text.substr(0, most) + "…";
}

Fields::Fields(const Node* object, std::string where, std::span<const std::string_view> known,
               Report& report, std::span<const shape::Object> homes)
    : object_(object), where_(std::move(where)), report_(report), homes_(homes) {
  if (object_ == nullptr) return;
  for (const auto& member : object_->members)
    if (!contains(known, member.name)) report_unknown(member, known);
}

void Fields::report_unknown(const Member& member, std::span<const std::string_view> known) {
  const auto nearest = nearest_word(member.name, known);
  const std::string home = home_of(member.name, homes_);
  std::string says = "there is no field " + starter::quoted(member.name) + " here";
  if (!home.empty()) says += "; " + starter::quoted(member.name) + " belongs in " + home;
  std::string write;
  if (nearest) {
    misspelt_.insert(*nearest);
    write = *nearest;
  } else if (!home.empty()) {
    write = "move it to " + home;
  } else {
    write = one_of(known);
  }
  report_.add(pointer_to(where_, member.name), member.at, std::move(says), std::move(write));
}

const Node* Fields::find(std::string_view name) const {
  return object_ == nullptr ? nullptr : object_->find(name);
}

std::string Fields::where(std::string_view name) const {
  return pointer_to(where_, name);
}

void Fields::ask_for(std::string_view name, std::string_view is, std::string write) const {
  if (object_ == nullptr || has(name) || is_misspelt(name)) return;
  report_.add(where(name), object_->at,
              starter::quoted(name) + " is missing; it is " + std::string(is), std::move(write));
}

void Fields::wrong(std::string_view name, std::string says, std::string write) const {
  const Node* node = find(name);
  report_.add(where(name), node == nullptr ? Position{} : node->at, std::move(says),
              std::move(write));
}

const Node* Fields::text_node(std::string_view name, std::string_view wanted,
                              std::string_view example) const {
  const Node* node = find(name);
  if (node == nullptr) return nullptr;
  if (node->kind != Node::Kind::text) {
    wrong(name, described(*node) + " stands here; wanted is " + std::string(wanted),
          node->kind == Node::Kind::null ? "leave it out, or write \"" + std::string(example) + '"'
                                         : '"' + std::string(example) + '"');
    return nullptr;
  }
  return check_text(node->text, where(name), node->at, report_) ? node : nullptr;
}

std::optional<std::string_view> Fields::quantity_text(std::string_view name,
                                                      std::string_view called,
                                                      std::string_view example) const {
  const Node* node = text_node(name, std::string(called) + " with its unit", example);
  if (node == nullptr) return std::nullopt;
  return std::string_view(node->text);
}

void Fields::report_bare_number(std::string_view name, const Node& number, std::string_view called,
                                std::string_view with_unit) const {
  wrong(name,
        "the number " + short_number(number) + " has no unit; this is " + std::string(called) +
            ", written as a text with its unit",
        '"' + std::string(with_unit) + '"');
}

void Fields::report_misfit(std::string_view name, std::string_view typed, std::string_view called,
                           std::string_view bounds, std::string_view example) const {
  wrong(name,
        starter::quoted(typed) + " cannot stand here; " + std::string(called) + " is " +
            std::string(bounds),
        std::string(example));
}

void Fields::report_word(std::string_view name, std::string_view typed,
                         const std::vector<std::string_view>& words) const {
  const auto nearest = nearest_word(typed, words);
  wrong(name,
        starter::quoted(typed) + " is not a word that " + starter::quoted(name) +
            " takes: " + one_of(words),
        nearest ? *nearest : one_of(words));
}

std::optional<std::string> Fields::text(std::string_view name) const {
  const Node* node = text_node(name, "a text", "...");
  if (node == nullptr) return std::nullopt;
  return node->text;
}

std::optional<std::string> Fields::name(std::string_view field) const {
  const Node* node = find(field);
  if (node != nullptr && node->kind == Node::Kind::text && is_blank(node->text)) {
    check_name(node->text, where(field), node->at, report_);
    return std::nullopt;
  }
  return text(field);
}

std::optional<std::vector<std::string>> Fields::names(std::string_view field) const {
  const Node* node = find(field);
  if (node == nullptr) return std::nullopt;
  std::vector<std::string> read;
  if (node->kind != Node::Kind::list) {
    const Node* single = text_node(field, "a text or a list of texts", "...");
    if (single != nullptr && check_name(single->text, where(field), single->at, report_))
      read.push_back(single->text);
    return read;
  }
  for (std::size_t i = 0; i < node->items.size(); ++i) {
    const Node& item = node->items[i];
    const std::string place = pointer_to(where(field), i);
    if (item.kind != Node::Kind::text)
      report_.add(place, item.at, described(item) + " stands here; wanted is a text", "\"...\"");
    else if (check_name(item.text, place, item.at, report_))
      read.push_back(item.text);
  }
  return read;
}

std::optional<int> Fields::whole_number(std::string_view name, int least, int most) const {
  const Node* node = find(name);
  if (node == nullptr) return std::nullopt;
  const std::string span = std::to_string(least) + " to " + std::to_string(most);
  if (node->kind != Node::Kind::number) {
    const auto typed = node->kind == Node::Kind::text ? read_number(node->text) : std::nullopt;
    const bool stands = typed && *typed >= least && *typed <= most && std::floor(*typed) == *typed;
    wrong(name,
          described(*node) + " stands here; wanted is a whole number, " + span + ", without quotes",
          std::to_string(stands ? static_cast<int>(*typed) : least));
    return std::nullopt;
  }
  const double number = node->number;
  if (!(number >= least && number <= most) || std::floor(number) != number) {
    const double nearest = number < least ? least : number > most ? most : std::floor(number + 0.5);
    wrong(name, described(*node) + " cannot stand here; wanted is a whole number, " + span,
          std::to_string(static_cast<int>(nearest)));
    return std::nullopt;
  }
  return static_cast<int>(number);
}

std::optional<bool> Fields::yes_or_no(std::string_view name) const {
  const Node* node = find(name);
  if (node == nullptr) return std::nullopt;
  if (node->kind == Node::Kind::boolean) return node->truth;
  const std::string typed = node->kind == Node::Kind::text && node->text.size() < 10
                                ? lower_ascii(node->text)
                                : std::string();
  const bool is_no = typed == "false" || typed == "no" || typed == "off" ||
                     (node->kind == Node::Kind::number && node->number == 0);
  wrong(name, described(*node) + " stands here; wanted is true or false, without quotes",
        is_no ? "false" : "true");
  return std::nullopt;
}

std::optional<WrittenTime> Fields::time(std::string_view name) const {
  const Node* node = text_node(name, "a day, or a day with a clock time", "2027-03-16T18:00");
  if (node == nullptr) return std::nullopt;
  std::string says;
  std::string write;
  auto read = read_time(node->text, &says, &write);
  if (!read) wrong(name, says, write);
  return read;
}

std::optional<LocalTime> Fields::clock_time(std::string_view name) const {
  const auto read = time(name);
  if (!read) return std::nullopt;
  if (!read->has_clock) {
    wrong(name, "this names a day; the clock time is wanted too", iso_day(read->at) + "T18:00");
    return std::nullopt;
  }
  return read->at;
}

const Node* Fields::object(std::string_view name) const {
  const Node* node = find(name);
  if (node == nullptr || node->kind == Node::Kind::object) return node;
  wrong(name, described(*node) + " stands here; wanted is an object, its fields in braces", "{}");
  return nullptr;
}

const Node* Fields::list(std::string_view name, std::string_view example) const {
  const Node* node = find(name);
  if (node == nullptr || node->kind == Node::Kind::list) return node;
  wrong(name, described(*node) + " stands here; wanted is a list in square brackets",
        std::string(example));
  return nullptr;
}

}  // namespace starter
