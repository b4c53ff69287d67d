#pragma once

/// \file
/// The shape of a vessel: how deep wort stands in it, what it wets, what the vessel displaces.
///
/// Every vessel is a frustum or a cylinder. Unless measured, proportions are those of common ware
/// (common practice, no source); the brim holds a tenth more than the mark.
///
/// Example: 1.2 L in a 2 L conical flask
///
///     Outline flask = outline(Shape::cone, 2_L);   // base 162 mm, mouth 50 mm, 230 mm high
///     Wetted w = wetted(flask, 1.2_L);             // 74 mm deep, side 342 cm², base 205 cm²
///     displaced(flask, w.depth, 2_mm);             // 1.31 L, walls and base included
///
/// Sizes of nought and below count as a tenth of a millimetre, a microlitre.

#include <optional>

#include "quantity/quantity.h"

namespace starter::science {

enum class Shape {
  cone,            ///< conical flask: mouth 0.31 of the base, height 1.42 × base diameter
  tall_cylinder,   ///< jug, bottle, jar: height 1.6 × diameter
  squat_cylinder,  ///< pot, tub, sink: height 0.7 × diameter
};

/// Inside of a vessel.
struct Outline {
  Length base_radius;
  Length mouth_radius;
  Length height;
};

/// The outline of a vessel of that nominal capacity; a measured inside diameter at the base or
/// inside depth, where given, replaces the usual one, and the other then follows from capacity.
Outline outline(Shape shape, Volume capacity, std::optional<Length> diameter = std::nullopt,
                std::optional<Length> depth = std::nullopt);

/// Volume up to a depth; a depth beyond the height counts as the height.
Volume volume_to(const Outline& o, Length depth);

/// Depth at which that volume stands; at most the height.
Length depth_of(const Outline& o, Volume held);

/// The part of the inside that liquid touches.
struct Wetted {
  Length depth;
  double side_m2 = 0;
  double base_m2 = 0;
};
Wetted wetted(const Outline& o, Volume held);

/// \name In the bath
/// @{

/// What a vessel standing in water of that depth displaces: inside up to there, and walls and base
/// of that thickness.
Volume displaced(const Outline& o, Length water_depth, Length wall);

/// Whether it lifts off the floor of the bath: what it displaces up to the water line, as water,
/// outweighs flask and wort together (Archimedes). Water of 20 °C; colder lifts at most 0.2 %
/// more.
bool floats(Mass flask_and_wort, Volume displaced_to_water_line);

/// How much more the flask could displace before it floats, as a mass; negative when it floats.
Mass holding_down(Mass flask_and_wort, Volume displaced_to_water_line);

/// How full the tub gets: bath, ice and displaced volume over its capacity. Ice counts as the water
/// it melts to, because floating ice raises the level by just that (Archimedes). A capacity under
/// a microlitre counts as a microlitre.
Share bath_fill(Volume bath, Mass ice, Volume displaced_by_flask, Volume tub_capacity);

/// @}

}  // namespace starter::science
