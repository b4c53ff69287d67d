#include "science/slurry.h"

#include <algorithm>

namespace starter::science {

Volume slurry_volume(CellCount cells, double billion_per_mL, Share not_yeast) {
  if (billion_per_mL <= 0) return Volume::litres(0);
  const double yeast = 1 - std::clamp(not_yeast.ratio(), 0.0, 0.95);
  return Volume::millilitres(std::max(cells.billion(), 0.0) / (billion_per_mL * yeast));
}

Temperature mixed_temperature(Volume a, Temperature a_temperature, Volume b,
                              Temperature b_temperature) {
  const double va = std::max(a.litres(), 0.0);
  const double vb = std::max(b.litres(), 0.0);
  if (va + vb <= 0) return a_temperature;
  return a_temperature + (b_temperature - a_temperature) * (vb / (va + vb));
}

TemperatureDifference slurry_gap(Temperature slurry, Temperature beer) {
  return slurry < beer ? beer - slurry : slurry - beer;
}

}  // namespace starter::science
