#pragma once

/// \file
/// From bytes to a JSON tree in which every name and value knows its line.
///
/// JSON is that of RFC 8259: UTF-8 (a byte order mark is let pass), no comments. A name that stands
/// twice in one object is an error, since RFC 8259 leaves its meaning open and one of the two would
/// be silently lost.

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "plan/report.h"

namespace starter {

struct Member;

/// One JSON value.
struct Node {
  enum class Kind { null, boolean, number, text, list, object };
  Kind kind = Kind::null;
  Position at;              ///< a list's or object's opening bracket, else the value's last byte
  bool truth = false;       ///< of a boolean
  double number = 0;        ///< of a number, nearest double
  std::string text;         ///< of a text; of a number the digits as typed
  std::vector<Node> items;  ///< of a list
  std::vector<Member> members;  ///< of an object, in file order, names unique

  /// The member of that name; nullptr when there is none or this is no object.
  const Node* find(std::string_view name) const;
};

/// One name and value of an object.
struct Member {
  std::string name;
  Position at;  ///< of the name
  Node value;
};

/// How deep lists and objects may lie in one another. A plan needs five.
inline constexpr std::size_t deepest_nesting = 64;

/// Reads `bytes`. What is wrong with them goes to `report`.
/// \return the tree; nothing when the bytes are not JSON. A tree with names standing twice is
///         returned, holding the first of each, after the report was made.
std::optional<Node> read_document(std::string_view bytes, Report& report);

}  // namespace starter
