#pragma once

/// \file
/// Reads the fields of one object of a plan, each into its type, and reports what cannot stand.
///
/// A reader returns nothing both when the field is absent and when it is wrong; a wrong one has
/// been reported. `has` tells the two apart.

#include <functional>
#include <optional>
#include <set>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "plan/document.h"
#include "plan/kinds.h"
#include "plan/report.h"
#include "plan/shape.h"
#include "plan/words.h"
#include "quantity/local_time.h"
#include "quantity/words.h"

namespace starter {

/// The characters of a text: code points, for well-formed UTF-8.
std::size_t count_characters(std::string_view text);

/// "ale, lager or hybrid"
std::string one_of(std::span<const std::string_view> words);

class Fields {
 public:
  /// Reports every member of `object` that is not in `known`.
  /// \param object nullptr for an object that is absent or no object: then every field is absent.
  /// \param where its JSON pointer.
  /// \param homes where else in this kind of file a misplaced field may belong.
  Fields(const Node* object, std::string where, std::span<const std::string_view> known,
         Report& report, std::span<const shape::Object> homes = shape::objects);

  bool has(std::string_view name) const { return find(name) != nullptr; }
  const Node* find(std::string_view name) const;
  /// Whether an unknown member was taken for this field.
  bool is_misspelt(std::string_view name) const { return misspelt_.count(name) > 0; }
  std::string where(std::string_view name) const;

  /// Reports that a field is missing, unless it is there, or a misspelt name was taken for it.
  /// \param is what the field is, for the message: `"volume", the size of the batch,`
  void ask_for(std::string_view name, std::string_view is, std::string write) const;

  template <class Q>
  std::optional<Q> quantity(std::string_view name, const Wanted<Q>& kind) const;

  /// A word of the closed set `Word`.
  template <class Word>
  std::optional<Word> word(std::string_view name) const;

  /// Any text, also over several lines; nothing that a terminal would obey.
  std::optional<std::string> text(std::string_view name) const;
  /// A text that is not blank, to call something by.
  std::optional<std::string> name(std::string_view field) const;
  /// One name or a list of them.
  std::optional<std::vector<std::string>> names(std::string_view field) const;

  std::optional<int> whole_number(std::string_view name, int least, int most) const;
  std::optional<bool> yes_or_no(std::string_view name) const;
  /// A day, or a day with a clock time.
  std::optional<WrittenTime> time(std::string_view name) const;
  /// A day with a clock time.
  std::optional<LocalTime> clock_time(std::string_view name) const;

  /// The member as an object; reported when it is something else.
  const Node* object(std::string_view name) const;
  /// The member as a list.
  const Node* list(std::string_view name, std::string_view example) const;

  /// Reports a mistake in the value of a field that is there.
  void wrong(std::string_view name, std::string says, std::string write) const;

 private:
  const Node* text_node(std::string_view name, std::string_view wanted,
                        std::string_view example) const;
  void report_unknown(const Member& member, std::span<const std::string_view> known);
  std::optional<std::string_view> quantity_text(std::string_view name, std::string_view called,
                                                std::string_view example) const;
  void report_bare_number(std::string_view name, const Node& number, std::string_view called,
                          std::string_view with_unit) const;
  void report_misfit(std::string_view name, std::string_view typed, std::string_view called,
                     std::string_view bounds, std::string_view example) const;
  void report_word(std::string_view name, std::string_view typed,
                   const std::vector<std::string_view>& words) const;

  const Node* object_;
  std::string where_;
  Report& report_;
  std::span<const shape::Object> homes_;
  std::set<std::string, std::less<>> misspelt_;  ///< known names that wrong ones were taken for
};

/// Checks a text that stands at `at`: not too long, no control characters but line ends and tabs.
bool check_text(std::string_view text, const std::string& where, Position at, Report& report);

/// Checks that a text names something: as check_text, and not blank.
bool check_name(std::string_view text, const std::string& where, Position at, Report& report);

/// "a list", "true", "the number 12": what a node is, for messages.
std::string described(const Node& node);

/// A number as typed, cut when it has very many digits.
std::string short_number(const Node& number);

template <class Q>
std::optional<Q> Fields::quantity(std::string_view name, const Wanted<Q>& kind) const {
  const Node* node = find(name);
  if (node == nullptr) return std::nullopt;
  if (node->kind == Node::Kind::number) {
    const std::string dressed = kind.with_unit != nullptr
                                    ? kind.with_unit(node->number, node->text)
                                    : node->text + ' ' + std::string(kind.unit);
    const auto tried = kind.read(dressed);
    report_bare_number(name, *node, kind.called,
                       tried && kind.fits(*tried) ? std::string_view(dressed) : kind.example);
    return std::nullopt;
  }
  const auto typed = quantity_text(name, kind.called, kind.example);
  if (!typed) return std::nullopt;
  const auto read = kind.read(*typed);
  if (!read) {
    wrong(name, read.problem().says, read.problem().write);
    return std::nullopt;
  }
  if (!kind.fits(*read)) {
    report_misfit(name, *typed, kind.called, kind.bounds, kind.example);
    return std::nullopt;
  }
  return *read;
}

template <class Word>
std::optional<Word> Fields::word(std::string_view name) const {
  std::vector<std::string_view> words;
  for (const auto& row : spellings<Word>()) words.push_back(row.text);
  const Node* node = text_node(name, one_of(words), words.front());
  if (node == nullptr) return std::nullopt;
  const auto read = from_spelling<Word>(node->text);
  if (!read) report_word(name, node->text, words);
  return read;
}

}  // namespace starter
