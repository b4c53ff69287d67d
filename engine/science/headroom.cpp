#include "science/headroom.h"

#include <algorithm>

#include "science/water.h"

namespace starter::science {

Share fill(Volume cold, Volume capacity) {
  const Volume room = std::max(capacity, Volume::litres(1e-6));
  return Share::ratio(std::max(cold, Volume()) / room);
}

Share hot_fill(Volume cold, Volume capacity, Temperature t) {
  return fill(cold, capacity) * expansion(t);
}

}  // namespace starter::science
