#include "science/demand.h"

#include <algorithm>

namespace starter::science {

CellCount cells_needed(double million_per_mL_per_degP, Volume beer, Plato gravity) {
  // A million per millilitre is a billion per litre, so no factor is left over.
  return CellCount::billion(std::max(million_per_mL_per_degP, 0.0) * std::max(beer.litres(), 0.0) *
                            std::max(gravity.degrees(), 0.0));
}

}  // namespace starter::science
