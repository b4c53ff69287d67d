#pragma once

/// \file
/// How the number of a range rule is told to people: in the unit of its measure, or, where it is a
/// ratio that reads more easily so, in per cent.

#include <string>
#include <string_view>

#include "measures/measures.h"
#include "quantity/write.h"
#include "rules/rule.h"

namespace starter {

struct Telling {
  std::string unit;   ///< of write_value()
  double factor = 1;  ///< how many of it make one of the measure's

  Measure of(Measure m) const;
  Bounds of(Bounds bounds) const;
};

/// `unit`: of the rule's measure.
Telling telling_of(const Rule& rule, std::string_view unit);

/// "1.11 L (1.08–1.13 L)": the likely value, and its range where that prints differently.
std::string value_text(const Measure& measure, UnitSystem units);

/// "just over " or "just under " where the likely value lies outside a bound that prints the same
/// ("10 times", at most 10); else empty.
std::string side_text(const Measure& measure, const Bounds& bounds, UnitSystem units);

/// "80–110 g/L", "at least 5 min", "at most 30 °C"; "any" where there is neither.
std::string bounds_text(const Bounds& bounds, std::string_view unit, UnitSystem units);

}  // namespace starter
