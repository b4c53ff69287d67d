#include "quantity/units.h"

#include <algorithm>
#include <type_traits>

#include "quantity/words.h"

namespace starter {
namespace {

/// A named constructor, `Mass::ounces`, as a function from number to number in the base unit.
template <class Q, Q (*make)(double)>
double base(double v) {
  if constexpr (std::is_same_v<Q, Temperature>)
    return make(v).celsius();
  else
    return make(v).base();
}

double as_it_is(double v) {
  return v;
}

constexpr bool mega = true;

constexpr Unit masses[] = {
    {"g", base<Mass, &Mass::grams>, {"g", "gram", "grams", "gm", "gramme", "grammes"}},
    {"kg", base<Mass, &Mass::kilograms>, {"kg", "kilo", "kilos", "kgs", "kilogram", "kilograms"}},
    {"mg", [](double v) { return v / 1000; }, {"mg", "milligram", "milligrams"}, mega},
    {"oz", base<Mass, &Mass::ounces>, {"oz", "ounce", "ounces", "ozs"}},
    {"lb", base<Mass, &Mass::pounds>, {"lb", "lbs", "pound", "pounds"}},
};

// The teaspoon and tablespoon are the US ones, 1/6 and 1/2 fl oz; the cup is 8 fl oz. Published:
// NIST Handbook 44, appendix C.
constexpr Unit volumes[] = {
    {"L",
     base<Volume, &Volume::litres>,
     {"l", "litre", "litres", "liter", "liters", "ltr", "ltrs"}},
    {"mL",
     base<Volume, &Volume::millilitres>,
     {"ml", "millilitre", "millilitres", "milliliter", "milliliters", "mls", "cc"},
     mega},
    {"cL",
     [](double v) { return v / 100; },
     {"cl", "centilitre", "centilitres", "centiliter", "centiliters"}},
    {"dL",
     [](double v) { return v / 10; },
     {"dl", "decilitre", "decilitres", "deciliter", "deciliters"}},
    {"gal", base<Volume, &Volume::us_gallons>, {"gal", "gals", "gallon", "gallons"}},
    {"qt", base<Volume, &Volume::us_quarts>, {"qt", "qts", "quart", "quarts"}},
    {"pt", base<Volume, &Volume::us_pints>, {"pt", "pts", "pint", "pints"}},
    {"fl oz",
     base<Volume, &Volume::us_fluid_ounces>,
     {"fl oz", "floz", "fl ounce", "fl ounces", "fluid oz", "fluid ounce", "fluid ounces",
      "oz fl"}},
    {"cup", [](double v) { return Volume::us_fluid_ounces(v * 8).base(); }, {"cup", "cups"}},
    {"tbsp",
     [](double v) { return Volume::us_fluid_ounces(v / 2).base(); },
     {"tbsp", "tbsps", "tablespoon", "tablespoons"}},
    {"tsp",
     [](double v) { return Volume::us_fluid_ounces(v / 6).base(); },
     {"tsp", "tsps", "teaspoon", "teaspoons"}},
};

constexpr Unit temperatures[] = {
    {"°C",
     base<Temperature, &Temperature::celsius>,
     {"°c", "c", "celsius", "°celsius", "centigrade", "°centigrade"}},
    {"°F", base<Temperature, &Temperature::fahrenheit>, {"°f", "f", "fahrenheit", "°fahrenheit"}},
    {"K", base<Temperature, &Temperature::kelvins>, {"k", "kelvin", "kelvins", "°k", "°kelvin"}},
};

// A lone "m" is left out on purpose: it is minutes to some and months to others.
constexpr Unit durations[] = {
    {"weeks",
     [](double v) { return Duration::days(v * 7).base(); },
     {"week", "weeks", "wk", "wks"}},
    {"days", base<Duration, &Duration::days>, {"d", "day", "days"}},
    {"h", base<Duration, &Duration::hours>, {"h", "hr", "hrs", "hour", "hours"}},
    {"min", base<Duration, &Duration::minutes>, {"min", "mins", "minute", "minutes"}},
    {"s", base<Duration, &Duration::seconds>, {"s", "sec", "secs", "second", "seconds"}},
};

constexpr Unit lengths[] = {
    {"m", base<Length, &Length::metres>, {"m", "metre", "metres", "meter", "meters"}, mega},
    {"cm",
     base<Length, &Length::centimetres>,
     {"cm", "centimetre", "centimetres", "centimeter", "centimeters"}},
    {"mm",
     base<Length, &Length::millimetres>,
     {"mm", "millimetre", "millimetres", "millimeter", "millimeters"},
     mega},
    {"km",
     [](double v) { return v * 1000; },
     {"km", "kilometre", "kilometres", "kilometer", "kilometers"}},
    {"ft", base<Length, &Length::feet>, {"ft", "feet", "foot", "'", "\u2032"}},
    {"in", base<Length, &Length::inches>, {"in", "inch", "inches", "ins", "\"", "\u2033"}},
};

// A billion is 10⁹ and a trillion 10¹², as in English today. "B", "M" and "T" alone are left out:
// an M is a thousand to some.
constexpr Unit cell_counts[] = {
    {"billion",
     base<CellCount, &CellCount::billion>,
     {"billion", "bn", "billions", "bil", "billion cells", "bn cells", "billions of cells",
      "billion yeast cells"}},
    {"million",
     [](double v) { return v / 1000; },
     {"million", "mn", "millions", "mil", "million cells", "mn cells", "millions of cells",
      "million yeast cells"}},
    {"trillion",
     [](double v) { return v * 1000; },
     {"trillion", "tn", "trillions", "trillion cells", "tn cells", "trillions of cells",
      "trillion yeast cells"}},
    {"thousand",
     [](double v) { return v / 1e6; },
     {"thousand", "thousands", "thousand cells", "thousands of cells"}},
    {"cells", [](double v) { return v / 1e9; }, {"cells", "cell", "yeast cells"}},
};

constexpr Unit shares[] = {
    {"%", base<Share, &Share::percent>, {"%", "percent", "per cent", "pct", "pc"}},
};

constexpr Unit gravities[] = {
    {"SG", as_it_is, {"sg", "specific gravity", "og"}},
    {"°P", as_it_is, {"°p", "p", "plato", "°plato"}},
};

constexpr Mistaken for_mass[] = {
    {"ml", "g"},
    {"l", "kg"},
    {"fl oz", "oz"},
    {"floz", "oz"},
};
constexpr Mistaken for_volume[] = {
    {"g", "mL"},         {"kg", "L"},        {"mg", "mL"}, {"oz", "fl oz"},
    {"ounces", "fl oz"}, {"ounce", "fl oz"}, {"c", "cup"},
};
constexpr Mistaken for_duration[] = {
    {"m", "min"},          {"'", "min"},           {"w", "weeks"},
    {"month", "days", 30}, {"months", "days", 30}, {"mo", "days", 30},
    {"year", "days", 365}, {"years", "days", 365}, {"y", "days", 365},
};
constexpr Mistaken for_cells[] = {
    {"b", "billion"},         {"g", "billion"},    {"m", "million"},  {"mm", "million"},
    {"mio", "million"},       {"mill", "million"}, {"t", "trillion"}, {"milliard", "billion"},
    {"milliards", "billion"}, {"mrd", "billion"},  {"k", "thousand"},
};
constexpr Mistaken for_density[] = {
    {"b/ml", "billion/mL"}, {"m/ml", "million/mL"},    {"billion", "billion/L"},
    {"g/l", "billion/L"},   {"million", "million/mL"},
};
constexpr Mistaken for_concentration[] = {{"g", "g/L"}, {"oz", "oz/gal"}};
constexpr Mistaken for_boil_off[] = {
    {"l", "L/h"}, {"ml", "mL/h"}, {"gal", "gal/h"}, {"qt", "qt/h"}, {"gph", "gal/h"},
};

constexpr std::string_view volume_units = "L, mL, cL, dL, gal, qt, pt, fl oz, cup, tbsp or tsp";
using Kind = QuantityKind;

constexpr KindOfQuantity kinds[] = {
    {Kind::mass, "mass", "g, kg, mg, oz or lb", "g", "120 g", true, masses, {}, for_mass},
    {Kind::volume, "volume", volume_units, "L", "1.2 L", true, volumes, {}, for_volume},
    {Kind::temperature,
     "temperature",
     "°C, °F or K",
     "°C",
     "68 °F or 20 °C",
     false,
     temperatures,
     {},
     {}},
    {Kind::duration,
     "duration",
     "s, min, h, days or weeks",
     "h",
     "36 h",
     true,
     durations,
     {},
     for_duration},
    {Kind::length, "length", "m, cm, mm, km, ft or in", "m", "100 m", true, lengths, {}, {}},
    {Kind::cell_count,
     "number of cells",
     "billion, million, trillion or cells",
     "billion",
     "100 billion",
     false,
     cell_counts,
     {},
     for_cells},
    {Kind::share, "share", "%", "%", "85 %", false, shares, {}, {}},
    {Kind::gravity, "gravity", "SG or °P", "°P", "1.037 SG or 9.2 °P", false, gravities, {}, {}},
    {Kind::cell_density, "density of cells", "million/mL, billion/mL or billion/L", "million/mL",
     "1500 million/mL", false, cell_counts, volumes, for_density},
    {Kind::concentration, "concentration", "g/L or oz/gal", "g/L", "95 g/L", false, masses, volumes,
     for_concentration},
    {Kind::boil_off_rate, "boil-off rate", "L/h, mL/min, qt/h or gal/h", "L/h", "0.3 L/h", false,
     volumes, durations, for_boil_off},
};

bool spells(const Unit& unit, std::string_view typed, std::string_view lower) {
  if (lower.empty()) return false;
  if (unit.capital_is_mega && typed.front() == 'M') return false;
  return std::find(unit.spellings.begin(), unit.spellings.end(), lower) != unit.spellings.end();
}

const Unit* find_in(std::span<const Unit> table, std::string_view typed) {
  std::string lower = lower_ascii(typed);
  const bool us = table.data() == volumes && lower.starts_with("us ");
  if (us) {
    typed.remove_prefix(3);
    lower.erase(0, 3);
  }
  for (const Unit& unit : table)
    if (spells(unit, typed, lower)) return &unit;
  return nullptr;
}

constexpr bool blank(char c) {
  return c == ' ';
}

void replace_all(std::string& text, std::string_view from, std::string_view to) {
  for (std::size_t at = text.find(from); at != std::string::npos;
       at = text.find(from, at + to.size()))
    text.replace(at, from.size(), to);
}

/// The number of litres is that of the Weights and Measures Act 1985 (UK), schedule 1, and its
/// parts: the gallon is 4.54609 L exactly; from memory.
struct Imperial {
  double litres;
  std::array<std::string_view, 6> spellings;
};
constexpr Imperial imperials[] = {
    {4.54609, {"gal", "gals", "gallon", "gallons"}},
    {4.54609 / 4, {"qt", "qts", "quart", "quarts"}},
    {4.54609 / 8, {"pt", "pts", "pint", "pints"}},
    {4.54609 / 160, {"fl oz", "floz", "fluid ounce", "fluid ounces", "oz", "ounces"}},
};

/// `text` without the first mark of being imperial found at either end; nothing if there is none.
std::optional<std::string_view> without_imperial_mark(std::string_view text) {
  for (const std::string_view mark : {"imperial", "imp", "uk", "british", "brit"}) {
    if (text.starts_with(mark) && text.size() > mark.size() && blank(text[mark.size()]))
      return text.substr(mark.size() + 1);
    if (text.ends_with(mark) && text.size() > mark.size() &&
        blank(text[text.size() - mark.size() - 1]))
      return text.substr(0, text.size() - mark.size() - 1);
  }
  return std::nullopt;
}

}  // namespace

std::span<const KindOfQuantity> all_kinds() {
  return kinds;
}

const KindOfQuantity& kind_of(QuantityKind kind) {
  return *std::find_if(std::begin(kinds), std::end(kinds) - 1,
                       [kind](const KindOfQuantity& k) { return k.kind == kind; });
}

std::string tidy_unit(std::string_view unit) {
  std::string out;
  for (const char c : unit) {
    if (c == '.') continue;
    if (c == ' ' && (out.empty() || out.back() == ' ')) continue;
    out += c;
  }
  while (!out.empty() && out.back() == ' ') out.pop_back();
  const std::string lower = lower_ascii(out);
  for (const std::string_view word : {"degrees", "degree", "degs", "deg"})
    if (lower.starts_with(word)) {
      out.replace(0, word.size(), "°");
      break;
    }
  for (std::size_t at = lower_ascii(out).find(" per "); at != std::string::npos;
       at = lower_ascii(out).find(" per ", at))
    out.replace(at, 5, "/");
  if (lower_ascii(out).starts_with("per ") && lower != "per cent") out.replace(0, 4, "/");
  replace_all(out, " /", "/");
  replace_all(out, "/ ", "/");
  replace_all(out, "° ", "°");
  return out;
}

std::optional<FoundUnit> find_unit(const KindOfQuantity& kind, std::string_view unit) {
  if (kind.per.empty()) {
    const Unit* found = find_in(kind.table, unit);
    if (found == nullptr) return std::nullopt;
    return FoundUnit{found->to_base, 1, std::string(found->shown)};
  }
  const std::size_t stroke = unit.find('/');
  if (stroke == std::string_view::npos) return std::nullopt;
  // "1e9/mL" counts cells without saying so.
  const bool bare_count = stroke == 0 && kind.kind == QuantityKind::cell_density;
  const Unit* above = find_in(kind.table, bare_count ? "cells" : unit.substr(0, stroke));
  const Unit* below = find_in(kind.per, unit.substr(stroke + 1));
  if (above == nullptr || below == nullptr) return std::nullopt;
  return FoundUnit{above->to_base, below->to_base(1),
                   std::string(above->shown) + "/" + std::string(below->shown)};
}

std::optional<Volume> imperial_volume(std::string_view unit) {
  std::string lower = lower_ascii(unit);
  std::erase_if(lower, [](char c) { return c == '(' || c == ')'; });
  const auto rest = without_imperial_mark(lower);
  if (!rest) return std::nullopt;
  for (const Imperial& row : imperials)
    if (std::find(row.spellings.begin(), row.spellings.end(), *rest) != row.spellings.end())
      return Volume::litres(row.litres);
  return std::nullopt;
}

}  // namespace starter
