#pragma once

/// \file
/// How many new cells a stage of growth can make, once it has had its time (kinetics.h says when).
///
/// Growth is told per gram of *dry malt extract as weighed*. Two numbers govern it: how crowded the
/// yeast is, r = living cells pitched per gram of extract (billion/g), and how oxygen reaches it.
///
/// - Stirred: 1.4 billion new cells a gram up to r = 1.4, then (7 − 2r)/3 to none at r = 3.5. The
///   line is usually told rounded, 2.33 − 0.67 r. Source: home experiments that K. Troester
///   published in 2012–13; from memory.
/// - Still: 100 billion cells in 0.5, 1, 1.5, 2 and 4 L of 1.036 wort end near 112, 152, 181, 205
/// and
///   276 billion. Source: White and Zainasheff, *Yeast*, 2010; from memory. A litre of that wort
///   holds 97 g of dry extract as weighed (about 93.5 g of dissolved solids), which turns the table
///   into new cells per cell pitched against grams per billion pitched, straight between its
///   points. Weaker crowding than the 4 L point keeps that point's 0.45 billion a gram; at r = 3.5,
///   as when stirred, none.
/// - Shaken now and then: between the two; a common-practice guess, no source.
///
/// Example: 100 billion living cells on a stir plate with 100 g of extract: r = 1, so 140 billion
/// new ones. With 50 g: r = 2, (7 − 4)/3 = 1 billion a gram, so 50 billion.

#include "quantity/quantity.h"
#include "science/uncertain.h"

namespace starter::science {

/// How oxygen reaches the growing yeast.
enum class Aeration { stirred, shaken, still };

/// Yeasts and worts differ by this factor on the new cells. Common practice, no source.
inline constexpr Uncertain growth_yield{0.75, 1.0, 1.25};

/// Where between still (0) and stirred (1) a flask stands that is shaken by hand. Common practice,
/// no source.
inline constexpr Uncertain shaken_weight{0.25, 0.5, 0.75};

/// Yeast dry mass per mass of extract when the wort gets some air, g/g. From memory.
inline constexpr Uncertain biomass_yield{0.05, 0.075, 0.10};

/// Dry mass of one cell, picogram. From memory; cells of 20 to 40 pg are common.
inline constexpr Uncertain cell_dry_mass{20, 30, 40};

/// The most new cells that sugar can be turned into, yield × extract / cell mass.
/// \param extract as weighed; negative counts as zero.
/// \param yield_g_per_g see `biomass_yield`; negative counts as zero.
/// \param cell_picograms see `cell_dry_mass`; at or below 0 there is no such cell and the bound is
/// 0. Example: 100 g at 0.10 g/g and 30 pg: 10 g / 30 pg = 333 billion.
CellCount biomass_bound(Mass extract, double yield_g_per_g = biomass_yield.high,
                        double cell_picograms = cell_dry_mass.likely);

/// New cells of a stage that is given all the time it needs.
/// \param living_pitched living cells that go in.
/// \param dry_extract dry malt extract as weighed (or what equals it).
/// \param yield_factor multiplies the published growth, see `growth_yield`; negative counts as
/// zero. \param shaken used for `Aeration::shaken` only, see `shaken_weight`; clamped to 0..1.
/// \return never negative, never above `biomass_bound(dry_extract)`, and never more than ten
///         doublings of what was pitched, so that nothing grows from nothing. Continuous in all
///         numbers. It does not fall as extract is added, and pitched + new does not fall as yeast
///         is added (for yield factors up to 1.5). None at all from r = 3.5 on.
CellCount new_cells(Aeration aeration, CellCount living_pitched, Mass dry_extract,
                    double yield_factor, double shaken = shaken_weight.likely);

/// Living cells per volume of wort at the start. No volume: zero.
CellDensity inoculation(CellCount living, Volume wort);

/// Cells when the stage is stopped: what went in, and the share of its new cells that is there by
/// then (kinetics.h). Feed the result into the next stage.
/// \param grown clamped to 0..1.
CellCount cells_after_stage(CellCount living_in, CellCount all_new, Share grown);

}  // namespace starter::science
