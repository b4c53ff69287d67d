#include "plan/syntax.h"

#include <algorithm>
#include <array>
#include <optional>

#include "plan/lines.h"
#include "quantity/words.h"

namespace starter {
namespace {

constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
constexpr std::size_t shown = 30;  // characters of the offending text that a message quotes

bool is_white(char c) {
  return c == ' ' || c == '\t' || c == '\r' || c == '\n';
}
bool is_digit(char c) {
  return c >= '0' && c <= '9';
}
bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}
char lower(char c) {
  return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}
bool is_control(char c) {
  return static_cast<unsigned char>(c) < 0x20;
}
bool is_beyond_ascii(char c) {
  return static_cast<unsigned char>(c) >= 0x80;
}
bool begins_word(char c) {
  return is_letter(c) || c == '_' || is_beyond_ascii(c);
}

std::size_t skip_white(std::string_view bytes, std::size_t at) {
  while (at < bytes.size() && is_white(bytes[at])) ++at;
  return at;
}

/// The text from `at` up to where a value or a line would end, without white space at its end.
std::string_view run_at(std::string_view bytes, std::size_t at) {
  std::size_t end = at;
  while (end < bytes.size() && bytes[end] != ',' && bytes[end] != ':' && bytes[end] != '}' &&
         bytes[end] != ']' && !(is_control(bytes[end]) && bytes[end] != '\t'))
    ++end;
  while (end > at && is_white(bytes[end - 1])) --end;
  return bytes.substr(at, end - at);
}

/// A piece of the file as it stands there, in backquotes, cut when it is long.
std::string piece(std::string_view text) {
  const std::string escaped = starter::quoted(text, shown);
  std::string plain = "`";
  for (std::size_t i = 1; i + 1 < escaped.size(); ++i) {
    const bool hides_quote =
        escaped[i] == '\\' && (escaped[i + 1] == '"' || escaped[i + 1] == '\\');
    if (hides_quote) ++i;
    plain += escaped[i];
  }
  return plain + '`';
}

/// What stands at `at`, up to the end of its line.
std::string near_text(std::string_view bytes, std::size_t at) {
  if (at < bytes.size() && is_control(bytes[at])) return starter::quoted(bytes.substr(at, 1));
  std::size_t end = at;
  while (end < bytes.size() && !is_control(bytes[end])) ++end;
  while (end > at && is_white(bytes[end - 1])) --end;
  return piece(bytes.substr(at, end - at));
}

std::string line_at(std::string_view bytes, std::size_t at) {
  return std::to_string(Lines(bytes.substr(0, at + 1)).of(at));
}

/// A word, such as true, put the way JSON spells it; nothing for other words.
std::optional<std::string> json_word(std::string_view word) {
  const std::string low = lower_ascii(word);
  if (low == "true" || low == "yes" || low == "on") return "true";
  if (low == "false" || low == "no" || low == "off") return "false";
  return std::nullopt;
}

bool is_no_number_word(std::string_view word) {
  const std::string low = lower_ascii(word);
  return low == "nan" || low == "inf" || low == "infinity" || low == "-infinity" || low == "-inf" ||
         low == "+infinity" || low == "-nan";
}

bool is_nothing_word(std::string_view word) {
  const std::string low = lower_ascii(word);
  return low == "null" || low == "none" || low == "nil" || low == "undefined";
}

struct OddQuote {
  std::string_view bytes;
  std::string_view name;
};
constexpr std::array<OddQuote, 7> odd_quotes = {{
    {"'", "a single quote"},
    {"\xE2\x80\x98", "a curly single quote"},
    {"\xE2\x80\x99", "a curly single quote"},
    {"\xE2\x80\x9C", "a curly quote"},
    {"\xE2\x80\x9D", "a curly quote"},
    {"\xC2\xAB", "a guillemet"},
    {"`", "a backquote"},
}};

const OddQuote* odd_quote_at(std::string_view bytes, std::size_t at) {
  for (const auto& quote : odd_quotes)
    if (bytes.substr(at, quote.bytes.size()) == quote.bytes) return &quote;
  return nullptr;
}

/// `text` without the odd quotes at its ends, in straight double quotes.
std::string in_straight_quotes(std::string_view text) {
  for (const auto& quote : odd_quotes)
    if (text.substr(0, quote.bytes.size()) == quote.bytes) {
      text.remove_prefix(quote.bytes.size());
      break;
    }
  for (const auto& quote : odd_quotes)
    if (text.size() >= quote.bytes.size() &&
        text.substr(text.size() - quote.bytes.size()) == quote.bytes) {
      text.remove_suffix(quote.bytes.size());
      break;
    }
  return starter::quoted(text);
}

/// Why the text that begins with the double quote at `at` is no JSON text.
SyntaxProblem explain_text(std::string_view bytes, std::size_t at) {
  for (std::size_t i = at + 1; i < bytes.size(); ++i) {
    const char c = bytes[i];
    if (c == '"') return {at, "the text " + near_text(bytes, at) + " cannot be read", ""};
    if (c == '\n' || c == '\r')
      return {at,
              "the text " + near_text(bytes, at) +
                  " has no closing quote on its line; a line break inside a text is written \\n",
              "\""};
    if (c == '\t') return {i, "a tab stands inside a text; there it is written \\t", "\\t"};
    if (is_control(c))
      return {
          i,
          "the control character " + starter::quoted(bytes.substr(i, 1)) + " stands inside a text",
          "take it out"};
    if (c != '\\') continue;
    const char escaped = i + 1 < bytes.size() ? bytes[i + 1] : '\0';
    constexpr std::string_view single = "\"\\/bfnrt";
    if (single.find(escaped) != std::string_view::npos && escaped != '\0') {
      ++i;
      continue;
    }
    if (escaped != 'u')
      return {i,
              "a backslash before " + starter::quoted(bytes.substr(i + 1, 1)) +
                  " means nothing in JSON; a backslash itself is written \\\\",
              "\\\\"};
    const auto hex = bytes.substr(i + 2, 4);
    const bool is_hex = hex.size() == 4 && std::all_of(hex.begin(), hex.end(), [](char h) {
                          return is_digit(h) || (h >= 'a' && h <= 'f') || (h >= 'A' && h <= 'F');
                        });
    if (!is_hex) return {i, "\\u wants four hexadecimal digits after it, as in \\u00e9", "\\u00e9"};
    // Surrogates (U+D800 to U+DFFF) stand for a character only as a high and a low one together.
    if (lower(hex[0]) == 'd' && hex[1] >= '8') {
      const auto next = bytes.substr(i + 6, 6);
      const bool is_high = lower(hex[1]) <= 'b';
      const bool low_follows = next.size() == 6 && next.substr(0, 2) == "\\u" &&
                               lower(next[2]) == 'd' && lower(next[3]) >= 'c';
      if (!is_high || !low_follows)
        return {i,
                "\\u" + std::string(hex) +
                    " is half of a pair of surrogates and stands for no character alone",
                "write the character itself"};
      i += 6;
    }
    i += 5;
  }
  return {at,
          "the file ends inside the text " + near_text(bytes, at) + ", which has no closing quote",
          "\""};
}

/// A comment, an odd quote, a control character: what is wrong wherever it stands.
std::optional<SyntaxProblem> explain_anywhere(std::string_view bytes, std::size_t at) {
  const char c = bytes[at];
  if (c == '#' || bytes.substr(at, 2) == "//" || bytes.substr(at, 2) == "/*")
    return SyntaxProblem{
        at, "comments have no place in JSON, and " + near_text(bytes, at) + " looks like one",
        "take the comment out"};
  if (const auto* quote = odd_quote_at(bytes, at))
    return SyntaxProblem{at,
                         std::string(quote->name) + " stands at " + piece(run_at(bytes, at)) +
                             "; JSON knows only the straight double quote",
                         in_straight_quotes(run_at(bytes, at))};
  if (is_control(c))
    return SyntaxProblem{
        at, "the control character " + starter::quoted(bytes.substr(at, 1)) + " has no place here",
        "take it out"};
  return std::nullopt;
}

SyntaxProblem explain_end(std::string_view bytes, const SyntaxState& state) {
  const std::size_t last = bytes.empty() ? 0 : bytes.size() - 1;
  switch (state.inside) {
    case SyntaxState::Inside::object:
      return {
          last,
          "the file ends before the { of line " + std::to_string(state.opened_on) + " is closed",
          "}"};
    case SyntaxState::Inside::list:
      return {
          last,
          "the file ends before the [ of line " + std::to_string(state.opened_on) + " is closed",
          "]"};
    case SyntaxState::Inside::nothing:
      break;
  }
  return {last, "the file ends before its first {", "{"};
}

SyntaxProblem explain_name(std::string_view bytes, std::size_t at, const SyntaxState& state,
                           bool after_comma) {
  const char c = bytes[at];
  if (c == '"') return explain_text(bytes, at);
  if (c == '}' && after_comma)
    return {at, "a comma stands before the closing }; the last item of an object has none after it",
            "take the comma out"};
  if (c == ',') return {at, "two commas stand with nothing between them", "take one comma out"};
  if (const auto problem = explain_anywhere(bytes, at)) return *problem;
  if (after_comma && is_digit(c) && state.last_is_number)
    return {at,
            piece(bytes.substr(state.number_start,
                               at - state.number_start + run_at(bytes, at).size())) +
                " has a decimal comma; numbers take a point, and quantities stand in double quotes",
            starter::quoted(
                std::string(bytes.substr(state.number_start, state.end - state.number_start)) +
                "." + std::string(run_at(bytes, at)))};
  if (begins_word(c)) {
    const auto word = run_at(bytes, at);
    return {at, "the name " + starter::quoted(word, shown) + " is not in double quotes",
            starter::quoted(word)};
  }
  return {at,
          "the name of a field, in double quotes, is wanted here, but " + near_text(bytes, at) +
              " was found",
          ""};
}

SyntaxProblem explain_value(std::string_view bytes, std::size_t at, bool after_comma) {
  const char c = bytes[at];
  if (c == '"') return explain_text(bytes, at);
  if (c == ']' && after_comma)
    return {at, "a comma stands before the closing ]; the last item of a list has none after it",
            "take the comma out"};
  if (c == ',') return {at, "a value is missing before this comma", ""};
  if (c == ':') return {at, "a colon stands where a value is wanted", ""};
  if (c == '}' || c == ']') return {at, std::string("a value is missing before this ") + c, ""};
  if (const auto problem = explain_anywhere(bytes, at)) return *problem;
  const auto word = run_at(bytes, at);
  if (is_no_number_word(word))
    return {at, starter::quoted(word) + " is no number that a plan can hold",
            "a number with its unit"};
  if (is_nothing_word(word))
    return {at, starter::quoted(word) + " says nothing", "leave the field out"};
  if (const auto spelt = json_word(word))
    return {at, starter::quoted(word) + " is spelt " + *spelt + " in JSON", *spelt};
  if (c == '+') return {at, "a number has no + before it in JSON", std::string(word.substr(1))};
  if (c == '.') return {at, "a number has a digit before its point", "0" + std::string(word)};
  if (begins_word(c) || is_digit(c) || c == '-')
    return {at, starter::quoted(word, shown) + " is not in double quotes", starter::quoted(word)};
  return {at, "a value is wanted here, but " + near_text(bytes, at) + " was found", ""};
}

/// After a value inside a list or an object, or after the whole plan.
SyntaxProblem explain_after_value(std::string_view bytes, std::size_t at,
                                  const SyntaxState& state) {
  const char c = bytes[at];
  if (state.inside == SyntaxState::Inside::nothing) {
    if (c == '}' || c == ']')
      return {at, std::string("there is one ") + c + " more than was opened", "take it out"};
    if (is_control(c)) return *explain_anywhere(bytes, at);
    return {at,
            "the document ended before " + near_text(bytes, at) +
                "; nothing may stand after its last }",
            "take it out"};
  }
  if (state.last_is_number && c != '"' && c != '{' && c != '[' && c != '}' && c != ']' &&
      c != ':' && c != ';' && !is_control(c) && c != '/' && c != '#') {
    // 20 L, 2027-03-20, 01: one value as the member sees it, cut in two by the grammar.
    const auto whole = run_at(bytes, state.number_start);
    const bool all_digits = std::all_of(whole.begin(), whole.end(), is_digit);
    if (all_digits) {
      const auto first = std::min(whole.find_first_not_of('0'), whole.size() - 1);
      return {state.number_start, starter::quoted(whole) + " begins with a 0 too many",
              std::string(whole.substr(first))};
    }
    return {state.number_start, starter::quoted(whole, shown) + " is not in double quotes",
            starter::quoted(whole)};
  }
  const char closing = state.inside == SyntaxState::Inside::list ? ']' : '}';
  const char other = closing == ']' ? '}' : ']';
  if (c == other)
    return {at,
            std::string("the ") + (closing == ']' ? '[' : '{') + " of line " +
                std::to_string(state.opened_on) + " is closed by the wrong bracket",
            std::string(1, closing)};
  if (c == '"' || c == '{' || c == '[')
    return {state.end > 0 ? state.end - 1 : 0, "a comma is missing before " + near_text(bytes, at),
            ","};
  if (c == ':' && state.last_is_text)
    return {at, "a colon after a value; a comma or a quote went missing before it", ","};
  if (const auto problem = explain_anywhere(bytes, at)) return *problem;
  if (state.last_is_text && begins_word(c))
    return {at,
            "a comma is wanted here, but " + near_text(bytes, at) +
                " was found; a quote is missing or one too many before it",
            "\""};
  return {at,
          std::string("a comma or ") + closing + " is wanted here, but " + near_text(bytes, at) +
              " was found",
          ","};
}

SyntaxProblem explain_after_name(std::string_view bytes, std::size_t at, const SyntaxState& state) {
  return {at,
          "a colon is wanted after the name " + starter::quoted(state.name, shown) + ", but " +
              near_text(bytes, at) + " was found",
          ":"};
}

}  // namespace

SyntaxProblem explain_syntax(std::string_view bytes, const SyntaxState& state) {
  std::size_t at = state.end;
  if (at == 0 && bytes.substr(0, byte_order_mark.size()) == byte_order_mark)
    at = byte_order_mark.size();
  at = skip_white(bytes, at);
  const auto ended = [&] { return at >= bytes.size(); };
  if (ended()) return explain_end(bytes, state);

  using Last = SyntaxState::Last;
  using Inside = SyntaxState::Inside;
  bool after_comma = false;
  if (state.last == Last::name) {
    if (bytes[at] != ':') return explain_after_name(bytes, at, state);
    at = skip_white(bytes, at + 1);
    return ended() ? explain_end(bytes, state) : explain_value(bytes, at, false);
  }
  if (state.last == Last::value) {
    if (bytes[at] != ',' || state.inside == Inside::nothing)
      return explain_after_value(bytes, at, state);
    at = skip_white(bytes, at + 1);
    if (ended()) return explain_end(bytes, state);
    after_comma = true;
  }
  return state.inside == Inside::object ? explain_name(bytes, at, state, after_comma)
                                        : explain_value(bytes, at, after_comma);
}

SyntaxProblem explain_encoding(std::string_view bytes) {
  if (bytes.empty()) return {0, "the file is empty", ""};
  const auto starts = [&](std::string_view mark) { return bytes.substr(0, mark.size()) == mark; };
  if (starts("\xFF\xFE") || starts("\xFE\xFF") ||
      (bytes.size() >= 2 && (bytes[0] == '\0') != (bytes[1] == '\0') &&
       (bytes[0] == '{' || bytes[1] == '{')))
    return {0, "the file is in UTF-16; it must be in UTF-8", "save the file again as UTF-8"};
  const std::size_t first = starts(byte_order_mark) ? byte_order_mark.size() : 0;
  if (skip_white(bytes, first) == bytes.size())
    return {0, "the file holds nothing but white space", ""};
  if (valid_utf8(bytes)) return {};
  // A line end is no part of any longer UTF-8 sequence, so each line can be judged by itself.
  for (std::size_t begin = 0; begin < bytes.size();) {
    const std::size_t end = std::min(bytes.find_first_of("\r\n", begin), bytes.size());
    if (!valid_utf8(bytes.substr(begin, end - begin)))
      return {begin, "line " + line_at(bytes, begin) + " holds bytes that are not UTF-8",
              "save the file again as UTF-8"};
    begin = end + 1;
  }
  return {0, "the file holds bytes that are not UTF-8", "save the file again as UTF-8"};
}

}  // namespace starter
