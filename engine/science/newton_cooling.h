#pragma once

/// \file
/// Slow cooling and warming in air: fridge, room.
///
/// Newton's law: the gap to the surroundings shrinks by the same share in the same time.
/// T(t) = T_a + (T₀ − T_a)·exp(−t/τ).
///
/// Example: a 1.2 L starter at 21 °C in a 4 °C fridge
///
///     Duration tau = time_constant(1.2_L);                    // 2.66 h
///     newton(21_degC, 4_degC, 3_h, tau);                      // 9.5 °C
///     newton_time_to_within(21_degC, 4_degC, 1_K, tau);       // 7.5 h
///
/// A time constant below a second counts as a second, a negative time as none.

#include "quantity/quantity.h"
#include "science/uncertain.h"

namespace starter::science {

Temperature newton(Temperature from, Temperature surroundings, Duration t, Duration tau);

/// How long until no further than `within` from the surroundings; zero when it is that near
/// already. Under a millikelvin counts as a millikelvin.
Duration newton_time_to_within(Temperature from, Temperature surroundings,
                               TemperatureDifference within, Duration tau);

/// Time constant of a litre of starter in its flask in still cold air, hours. Common practice, no
/// source.
inline constexpr Uncertain litre_time_constant_hours{2.0, 2.5, 3.0};

/// τ of another volume, which grows as volume over surface: τ(1 L)·(V/1 L)^(1/3). Under a
/// millilitre counts as a millilitre.
Duration time_constant(Volume v, double litre_hours = litre_time_constant_hours.likely);

}  // namespace starter::science
