#pragma once

/// \file
/// What a sudden change of temperature does to glass.
///
/// The skin of the glass follows what it meets at once while the wall behind it does not. Cooled
/// skin is pulled apart, and glass breaks in tension: sudden cooling is the dangerous way. Heated
/// skin is pressed together, which glass bears far better.
///
/// Example: a boiling flask set into a 15 °C bath
///
///     thermal_shock(99_degC, 15_degC);                    // step 84 K, cooling
///     sudden_step_limit(borosilicate_3_3, 30);            // 114 K for worn glass of 30 N/mm²
///     sudden_step_limit(soda_lime, 30);                   // 37 K

#include "quantity/quantity.h"
#include "science/uncertain.h"

namespace starter::science {

/// What the formula needs to know of a glass.
struct GlassProperties {
  double expansion_per_K;   ///< linear expansion coefficient α
  double youngs_N_per_mm2;  ///< Young's modulus E
  double poisson;           ///< Poisson's ratio ν
};

/// Published: ISO 3585 borosilicate glass 3.3, α = 3.3e-6/K (20–300 °C); E = 64 kN/mm² and
/// ν = 0.20 as makers' data sheets give them for it.
inline constexpr GlassProperties borosilicate_3_3{3.3e-6, 64000, 0.20};

/// Soda-lime container glass: α = 9e-6/K, E 70–72 kN/mm², ν 0.22–0.23 in published tables of
/// material data; composition varies from works to works.
inline constexpr GlassProperties soda_lime{9.0e-6, 70000, 0.22};

/// Tensile strength of used, unscratched-looking glass for a short pull, N/mm². From memory; new
/// glass bears more, a scratch halves it.
inline constexpr Uncertain worn_glass_strength{20, 30, 50};

/// The sudden cooling of the surface that pulls it to a given tension: ΔT = σ(1 − ν)/(E·α), for
/// the worst case that the skin takes the new temperature at once. From memory; textbook result
/// for a plate held from bending.
/// \param tension_N_per_mm2 σ, not negative (negative counts as zero).
TemperatureDifference sudden_step_limit(const GlassProperties& glass, double tension_N_per_mm2);

/// How far apart the glass and what it meets are, and which way.
struct ThermalShock {
  TemperatureDifference step;  ///< never negative
  bool cooling = false;        ///< the glass is the warmer one: the dangerous way
};

ThermalShock thermal_shock(Temperature glass, Temperature met);

}  // namespace starter::science
