#include "science/settling.h"

#include <algorithm>

#include "science/vessel_shape.h"
#include "science/water.h"

namespace starter::science {
namespace {

constexpr double standard_gravity = 9.80665;  // m/s²

double likely_clump_factor(Clumping clumping) {
  switch (clumping) {
    case Clumping::low:
      return 1.3;
    case Clumping::medium:
      return 2.6;
    case Clumping::high:
      break;
  }
  return 5.0;
}

}  // namespace

Uncertain clump_factor(Clumping clumping) {
  const double likely = likely_clump_factor(clumping);
  return {clump_spread.low * likely, likely, clump_spread.high * likely};
}

Uncertain decanting_keeps(Clumping clumping) {
  if (clumping == Clumping::low) return {0.70, 0.80, 0.90};
  return {0.90, 0.95, 0.98};
}

double stokes_velocity(Length diameter, Density heavier, double pascal_seconds) {
  if (pascal_seconds <= 0) return 0;
  const double d = diameter.metres();
  return 1000 * heavier.kilograms_per_litre() * standard_gravity * d * d / (18 * pascal_seconds);
}

double cell_velocity(Temperature liquid, double viscosity_factor) {
  const double viscosity = std::max(viscosity_factor, 0.1) * water_viscosity_mPa_s(liquid) / 1000;
  return stokes_velocity(cell_diameter, cell_heaviness, viscosity);
}

Duration crash_time_needed(Clumping clumping, Length depth, Temperature fridge,
                           double floc_factor) {
  const double velocity =
      cell_velocity(fridge) * likely_clump_factor(clumping) * std::max(floc_factor, 0.01);
  return Duration::seconds(std::max(depth.metres(), 0.0) / velocity);
}

Length liquid_depth(Volume liquid, Volume capacity) {
  if (capacity.litres() <= 0 || liquid.litres() <= 0) return Length::metres(0);
  return depth_of(outline(Shape::cone, capacity), liquid);
}

}  // namespace starter::science
