#pragma once

/// \file
/// The settled yeast that is pitched: what room it takes, and how it meets the beer.
///
/// Cells from a volume of slurry are in supply.h, as are the coefficients.
///
/// Example: 200 billion cells at 1.5 billion/mL with 17 % that is not yeast take
/// 200/(1.5 × 0.83) = 161 mL.

#include "quantity/quantity.h"

namespace starter::science {

/// Room that this many cells take as thick slurry.
/// \param billion_per_mL see `slurry_cells_per_mL`; at or below 0 the volume is 0.
/// \param not_yeast see `slurry_not_yeast`; clamped to 0..0.95.
Volume slurry_volume(CellCount cells, double billion_per_mL, Share not_yeast);

/// Temperature of two liquids poured together, by volume: wort, beer and slurry all take up about
/// the same heat per litre (within about 3 %, as solids replace water), and none is lost.
/// \return `a_temperature` when there is no liquid at all. Negative volumes count as 0.
Temperature mixed_temperature(Volume a, Temperature a_temperature, Volume b,
                              Temperature b_temperature);

/// How far slurry and beer are apart when they meet, never negative. Common practice keeps it
/// within about 8 K, no source.
TemperatureDifference slurry_gap(Temperature slurry, Temperature beer);

}  // namespace starter::science
