#pragma once

/// \file
/// What nobody knows exactly, and how a range follows from it.
///
/// The science is computed for one *draw* at a time: a value for every unknown, each between its
/// low and its high end. The likely draw has all of them at their likely values. A measure's range
/// comes from moving one unknown at a time to each of its ends and adding the movements as the root
/// of the sum of squares (published: JCGM 100:2008, Guide to the expression of uncertainty in
/// measurement, section 5.1, combined standard uncertainty; here separately upwards and downwards).
/// The unknown that moves a measure most is the one worth finding out.

#include <array>
#include <bitset>
#include <string_view>

#include "science/uncertain.h"

namespace starter {

enum class Unknown {
  extract_solids,
  boil_off,
  hob_power,
  weather,
  chill_film,
  pack_contents,
  viability,
  slurry_density,
  slurry_not_yeast,
  growth_yield,
  shaken_weight,
  growth_pace,
  cold_time_constant,
  clumping,
  kept_by_decanting,
};
inline constexpr std::size_t unknown_count = 15;

/// One value for every unknown, as its place between its ends: −1 low, 0 likely, +1 high.
class Draw {
 public:
  double place(Unknown u) const {
    asked_.set(static_cast<std::size_t>(u));
    return places_[static_cast<std::size_t>(u)];
  }
  void set(Unknown u, double place) { places_[static_cast<std::size_t>(u)] = place; }
  /// Whether anything computed with this draw looked at `u`. What did not would be the same with
  /// any other place of it.
  bool asked(Unknown u) const { return asked_.test(static_cast<std::size_t>(u)); }

  /// The value of `u` when its ends are those of `span`; straight lines between low, likely, high.
  double value(Unknown u, const science::Uncertain& span) const {
    const double z = place(u);
    return z < 0 ? span.likely + z * (span.likely - span.low)
                 : span.likely + z * (span.high - span.likely);
  }

 private:
  std::array<double, unknown_count> places_{};
  mutable std::bitset<unknown_count> asked_;
};

/// How an unknown is spoken of, and what a member can do about it.
struct UnknownText {
  Unknown unknown;
  std::string_view name;    ///< "the living share of the pack"
  std::string_view narrow;  ///< what to do and which field to write; a place can be added to it
};

const UnknownText& text_of(Unknown u);

}  // namespace starter
