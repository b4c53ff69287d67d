#include "science/water.h"

#include <algorithm>
#include <cmath>

namespace starter::science {
namespace {

double clamped_celsius(Temperature t) {
  return std::clamp(t.celsius(), 0.0, 110.0);
}

// Kell's equation as numerator over denominator, kg/m³.
double kell_numerator(double t) {
  return 999.83952 +
         t * (16.945176 +
              t * (-7.9870401e-3 + t * (-46.170461e-6 + t * (105.56302e-9 + t * -280.54253e-12))));
}
double kell_numerator_slope(double t) {
  return 16.945176 +
         t * (2 * -7.9870401e-3 +
              t * (3 * -46.170461e-6 + t * (4 * 105.56302e-9 + t * 5 * -280.54253e-12)));
}
constexpr double kell_b = 16.879850e-3;

// T over 300 K, the variable of IAPWS SR6-08.
double reduced(Temperature t) {
  return (clamped_celsius(t) + 273.15) / 300;
}

}  // namespace

Density water_density(Temperature temperature) {
  const double t = clamped_celsius(temperature);
  return Density::kilograms_per_litre(kell_numerator(t) / (1 + kell_b * t) / 1000);
}

double expansion(Temperature t) {
  return water_density(Temperature::celsius(20)) / water_density(t);
}

double water_expansivity_per_K(Temperature temperature) {
  const double t = clamped_celsius(temperature);
  return kell_b / (1 + kell_b * t) - kell_numerator_slope(t) / kell_numerator(t);
}

double water_viscosity_mPa_s(Temperature t) {
  const double r = reduced(t);
  return (280.68 * std::pow(r, -1.9) + 511.45 * std::pow(r, -7.7) + 61.131 * std::pow(r, -19.6) +
          0.45903 * std::pow(r, -40.0)) /
         1000;
}

double water_conductivity_W_per_mK(Temperature t) {
  const double r = reduced(t);
  return 1.6630 * std::pow(r, -1.15) - 1.7781 * std::pow(r, -3.4) + 1.1567 * std::pow(r, -6.0) -
         0.432115 * std::pow(r, -7.6);
}

}  // namespace starter::science
