#pragma once

/// \file
/// Writing quantities for people, in metric or US customary units, with sensible digits.

#include <string>
#include <string_view>

#include "quantity/gravity.h"
#include "quantity/quantity.h"

namespace starter {

enum class UnitSystem { metric, us };

/// About three significant digits, never more precise than a kitchen can measure, no trailing
/// noise: "110 g", "1.15 L", "21 °C", "12 min", "36 h", "4.2 oz", "1.2 qt", "70 °F".
/// Metric: g, kg from 1000 g; mL, L from 0.1 L; mm, cm, m; a temperature difference in "°C". US:
/// oz, lb from 1 lb; fl oz, qt from 1 qt, gal from 1 gal; in, ft from 3 ft. Durations: s, min from
/// 90 s, h from 2 h, days from 72 h. The size as it would be printed decides, so 999.7 g is "1 kg".
/// Below zero with a true minus sign (U+2212). The text can be read back by the reader of the same
/// quantity, within the digits printed (a bare SpecificGravity by read_gravity; there is no reader
/// of temperature differences).
std::string write(Mass m, UnitSystem units);
std::string write(Volume v, UnitSystem units);
std::string write(Temperature t, UnitSystem units);
std::string write(TemperatureDifference d, UnitSystem units);
std::string write(Duration d, UnitSystem units);
std::string write(Length l, UnitSystem units);
std::string write(CellCount n, UnitSystem units);
std::string write(CellDensity d, UnitSystem units);
std::string write(Share s, UnitSystem units);
std::string write(Concentration c, UnitSystem units);
std::string write(BoilOffRate r, UnitSystem units);
std::string write(Plato p, UnitSystem units);
std::string write(SpecificGravity g, UnitSystem units);  ///< always three decimals: "1.037"
std::string write(Gravity g, UnitSystem units);          ///< on the scale it was stated: "1.037 SG"

/// A measured value in one of the metric units of the JSON contract (g, L, °C, K, min, h, d,
/// billion, million/mL, °P, g/L, PU, %, m, kg, ratio; also cm), written for people in the unit
/// system asked for. An unknown unit is written as number and unit, as is a value that is not
/// finite. PU are for people only: "46,000 PU", "4.6 million PU". Also taken: mL, s, mm, L/h.
std::string write_value(double value, std::string_view unit, UnitSystem units);

/// "80–110 g/L": both ends, lower first, in one unit, that of the end furthest from zero; one value
/// when both ends print alike; "−5 to 3 °C" when the lower end is below zero.
std::string write_range(double low, double high, std::string_view unit, UnitSystem units);

/// "22.4 h (15.6–31.3 h)": a likely value and its range, both in the unit of the likely value; the
/// value alone when the ends print like it.
std::string write_uncertain(double likely, double low, double high, std::string_view unit,
                            UnitSystem units);

/// `number`, a text of digits, with a true minus sign in the place of a hyphen at its start.
std::string with_true_minus(std::string number);

/// `digits` significant digits (1 to 17), no exponent below 1e15, no trailing zeros, no locale;
/// "unknown" for what is not a number, "infinite" or "-infinite". A hyphen stands for the minus, as
/// in plan files.
std::string write_number(double value, int digits = 3);

/// `value` rounded to `digits` significant decimal digits, the same on every platform. From 17
/// digits on, and what is not finite, comes back as it is; below 1 counts as 1.
double round_to_digits(double value, int digits);

}  // namespace starter
