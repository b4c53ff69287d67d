#pragma once

/// \file
/// What the fields of a plan hold: how each quantity is read, called, shown by example and bounded.
///
/// The bounds are far outside brewing. They catch slips of the keyboard and units, not bad plans:
/// those are for the rules.

#include <string>
#include <string_view>

#include "plan/limits.h"
#include "quantity/quantity.h"
#include "quantity/read.h"

namespace starter {

/// One kind of quantity that a field may ask for.
template <class Q>
struct Wanted {
  std::string_view called;   ///< "a volume"
  std::string_view example;  ///< "1.2 L"
  std::string_view bounds;   ///< "above 0 and at most 10,000 L"
  Read<Q> (*read)(std::string_view);
  bool (*fits)(const Q&);  ///< false for infinities too
  std::string_view unit;   ///< that a bare number most likely meant: "L"
  /// Where the unit depends on the number: the number, as typed, with it.
  std::string (*with_unit)(double number, const std::string& typed) = nullptr;
};

extern const Wanted<Mass> a_mass;
extern const Wanted<Volume> a_volume;
extern const Wanted<Volume> a_batch_volume;  ///< as a_volume; the example is a batch
extern const Wanted<Volume> a_boil_off;      ///< may be zero
extern const Wanted<Temperature> a_temperature;
extern const Wanted<Duration> a_duration;        ///< a duration whose bare number means hours
extern const Wanted<Duration> a_short_duration;  ///< a duration whose bare number means minutes
extern const Wanted<Length> a_length;
extern const Wanted<Altitude> an_altitude;
extern const Wanted<CellCount> a_cell_count;
extern const Wanted<CellDensity> a_cell_density;
extern const Wanted<Share> a_share;
extern const Wanted<Gravity> a_gravity;

}  // namespace starter
