#include "output/calendar_words.h"

#include <fmt/format.h>

#include <cmath>

namespace starter {
namespace {

constexpr double hour = 60;  // in minutes, as all that follows
constexpr double day = 24 * hour;

/// \param minutes a whole number
/// \param down whether what is left over is dropped; else it is rounded
std::string minutes_in_words(double minutes, bool down) {
  const auto to = [down](double value) { return down ? std::floor(value) : std::round(value); };
  const auto whole = [](double value) { return static_cast<long long>(value); };
  if (minutes < hour) return fmt::format("{} min", whole(minutes));
  if (minutes < day) {
    const long long left = whole(minutes) % 60;
    return left == 0 ? fmt::format("{} h", whole(minutes / hour))
                     : fmt::format("{} h {:02} min", whole(minutes / hour), left);
  }
  const long long hours = whole(to(minutes / hour));
  if (hours < 72) return fmt::format("{} h", hours);
  if (hours < 7 * 24)
    return hours % 24 == 0 ? fmt::format("{} days", hours / 24)
                           : fmt::format("{} days {} h", hours / 24, hours % 24);
  return fmt::format("{} days", whole(to(minutes / day)));
}

}  // namespace

std::string time_in_words(Duration d) {
  const double seconds = std::round(d.seconds());
  if (seconds > 0 && seconds < 90 && seconds != 60)
    return fmt::format("{} s", static_cast<long long>(seconds));
  return minutes_in_words(std::round(d.minutes()), false);
}

std::string time_to_use(Duration d) {
  // A sum of hours may fall short of a whole minute by its last bits.
  constexpr double last_bits = 1e-6;
  const double minutes = std::floor(d.minutes() + last_bits);
  return minutes < 1 ? "" : minutes_in_words(minutes, true);
}

std::string day_of(LocalTime t) {
  const std::string text = spoken(t);  // "Tue 16 Mar 18:00"
  return text.substr(0, text.size() - 6);
}
std::string year_of(LocalTime t) {
  return iso_day(t).substr(0, 4);
}

std::string day_in_words(LocalTime t) {
  return spoken_day(t);
}

std::string clock_of(const Calendar& c, Duration t) {
  if (const auto clock = c.clock(t)) {
    const std::string text = spoken(*clock);
    return text.substr(text.size() - 5);
  }
  const long long minutes = std::llround(t.minutes());
  return fmt::format("{}:{:02}", minutes / 60, minutes % 60);
}

std::string moment(const Calendar& c, Duration t) {
  if (const auto clock = c.clock(t)) return spoken(*clock);
  return clock_of(c, t) + " h";
}

std::string takes(const CalendarRow& row) {
  const Duration lasts = row.end - row.start;
  return lasts > Duration() ? time_in_words(lasts) : "a moment";
}

bool is_late(const CalendarRow& row) {
  return row.may_wait && *row.may_wait <= Duration::minutes(-1);
}

bool is_past(const Calendar& c, const CalendarRow& row) {
  return is_late(row) && row.start + *row.may_wait < c.rows.front().start;
}

std::string may_be_late(const CalendarRow& row) {
  if (!row.may_wait) return "as you like";
  if (is_late(row)) return "not at all";
  const std::string time = time_to_use(*row.may_wait);
  return time.empty() ? "not at all" : time;
}

std::string number_of(const CalendarRow& row) {
  return row.growth ? "" : std::to_string(row.step + 1);
}

}  // namespace starter
