#include "science/glass.h"

#include <algorithm>

namespace starter::science {

TemperatureDifference sudden_step_limit(const GlassProperties& glass, double tension_N_per_mm2) {
  return TemperatureDifference::kelvins(std::max(tension_N_per_mm2, 0.0) * (1 - glass.poisson) /
                                        (glass.youngs_N_per_mm2 * glass.expansion_per_K));
}

ThermalShock thermal_shock(Temperature glass, Temperature met) {
  const bool cooling = glass > met;
  return {cooling ? glass - met : met - glass, cooling};
}

}  // namespace starter::science
