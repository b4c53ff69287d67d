#include "rules/telling.h"

namespace starter {

Measure Telling::of(Measure m) const {
  m.unit = unit;
  m.value *= factor;
  m.low *= factor;
  m.high *= factor;
  return m;
}

Bounds Telling::of(Bounds bounds) const {
  if (bounds.low) *bounds.low *= factor;
  if (bounds.high) *bounds.high *= factor;
  return bounds;
}

Telling telling_of(const Rule& rule, std::string_view unit) {
  return rule.told_as_share ? Telling{"%", 100} : Telling{std::string(unit), 1};
}

std::string value_text(const Measure& m, UnitSystem units) {
  return write_uncertain(m.value, m.low, m.high, m.unit, units);
}

std::string side_text(const Measure& m, const Bounds& bounds, UnitSystem units) {
  const auto prints_as = [&](double bound) {
    return write_value(m.value, m.unit, units) == write_value(bound, m.unit, units);
  };
  if (bounds.high && m.value > *bounds.high && prints_as(*bounds.high)) return "just over ";
  if (bounds.low && m.value < *bounds.low && prints_as(*bounds.low)) return "just under ";
  return "";
}

std::string bounds_text(const Bounds& bounds, std::string_view unit, UnitSystem units) {
  if (bounds.low && bounds.high) return write_range(*bounds.low, *bounds.high, unit, units);
  if (bounds.low) return "at least " + write_value(*bounds.low, unit, units);
  if (bounds.high) return "at most " + write_value(*bounds.high, unit, units);
  return "any";
}

}  // namespace starter
