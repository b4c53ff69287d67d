#pragma once

/// \file
/// What a starter does to the gravity of the beer when it goes in whole, not decanted.
///
/// Mixing is by mass of extract, °P = 100 × extract / mass. A fermented starter holds less extract
/// than its gravity at first, and more than its hydrometer shows, since alcohol is lighter than
/// water: its *real extract* follows from both by Balling's relation
/// RE = 0.1808 OE + 0.8192 AE (°P). Source: C. J. N. Balling's attenuation doctrine, 19th century,
/// in the form the brewing textbooks print; coefficients from memory. It lies 0.1 to 0.2 °P below
/// the means of five sets of beers, 532 in all, in table III of A. J. Cutaia, A.-J. Reid and
/// R. A. Speers, J. Inst. Brew. 115(4), 2009: under 0.02 °P in a beer that takes a tenth of
/// starter.
///
/// Example: 1.5 L of starter, from 9 °P down to an apparent 2 °P, holds 0.1808 × 9 + 0.8192 × 2 =
/// 3.27 °P real extract. In 20 L of 12 °P wort it leaves 11.42 °P; counting its alcohol back, the
/// beer is as if brewed at 11.79 °P.

#include "quantity/quantity.h"

namespace starter::science {

/// Real extract by Balling, for 0–25 °P original and an apparent extract below it. Not below 0.
Plato real_extract(Plato original, Plato apparent);

/// Starter over batch by volume; 5 % is about where decanting begins to pay (common practice). No
/// batch: 0. Negative volumes count as 0.
Share starter_share(Volume starter, Volume batch);

/// Real extract of wort and undecanted starter together, just mixed.
/// \param beer, gravity the wort before the starter goes in, at 20 °C.
/// \param starter volume of the starter, its original gravity, and its apparent one when it goes in
///        (equal to the original when it has not fermented).
/// Negative volumes and gravities of the wort count as 0; nothing mixed is 0 °P.
Plato gravity_with_starter(Volume beer, Plato gravity, Volume starter, Plato starter_original,
                           Plato starter_apparent);

/// The original gravity at which the whole would have had to be brewed: the starter counts with
/// what it held before fermenting. The few per cent of mass it lost as gas are neglected, which is
/// about 0.01 °P for starters up to a tenth of the batch.
Plato original_gravity_equivalent(Volume beer, Plato gravity, Volume starter,
                                  Plato starter_original);

}  // namespace starter::science
