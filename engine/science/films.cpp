#include "science/films.h"

#include <algorithm>
#include <cmath>

#include "science/heat.h"
#include "science/recent.h"
#include "science/water.h"

namespace starter::science {
namespace {

// What moves a film, and how easily: Rayleigh and Prandtl numbers.
struct Stir {
  double rayleigh;
  double prandtl;
};

Stir stir(double height_m, Temperature film, double kelvins) {
  constexpr double gravity = 9.80665;
  const double density = 1000 * water_density(film).kilograms_per_litre();
  const double viscosity = water_viscosity_mPa_s(film) / 1000;
  const double kinematic = viscosity / density;
  const double diffusivity =
      water_conductivity_W_per_mK(film) / (density * 1000 * specific_heat(Plato(), film));
  const double expansivity = std::abs(water_expansivity_per_K(film));
  return {
      gravity * expansivity * kelvins * height_m * height_m * height_m / (kinematic * diffusivity),
      kinematic / diffusivity};
}

Temperature liquid_water(Temperature t) {
  return Temperature::celsius(std::clamp(t.celsius(), 0.0, 110.0));
}

double settled_W_per_m2K(Length height, Length wall, double conductivity_W_per_mK, Temperature wort,
                         Temperature bath, double swirl) {
  const double wall_resistance =
      std::max(wall.metres(), 0.0) / std::max(conductivity_W_per_mK, 1e-3);
  const double gain = std::max(swirl, 1.0);
  const TemperatureDifference whole = liquid_water(wort) - liquid_water(bath);
  // Film and flow depend on each other weakly, so a fixed dozen of rounds settles them far below
  // any digit that matters.
  double inside = 500;
  double outside = 500;
  double overall = 0;
  for (int round = 0; round < 12; ++round) {
    overall = 1 / (1 / inside + wall_resistance + 1 / outside);
    inside = gain * film_W_per_m2K(height, liquid_water(wort),
                                   liquid_water(wort) - whole * (overall / inside));
    outside = film_W_per_m2K(height, liquid_water(bath),
                             liquid_water(bath) + whole * (overall / outside));
  }
  return overall;
}

}  // namespace

double film_W_per_m2K(Length height, Temperature liquid, Temperature wall) {
  const double h = std::max(height.metres(), 1e-3);
  const TemperatureDifference across = liquid_water(wall) - liquid_water(liquid);
  const Temperature film = liquid_water(liquid) + across / 2;
  const Stir s = stir(h, film, std::abs(across.kelvins()));
  const double damping = std::pow(1 + std::pow(0.492 / s.prandtl, 9.0 / 16), 8.0 / 27);
  const double root = 0.825 + 0.387 * std::pow(s.rayleigh, 1.0 / 6) / damping;
  return root * root * water_conductivity_W_per_mK(film) / h;
}

double overall_W_per_m2K(Length height, Length wall, double conductivity_W_per_mK, Temperature wort,
                         Temperature bath, double swirl) {
  thread_local Recent<6, double, 12> recent;
  return recent.answer(
      {height.metres(), wall.metres(), conductivity_W_per_mK, wort.celsius(), bath.celsius(),
       swirl},
      [&] { return settled_W_per_m2K(height, wall, conductivity_W_per_mK, wort, bath, swirl); });
}

Conductance conductance(const Wetted& w, Length wall, double conductivity_W_per_mK,
                        Temperature wort, Temperature bath, double swirl) {
  const double area = w.side_m2 + w.base_m2 / 4;
  return Conductance::watts_per_kelvin(
      area * overall_W_per_m2K(w.depth, wall, conductivity_W_per_mK, wort, bath, swirl));
}

}  // namespace starter::science
