#include "science/growth.h"

#include <algorithm>
#include <array>
#include <cstddef>

namespace starter::science {
namespace {

constexpr double most_crowded = 3.5;  // billion pitched per gram, from where nothing grows

/// At 20 °C ten doublings take a day or two, as long as any stage is given.
constexpr double most_new_per_pitched = 1023;

double stirred_per_gram(double r) {
  return std::clamp((7 - 2 * r) / 3, 0.0, 1.4);
}

struct Point {
  double grams_per_billion;  ///< extract over cells pitched
  double new_per_pitched;    ///< new cells over cells pitched
};

/// The table of the header for 100 billion pitched, and before it the point where nothing grows.
constexpr double grams_per_litre = 97;
constexpr std::array<Point, 6> still_table{{
    {1 / most_crowded, 0.0},
    {0.5 * grams_per_litre / 100, 0.12},
    {1.0 * grams_per_litre / 100, 0.52},
    {1.5 * grams_per_litre / 100, 0.81},
    {2.0 * grams_per_litre / 100, 1.05},
    {4.0 * grams_per_litre / 100, 1.76},
}};

double still_new_per_pitched(double grams_per_billion) {
  const double q = grams_per_billion;
  if (q <= still_table.front().grams_per_billion) return 0;
  for (std::size_t i = 1; i < still_table.size(); ++i) {
    const Point& a = still_table[i - 1];
    const Point& b = still_table[i];
    if (q <= b.grams_per_billion) {
      const double part = (q - a.grams_per_billion) / (b.grams_per_billion - a.grams_per_billion);
      return a.new_per_pitched + part * (b.new_per_pitched - a.new_per_pitched);
    }
  }
  return still_table.back().new_per_pitched * (q / still_table.back().grams_per_billion);
}

double published_billions(Aeration aeration, double pitched, double grams, double shaken) {
  const double stirred = grams * stirred_per_gram(pitched / grams);
  const double still = pitched * still_new_per_pitched(grams / pitched);
  switch (aeration) {
    case Aeration::stirred:
      return stirred;
    case Aeration::still:
      return still;
    case Aeration::shaken:
      break;
  }
  return still + std::clamp(shaken, 0.0, 1.0) * (stirred - still);
}

}  // namespace

CellCount biomass_bound(Mass extract, double yield_g_per_g, double cell_picograms) {
  if (cell_picograms <= 0) return CellCount::billion(0);
  // One gram is 10¹² pg, a billion is 10⁹.
  return CellCount::billion(1000 * std::max(extract.grams(), 0.0) * std::max(yield_g_per_g, 0.0) /
                            cell_picograms);
}

CellCount new_cells(Aeration aeration, CellCount living_pitched, Mass dry_extract,
                    double yield_factor, double shaken) {
  // Far beyond anything in a kitchen; keeps the ratios of the two finite.
  constexpr double least = 1e-100, most = 1e100;
  const double pitched = std::min(living_pitched.billion(), most);
  const double grams = std::min(dry_extract.grams(), most);
  if (pitched <= least || grams <= least) return CellCount::billion(0);
  const double grown =
      std::max(yield_factor, 0.0) * published_billions(aeration, pitched, grams, shaken);
  return CellCount::billion(
      std::min({grown, biomass_bound(dry_extract).billion(), most_new_per_pitched * pitched}));
}

CellDensity inoculation(CellCount living, Volume wort) {
  if (wort.litres() <= 0) return CellDensity::million_per_mL(0);
  return std::max(living, CellCount::billion(0)) / wort;
}

CellCount cells_after_stage(CellCount living_in, CellCount all_new, Share grown) {
  return living_in + all_new * std::clamp(grown.ratio(), 0.0, 1.0);
}

}  // namespace starter::science
