#pragma once

/// \file
/// Air pressure by altitude.
///
/// Example: `air_pressure(240_m)` = 98.47 kPa, `air_pressure(1600_m)` = 83.53 kPa.

#include "quantity/quantity.h"
#include "science/uncertain.h"

namespace starter::science {

/// Pressure of the standard atmosphere at a geometric altitude, −2000 to 11,000 m; taken at the
/// nearer end outside.
/// H = r·h/(r + h), r = 6,356,766 m; T = 288.15 K − 0.0065 K/m · H;
/// p = 101.325 kPa · (T/288.15 K)^(g/(R·0.0065)), g = 9.80665 m/s², R = 287.05287 J/(kg·K).
/// Published: ISO 2533:1975, Standard Atmosphere.
Pressure air_pressure(Altitude altitude);

/// What weather adds, kPa. Common practice, no source: highs and lows of the middle latitudes.
inline constexpr Uncertain weather_kPa{-3, 0, 3};

}  // namespace starter::science
