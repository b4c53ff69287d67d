#pragma once

/// \file
/// Water: density, expansion, viscosity, heat.
///
/// All functions take water at one atmosphere. A temperature outside the stated range is taken at
/// the nearer end of it, so the answer is always a finite number.
///
/// Example: a litre of water measured at 20 °C weighs 998.2 g, and takes up
/// `expansion(100_degC)` = 1.0416 L at the boil.

#include "quantity/quantity.h"

namespace starter::science {

/// \name Density
/// @{

/// The density of water at 20 °C that the sugar tables are built on.
/// Published: F. J. Bates, Polarimetry, Saccharimetry and the Sugars, NBS Circular 440, 1942; the
/// same figure to five digits as Kell's.
inline constexpr Density water_density_20C = Density::kilograms_per_litre(0.99820);

/// Density of air-free water, 0–110 °C.
/// ρ = (999.83952 + 16.945176 t − 7.9870401e-3 t² − 46.170461e-6 t³ + 105.56302e-9 t⁴
///      − 280.54253e-12 t⁵) / (1 + 16.879850e-3 t) kg/m³, t in °C.
/// Published: G. S. Kell, J. Chem. Eng. Data 20 (1975) 97–105, eq. 16; within 0.01 kg/m³ to 40 °C
/// and 0.1 kg/m³ above. The equation itself reaches 150 °C.
Density water_density(Temperature t);

/// Volume over the volume at 20 °C, 0–110 °C: 1.0014 at 26 °C, 1.0416 at 100 °C. Wort is taken to
/// expand as water does (common practice, no source; sugar solutions expand a little more).
double expansion(Temperature t);

/// Cubic expansion coefficient of water in 1/K, 0–110 °C: −(dρ/dt)/ρ of Kell's equation.
/// Negative below 4 °C.
double water_expansivity_per_K(Temperature t);

/// @}
/// \name Flow and heat
/// Published: IAPWS SR6-08(2011), Revised Supplementary Release on Properties of Liquid Water at
/// 0.1 MPa, eqs. 7 and 8. The release's range is −20 to 110 °C; here 0–110 °C.
/// @{

/// Dynamic viscosity in mPa·s: 1.0016 at 20 °C, 0.2816 at 100 °C.
double water_viscosity_mPa_s(Temperature t);

/// Thermal conductivity in W/(m·K): 0.598 at 20 °C.
double water_conductivity_W_per_mK(Temperature t);

/// @}

/// Specific heat of cold water in kJ/(kg·K), as used for baths and melted ice.
/// Published: IAPWS-95 at 20 °C and one atmosphere, 4.18405; it stays within 0.9 % from 0 to
/// 100 °C.
inline constexpr double water_specific_heat = 4.184;

/// Heat to melt ice at 0 °C, kJ/kg. Published: IAPWS R10-06(2009) for ice against IAPWS-95 for
/// water gives 333.43; the round figure in use is within 0.03 % of it.
inline constexpr double ice_latent_heat = 333.5;

}  // namespace starter::science
