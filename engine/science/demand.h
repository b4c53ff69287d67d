#pragma once

/// \file
/// How much yeast a beer asks for.
///
/// The trade states the demand as a *pitching rate*: living cells per millilitre of beer and degree
/// Plato of its wort, in million/(mL·°P). The cells needed are rate × volume × gravity.
///
/// Example: 20 L of ale at 12 °P at 0.75 million/(mL·°P) take
/// 0.75 × 20 000 mL × 12 = 180 000 million, so 180 billion living cells.

#include "quantity/quantity.h"
#include "science/uncertain.h"

namespace starter::science {

/// Pitching rates in million/(mL·°P). Source: common practice, no source. The spans are what
/// careful brewers of the same kind of beer still differ by.
inline constexpr Uncertain ale_pitching_rate{0.6, 0.75, 1.0};
inline constexpr Uncertain lager_pitching_rate{1.2, 1.5, 2.0};
inline constexpr Uncertain hybrid_pitching_rate{0.75, 1.0, 1.5};

/// One million cells per mL and °P, the figure of the brewing textbooks. From memory.
inline constexpr double textbook_pitching_rate = 1.0;

/// The living cells a beer needs.
/// \param million_per_mL_per_degP pitching rate, million/(mL·°P); practice is 0.35 to 2.
/// \param beer volume in the fermenter.
/// \param gravity original gravity of the wort, 0 to 30 °P.
/// A negative parameter counts as zero.
CellCount cells_needed(double million_per_mL_per_degP, Volume beer, Plato gravity);

}  // namespace starter::science
