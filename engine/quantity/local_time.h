#pragma once

/// \file
/// Wall-clock time without a zone, as it stands on the kitchen clock. The system clock is never
/// read: a plan gives the same answer whenever it is checked.

#include <compare>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "quantity/quantity.h"

namespace starter {

/// A minute on the proleptic Gregorian calendar, years 1900 to 2200, no zone, no daylight saving.
class LocalTime {
 public:
  constexpr LocalTime() = default;
  /// \param minutes whole minutes since 1970-01-01T00:00 on the same clock.
  static constexpr LocalTime from_minutes(std::int64_t minutes) { return LocalTime(minutes); }
  constexpr std::int64_t minutes() const { return minutes_; }
  constexpr auto operator<=>(const LocalTime&) const = default;

 private:
  constexpr explicit LocalTime(std::int64_t minutes) : minutes_(minutes) {}
  std::int64_t minutes_ = 0;
};

/// Later by `d`, rounded to the nearest minute (half a minute: the later one) and held inside the
/// years 1900 to 2200; a duration that is not a number gives the first minute of 1900.
LocalTime operator+(LocalTime t, Duration d);
LocalTime operator-(LocalTime t, Duration d);
Duration operator-(LocalTime a, LocalTime b);

/// What stands in a plan: a day, or a day with a clock time.
struct WrittenTime {
  LocalTime at;
  bool has_clock = false;  ///< false when only a day was written; `at` is then its midnight
};

/// Reads "2027-03-16" or "2027-03-16T18:00" (ISO 8601, a space also stands for the T).
/// \return nothing when the text is not such a time, names a day that does not exist, has seconds
///         or a zone, or lies outside 1900 to 2200. `problem`, when given, then says why and
///         `write` what to write instead, never empty: one or two readable times joined by " or ".
///         "24:00" is not a time; it is written as 00:00 of the next day.
std::optional<WrittenTime> read_time(std::string_view text, std::string* problem = nullptr,
                                     std::string* write = nullptr);

/// "2027-03-16T18:00"
std::string iso(LocalTime t);
/// "2027-03-16"
std::string iso_day(LocalTime t);
/// "Tue 16 Mar 18:00", for people. English, as all texts are.
std::string spoken(LocalTime t);
/// "Tue 16 Mar 2027", for people.
std::string spoken_day(LocalTime t);
/// What a plan writes as a day or a time, as people say it: "Tue 16 Mar 2027", "Tue 16 Mar 2027
/// 18:00". Any other text as it is.
std::string spoken_if_time(const std::string& written);

}  // namespace starter
