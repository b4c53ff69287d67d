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
/// Small masses and volumes step down to mL, large ones up to kg; durations choose s, min, h or
/// days by size. The text can be read back by the reader of the same quantity.
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
/// system asked for. An unknown unit is written as number and unit.
std::string write_value(double value, std::string_view unit, UnitSystem units);

/// "80–110 g/L": both ends in one unit; one value when both ends print alike.
std::string write_range(double low, double high, std::string_view unit, UnitSystem units);

/// `digits` significant digits, no exponent below 1e15, no trailing zeros, no locale.
std::string write_number(double value, int digits = 3);

/// `value` rounded to `digits` significant decimal digits, the same on every platform.
double round_to_digits(double value, int digits);

}  // namespace starter
