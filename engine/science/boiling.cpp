#include "science/boiling.h"

#include <algorithm>
#include <cmath>

#include "science/atmosphere.h"

namespace starter::science {
namespace {

double mole_fraction(Plato extract) {
  const double percent = std::clamp(extract.degrees(), 0.0, 95.0);
  const double sugar = percent / 342.3;
  const double water = (100 - percent) / 18.02;
  return sugar / (sugar + water);
}

}  // namespace

Temperature saturation_temperature(Pressure p) {
  // Coefficients n1 to n10 of table 34 of the release; pressure in MPa, temperature in K.
  constexpr double n[] = {0.11670521452767e4,  -0.72421316703206e6, -0.17073846940092e2,
                          0.12020824702470e5,  -0.32325550322333e7, 0.14915108613530e2,
                          -0.48232657361591e4, 0.40511340542057e6,  -0.23855557567849,
                          0.65017534844798e3};
  const double megapascals = std::clamp(p.kilopascals(), 0.611213, 22064.0) / 1000;
  const double b2 = std::sqrt(megapascals);
  const double b = std::sqrt(b2);
  const double e = b2 + n[2] * b + n[5];
  const double f = n[0] * b2 + n[3] * b + n[6];
  const double g = n[1] * b2 + n[4] * b + n[7];
  const double d = 2 * g / (-f - std::sqrt(f * f - 4 * e * g));
  const double s = n[9] + d;
  return Temperature::kelvins((s - std::sqrt(s * s - 4 * (n[8] + n[9] * d))) / 2);
}

TemperatureDifference boiling_elevation(Plato extract, Temperature water_boils) {
  const double x = mole_fraction(extract);
  const double activity_part = 1 + 0.48851085 * x * x * (1 - 1.0038 * x - 0.24653 * x * x);
  const double at_one_atmosphere =
      (activity_part / (1 + 0.08592964 * std::log(1 - x)) - 1) * 326.28;
  const double t = (std::clamp(water_boils.celsius(), 0.0, 374.0) + 273.15) / 373.15;
  return TemperatureDifference::kelvins(at_one_atmosphere * t * t);
}

Temperature boiling_point(Altitude altitude, Plato extract, Pressure weather_offset) {
  const Temperature water = saturation_temperature(air_pressure(altitude) + weather_offset);
  return water + boiling_elevation(extract, water);
}

Duration time_to_boil(HeatCapacity total, TemperatureDifference rise, double kilowatts) {
  const Heat heat = std::max(total, HeatCapacity()) * std::max(rise, TemperatureDifference());
  return Duration::seconds(heat.kilojoules() / std::max(kilowatts, 0.001));
}

}  // namespace starter::science
