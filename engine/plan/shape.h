#pragma once

/// \file
/// The names of all fields of a plan, object by object, in the order they are best written.

#include <array>
#include <span>
#include <string_view>

namespace starter::shape {

using Name = std::string_view;

inline constexpr auto plan = std::to_array<Name>(
    {"plan", "title", "member", "start", "place", "beer", "yeast", "vessels", "stages", "steps"});
inline constexpr auto place = std::to_array<Name>({"altitude", "tap_water", "room", "fridge"});
inline constexpr auto beer = std::to_array<Name>(
    {"kind", "volume", "gravity", "brew_day", "yeast_due", "ferment_at", "keep_cells"});
inline constexpr auto yeast =
    std::to_array<Name>({"form", "packs", "cells_per_pack", "packaged", "pack_mass", "best_before",
                         "slurry_volume", "slurry_density", "viability", "cells_counted",
                         "measured_cells", "out_of_fridge", "flocculation"});
inline constexpr auto vessel = std::to_array<Name>(
    {"kind", "capacity", "material", "opening", "depth", "diameter", "empty_mass", "coil_allowed"});
inline constexpr auto stage =
    std::to_array<Name>({"extract", "water", "gravity", "wort_volume", "boil_off", "vessel",
                         "agitation", "temperature", "duration", "measured"});
inline constexpr auto extract = std::to_array<Name>({"kind", "mass", "solids"});
inline constexpr auto measured =
    std::to_array<Name>({"volume", "volume_at", "gravity", "gravity_at", "chill_time",
                         "growth_time", "cells", "cells_counted", "settling_time", "cells_kept"});
inline constexpr auto step =
    std::to_array<Name>({"do",   "id",   "stage",      "in",     "from",     "with",     "items",
                         "heat", "bath", "bath_depth", "water",  "ice",      "ice_from", "swirl",
                         "to",   "at",   "for",        "sealed", "boil_off", "during",   "after"});

/// The fields of one kind of object, and what people call a place that has them.
struct Object {
  std::string_view called;
  std::span<const Name> fields;
};

/// Every kind of object in a plan.
inline constexpr Object objects[] = {
    {"the top of the plan", plan},
    {"/place", place},
    {"/beer", beer},
    {"/yeast", yeast},
    {"a vessel", vessel},
    {"a stage", stage},
    {"a stage's extract", extract},
    {"a stage's measured", measured},
    {"a step", step},
};

}  // namespace starter::shape
