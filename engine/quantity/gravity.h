#pragma once

/// \file
/// The strength of a wort as a person states it: on the scale they used.

#include "quantity/quantity.h"

namespace starter {

/// A gravity on one of the two scales of the trade. Converting between them takes the published
/// sucrose table, so it lives with the science: `science::plato(gravity)`, `science::sg(gravity)`.
struct Gravity {
  enum class Scale { specific_gravity, plato };
  Scale scale = Scale::specific_gravity;
  double value = 1.0;  ///< as stated: 1.037 on the SG scale, 9.2 on the Plato scale

  static constexpr Gravity of(SpecificGravity g) { return {Scale::specific_gravity, g.sg()}; }
  static constexpr Gravity of(Plato p) { return {Scale::plato, p.degrees()}; }
  constexpr bool operator==(const Gravity&) const = default;
};

}  // namespace starter
