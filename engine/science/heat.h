#pragma once

/// \file
/// Heat in wort, water and vessels, and how two bodies even out.
///
/// Example: 1.25 kg of 9 °P wort in a 2 L borosilicate flask, boiling, set into 10 L of water at
/// 15 °C
///
///     HeatCapacity c = heat_capacity(wort, 60_degC) +
///                      heat_capacity(borosilicate_vessel, empty_mass(2_L, 0.22));
///     Body flask{c, 99_degC};                              // 5.3 kJ/K
///     Body bath{bath_heat_capacity(10_L, 15_degC), 15_degC};  // 41.8 kJ/K
///     equilibrium(flask, bath);                            // 24.5 °C
///
/// A heat capacity below 1e-9 kJ/K and a conductance below 1e-9 W/K count as that much, so that
/// nothing is ever divided by zero.

#include <optional>

#include "quantity/quantity.h"
#include "science/extract.h"
#include "science/uncertain.h"

namespace starter::science {

/// \name Heat capacity
/// @{

/// Specific heat of a sugar solution in kJ/(kg·K): that of water,
/// 4.1762 − 9.0864e-5 t + 5.4731e-6 t², less w·(2.511 − 0.0075 t), w the share of extract by mass.
/// Published: water from Y. Choi and M. R. Okos, Effects of temperature and composition on the
/// thermal properties of foods, 1986, within 0.2 % of IAPWS-95 from 20 °C up and 1 % below it at 0
/// °C; sucrose from J. Llano, Modeling and Simulation of Vertical Continuous Cooling Crystallizers
/// for the Sugar Industry, 2005, as a public program carries it. It gives a dissolved gram 1.86 J/K
/// at 25 °C, as calorimetry of dilute sucrose does (640 J/(mol·K), from memory). Choi and Okos's
/// own carbohydrate, 1.59 J/K, is that of dry foods and would leave wort of 10 °P 0.7 % low, of 20
/// °P 1.5 %. 0–100 °P and 0–110 °C, taken at the nearer end outside.
double specific_heat(Plato extract, Temperature t);

/// Of the whole wort, at one representative temperature: halfway of the change that matters.
HeatCapacity heat_capacity(Wort wort, Temperature t);

/// Of water measured out at its own temperature.
HeatCapacity bath_heat_capacity(Volume bath, Temperature t);

/// What a vessel is made of and how it is built. Specific heats and conductivities are the usual
/// round figures of material tables (from memory, save where noted); wall and mass per litre are
/// common practice, no source.
struct VesselMaterial {
  double specific_heat;                 ///< kJ/(kg·K)
  double conductivity_W_per_mK;         ///< across the wall
  Length wall;                          ///< usual thickness
  Uncertain empty_kilograms_per_litre;  ///< empty mass over nominal capacity
};
/// Conductivity published: data sheets of glass to ISO 3585, 1.2 W/(m·K) at 90 °C.
inline constexpr VesselMaterial borosilicate_vessel{
    0.83, 1.2, Length::millimetres(2.0), {0.20, 0.22, 0.25}};
inline constexpr VesselMaterial soda_lime_vessel{
    0.80, 1.0, Length::millimetres(4.0), {0.30, 0.40, 0.60}};
inline constexpr VesselMaterial stainless_vessel{
    0.50, 15, Length::millimetres(0.8), {0.15, 0.25, 0.40}};
inline constexpr VesselMaterial aluminium_vessel{
    0.90, 200, Length::millimetres(2.0), {0.10, 0.15, 0.25}};
inline constexpr VesselMaterial plastic_vessel{
    1.9, 0.30, Length::millimetres(2.0), {0.04, 0.06, 0.10}};

/// Empty mass of a vessel that nobody weighed.
Mass empty_mass(Volume capacity, double kilograms_per_litre);
HeatCapacity heat_capacity(const VesselMaterial& material, Mass empty);

/// @}
/// \name Two bodies
/// No heat is lost to the room or through the surface: over a chill of minutes that errs on the
/// slow side.
/// @{

/// Something of one temperature.
struct Body {
  HeatCapacity capacity;
  Temperature temperature;
};

/// Where both end: (C₁T₁ + C₂T₂)/(C₁ + C₂).
Temperature equilibrium(Body a, Body b);

/// How fast they even out, per hour: UA(1/C₁ + 1/C₂).
double evening_rate_per_hour(Body a, Body b, Conductance ua);

/// The temperature of `a` after that time in contact with `b`:
/// T(t) = T∞ + (T₁ − T∞)·exp(−UA(1/C₁ + 1/C₂)t). Negative time counts as none.
Temperature temperature_after(Body a, Body b, Conductance ua, Duration contact);

/// How long until `a` is at `target`: zero when it is there already, nothing when `target` lies
/// behind its start or at or beyond the equilibrium, which is only ever approached.
std::optional<Duration> time_to_reach(Body a, Body b, Conductance ua, Temperature target);

/// @}

}  // namespace starter::science
