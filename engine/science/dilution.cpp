#include "science/dilution.h"

#include <algorithm>

#include "science/extract.h"

namespace starter::science {
namespace {

Volume not_negative(Volume v) {
  return std::max(v, Volume::litres(0));
}

Plato mixed(Mass extract, Mass whole) {
  if (whole <= Mass::grams(0)) return Plato::degrees(0);
  return Plato::degrees(100 * (extract / whole));
}

Wort wort(Volume v, Plato strength) {
  return wort_of(not_negative(v), std::max(strength, Plato::degrees(0)));
}

}  // namespace

Plato real_extract(Plato original, Plato apparent) {
  return std::max(0.1808 * original + 0.8192 * apparent, Plato::degrees(0));
}

Share starter_share(Volume starter, Volume batch) {
  if (batch.litres() <= 0) return Share::ratio(0);
  return Share::ratio(not_negative(starter) / batch);
}

Plato gravity_with_starter(Volume beer, Plato gravity, Volume starter, Plato starter_original,
                           Plato starter_apparent) {
  const Wort fresh = wort(beer, gravity);
  // What the hydrometer shows is the density that the starter has, whatever makes it so.
  const Mass starter_mass = not_negative(starter) * true_density(starter_apparent);
  const Mass starter_extract =
      starter_mass * (real_extract(starter_original, starter_apparent).degrees() / 100);
  return mixed(fresh.extract + starter_extract, mass(fresh) + starter_mass);
}

Plato original_gravity_equivalent(Volume beer, Plato gravity, Volume starter,
                                  Plato starter_original) {
  const Wort fresh = wort(beer, gravity);
  const Wort grown = wort(starter, starter_original);
  return mixed(fresh.extract + grown.extract, mass(fresh) + mass(grown));
}

}  // namespace starter::science
