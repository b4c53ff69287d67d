#include "plan/document.h"

#include <cstdint>
#include <iterator>
#include <map>
#include <memory>
#include <utility>

#include "plan/json.h"
#include "plan/lines.h"
#include "plan/pointer.h"
#include "plan/syntax.h"
#include "quantity/words.h"

namespace starter {

const Node* Node::find(std::string_view name) const {
  for (const auto& member : members)
    if (member.name == name) return &member.value;
  return nullptr;
}

namespace {

/// Walks over bytes and tells, through a counter that all copies share, how many were taken. The
/// parser copies its iterators and tells no positions with its events, so this is how a value gets
/// its line.
class CountingIterator {
 public:
  using iterator_category = std::input_iterator_tag;
  using value_type = char;
  using difference_type = std::ptrdiff_t;
  using pointer = const char*;
  using reference = const char&;

  CountingIterator(const char* at, std::size_t* taken) : at_(at), taken_(taken) {}
  reference operator*() const { return *at_; }
  CountingIterator& operator++() {
    ++at_;
    ++*taken_;
    return *this;
  }
  CountingIterator operator++(int) {
    auto before = *this;
    ++*this;
    return before;
  }
  bool operator==(const CountingIterator& other) const { return at_ == other.at_; }
  bool operator!=(const CountingIterator& other) const { return at_ != other.at_; }

 private:
  const char* at_;
  std::size_t* taken_;
};

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

/// The first byte past the number that begins at `at` (RFC 8259, section 6). The parser itself
/// takes one byte more, to see the number end.
std::size_t end_of_number(std::string_view bytes, std::size_t at) {
  const auto is = [&](std::size_t i, std::string_view any) {
    return i < bytes.size() && any.find(bytes[i]) != std::string_view::npos;
  };
  const auto skip_digits = [&](std::size_t i) {
    while (i < bytes.size() && is_digit(bytes[i])) ++i;
    return i;
  };
  if (is(at, "-")) ++at;
  at = is(at, "0") ? at + 1 : skip_digits(at);
  if (is(at, ".")) at = skip_digits(at + 1);
  if (is(at, "eE")) at = skip_digits(is(at + 1, "+-") ? at + 2 : at + 1);
  return at;
}

/// Builds the tree from the parser's events.
class Builder {
 public:
  Builder(std::string_view bytes, const std::size_t& taken, const Lines& lines, Report& report)
      : bytes_(bytes), taken_(taken), lines_(lines), report_(report) {}

  bool null() { return put(Node::Kind::null, taken_) != nullptr; }
  bool boolean(bool truth) {
    put(Node::Kind::boolean, taken_)->truth = truth;
    return true;
  }
  bool number_integer(std::int64_t number) { return put_number(static_cast<double>(number)); }
  bool number_unsigned(std::uint64_t number) { return put_number(static_cast<double>(number)); }
  bool number_float(double number, const std::string&) { return put_number(number); }
  bool string(std::string& text) {
    put(Node::Kind::text, taken_)->text = std::move(text);
    state_.last_is_text = true;
    return true;
  }
  bool binary(std::vector<std::uint8_t>&) { return false; }  // never sent for JSON text

  bool start_object(std::size_t) { return open(Node::Kind::object); }
  bool start_array(std::size_t) { return open(Node::Kind::list); }
  bool end_object() { return close(); }
  bool end_array() { return close(); }

  bool key(std::string& name) {
    auto& frame = frames_.back();
    const Position at = position_before(taken_);
    const auto [earlier, is_new] = frame.lines_of_names.try_emplace(name, at.line);
    if (!is_new) {
      const std::string lines = earlier->second == at.line
                                    ? "twice on line " + std::to_string(at.line)
                                    : "on line " + std::to_string(earlier->second) +
                                          " and again on line " + std::to_string(at.line);
      report_.add(pointer_to(frame.where, name), at,
                  starter::quoted(name) + " stands " + lines + "; only one of them can be meant",
                  "take one of them out");
    }
    frame.is_repeated = !is_new;
    frame.name = name;
    frame.name_at = at;
    said(SyntaxState::Last::name, taken_);
    state_.name = std::move(name);
    return true;
  }

  bool parse_error(std::size_t, const std::string& token,
                   const nlohmann::detail::exception& problem) {
    constexpr int number_overflow = 406;  // the library's id for a number no double can hold
    if (problem.id == number_overflow) {
      report_.add(frames_.empty() ? "" : where_next(),
                  position_before(end_of_number(bytes_, start_of_number())),
                  "the number " + starter::quoted(token) + " is too large for any plan",
                  "a smaller number");
    } else {
      refuse();
    }
    return false;
  }

  /// Tells what is wrong after the last thing that was read well.
  void refuse() {
    const auto problem = explain_syntax(bytes_, state_);
    report_.add("", {lines_.of(problem.offset), problem.offset}, problem.says, problem.write);
  }

  std::size_t end_of_root() const { return state_.end; }
  std::optional<Node> take() { return std::move(root_); }

 private:
  /// A list or object still open. Its node stays where it is while it is open: a parent gets no
  /// further child before this one is closed.
  struct Frame {
    Node* node;
    std::string where;
    std::map<std::string, int> lines_of_names = {};
    std::string name = {};
    Position name_at = {};
    bool is_repeated = false;
  };

  /// The position of a value whose last byte stands before `end`.
  Position position_before(std::size_t end) const {
    const std::size_t last = end > 0 ? end - 1 : 0;
    return {lines_.of(last), last};
  }

  /// Where the number that is read next begins.
  std::size_t start_of_number() const { return bytes_.find_first_of("-0123456789", state_.end); }

  void said(SyntaxState::Last last, std::size_t end) {
    state_.last = last;
    state_.end = end;
    state_.last_is_number = false;
    state_.last_is_text = false;
  }

  std::string where_next() const {
    const auto& frame = frames_.back();
    return frame.node->kind == Node::Kind::list ? pointer_to(frame.where, frame.node->items.size())
                                                : pointer_to(frame.where, frame.name);
  }

  Node* put(Node::Kind kind, std::size_t end) {
    Node made;
    made.kind = kind;
    made.at = position_before(end);
    Node* placed = nullptr;
    if (frames_.empty()) {
      placed = &root_.emplace(std::move(made));
    } else if (auto& frame = frames_.back(); frame.node->kind == Node::Kind::list) {
      placed = &frame.node->items.emplace_back(std::move(made));
    } else if (frame.is_repeated) {
      // The first of the two is kept; this one is read only to find what else is wrong.
      placed = put_aside_.emplace_back(std::make_unique<Node>(std::move(made))).get();
    } else {
      frame.node->members.push_back({frame.name, frame.name_at, std::move(made)});
      placed = &frame.node->members.back().value;
    }
    said(SyntaxState::Last::value, end);
    return placed;
  }

  bool put_number(double number) {
    const std::size_t start = start_of_number();
    const std::size_t end = end_of_number(bytes_, start);
    Node* placed = put(Node::Kind::number, end);
    placed->number = number;
    placed->text = std::string(bytes_.substr(start, end - start));
    state_.last_is_number = true;
    state_.number_start = start;
    return true;
  }

  bool open(Node::Kind kind) {
    if (frames_.size() >= deepest_nesting) {
      report_.add("", position_before(taken_),
                  "lists and objects lie more than " + std::to_string(deepest_nesting) +
                      " deep in one another here; five are enough",
                  "");
      return false;
    }
    std::string where = frames_.empty() ? "" : where_next();
    Node* placed = put(kind, taken_);
    frames_.push_back({placed, std::move(where)});
    said(SyntaxState::Last::opened, taken_);
    note_innermost();
    return true;
  }

  bool close() {
    frames_.pop_back();
    said(SyntaxState::Last::value, taken_);
    note_innermost();
    return true;
  }

  void note_innermost() {
    using Inside = SyntaxState::Inside;
    if (frames_.empty()) {
      state_.inside = Inside::nothing;
      return;
    }
    const Node& node = *frames_.back().node;
    state_.inside = node.kind == Node::Kind::list ? Inside::list : Inside::object;
    state_.opened_on = node.at.line;
  }

  std::string_view bytes_;
  const std::size_t& taken_;
  const Lines& lines_;
  Report& report_;
  std::optional<Node> root_;
  std::vector<std::unique_ptr<Node>> put_aside_;
  std::vector<Frame> frames_;
  SyntaxState state_;
};

}  // namespace

std::optional<Node> read_document(std::string_view bytes, Report& report) {
  const Lines lines(bytes);
  if (const auto problem = explain_encoding(bytes); !problem.says.empty()) {
    report.add("", {bytes.empty() ? 0 : lines.of(problem.offset), problem.offset}, problem.says,
               problem.write);
    return std::nullopt;
  }
  std::size_t taken = 0;
  Builder builder(bytes, taken, lines, report);
  const CountingIterator first(bytes.data(), &taken);
  const CountingIterator last(bytes.data() + bytes.size(), &taken);
  if (!Json::sax_parse(first, last, &builder)) return std::nullopt;
  // The parser takes a NUL byte for the end of the file; for us it is not.
  if (bytes.find_first_not_of(" \t\r\n", builder.end_of_root()) != std::string_view::npos) {
    builder.refuse();
    return std::nullopt;
  }
  return builder.take();
}

}  // namespace starter
