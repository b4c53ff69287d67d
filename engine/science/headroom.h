#pragma once

/// \file
/// How full a vessel is.
///
/// Capacity is the nominal one, to the mark; a flask's brim holds 10–20 % more (common practice).
/// A capacity under a microlitre counts as a microlitre, so that any wort overfills it.
///
/// Example: 1.2 L in a 2 L flask is 0.60 full cold, and at the boil
/// `hot_fill(1.2_L, 2_L, 100_degC)` = 0.625.

#include "quantity/quantity.h"

namespace starter::science {

/// Volume at 20 °C over capacity.
Share fill(Volume cold, Volume capacity);

/// The same wort hot: `fill` times the expansion of water, 0–110 °C.
Share hot_fill(Volume cold, Volume capacity, Temperature t);

}  // namespace starter::science
