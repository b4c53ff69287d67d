#pragma once

/// \file
/// Extract and gravity: how much is dissolved, what it weighs, what room it takes.
///
/// Definitions. Extract is everything dissolved, by mass. °Plato is grams of extract in 100 g of
/// wort. SG is the apparent specific gravity 20/20 °C, both weighed in air. Volumes are at 20 °C
/// unless a function says otherwise. Wort is treated as a sucrose solution, as the trade does.
///
/// Example: 110 g of dry malt extract, 96 % of it solids, in 1.15 L of water
///
///     Wort w = dissolve(110_g, 96_percent, 1.15_L);   // 105.6 g extract, 1152.3 g water
///     plato(w);                                       // 8.40 °P
///     sg(plato(w));                                   // 1.0334
///     volume(w);                                      // 1.220 L
///     dry_malt_equivalent(w);                         // 90.2 g/L
///
/// None of the functions throws, and none gives NaN for finite input.

#include "quantity/gravity.h"
#include "quantity/quantity.h"
#include "science/uncertain.h"

namespace starter::science {

/// \name Scales
/// Published: NBS Circular 440 (F. J. Bates, 1942), Table 114: apparent SG 20/20 °C of sucrose by
/// whole °Brix, 0–60, straight between entries. Between them the line is within 6e-6 SG
/// (0.002 °P) of a smooth curve. Valid 0–60 °P; on either side the end pieces run on straight, so
/// that a finished beer under 1.000 reads below 0 °P. The two directions are exact inverses.
/// @{
Plato plato(SpecificGravity g);
SpecificGravity sg(Plato p);
Plato plato(Gravity g);
SpecificGravity sg(Gravity g);
/// @}

/// Density in vacuum at 20 °C: ρ = SG · (0.99820 − 0.0012) + 0.0012 kg/L, which takes the air's
/// lift (0.0012 kg/L) off the apparent gravity. 0.99820 for water.
Density true_density(Plato p);

/// Grams of extract in a litre at 20 °C; zero at 0 °P and below.
Concentration concentration(Plato p);

/// The room that dissolved extract takes at 20 °C: volume of the wort less that of its water;
/// 0.612 mL/g at 0 °P, rising to 0.620 at 30 °P and 0.628 at 60 °P, from the same table.
Volume displacement(Mass extract, Plato p);

/// \name Solids of what is weighed
/// Share by mass that is extract; the rest is moisture. Common practice, no source.
/// @{
inline constexpr Uncertain dry_malt_solids{0.95, 0.96, 0.97};
inline constexpr Uncertain liquid_malt_solids{0.78, 0.80, 0.82};
inline constexpr Uncertain sugar_solids{0.999, 1.0, 1.0};
/// @}

/// What is in the vessel, by mass. Neither part is ever negative in what these functions return.
struct Wort {
  Mass extract;
  Mass water;
};

/// Extract weighed and dissolved in water measured at 20 °C.
/// \param weighed as it comes out of the packet, moisture and all; negative counts as none.
/// \param solids share that is extract, 0–1 (taken at the nearer end outside).
Wort dissolve(Mass weighed, Share solids, Volume water_at_20C);

/// Ready wort of that volume at 20 °C and that strength (0–100 °P).
Wort wort_of(Volume at_20C, Plato strength);

/// The wort after that volume of water (as cold water) has boiled away. At most all its water
/// goes; a negative volume tops up.
Wort boil_down(Wort wort, Volume water_lost);

Mass mass(Wort wort);
Plato plato(Wort wort);                  ///< 0 for an empty vessel
Volume volume(Wort wort);                ///< at 20 °C: mass over true density
Concentration extract_ratio(Wort wort);  ///< extract per litre at 20 °C; 0 for an empty vessel

/// Grams of dry malt extract, at 96 % solids, that a litre of the finished cold wort holds or
/// would hold: the trade's 1:10 rule is 100 g/L of this.
Concentration dry_malt_equivalent(Wort wort);

/// \name Hydrometer
/// @{

/// What a hydrometer made for 20 °C would read if the sample were at 20 °C: reading · ρw(20)/ρw(T),
/// ρw the density of water. The glass's own expansion (about 0.0005 SG at 40 °C the other way) is
/// left out. Sample 0–110 °C, taken at the nearer end outside.
SpecificGravity hydrometer_at_20C(SpecificGravity reading, Temperature sample);

/// Whether a reading at that temperature can be corrected at all: 0 to 40 °C. Above it the
/// correction is larger than the difference looked for (common practice, no source).
bool hydrometer_trusted(Temperature sample);

/// @}

}  // namespace starter::science
