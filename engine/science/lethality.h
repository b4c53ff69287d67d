#pragma once

/// \file
/// What heat kills.
///
/// Two yardsticks: pasteurisation units (PU) for the microbes that spoil beer, F₀ for the spores
/// that survive a boil. Both are minutes at a temperature weighted by how deadly it is.
///
/// Example: 10 min at 99 °C are `pasteurisation_units(99_degC, 10_min)` = 4.1 million PU, but
/// `f0(99_degC, 10_min)` = 0.06 min, where preserving takes minutes: spores live.
///
/// Temperatures outside −273.15 to 200 °C are taken at the nearer end; a negative hold counts as
/// none.

#include "quantity/quantity.h"

namespace starter::science {

/// PU gained each minute: 1.393^(T − 60 °C).
/// From memory: H. W. Del Vecchio, C. A. Dayharsh and F. C. Baselt, Thermal death time studies on
/// beer spoilage organisms, Proc. Am. Soc. Brew. Chem. 1951. The formula is in common use.
double pasteurisation_units_per_minute(Temperature t);

/// PU of a hold at constant temperature.
double pasteurisation_units(Temperature t, Duration hold);

/// Equivalent minutes at 121.1 °C: minutes · 10^((T − 121.1 °C)/10 K), the canning trade's F₀ with
/// z = 10 K (from memory).
double f0(Temperature t, Duration hold);

}  // namespace starter::science
