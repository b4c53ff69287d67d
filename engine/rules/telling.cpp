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

}  // namespace starter
