#include "science/lethality.h"

#include <algorithm>
#include <cmath>

namespace starter::science {
namespace {

double clamped_celsius(Temperature t) {
  return std::clamp(t.celsius(), -273.15, 200.0);
}
double minutes(Duration hold) {
  return std::max(hold.minutes(), 0.0);
}

}  // namespace

double pasteurisation_units_per_minute(Temperature t) {
  return std::pow(1.393, clamped_celsius(t) - 60);
}

double pasteurisation_units(Temperature t, Duration hold) {
  return minutes(hold) * pasteurisation_units_per_minute(t);
}

double f0(Temperature t, Duration hold) {
  return minutes(hold) * std::pow(10.0, (clamped_celsius(t) - 121.1) / 10);
}

}  // namespace starter::science
