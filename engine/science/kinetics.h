#pragma once

/// \file
/// How long a stage of growth takes: the time course of new cells by temperature and crowding.
///
/// Model. Lag cells L wake to active cells A, which divide, settle out, and turn sugar S into
/// ethanol E (all in g/L, time in h, T in K, S₀ the sugar at the start):
///
///     dL/dt = −μ_L L                            μ_L  = exp(  30.72 −  9501.54/T)
///     dA/dt = μ_x A − k_m A + μ_L L             μ_x  = μ_x0 S/(S₀/2 + E)
///                                               μ_x0 = exp( 108.31 − 31934.09/T)
///                                               k_m  = exp( 130.16 − 38313   /T)
///     dS/dt = −μ_s A                            μ_s  = μ_s0 S/(k_s + S)
///                                               μ_s0 = exp( −41.92 + 11654.64/T)
///                                               k_s  = exp(−119.63 + 34203.95/T)
///     dE/dt = μ_a (1 − E/(S₀/2)) A              μ_a  = μ_a0 S/(k_s + S)
///                                               μ_a0 = exp(   3.27 −  1267.24/T)
///
/// New cells are the integral of μ_x A. The model also follows the settled cells; nothing here
/// depends on them. Source: B. de Andrés-Toro, J. M. Girón-Sierra, J. A. López-Orozco,
/// C. Fernández-Conde, J. M. Peinado, F. García-Ochoa, "A kinetic model for beer production under
/// industrial operational conditions", Mathematics and Computers in Simulation 48 (1998) 65–74;
/// measured at 8, 12, 16, 20 and 24 °C (the abstract of the same authors' conference paper of that
/// title). Equations and coefficients from memory, and found alike in several published programs
/// that simulate the model; the paper itself was not at hand.
///
/// Start. 96 % of the living yeast lags and 4 % is active, from a program that begins with 48 %
/// lag, 2 % active and 50 % settled cells; others put 0 to 5 % of the living as active. A cell
/// weighs 30 pg dry, and the sugar is all the extract of the wort. All three are choices of this
/// file.
///
/// How far to trust it. The model was made for fermenters that nobody stirs. With these
/// coefficients its amounts cannot be right above some 15 °C (at 20 °C it grows more yeast than
/// there was sugar), so only its *times* are used here: the share of all new cells that is there.
/// At 70 million/mL in 9 °P the times to 95 % are 77, 74, 57, 36, 23, 18 and 8 h at 8, 10, 15, 18,
/// 20, 21 and 24 °C. Common practice for a stir plate says 18–48 h between 18 and 24 °C: it agrees
/// up to 20 °C, while at 24 °C the model is twice too quick. `warm_stretch` mends that and is
/// practice, not published. With more than 150 million/mL in the cold the times hardly depend on
/// temperature.

#include "quantity/quantity.h"
#include "science/uncertain.h"

namespace starter::science {

/// Multiplies the times: strains, oxygen and nutrients differ. Common practice, no source.
inline constexpr Uncertain growth_pace{0.7, 1.0, 1.4};

/// How much warmer a stir plate keeps its flask than the room, kelvin. Common practice, no source.
inline constexpr Uncertain stir_plate_warming{1, 2, 3};

/// The temperatures the model was measured at. Others are taken as the nearer end.
inline constexpr Temperature coldest_growth = Temperature::celsius(8);
inline constexpr Temperature warmest_growth = Temperature::celsius(24);

/// How growth stands.
struct GrowthCourse {
  Duration needed;           ///< when 95 % of the new cells are there
  Share grown;               ///< new cells at the time asked for, over all new cells
  bool temperature_clamped;  ///< the temperature lay outside 8..24 °C and the nearer end was used
  bool finished;  ///< false when growth was still under way after 480 h (before any stretching),
                  ///< where the integration stops and takes what is there as all
};

/// The model as published, in its own time. For use on plans call `growth_course`.
/// \param living living cells per volume at the start, up to 1000 million/mL (more counts as that).
/// \param wort 0.5 to 40 °P, clamped.
/// \param temperature constant; clamped to 8..24 °C.
/// \param at time since pitching; negative counts as 0.
/// \param step_scale multiplies the fixed step of the Runge-Kutta method (0.4 h when cold, 0.02 h
/// at
///        24 °C), 0.1 to 1, clamped; for tests of convergence.
/// Where nothing can grow (no living cells, or no extract) there is nothing to wait for: `needed`
/// is 0 and `grown` is 1.
GrowthCourse published_growth_course(CellDensity living, Plato wort, Temperature temperature,
                                     Duration at, double step_scale = 1);

/// Stretches the model's times above 20 °C: 1 up to 20 °C, then 0.2 more a kelvin, to 1.8 at 24 °C
/// and above. Common practice, no source.
double warm_stretch(Temperature temperature);

/// The time course of a stage in one pass: the published model with every time multiplied by
/// `pace` × `warm_stretch(temperature)`.
/// \param pace see `growth_pace`; clamped to 0.05..20.
/// Example: 70 million/mL in 9 °P at 21 °C and pace 1: needed 21 h; half of them are there after
/// 11 h.
GrowthCourse growth_course(CellDensity living, Plato wort, Temperature temperature, Duration at,
                           double pace);

/// New cells at `at` over all new cells, 0 to 1, never falling with time.
double share_grown(CellDensity living, Plato wort, Temperature temperature, Duration at,
                   double pace = growth_pace.likely);

/// When 95 % of the new cells are there.
Duration growth_time_needed(CellDensity living, Plato wort, Temperature temperature, double pace);

}  // namespace starter::science
