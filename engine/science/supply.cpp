#include "science/supply.h"

#include <algorithm>
#include <cmath>

namespace starter::science {
namespace {

constexpr double days_a_month = 30;
constexpr double monthly_loss = 0.2;
constexpr double fresh_spread = 0.05;
constexpr double fresh_slurry = 0.95;
constexpr double slurry_pace = 2;

double unit_clamp(double share) {
  return std::clamp(share, 0.0, 1.0);
}

double straight_line(double months) {
  return unit_clamp(1 - monthly_loss * months);
}

double decay(double months) {
  return std::pow(1 - monthly_loss, months);
}

double between(double low, double likely, double high, double reading) {
  const double r = std::clamp(reading, -1.0, 1.0);
  return r < 0 ? likely + r * (likely - low) : likely + r * (high - likely);
}

double months(Duration age) {
  return std::max(age.days(), 0.0) / days_a_month;
}

}  // namespace

Share viability(Duration age, double reading) {
  const double m = months(age);
  const double line = straight_line(m);
  const double fall = decay(m);
  return Share::ratio(between(unit_clamp(line - fresh_spread), (line + fall) / 2,
                              unit_clamp(fall + fresh_spread), reading));
}

Share slurry_viability(Duration cold_age, double reading) {
  const double m = months(cold_age);
  const double line = fresh_slurry * straight_line(slurry_pace * m);
  const double fall = fresh_slurry * decay(slurry_pace * m);
  const double slow = fresh_slurry * decay(m);
  return Share::ratio(between(unit_clamp(line - fresh_spread), (line + fall) / 2,
                              unit_clamp(slow + fresh_spread), reading));
}

Share standard_error(Share viability, double cells_counted) {
  const double p = unit_clamp(viability.ratio());
  return Share::ratio(std::sqrt(p * (1 - p) / std::max(cells_counted, 1.0)));
}

CellCount dry_yeast(Mass yeast, double billion_per_gram) {
  return CellCount::billion(std::max(yeast.grams(), 0.0) * std::max(billion_per_gram, 0.0));
}

CellCount slurry_cells(Volume slurry, double billion_per_mL, Share not_yeast) {
  return CellCount::billion(std::max(slurry.millilitres(), 0.0) * std::max(billion_per_mL, 0.0) *
                            (1 - unit_clamp(not_yeast.ratio())));
}

}  // namespace starter::science
