#pragma once

/// \file
/// When wort boils, how long it takes to get there, how fast it boils away.
///
/// Example: wort of 9 °P at 240 m in average weather boils at
/// `boiling_point(240_m, 9_degP, 0_kPa)` = 99.33 °C, and 1.3 L of it in its flask, 5.4 kJ/K, taken
/// from 15 °C with 1.5 kW going in, is there in 5 minutes.

#include "quantity/quantity.h"
#include "science/uncertain.h"

namespace starter::science {

/// Temperature at which pure water boils under that pressure, 0.611213 kPa to 22,064 kPa; taken at
/// the nearer end outside (0 °C and 373.946 °C).
/// Published: IAPWS R7-97(2012), Industrial Formulation 1997, region 4 backward equation, eq. 31.
Temperature saturation_temperature(Pressure p);

/// How much higher than water a sugar solution boils.
/// At one atmosphere, x the mole fraction of sucrose (M = 342.3 against 18.02):
/// ΔT₀ = ((1 + 0.48851085 x² (1 − 1.0038 x − 0.24653 x²)) / (1 + 0.08592964 ln(1 − x)) − 1)
///       · 326.28 K.
/// Published: M. Starzak and S. D. Peacock, Zuckerindustrie 122, 380–387, as given by M. Saska,
/// Int. Sugar J. 104 (2002) 500–507, eq. 3; taken from the file definitions.units of GNU units,
/// which fixes water's boiling point at 100 °C. For another pressure, by Clausius and Clapeyron, a
/// given lowering of the water's activity is worth ΔT = ΔT₀ · (T/373.15 K)² (heat of evaporation
/// held constant; within 2 % of the whole formula down to 80 °C).
/// Wort's sugars are a little smaller on average than sucrose, its dextrins larger; sucrose stands
/// for the mixture (common practice, no source).
/// \param extract 0–95 °P, taken at the nearer end outside.
/// \param water_boils 0–374 °C, taken at the nearer end outside.
TemperatureDifference boiling_elevation(Plato extract, Temperature water_boils);

/// Boiling point of wort in an open or loosely covered vessel.
/// \param weather_offset what the weather adds to the standard pressure of that altitude, see
///        `weather_kPa`.
Temperature boiling_point(Altitude altitude, Plato extract, Pressure weather_offset);

/// \name Boil-off
/// Litres of water an hour at a gentle boil. Common practice, no source.
/// @{
inline constexpr Uncertain boil_off_covered_flask{0.2, 0.3, 0.4};  ///< narrow mouth under foil
inline constexpr Uncertain boil_off_open_pot{1.0, 1.8, 3.0};
/// @}

/// Power that a kitchen hob puts into a small vessel, kW. Common practice, no source.
inline constexpr Uncertain hob_kilowatts{1.0, 1.4, 2.0};

/// Time to heat wort and vessel through a temperature rise: C·ΔT/P, losses left to the choice of P.
/// \param kilowatts power that arrives; under 1 W counts as 1 W. A fall in temperature takes no
///        time.
Duration time_to_boil(HeatCapacity total, TemperatureDifference rise, double kilowatts);

}  // namespace starter::science
