#include "science/newton_cooling.h"

#include <algorithm>
#include <cmath>

namespace starter::science {
namespace {

Duration at_least_a_second(Duration tau) {
  return std::max(tau, Duration::seconds(1));
}

}  // namespace

Temperature newton(Temperature from, Temperature surroundings, Duration t, Duration tau) {
  const double folds = std::max(t, Duration()) / at_least_a_second(tau);
  return surroundings + (from - surroundings) * std::exp(-folds);
}

Duration newton_time_to_within(Temperature from, Temperature surroundings,
                               TemperatureDifference within, Duration tau) {
  const double gap = std::abs((from - surroundings).kelvins());
  const double near_enough = std::max(within.kelvins(), 1e-3);
  if (gap <= near_enough) return {};
  return at_least_a_second(tau) * std::log(gap / near_enough);
}

Duration time_constant(Volume v, double litre_hours) {
  return Duration::hours(litre_hours * std::pow(std::max(v.litres(), 1e-3), 1.0 / 3));
}

}  // namespace starter::science
