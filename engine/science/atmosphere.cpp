#include "science/atmosphere.h"

#include <algorithm>
#include <cmath>

namespace starter::science {

Pressure air_pressure(Altitude altitude) {
  constexpr double earth_radius = 6356766;  // m, makes gravity's decline with height come out
  constexpr double sea_level_kelvin = 288.15;
  constexpr double lapse = 0.0065;  // K/m
  constexpr double exponent = 9.80665 / (287.05287 * lapse);
  const double h = std::clamp(altitude.metres(), -2000.0, 11000.0);
  const double geopotential = earth_radius * h / (earth_radius + h);
  const double kelvin = sea_level_kelvin - lapse * geopotential;
  return Pressure::kilopascals(101.325 * std::pow(kelvin / sea_level_kelvin, exponent));
}

}  // namespace starter::science
