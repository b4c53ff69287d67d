#pragma once

/// \file
/// Settling in the cold: how fast yeast falls, how long until a starter is clear, what the
/// decanting keeps.
///
/// A single cell falls by Stokes's law, v = Δρ g d²/(18 μ) (G. G. Stokes, 1851; any textbook of
/// fluid mechanics), some 3.5 mm/h in liquid as thin as water at 20 °C, half of that in cold beer.
/// Waiting for single cells would take days; what settles in practice are clumps. How much faster
/// they fall is put in one *clump factor* a yeast, chosen so that in cold beer 10 cm deep the times
/// agree with the 12–48 h of common practice.
///
/// Example: a medium clumper, 10 cm deep, at 4 °C: 100 mm / (1.73 mm/h × 2.6) = 22 h.

#include "quantity/quantity.h"
#include "science/uncertain.h"

namespace starter::science {

/// How readily a yeast gathers into clumps; the trade calls it flocculation.
enum class Clumping { low, medium, high };

/// A rounded brewing cell; 5 to 10 µm are met. From memory.
inline constexpr Length cell_diameter = Length::millimetres(0.005);

/// A cell's density, 1.08, less that of a fermented starter, 1.008 kg/L. From memory.
inline constexpr Density cell_heaviness = Density::kilograms_per_litre(0.072);

/// Viscosity of fermented wort over that of water at the same temperature. Common practice, no
/// source.
inline constexpr Uncertain beer_viscosity_factor{1.1, 1.3, 1.5};

/// What yeasts of one class differ by: multiplies the clump factor. Common practice, no source.
inline constexpr Uncertain clump_spread{0.64, 1.0, 1.6};

/// How many times faster than single cells a yeast of this class falls. Common practice, no source.
Uncertain clump_factor(Clumping clumping);

/// Share of the cells that stays when a settled starter is decanted, ratio: low clumpers keep
/// 0.70–0.90, the others 0.90–0.98. Common practice, no source.
Uncertain decanting_keeps(Clumping clumping);

/// Stokes's velocity of a sphere in m/s, for Reynolds numbers well below 1 (a cell's is 10⁻⁶).
/// \param heavier density of the sphere less that of the liquid; negative rises, a negative result.
/// \param pascal_seconds viscosity of the liquid; at or below 0 the result is 0.
double stokes_velocity(Length diameter, Density heavier, double pascal_seconds);

/// Velocity of a single cell in m/s in fermented wort.
/// \param viscosity_factor see `beer_viscosity_factor`; below 0.1 counts as that.
/// The temperature is clamped to the 0–110 °C of water's viscosity.
double cell_velocity(Temperature liquid, double viscosity_factor = beer_viscosity_factor.likely);

/// How long a starter stands at fridge temperature until nearly all its yeast lies at the bottom.
/// The time it takes to get that cold comes on top (newton_cooling.h).
/// \param depth of the liquid; negative counts as 0.
/// \param floc_factor multiplies the likely clump factor, see `clump_spread`; below 0.01 counts as
///        that.
Duration crash_time_needed(Clumping clumping, Length depth, Temperature fridge, double floc_factor);

/// How deep liquid stands in a conical flask of usual proportions, for when nothing but its nominal
/// capacity is known; vessel_shape.h has other shapes and measured ones.
/// \param capacity at or below 0 the depth is 0, as for a negative volume. More liquid than the
/// flask
///        holds stands at its brim.
/// Example: 1.2 L in a 2 L flask stands 7.3 cm deep.
Length liquid_depth(Volume liquid, Volume capacity);

}  // namespace starter::science
