#pragma once

/// \file
/// How much living yeast a member has: packs, dry yeast, slurry, and what age takes from them.
///
/// *Viability* is the living share of all cells. *Age* is counted in months of 30 days since the
/// pack left its maker, or since the slurry went cold.
///
/// Liquid yeast "loses about a fifth a month" (common practice, no source). That sentence is read
/// in two ways. Read as a fifth of what was there at first, viability is 1 − 0.2 m and nothing
/// lives after five months; read as a fifth of what is left, it is 0.8^m. At one month both say 80
/// %; at 120 days they say 20 % and 41 %. Nobody has settled it, so the span here runs from below
/// the first to above the second.
///
/// Example: a pack of 100 billion, 120 days old, has viability(120 d, 0) = (0.20 + 0.4096)/2 =
/// 30.5 %, with 15 % and 46 % as the ends.

#include "quantity/quantity.h"
#include "science/uncertain.h"

namespace starter::science {

/// Cells found over cells stated for a liquid pack, ratio. Common practice, no source.
inline constexpr Uncertain pack_contents{0.8, 1.0, 1.2};

/// Cells in dry yeast, billion per gram. Common practice, no source.
inline constexpr Uncertain dry_yeast_cells{5, 10, 20};

/// Cells in thick settled slurry, billion per mL of the yeast in it. Common practice, no source.
inline constexpr Uncertain slurry_cells_per_mL{1.0, 1.5, 2.0};

/// Share of slurry volume that is not yeast (trub, hop, beer between the cells), ratio. Common
/// practice, no source.
inline constexpr Uncertain slurry_not_yeast{0.10, 0.17, 0.25};

/// How an uncertain decline is read: pass the ends and the middle in turn as `reading`.
inline constexpr Uncertain decline_reading{-1, 0, 1};

/// Living share of a liquid pack kept cold.
/// \param age since it was packaged; a negative age counts as fresh.
/// \param reading from −1 to 1, clamped. −1 is the straight line 1 − 0.2 m less 5 points that packs
///        differ by when fresh, not below 0; 0 is the mean of straight line and decay, the likely
///        value; +1 is the decay 0.8^m plus 5 points, not above 1. Linear between these.
/// \return 0 to 1, never rising with age, never falling with `reading`.
Share viability(Duration age, double reading);

/// Living share of harvested slurry kept cold under beer. Common practice, no source: healthy
/// slurry starts at about 95 % and fades about twice as fast as a pack, so `reading` −1 is the
/// straight line at twice the pack's pace, +1 the pack's own decay, 0 the mean of line and decay at
/// twice the pace; same 5 points at the ends, same clamping.
Share slurry_viability(Duration cold_age, double reading);

/// Standard error of a viability counted under the microscope, √(p(1 − p)/N) (binomial; any
/// textbook of statistics). Says nothing of errors in sampling and dilution. \param viability the
/// living share found, clamped to 0..1. \param cells_counted all cells counted, living and dead;
/// below 1 counts as 1. Example: 80 % of 300 cells: √(0.8 × 0.2/300) = 2.3 points.
Share standard_error(Share viability, double cells_counted);

/// All cells, living and dead, in dry yeast. Negative parameters count as zero.
/// \param billion_per_gram see `dry_yeast_cells`.
CellCount dry_yeast(Mass yeast, double billion_per_gram);

/// All cells, living and dead, in slurry. Negative parameters count as zero.
/// \param billion_per_mL see `slurry_cells_per_mL`.
/// \param not_yeast see `slurry_not_yeast`; clamped to 0..1.
/// Example: 100 mL at 1.5 billion/mL, 17 % of it not yeast: 124.5 billion.
CellCount slurry_cells(Volume slurry, double billion_per_mL, Share not_yeast);

}  // namespace starter::science
