#pragma once

/// \file
/// How well heat crosses from the wort through the wall into the bath.
///
/// Three resistances in a row: the film of still wort inside, the wall, the film of still water
/// outside. Both films stir themselves, because the liquid beside the wall is warmer or colder
/// than the rest and moves. The wort's films are taken to be those of water (common practice, no
/// source; at 10 °P wort is about a third more viscous, which costs under 10 % of the film).
///
/// Example: 1.2 L in a 2 L flask, wort at 60 °C, bath at 20 °C
///
///     Wetted w = wetted(outline(Shape::cone, 2_L), 1.2_L);
///     conductance(w, 2_mm, 1.2, 60_degC, 20_degC, 1);     // 9.0 W/K
///     conductance(w, 2_mm, 1.2, 60_degC, 20_degC, 2.5);   // 10.7 W/K, swirled
///
/// None of the functions throws, and none gives NaN for finite input.

#include "quantity/quantity.h"
#include "science/uncertain.h"
#include "science/vessel_shape.h"

namespace starter::science {

/// Film coefficient of water on an upright wall, W/(m²·K).
/// Nu = (0.825 + 0.387 Ra^(1/6) / (1 + (0.492/Pr)^(9/16))^(8/27))², properties at the mean of wall
/// and liquid.
/// Published: Churchill and Chu's correlation for a vertical plate, 1975 (journal from memory: Int.
/// J. Heat Mass Transfer 18, 1323–1329; Ra up to 10¹²).
/// \param height of the wetted wall; under 1 mm counts as 1 mm.
/// \param liquid, wall 0–110 °C, taken at the nearer end outside.
double film_W_per_m2K(Length height, Temperature liquid, Temperature wall);

/// Heat through a square metre of wall per kelvin between wort and bath, W/(m²·K): the two films
/// and the wall in series, films found at the wall temperatures that this heat flow gives.
/// \param wort, bath representative temperatures: halfway of what each goes through.
/// \param wall its thickness; negative counts as none.
/// \param conductivity_W_per_mK of the wall, at least 0.001.
/// \param swirl factor on the inside film: 1 left alone, see `swirl_gain`; under 1 counts as 1.
double overall_W_per_m2K(Length height, Length wall, double conductivity_W_per_mK, Temperature wort,
                         Temperature bath, double swirl);

/// UA of a vessel standing in water as deep as its wort: sides whole, base a quarter, because the
/// cooled wort lies still on the base inside and the floor of the tub holds the water under it
/// (common practice, no source).
Conductance conductance(const Wetted& w, Length wall, double conductivity_W_per_mK,
                        Temperature wort, Temperature bath, double swirl);

/// What swirling every minute or two does to the inside film. Common practice, no source.
inline constexpr Uncertain swirl_gain{1.5, 2.5, 4.0};

/// Factor on a computed UA for what the model leaves out: base, bath stirred by hand, crowding.
/// Common practice, no source.
inline constexpr Uncertain conductance_spread{0.65, 1.0, 1.4};

}  // namespace starter::science
