#include "quantity/write.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <span>

#include "quantity/read.h"

namespace starter {
namespace {

// ---------------------------------------------------------------- digits

/// "-12.50" -> "-12.5", "3.00" -> "3", "-0.0" -> "0".
std::string without_noise(std::string text) {
  if (text.find('.') != std::string::npos) {
    while (text.back() == '0') text.pop_back();
    if (text.back() == '.') text.pop_back();
  }
  return text == "-0" ? "0" : text;
}

/// "46000" -> "46,000"; only for texts that no reader is meant to read back.
std::string grouped(std::string text) {
  const std::size_t start = text.starts_with('-') ? 1 : 0;
  const std::size_t end = std::min(text.find('.'), text.size());
  if (end - start <= 4) return text;  // 1234 reads well enough as it is
  for (std::size_t at = end; at > start + 3;) {
    at -= 3;
    text.insert(at, 1, ',');
  }
  return text;
}

/// How many digits a number is given.
struct Digits {
  int significant;                ///< at most
  int decimals_below_10;          ///< at most, of a number below 10
  int decimals_from_10;           ///< at most, of a number from 10 on
  bool small_is_nothing = false;  ///< what rounds to zero is zero; else one digit is always given
};

/// The power of ten of the first digit once `value` is rounded to `digits` digits.
int decimal_exponent(double value, int digits) {
  const std::string text = fmt::format("{:.{}e}", value, digits - 1);
  const auto exponent = read_number(std::string_view(text).substr(text.find('e') + 1));
  return static_cast<int>(exponent.value_or(0));
}

/// `value` in the fewest digits within `digits`, never finer than a millionth.
std::string digits_of(double value, const Digits& digits) {
  constexpr int finest = 6;
  // Half-way is half-way on every platform, though the last bit of what was computed may differ.
  constexpr int sure = 12;
  value = round_to_digits(value, sure);
  const int exponent = value == 0 ? 0 : decimal_exponent(value, digits.significant);
  const int wanted = digits.significant - 1 - exponent;
  if (wanted < 0) return write_number(value, digits.significant);
  int most = exponent >= 1 ? digits.decimals_from_10 : digits.decimals_below_10;
  if (!digits.small_is_nothing) most = std::max(most, std::min(-exponent, finest));
  return without_noise(fmt::format("{:.{}f}", value, std::min(wanted, most)));
}

// ---------------------------------------------------------------- units by size

/// One way to write a quantity: in `unit`, from `at_least` of the base unit on.
struct Form {
  double at_least;
  double per_unit;  ///< base units in one `unit`
  std::string_view unit;
  Digits digits;
};

/// The ways to write a quantity, rising; zero is written in the form `zero`.
struct Forms {
  std::span<const Form> rising;
  std::size_t zero = 0;
  bool thousands_grouped = false;
};

constexpr double one_ounce = Mass::ounces(1).base();
constexpr double one_pound = Mass::pounds(1).base();
constexpr double one_fluid_ounce = Volume::us_fluid_ounces(1).base();
constexpr double one_quart = Volume::us_quarts(1).base();
constexpr double one_gallon = Volume::us_gallons(1).base();
constexpr double one_foot = Length::feet(1).base();
constexpr double one_inch = Length::inches(1).base();
constexpr double ounce_a_gallon = one_ounce / one_gallon;

constexpr Digits as_scales_show = {3, 1, 0};  ///< a kitchen scale
constexpr Digits as_clocks_show = {3, 1, 0, true};
constexpr Digits one_decimal = {3, 1, 1};
constexpr Digits two_decimals = {3, 2, 2};
constexpr Digits three_digits = {3, 3, 3};
constexpr Digits degree = {4, 1, 1, true};
constexpr Digits rough = {2, 1, 0};

constexpr Form mass_metric[] = {{0, 1, "g", as_scales_show}, {1000, 1000, "kg", two_decimals}};
constexpr Form mass_us[] = {{0, one_ounce, "oz", {3, 2, 2}},
                            {one_pound, one_pound, "lb", two_decimals}};
constexpr Form volume_metric[] = {{0, 0.001, "mL", as_scales_show}, {0.1, 1, "L", three_digits}};
constexpr Form volume_us[] = {{0, one_fluid_ounce, "fl oz", one_decimal},
                              {one_quart, one_quart, "qt", two_decimals},
                              {one_gallon, one_gallon, "gal", two_decimals}};
constexpr Form celsius[] = {{0, 1, "°C", degree}};
constexpr Form fahrenheit[] = {{0, 1, "°F", degree}};
constexpr Form fahrenheit_apart[] = {{0, 1 / 1.8, "°F", degree}};
constexpr Form duration[] = {{0, 1.0 / 3600, "s", as_clocks_show},
                             {90.0 / 3600, 1.0 / 60, "min", as_clocks_show},
                             {2, 1, "h", one_decimal},
                             {72, 24, "days", one_decimal}};
constexpr Form length_metric[] = {
    {0, 0.001, "mm", as_scales_show}, {0.01, 0.01, "cm", one_decimal}, {1, 1, "m", two_decimals}};
constexpr Form length_us[] = {{0, one_inch, "in", two_decimals},
                              {3 * one_foot, one_foot, "ft", one_decimal}};
constexpr Form cell_count[] = {{0, 1e-3, "million", two_decimals},
                               {1, 1, "billion", two_decimals},
                               {1e3, 1e3, "trillion", two_decimals}};
constexpr Form cell_density[] = {{0, 1, "million/mL", two_decimals},
                                 {1e3, 1e3, "billion/mL", two_decimals}};
constexpr Form share[] = {{0, 0.01, "%", one_decimal}};
constexpr Form concentration_metric[] = {{0, 1, "g/L", one_decimal}};
constexpr Form concentration_us[] = {{0, ounce_a_gallon, "oz/gal", one_decimal}};
constexpr Form boil_off_metric[] = {{0, 1, "L/h", two_decimals}};
constexpr Form boil_off_us[] = {{0, one_quart, "qt/h", two_decimals},
                                {one_gallon, one_gallon, "gal/h", two_decimals}};
constexpr Form plato[] = {{0, 1, "°P", one_decimal}};
constexpr Form pasteurisation[] = {{0, 1, "PU", rough},
                                   {1e6, 1e6, "million PU", rough},
                                   {1e9, 1e9, "billion PU", rough},
                                   {1e12, 1e12, "trillion PU", rough}};
constexpr Form bare[] = {{0, 1, "", three_digits}};

std::string number_in(const Form& form, const Forms& forms, double base) {
  const std::string text = digits_of(base / form.per_unit, form.digits);
  return with_true_minus(forms.thousands_grouped ? grouped(text) : text);
}

/// The form for a size. The number as it would be printed decides, so 999.7 g is "1 kg".
const Form& form_for(const Forms& forms, double base) {
  // A step of a form may be missed by a last bit: 0.0999… L is the 0.1 L it was meant to be.
  constexpr double nearly = 1 - 1e-12;
  const double size = std::abs(base);
  std::size_t at = 0;
  while (at + 1 < forms.rising.size() && size >= forms.rising[at + 1].at_least * nearly) ++at;
  if (at + 1 < forms.rising.size()) {
    const Form& form = forms.rising[at];
    const auto printed = read_number(digits_of(size / form.per_unit, form.digits));
    if (printed && *printed * form.per_unit >= forms.rising[at + 1].at_least * nearly) ++at;
  }
  const bool prints_zero =
      digits_of(size / forms.rising[at].per_unit, forms.rising[at].digits) == "0";
  return forms.rising[prints_zero ? forms.zero : at];
}

std::string joined(std::string_view number, std::string_view unit) {
  return unit.empty() ? std::string(number) : fmt::format("{} {}", number, unit);
}

std::string write_base(const Forms& forms, double base) {
  const Form& form = form_for(forms, base);
  return joined(number_in(form, forms, base), form.unit);
}

// ---------------------------------------------------------------- kinds

/// How a number of a contract unit reaches the base unit of its forms.
struct Written {
  Forms forms;
  double factor = 1;
  double offset = 0;  ///< added after the factor: °C to °F
};

using Choose = Written (*)(UnitSystem);

Written mass_in(UnitSystem u) {
  return {{u == UnitSystem::us ? std::span<const Form>(mass_us) : mass_metric}};
}
Written volume_in(UnitSystem u) {
  if (u == UnitSystem::us) return {{volume_us}};
  return {{volume_metric, 1}};
}
Written temperature_in(UnitSystem u) {
  if (u == UnitSystem::us) return {{fahrenheit}, 1.8, 32};
  return {{celsius}};
}
Written temperature_difference_in(UnitSystem u) {
  return {{u == UnitSystem::us ? std::span<const Form>(fahrenheit_apart) : celsius}};
}
Written duration_in(UnitSystem) {
  return {{duration, 2}};
}
Written length_in(UnitSystem u) {
  if (u == UnitSystem::us) return {{length_us, 1}};
  return {{length_metric, 2}};
}
Written cell_count_in(UnitSystem) {
  return {{cell_count, 1}};
}
Written cell_density_in(UnitSystem) {
  return {{cell_density}};
}
Written share_in(UnitSystem) {
  return {{share}};
}
Written concentration_in(UnitSystem u) {
  return {{u == UnitSystem::us ? std::span<const Form>(concentration_us) : concentration_metric}};
}
Written boil_off_in(UnitSystem u) {
  return {{u == UnitSystem::us ? std::span<const Form>(boil_off_us) : boil_off_metric}};
}
Written plato_in(UnitSystem) {
  return {{plato}};
}
Written pasteurisation_in(UnitSystem) {
  return {{pasteurisation, 0, true}};
}
Written bare_in(UnitSystem) {
  return {{bare}};
}

/// The units that measures and bounds come in, and their size in the base unit of the forms.
struct ContractUnit {
  std::string_view unit;
  Choose choose;
  double size;
};
constexpr ContractUnit contract_units[] = {
    {"g", mass_in, 1},
    {"kg", mass_in, 1000},
    {"L", volume_in, 1},
    {"mL", volume_in, 0.001},
    {"°C", temperature_in, 1},
    {"K", temperature_difference_in, 1},
    {"s", duration_in, 1.0 / 3600},
    {"min", duration_in, 1.0 / 60},
    {"h", duration_in, 1},
    {"d", duration_in, 24},
    {"m", length_in, 1},
    {"cm", length_in, 0.01},
    {"mm", length_in, 0.001},
    {"billion", cell_count_in, 1},
    {"million/mL", cell_density_in, 1},
    {"%", share_in, 0.01},
    {"g/L", concentration_in, 1},
    {"L/h", boil_off_in, 1},
    {"°P", plato_in, 1},
    {"PU", pasteurisation_in, 1},
    {"ratio", bare_in, 1},
};

const ContractUnit* contract_unit(std::string_view unit) {
  const auto* const row = std::find_if(std::begin(contract_units), std::end(contract_units),
                                       [unit](const ContractUnit& u) { return u.unit == unit; });
  return row == std::end(contract_units) ? nullptr : row;
}

std::string write_in(const Written& how, double base) {
  return write_base(how.forms, base * how.factor + how.offset);
}

/// A range in the form that a number of the size of `like` is written in.
std::string range_as_for(double like, double low, double high, std::string_view unit,
                         UnitSystem units) {
  if (low > high) std::swap(low, high);
  const ContractUnit* known = contract_unit(unit);
  const bool plain = known == nullptr || !std::isfinite(low) || !std::isfinite(high);
  const Written how = plain ? bare_in(units) : known->choose(units);
  const double size = plain ? 1 : known->size;
  const auto base = [&](double value) { return value * size * how.factor + how.offset; };
  const Form& form = form_for(how.forms, base(like));
  const std::string_view shown = plain ? unit : form.unit;
  const std::string first = number_in(form, how.forms, base(low));
  const std::string last = number_in(form, how.forms, base(high));
  if (first == last) return joined(last, shown);
  // A dash after a minus sign would be hard to read.
  const std::string_view between = base(low) < 0 ? " to " : "\u2013";
  return joined(fmt::format("{}{}{}", first, between, last), shown);
}

}  // namespace

double round_to_digits(double value, int digits) {
  constexpr int tell_all_doubles_apart = 17;
  if (value == 0 || !std::isfinite(value) || digits >= tell_all_doubles_apart) return value;
  // The digits are those of the exact binary value, found by whole-number arithmetic in fmt, and
  // read back correctly rounded: no step depends on the platform.
  const auto rounded = read_number(fmt::format("{:.{}e}", value, std::max(digits, 1) - 1));
  return rounded.value_or(value);
}

std::string write_number(double value, int digits) {
  if (std::isnan(value)) return "unknown";
  if (std::isinf(value)) return value > 0 ? "infinite" : "-infinite";
  if (value == 0) return "0";
  const int significant = std::clamp(digits, 1, 17);
  const std::string text = fmt::format("{:.{}e}", value, significant - 1);
  const std::size_t e = text.find('e');
  const int exponent = decimal_exponent(value, significant);
  constexpr int first_with_exponent = 15;
  if (exponent >= first_with_exponent)
    return fmt::format("{}e{}", without_noise(text.substr(0, e)), exponent);
  const bool negative = text.front() == '-';
  std::string figures = text.substr(negative ? 1 : 0, e - (negative ? 1 : 0));
  std::erase(figures, '.');
  if (exponent < 0) {
    figures = "0." + std::string(static_cast<std::size_t>(-exponent - 1), '0') + figures;
  } else {
    const std::size_t whole = static_cast<std::size_t>(exponent) + 1;
    if (figures.size() < whole) figures.append(whole - figures.size(), '0');
    if (figures.size() > whole) figures.insert(whole, 1, '.');
  }
  return (negative ? "-" : "") + without_noise(figures);
}

std::string with_true_minus(std::string number) {
  if (number.starts_with('-')) number.replace(0, 1, "\u2212");
  return number;
}

std::string write(Mass m, UnitSystem units) {
  return write_in(mass_in(units), m.base());
}
std::string write(Volume v, UnitSystem units) {
  return write_in(volume_in(units), v.base());
}
std::string write(Temperature t, UnitSystem units) {
  return write_in(temperature_in(units), t.celsius());
}
std::string write(TemperatureDifference d, UnitSystem units) {
  return write_in(temperature_difference_in(units), d.base());
}
std::string write(Duration d, UnitSystem units) {
  return write_in(duration_in(units), d.base());
}
std::string write(Length l, UnitSystem units) {
  return write_in(length_in(units), l.base());
}
std::string write(CellCount n, UnitSystem units) {
  return write_in(cell_count_in(units), n.base());
}
std::string write(CellDensity d, UnitSystem units) {
  return write_in(cell_density_in(units), d.base());
}
std::string write(Share s, UnitSystem units) {
  return write_in(share_in(units), s.base());
}
std::string write(Concentration c, UnitSystem units) {
  return write_in(concentration_in(units), c.base());
}
std::string write(BoilOffRate r, UnitSystem units) {
  return write_in(boil_off_in(units), r.base());
}
std::string write(Plato p, UnitSystem units) {
  return write_in(plato_in(units), p.base());
}

std::string write(SpecificGravity g, UnitSystem) {
  if (!std::isfinite(g.sg())) return write_number(g.sg());
  return fmt::format("{:.3f}", g.sg());
}

std::string write(Gravity g, UnitSystem units) {
  if (g.scale == Gravity::Scale::plato) return write(Plato::degrees(g.value), units);
  return write(SpecificGravity::sg(g.value), units) + " SG";
}

std::string write_value(double value, std::string_view unit, UnitSystem units) {
  const ContractUnit* known = contract_unit(unit);
  if (known == nullptr || !std::isfinite(value))
    return joined(with_true_minus(write_number(value)), unit);
  return write_in(known->choose(units), value * known->size);
}

std::string write_range(double low, double high, std::string_view unit, UnitSystem units) {
  return range_as_for(std::abs(high) >= std::abs(low) ? high : low, low, high, unit, units);
}

std::string write_uncertain(double likely, double low, double high, std::string_view unit,
                            UnitSystem units) {
  const std::string value = write_value(likely, unit, units);
  const std::string range = range_as_for(likely, low, high, unit, units);
  return range == value ? value : fmt::format("{} ({})", value, range);
}

}  // namespace starter
