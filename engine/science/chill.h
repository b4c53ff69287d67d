#pragma once

/// \file
/// Chilling hot wort in a bath, with or without ice for the last stretch.
///
/// The flask stands in water that warms as it cools. At `ice_from` the ice goes in. It takes up
/// heat from the bath water at once, down to 0 °C at most; what is still ice then holds the bath at
/// 0 °C until the wort's heat has melted it. Each stretch has a closed form, so the heat balance is
/// exact. Nothing is lost to the room.
///
/// Example: 5.3 kJ/K of boiling wort and flask, 10 L of water at 15 °C, a kilogram of ice from
/// 40 °C, 8 W/K, down to 21 °C
///
///     ChillPlan p{HeatCapacity::kilojoules_per_kelvin(5.3), 99_degC, 10_L, 15_degC,
///                 1_kg, 40_degC, Conductance::watts_per_kelvin(8), 21_degC};
///     Chilled c = chill(p);   // ice in after 15.4 min, 21 °C after 30.8 min, no ice left
///     c.lowest;               // 16.0 °C; ice_needed(...) says 386 g would just do in the end
///
/// None of the functions throws, and none gives NaN for finite input.

#include <optional>

#include "quantity/quantity.h"
#include "science/heat.h"

namespace starter::science {

struct ChillPlan {
  HeatCapacity capacity;         ///< of wort and vessel together
  Temperature start;             ///< of the wort
  Volume bath;                   ///< water; negative counts as none
  Temperature bath_temperature;  ///< 0–110 °C, taken at the nearer end outside
  Mass ice;                      ///< at 0 °C; negative counts as none
  Temperature ice_from;          ///< wort temperature at which the ice goes in
  Conductance ua;
  Temperature target;
};

struct Chilled {
  bool reachable = false;
  std::optional<Duration> time;    ///< to the target; nothing when it is never reached
  Temperature lowest;              ///< what bath and all the ice can reach in the end
  std::optional<Duration> ice_in;  ///< when the ice went in; nothing without ice, or when the
                                   ///< target came first
  Mass ice_left;                   ///< not melted (or not used) at the target, or in the end
  Temperature bath_end;            ///< of the bath at the target, or of both in the end
};

/// Runs the plan. A wort at or below its target already is there in no time. Where the bath alone
/// would leave the wort above `ice_from`, or only just below it, the ice goes in when the wort is
/// within `stalled` of where the bath would leave it: nobody waits longer than that.
Chilled chill(const ChillPlan& plan);

/// See `chill`. Common practice, no source.
inline constexpr TemperatureDifference stalled = TemperatureDifference::kelvins(1);

/// Ice that brings wort and bath together down to `target`:
/// m = (C₁(T₁ − T) + C₂(T₂ − T)) / (333.5 kJ/kg + c·T), T in °C, ice at 0 °C.
/// \param margin how far below the target the two should end up, so that it is reached in good
///        time; the aim is never below 0 °C.
/// \return nothing to add (0 g) when the bath alone suffices.
Mass ice_needed(Body wort, Body bath, Temperature target,
                TemperatureDifference margin = TemperatureDifference());

}  // namespace starter::science
