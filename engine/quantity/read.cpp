#include "quantity/read.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "quantity/number.h"
#include "quantity/units.h"
#include "quantity/words.h"
#include "quantity/write.h"

namespace starter {
namespace {

/// Beyond any quantity of a kitchen or a brewery; also keeps every later product finite.
constexpr double largest = 1e15;

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}
bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

// ---------------------------------------------------------------- characters

/// Characters that people's keyboards put for plainer ones, and what the grammar sees.
struct Plainer {
  std::string_view typed, plain;
};
constexpr Plainer plainer[] = {
    {"\t", " "},         {"\n", " "},         {"\r", " "},
    {"\u00a0", " "},  // no-break space
    {"\u202f", " "},  // narrow no-break space
    {"\u2009", " "},  // thin space
    {"\u2212", "-"},  // minus sign
    {"\u2044", "/"},  // fraction slash
    {"\u00ba", "°"},  // masculine ordinal, beside the degree sign on many keyboards
    {"\u2103", "°C"},    {"\u2109", "°F"},    {"\u00bd", " 1/2 "},
    {"\u00bc", " 1/4 "}, {"\u00be", " 3/4 "}, {"\u2153", " 1/3 "},
    {"\u2154", " 2/3 "}, {"\u215b", " 1/8 "}, {"\u215c", " 3/8 "},
    {"\u215d", " 5/8 "}, {"\u215e", " 7/8 "},
};

/// `text` in plain characters, white space single and none at the ends.
std::string plain(std::string_view text) {
  std::string out;
  const auto add = [&out](std::string_view piece) {
    for (const char c : piece)
      if (c != ' ' || (!out.empty() && out.back() != ' ')) out += c;
  };
  while (!text.empty()) {
    const auto* const row =
        std::find_if(std::begin(plainer), std::end(plainer),
                     [text](const Plainer& p) { return text.starts_with(p.typed); });
    const bool known = row != std::end(plainer);
    add(known ? row->plain : text.substr(0, 1));
    text.remove_prefix(known ? row->typed.size() : 1);
  }
  if (!out.empty() && out.back() == ' ') out.pop_back();
  return out;
}

// ---------------------------------------------------------------- numbers

/// A number at the front of a plain text.
struct LeadingNumber {
  double value = 0;
  std::size_t length = 0;
  bool divides_by_zero = false;
};

std::size_t skip_spaces(std::string_view text, std::size_t at) {
  while (at < text.size() && text[at] == ' ') ++at;
  return at;
}

/// A whole number of at most nine digits at `at`; moves `at` behind it.
std::optional<std::uint64_t> small_whole(std::string_view text, std::size_t& at) {
  std::size_t end = at;
  std::uint64_t value = 0;
  for (; end < text.size() && is_digit(text[end]) && end - at < 10; ++end)
    value = value * 10 + static_cast<std::uint64_t>(text[end] - '0');
  if (end == at || end - at > 9) return std::nullopt;
  at = end;
  return value;
}

/// "3/4" at `at`.
std::optional<LeadingNumber> fraction_at(std::string_view text, std::size_t at) {
  std::size_t end = at;
  const auto above = small_whole(text, end);
  if (!above || end >= text.size() || text[end] != '/') return std::nullopt;
  ++end;
  const auto below = small_whole(text, end);
  if (!below) return std::nullopt;
  const bool followed_by_more = end < text.size() && (text[end] == '.' || text[end] == '/');
  if (followed_by_more) return std::nullopt;
  const double value = *below == 0 ? 0 : static_cast<double>(*above) / static_cast<double>(*below);
  return LeadingNumber{value, end - at, *below == 0};
}

/// "1 1/2" or "1-1/2".
std::optional<LeadingNumber> mixed_number(std::string_view text) {
  std::size_t end = 0;
  const auto whole = small_whole(text, end);
  if (!whole || end >= text.size() || (text[end] != ' ' && text[end] != '-')) return std::nullopt;
  const auto part = fraction_at(text, end + 1);
  if (!part) return std::nullopt;
  return LeadingNumber{static_cast<double>(*whole) + part->value, end + 1 + part->length,
                       part->divides_by_zero};
}

/// The number that a plain text starts with, sign and all.
std::optional<LeadingNumber> leading_number(std::string_view text) {
  const bool negative = text.starts_with('-');
  const std::size_t start = skip_spaces(text, negative || text.starts_with('+') ? 1 : 0);
  const std::string_view rest = text.substr(start);
  auto found = fraction_at(rest, 0);
  if (!found) found = mixed_number(rest);
  if (!found) {
    const auto decimal = leading_decimal(rest);
    if (!decimal) return std::nullopt;
    found = LeadingNumber{decimal->value, decimal->length, false};
  }
  found->length += start;
  if (negative) found->value = -found->value;
  return found;
}

/// Whether a number without a sign starts at `at`.
bool number_starts(std::string_view text, std::size_t at) {
  if (is_digit(text[at])) return true;
  return text[at] == '.' && at + 1 < text.size() && is_digit(text[at + 1]);
}

// ---------------------------------------------------------------- the grammar

enum class Fault {
  none,
  empty,
  comma,
  no_number,
  divides_by_zero,
  too_large,
  no_unit,
  unknown_unit,
  several_numbers,
  not_falling,
  off_scale,
};

/// A text taken apart: the quantity, or the fault and the part it was found in.
struct Parsed {
  Fault fault = Fault::none;
  double base = 0;     ///< the whole, in the base unit
  std::string shown;   ///< the unit of the last part, as we write it
  double number = 0;   ///< of the part last read
  std::string before;  ///< the text up to the end of that part's number
  std::string unit;    ///< tidy unit of that part
  std::string after;   ///< what follows that unit
};

/// Where a comma stands beside a digit; npos when none does.
std::size_t comma_in_number(std::string_view text) {
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] != ',') continue;
    if ((i > 0 && is_digit(text[i - 1])) || (i + 1 < text.size() && is_digit(text[i + 1])))
      return i;
  }
  return std::string_view::npos;
}

/// The unit that goes without saying: "1.037" is a specific gravity, "1e11" counts cells, and in
/// "1 h 30" the 30 is minutes.
std::string_view implied_unit(const KindOfQuantity& kind, double number, std::string_view last) {
  if (kind.kind == QuantityKind::gravity && number >= 0.98 && number <= 1.2) return "SG";
  if (kind.kind == QuantityKind::cell_count && number >= 1e6) return "cells";
  if (kind.kind == QuantityKind::duration && last == "h") return "min";
  return "";
}

/// Whether a unit text is no unit but what stands between two numbers: "10-12", "10 to 12".
bool joins_numbers(std::string_view unit) {
  const std::string lower = lower_ascii(unit);
  if (lower == "to" || lower == "or" || lower == "and" || lower == "x") return true;
  return std::none_of(unit.begin(), unit.end(), [](char c) { return is_letter(c) || c == '%'; }) &&
         unit.find("°") == std::string_view::npos && unit.find('\'') == std::string_view::npos &&
         unit.find("\u2032") == std::string_view::npos;
}

/// One number with its unit, from `at` on. Fills the fields of `out` that tell about this part.
void take_part(const KindOfQuantity& kind, std::string_view text, std::size_t& at, Parsed& out) {
  const auto number = leading_number(text.substr(at));
  if (!number) {
    out.fault = Fault::no_number;
    return;
  }
  at += number->length;
  const std::size_t unit_start = at;
  while (at < text.size() && !number_starts(text, at)) ++at;
  out.number = number->value;
  out.before = std::string(text.substr(0, unit_start));
  out.unit = tidy_unit(text.substr(unit_start, at - unit_start));
  out.after = std::string(text.substr(at));
  const bool more = at < text.size();
  if (number->divides_by_zero)
    out.fault = Fault::divides_by_zero;
  else if (!(std::abs(number->value) <= largest))
    out.fault = Fault::too_large;
  else if (more && (!kind.compound || joins_numbers(out.unit)))
    out.fault = Fault::several_numbers;
  else if (out.unit.empty() || out.unit == "°")
    out.unit = implied_unit(kind, number->value, out.shown);
  if (out.fault == Fault::none && out.unit.empty()) out.fault = Fault::no_unit;
}

Parsed parse(const KindOfQuantity& kind, std::string_view original) {
  const std::string text = plain(original);
  Parsed out;
  if (text.empty()) out.fault = Fault::empty;
  if (comma_in_number(text) != std::string::npos) out.fault = Fault::comma;
  const double sign = text.starts_with('-') ? -1 : 1;
  double last_size = 0;
  for (std::size_t at = 0; out.fault == Fault::none && at < text.size();) {
    const bool first = at == 0;
    take_part(kind, text, at, out);
    if (out.fault != Fault::none) break;
    const auto unit = find_unit(kind, out.unit);
    if (!unit) {
      out.fault = Fault::unknown_unit;
      break;
    }
    const double size = kind.compound ? unit->base(1) : 0;
    if (!first && size >= last_size) out.fault = Fault::not_falling;
    last_size = size;
    out.base += unit->base(out.number) * (first ? 1 : sign);
    out.shown = unit->shown;
    // "1037 SG" is the scale without its point: a slip worth telling, not a gravity to judge.
    if (kind.kind == QuantityKind::gravity && out.shown == "SG" && out.number >= 900)
      out.fault = Fault::off_scale;
  }
  return out;
}

bool readable(const KindOfQuantity& kind, std::string_view text) {
  return parse(kind, text).fault == Fault::none;
}

// ---------------------------------------------------------------- hints

using Hints = std::vector<std::string>;

/// The hints that can indeed be read, joined by " or "; the kind's example when there is none.
std::string first_readable(const KindOfQuantity& kind, const Hints& hints) {
  Hints good;
  for (const std::string& hint : hints)
    if (readable(kind, hint) && std::find(good.begin(), good.end(), hint) == good.end())
      good.push_back(hint);
  return good.empty() ? std::string(kind.example) : fmt::format("{}", fmt::join(good, " or "));
}

std::string with_unit(double number, std::string_view unit) {
  return fmt::format("{} {}", write_number(number, 6), unit);
}

/// The number as it was typed if that is short, with `unit`.
std::string typed_with_unit(const Parsed& found, std::string_view unit) {
  constexpr std::size_t short_enough = 24;
  if (found.before.size() > short_enough) return with_unit(found.number, unit);
  return fmt::format("{} {}", found.before, unit);
}

/// "1.2" and "1200" for "1,200"; one reading where only one makes sense.
Hints readings_of(std::string_view run) {
  const auto commas = std::count(run.begin(), run.end(), ',');
  const auto points = std::count(run.begin(), run.end(), '.');
  std::string joined(run);
  std::erase(joined, ',');
  if (points == 1 && run.rfind(',') > run.find('.')) {  // 1.234,5
    if (commas != 1) return {};
    std::string turned(run);
    std::erase(turned, '.');
    std::replace(turned.begin(), turned.end(), ',', '.');
    return {turned};
  }
  if (points > 1) return {};
  if (points == 1 || commas > 1) return {joined};
  const std::size_t comma = run.find(',');  // there is one: the run was found by its comma
  std::string decimal(run);
  decimal[comma] = '.';
  const bool may_be_thousands =
      run.size() - comma == 4 && comma >= 1 && comma <= 3 && run[0] != '0';
  if (!may_be_thousands) return {decimal};
  while (decimal.back() == '0') decimal.pop_back();
  if (decimal.back() == '.') decimal.pop_back();
  return {decimal, joined};
}

Hints comma_hints(const KindOfQuantity& kind, std::string_view text) {
  const auto in_run = [text](std::size_t at) {
    return is_digit(text[at]) || text[at] == '.' || text[at] == ',';
  };
  std::size_t start = comma_in_number(text);
  std::size_t end = start;
  while (start > 0 && in_run(start - 1)) --start;
  while (end < text.size() && in_run(end)) ++end;
  const std::string_view front = text.substr(0, start);
  Hints whole;
  Hints with_usual_unit;
  for (const std::string& number : readings_of(text.substr(start, end - start))) {
    whole.push_back(fmt::format("{}{}{}", front, number, text.substr(end)));
    with_usual_unit.push_back(fmt::format("{}{} {}", front, number, kind.usual));
  }
  const bool unit_is_known = std::any_of(
      whole.begin(), whole.end(), [&kind](const std::string& t) { return readable(kind, t); });
  return unit_is_known ? whole : with_usual_unit;
}

/// Both scales for a bare number, the likelier first: 68 is warm in °F, 20 in °C.
Hints bare_temperature_hints(const Parsed& found) {
  constexpr double warmest_likely_celsius = 40;
  constexpr double coolest_likely_fahrenheit = 45;
  constexpr double warmest_likely_fahrenheit = 90;
  const double v = found.number;
  if (v >= coolest_likely_fahrenheit && v <= warmest_likely_fahrenheit)
    return {typed_with_unit(found, "°F"), write(Temperature::fahrenheit(v), UnitSystem::metric)};
  if (v >= 0 && v <= warmest_likely_celsius)
    return {typed_with_unit(found, "°C"), write(Temperature::celsius(v), UnitSystem::us)};
  return {typed_with_unit(found, "°C"), typed_with_unit(found, "°F")};
}

/// A gravity that lacks its scale or its point.
Hints bare_gravity_hints(const Parsed& found) {
  constexpr double strongest_likely_plato = 40;
  const double v = found.number;
  if (v >= 900 && v <= 1300) return {fmt::format("{:.3f} SG", v / 1000)};
  if (v >= 0 && v <= strongest_likely_plato) return {typed_with_unit(found, "°P")};
  return {};
}

/// A gravity in a unit that is none: points are thousandths above water, a number near 1 is an SG.
std::string gravity_hint(const Parsed& found, std::string_view unit) {
  const std::string lower = lower_ascii(unit);
  const bool points = lower == "points" || lower == "point" || lower == "gu" || lower == "pts";
  if (points && found.number >= 0 && found.number <= 200)
    return fmt::format("{:.3f} SG", 1 + found.number / 1000);
  const bool near_water = !implied_unit(kind_of(QuantityKind::gravity), found.number, "").empty();
  return typed_with_unit(found, near_water ? "SG" : "°P");
}

Hints no_unit_hints(const KindOfQuantity& kind, const Parsed& found) {
  if (kind.kind == QuantityKind::temperature) return bare_temperature_hints(found);
  if (kind.kind == QuantityKind::gravity) return bare_gravity_hints(found);
  if (kind.kind == QuantityKind::share && found.number > 0 && found.number <= 1) {
    const std::string part = with_unit(found.number * 100, "%");
    return found.number == 1 ? Hints{part, typed_with_unit(found, "%")} : Hints{part};
  }
  return {typed_with_unit(found, kind.usual)};
}

/// "1200 L" for "1 200 L"; both ends for "10-12 L".
Hints several_numbers_hints(const KindOfQuantity& kind, std::string_view text) {
  std::size_t tail = text.size();
  while (tail > 0 && !is_digit(text[tail - 1])) --tail;
  const std::string_view numbers = text.substr(0, tail);
  const std::string unit = tidy_unit(text.substr(tail));
  const auto known = find_unit(kind, unit);
  const std::string_view shown = known ? std::string_view(known->shown) : kind.usual;

  std::string joined;
  bool groups_of_three = true;
  for (std::size_t at = 0; at < numbers.size();) {
    const std::size_t end = std::min(numbers.find(' ', at), numbers.size());
    const std::string_view group = numbers.substr(at, end - at);
    groups_of_three = groups_of_three && (at == 0 ? group.size() <= 3 : group.size() == 3) &&
                      std::all_of(group.begin(), group.end(), is_digit);
    joined += group;
    at = end + 1;
  }
  const bool clock =
      kind.kind == QuantityKind::duration && std::count(text.begin(), text.end(), ':');
  if (clock) {
    std::string compound(text);
    const std::size_t colon = compound.find(':');
    const Hints hours = {compound.replace(colon, 1, " h ")};
    if (readable(kind, hours.front())) return hours;
  }
  if (groups_of_three) return {fmt::format("{} {}", joined, shown)};

  std::size_t last = tail;
  while (last > 0 && (is_digit(text[last - 1]) || text[last - 1] == '.')) --last;
  const auto first_number = leading_number(text);
  Hints out;
  if (first_number)
    out.push_back(fmt::format("{} {}", text.substr(0, first_number->length), shown));
  out.push_back(fmt::format("{} {}", numbers.substr(last), shown));
  return out;
}

/// The unit of a table most like a misspelt one, as we write it; "" when none is near.
std::string_view nearest_in(std::span<const Unit> table, std::string_view typed) {
  if (typed.size() < 2) return "";  // every letter is one slip away from every other
  std::vector<std::string_view> spellings;
  std::vector<std::string_view> shown;
  for (const Unit& unit : table)
    for (const std::string_view spelling : unit.spellings)
      if (spelling.size() > 1) {
        spellings.push_back(spelling);
        shown.push_back(unit.shown);
      }
  const auto nearest = nearest_word(typed, spellings);
  if (!nearest) return "";
  const auto at = std::find(spellings.begin(), spellings.end(), *nearest) - spellings.begin();
  return shown[static_cast<std::size_t>(at)];
}

/// The unit of this kind most like a misspelt one, either side of a stroke by itself.
std::string nearest_unit(const KindOfQuantity& kind, std::string_view typed) {
  if (kind.per.empty()) return std::string(nearest_in(kind.table, typed));
  const std::size_t stroke = typed.find('/');
  if (stroke == std::string_view::npos) return "";
  const auto side = [](std::span<const Unit> table, std::string_view part) {
    for (const Unit& unit : table)
      if (std::find(unit.spellings.begin(), unit.spellings.end(), lower_ascii(part)) !=
          unit.spellings.end())
        return unit.shown;
    return nearest_in(table, part);
  };
  const std::string_view above = side(kind.table, typed.substr(0, stroke));
  const std::string_view below = side(kind.per, typed.substr(stroke + 1));
  return above.empty() || below.empty() ? "" : fmt::format("{}/{}", above, below);
}

const Mistaken* mistaken_unit(const KindOfQuantity& kind, std::string_view typed) {
  const std::string lower = lower_ascii(typed);
  for (const Mistaken& row : kind.mistaken)
    if (row.typed == lower) return &row;
  return nullptr;
}

/// Which other kind of quantity a unit belongs to.
const KindOfQuantity* other_kind_with(const KindOfQuantity& kind, std::string_view unit) {
  for (const KindOfQuantity& other : all_kinds())
    if (other.kind != kind.kind && find_unit(other, unit)) return &other;
  return nullptr;
}

std::string article(std::string_view noun) {
  return fmt::format("a {}", noun);
}

/// The text with the unit of the faulty part replaced, or only that part when the rest is no good.
std::string mended_unit(const KindOfQuantity& kind, const Parsed& found, std::string_view unit) {
  const std::string whole = fmt::format("{} {} {}", found.before, unit, found.after);
  const std::string trimmed = found.after.empty() ? typed_with_unit(found, unit) : whole;
  return readable(kind, trimmed) ? trimmed : with_unit(found.number, unit);
}

std::optional<ReadProblem> imperial_problem(const KindOfQuantity& kind, const Parsed& found,
                                            std::string_view original) {
  constexpr std::string_view says =
      "{} is in imperial measure; gal, qt, pt and fl oz are the US ones here, so write litres";
  const std::size_t stroke = std::min(found.unit.find('/'), found.unit.size());
  const auto size = imperial_volume(std::string_view(found.unit).substr(0, stroke));
  if (!size) return std::nullopt;
  if (kind.kind == QuantityKind::volume && stroke == found.unit.size())
    return ReadProblem{fmt::format(says, quoted(original)),
                       first_readable(kind, {write(found.number * *size, UnitSystem::metric)})};
  if (kind.kind == QuantityKind::boil_off_rate && stroke < found.unit.size()) {
    const std::string rate = fmt::format("{} L{}", write_number(found.number * size->litres(), 3),
                                         found.unit.substr(stroke));
    return ReadProblem{fmt::format(says, quoted(original)), first_readable(kind, {rate})};
  }
  return std::nullopt;
}

ReadProblem unit_problem(const KindOfQuantity& kind, const Parsed& found,
                         std::string_view original) {
  if (auto imperial = imperial_problem(kind, found, original)) return *imperial;
  const std::string lower = lower_ascii(found.unit);
  const std::string in_text = fmt::format("{} in {}", quoted(found.unit, 20), quoted(original));
  if (find_unit(kind, lower))
    return {fmt::format("{}: a capital M in front of a unit means a million of them", in_text),
            first_readable(kind, {mended_unit(kind, found, find_unit(kind, lower)->shown)})};

  const Mistaken* mistaken = mistaken_unit(kind, found.unit);
  std::string write;
  if (mistaken != nullptr && mistaken->times != 1)
    write = with_unit(found.number * mistaken->times, mistaken->meant);
  else if (mistaken != nullptr)
    write = mended_unit(kind, found, mistaken->meant);
  else if (kind.kind == QuantityKind::gravity)
    write = gravity_hint(found, found.unit);

  if (const KindOfQuantity* other = other_kind_with(kind, found.unit)) {
    if (write.empty()) write = mended_unit(kind, found, kind.usual);
    return {fmt::format("{} measures {}; {} is wanted here", in_text,
                        other->kind == QuantityKind::mass ? "mass" : article(other->noun),
                        article(kind.noun)),
            first_readable(kind, {write})};
  }
  if (mistaken != nullptr)
    return {fmt::format("{} can be taken for more than one thing", in_text),
            first_readable(kind, {write})};
  const std::string near = nearest_unit(kind, found.unit);
  if (!near.empty() || write.empty())
    write = mended_unit(kind, found, near.empty() ? kind.usual : std::string_view(near));
  return {fmt::format("{} is not a known unit; use {}", in_text, kind.units),
          first_readable(kind, {write})};
}

/// "10 L" for "about 10 L": the text from its first digit on.
Hints from_first_digit(std::string_view text) {
  const std::size_t at = text.find_first_of("0123456789");
  if (at == std::string_view::npos) return {};
  return {std::string(text.substr(at))};
}

/// Only for a text that cannot be read.
ReadProblem explain(const KindOfQuantity& kind, const Parsed& found, std::string_view original) {
  const std::string text = plain(original);
  const std::string quote = quoted(original);
  const std::string example(kind.example);
  switch (found.fault) {
    case Fault::comma:
      return {fmt::format("{} has a comma", quote), first_readable(kind, comma_hints(kind, text))};
    case Fault::no_number:
      return {fmt::format("{} does not start with a number", quote),
              first_readable(kind, from_first_digit(text))};
    case Fault::divides_by_zero:
      return {fmt::format("{} divides by zero", quote), example};
    case Fault::too_large:
      return {fmt::format("{} is too large a number", quote), example};
    case Fault::no_unit:
      return {fmt::format("{} has no unit", quote),
              first_readable(kind, no_unit_hints(kind, found))};
    case Fault::several_numbers:
      return {fmt::format("{} has more than one number", quote),
              first_readable(kind, several_numbers_hints(kind, text))};
    case Fault::not_falling:
      return {fmt::format("{} does not go from larger to smaller units", quote), example};
    case Fault::off_scale:
      return {fmt::format("{} lacks the decimal point of a specific gravity", quote),
              first_readable(kind, bare_gravity_hints(found))};
    case Fault::unknown_unit:
      return unit_problem(kind, found, original);
    case Fault::empty:
    case Fault::none:
      break;
  }
  return {fmt::format("there is nothing to read; {} is wanted here", article(kind.noun)), example};
}

/// The reader of every quantity: `make` turns the number in the base unit into the quantity.
template <class Make>
auto read_as(QuantityKind which, std::string_view text, Make make)
    -> Read<decltype(make(Parsed{}))> {
  const KindOfQuantity& kind = kind_of(which);
  const Parsed found = parse(kind, text);
  if (found.fault != Fault::none) return explain(kind, found, text);
  return make(found);
}

template <class Q>
Read<Q> read_scalar(QuantityKind which, std::string_view text) {
  return read_as(which, text, [](const Parsed& p) { return Q::of(p.base); });
}

}  // namespace

Read<Mass> read_mass(std::string_view text) {
  return read_scalar<Mass>(QuantityKind::mass, text);
}

Read<Volume> read_volume(std::string_view text) {
  return read_scalar<Volume>(QuantityKind::volume, text);
}

Read<Temperature> read_temperature(std::string_view text) {
  return read_as(QuantityKind::temperature, text,
                 [](const Parsed& p) { return Temperature::celsius(p.base); });
}

Read<Duration> read_duration(std::string_view text) {
  return read_scalar<Duration>(QuantityKind::duration, text);
}

Read<Length> read_length(std::string_view text) {
  return read_scalar<Length>(QuantityKind::length, text);
}

Read<CellCount> read_cell_count(std::string_view text) {
  return read_scalar<CellCount>(QuantityKind::cell_count, text);
}

Read<CellDensity> read_cell_density(std::string_view text) {
  return read_scalar<CellDensity>(QuantityKind::cell_density, text);
}

Read<Share> read_share(std::string_view text) {
  return read_scalar<Share>(QuantityKind::share, text);
}

Read<Gravity> read_gravity(std::string_view text) {
  return read_as(QuantityKind::gravity, text, [](const Parsed& p) {
    return p.shown == "SG" ? Gravity::of(SpecificGravity::sg(p.base))
                           : Gravity::of(Plato::degrees(p.base));
  });
}

Read<Concentration> read_concentration(std::string_view text) {
  return read_scalar<Concentration>(QuantityKind::concentration, text);
}

Read<BoilOffRate> read_boil_off_rate(std::string_view text) {
  return read_scalar<BoilOffRate>(QuantityKind::boil_off_rate, text);
}

}  // namespace starter
