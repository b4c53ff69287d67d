#include "quantity/local_time.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "quantity/words.h"

namespace starter {
namespace {

constexpr std::int64_t minutes_a_day = 24 * 60;
constexpr int first_year = 1900;
constexpr int last_year = 2200;
constexpr std::string_view example = "2027-03-16T18:00";

struct Date {
  std::int64_t year = 1970;
  int month = 1;
  int day = 1;
};

constexpr std::int64_t floor_divide(std::int64_t a, std::int64_t b) {
  return a / b - (a % b < 0 ? 1 : 0);
}

// The two conversions below count years from 1 March, so that a leap day is the last day of its
// year, in eras of 400 years. Method: Hinnant, "chrono-Compatible Low-Level Date Algorithms", from
// memory; the tests compare them day by day with the calendar of the standard library.

/// Days from 1970-01-01 to `d`.
constexpr std::int64_t days_of(Date d) {
  const std::int64_t year = d.month <= 2 ? d.year - 1 : d.year;
  const std::int64_t era = floor_divide(year, 400);
  const std::int64_t year_of_era = year - era * 400;
  const std::int64_t month_from_march = (d.month + 9) % 12;
  const std::int64_t day_of_year = (153 * month_from_march + 2) / 5 + d.day - 1;
  const std::int64_t day_of_era =
      year_of_era * 365 + year_of_era / 4 - year_of_era / 100 + day_of_year;
  return era * 146097 + day_of_era - 719468;
}

constexpr Date date_of(std::int64_t days) {
  const std::int64_t shifted = days + 719468;
  const std::int64_t era = floor_divide(shifted, 146097);
  const std::int64_t day_of_era = shifted - era * 146097;
  const std::int64_t year_of_era =
      (day_of_era - day_of_era / 1460 + day_of_era / 36524 - day_of_era / 146096) / 365;
  const std::int64_t day_of_year =
      day_of_era - (365 * year_of_era + year_of_era / 4 - year_of_era / 100);
  const std::int64_t month_from_march = (5 * day_of_year + 2) / 153;
  const auto day = static_cast<int>(day_of_year - (153 * month_from_march + 2) / 5 + 1);
  const auto month = static_cast<int>((month_from_march + 2) % 12 + 1);
  return {year_of_era + era * 400 + (month <= 2 ? 1 : 0), month, day};
}

constexpr LocalTime at_midnight(Date d) {
  return LocalTime::from_minutes(days_of(d) * minutes_a_day);
}

constexpr LocalTime earliest = at_midnight({first_year, 1, 1});
constexpr LocalTime latest =
    LocalTime::from_minutes(at_midnight({last_year + 1, 1, 1}).minutes() - 1);

constexpr bool leap(int year) {
  return (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
}

constexpr int days_in(int year, int month) {
  constexpr std::array<int, 12> days = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  return month == 2 && leap(year) ? 29 : days[static_cast<std::size_t>(month - 1)];
}

constexpr std::array<std::string_view, 12> month_names = {
    "January", "February", "March",     "April",   "May",      "June",
    "July",    "August",   "September", "October", "November", "December"};

std::int64_t day_number(LocalTime t) {
  return floor_divide(t.minutes(), minutes_a_day);
}

std::string clock(LocalTime t) {
  const std::int64_t minute = (t.minutes() % minutes_a_day + minutes_a_day) % minutes_a_day;
  return fmt::format("{:02}:{:02}", minute / 60, minute % 60);
}

std::string day_text(std::int64_t year, int month, int day) {
  return fmt::format("{:04}-{:02}-{:02}", year, month, day);
}

/// Why a text is not a time, and what to write.
struct Problem {
  std::string says;
  std::string write;
};

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

/// Whether `text` has the shape, where 9 stands for any digit.
bool shaped(std::string_view text, std::string_view shape) {
  if (text.size() != shape.size()) return false;
  for (std::size_t i = 0; i < text.size(); ++i)
    if (shape[i] == '9' ? !is_digit(text[i]) : text[i] != shape[i]) return false;
  return true;
}

/// \pre `text` is up to nine digits.
int number(std::string_view text) {
  int value = 0;
  for (const char c : text) value = value * 10 + (c - '0');
  return value;
}

bool exists(int year, int month, int day) {
  return year >= first_year && year <= last_year && month >= 1 && month <= 12 && day >= 1 &&
         day <= days_in(year, month);
}

/// A run of digits, as a number; anything of more than four digits stands as -1.
std::vector<int> numbers_in(std::string_view text) {
  std::vector<int> out;
  for (std::size_t at = 0; at < text.size() && out.size() < 8;) {
    std::size_t end = at;
    while (end < text.size() && is_digit(text[end])) ++end;
    if (end > at) out.push_back(end - at <= 4 ? number(text.substr(at, end - at)) : -1);
    at = std::max(end, at + 1);
  }
  return out;
}

/// The clock that the numbers after a date may have meant: "T18:00", or nothing.
std::string guessed_clock(std::string_view text, const std::vector<int>& numbers) {
  const std::string folded = lower_ascii(text);
  const bool afternoon = folded.find("pm") != std::string::npos;
  const bool morning = folded.find("am") != std::string::npos;
  const bool half_day = afternoon || morning;
  if (numbers.size() < 4 || (numbers.size() < 5 && !half_day)) return "";
  int hour = numbers[3];
  const int minute = numbers.size() > 4 ? numbers[4] : 0;
  if (half_day) {
    if (hour < 1 || hour > 12) return "";
    hour = hour % 12 + (afternoon ? 12 : 0);
  }
  if (hour < 0 || hour > 23 || minute < 0 || minute > 59) return "";
  return fmt::format("T{:02}:{:02}", hour, minute);
}

/// The times that a text in another notation may have meant, joined by " or ".
std::string guessed(std::string_view text) {
  const std::vector<int> n = numbers_in(text);
  if (n.size() < 3) return std::string(example);
  const std::string after = guessed_clock(text, n);
  if (exists(n[0], n[1], n[2])) return day_text(n[0], n[1], n[2]) + after;
  const bool day_first = exists(n[2], n[1], n[0]);
  const bool month_first = exists(n[2], n[0], n[1]) && n[0] != n[1];
  std::string out;
  if (day_first) out = day_text(n[2], n[1], n[0]) + after;
  if (month_first) out += (out.empty() ? "" : " or ") + day_text(n[2], n[0], n[1]) + after;
  return out.empty() ? std::string(example) : out;
}

Problem no_such_day(std::string_view text, int year, int month, int day) {
  if (year < first_year || year > last_year)
    return {fmt::format("{} is outside the years {} to {}", quoted(text), first_year, last_year),
            std::string(example)};
  if (month < 1 || month > 12)
    return {fmt::format("{} names month {}; months run from 01 to 12", quoted(text), month),
            exists(year, day, month) ? day_text(year, day, month) : std::string(example)};
  const int last = days_in(year, month);
  return {fmt::format("{} names a day that does not exist: {} {} has {} days", quoted(text),
                      month_names[static_cast<std::size_t>(month - 1)], year, last),
          day_text(year, month, std::clamp(day, 1, last))};
}

/// Midnight at the end of an existing day; the last minute of the last year has none after it.
std::string next_midnight(std::string_view day) {
  const LocalTime start =
      at_midnight({number(day.substr(0, 4)), number(day.substr(5, 2)), number(day.substr(8, 2))});
  return iso(std::min(latest, LocalTime::from_minutes(start.minutes() + minutes_a_day)));
}

/// Why what follows the day is not a clock time. `rest` starts after the T or space.
Problem no_clock(std::string_view text, std::string_view day, std::string_view rest) {
  const std::string_view hour_minute = rest.substr(0, 5);
  const bool clock_in_front = shaped(hour_minute, "99:99") && number(rest.substr(0, 2)) < 24 &&
                              number(rest.substr(3, 2)) < 60;
  if (clock_in_front) {
    const std::string write = fmt::format("{}T{}", day, hour_minute);
    const std::string_view tail = rest.substr(5);
    if (tail.starts_with(':'))
      return {fmt::format("{} has seconds; minutes are fine enough", quoted(text)), write};
    if (tail.starts_with('Z') || tail.starts_with('z') || tail.starts_with('+') ||
        tail.starts_with('-'))
      return {fmt::format("{} names a zone; times here are those of the clock on your wall",
                          quoted(text)),
              write};
    const std::string other = guessed(text);
    return {fmt::format("{} goes on after the minutes", quoted(text)),
            lower_ascii(tail).find('m') != std::string::npos ? other : write};
  }
  if (shaped(rest, "24:00"))
    return {fmt::format("{} is written as 00:00 of the day after", quoted(text)),
            next_midnight(day)};
  if (shaped(rest, "99:99"))
    return {fmt::format("{} has no such clock time; hours run to 23, minutes to 59", quoted(text)),
            fmt::format("{}T18:00", day)};
  return {
      fmt::format("{} has no clock time of the form 18:00", quoted(text)),
      guessed_clock(text, numbers_in(text)).empty() ? fmt::format("{}T18:00", day) : guessed(text)};
}

std::string_view trimmed(std::string_view text) {
  const auto blank = [](char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r'; };
  while (!text.empty() && blank(text.front())) text.remove_prefix(1);
  while (!text.empty() && blank(text.back())) text.remove_suffix(1);
  return text;
}

/// Reads a time, or says into `problem` why not.
std::optional<WrittenTime> read_time_or(std::string_view text, Problem& problem) {
  text = trimmed(text);
  const std::string_view day = text.substr(0, 10);
  const bool day_in_front =
      shaped(day, "9999-99-99") && (text.size() == 10 || text[10] == 'T' || text[10] == ' ');
  if (!day_in_front) {
    problem = {text.empty() ? "there is no time here"
                            : fmt::format("{} is not a day or a time written as {} or {}",
                                          quoted(text), example.substr(0, 10), example),
               guessed(text)};
    return std::nullopt;
  }
  const int year = number(day.substr(0, 4));
  const int month = number(day.substr(5, 2));
  const int of_month = number(day.substr(8, 2));
  if (!exists(year, month, of_month)) {
    problem = no_such_day(text, year, month, of_month);
    return std::nullopt;
  }
  const LocalTime midnight = at_midnight({year, month, of_month});
  if (text.size() == 10) return WrittenTime{midnight, false};

  const std::string_view rest = text.substr(11);
  const int hour = shaped(rest, "99:99") ? number(rest.substr(0, 2)) : 24;
  const int minute = hour < 24 ? number(rest.substr(3, 2)) : 60;
  if (minute > 59) {
    problem = no_clock(text, day, rest);
    return std::nullopt;
  }
  return WrittenTime{LocalTime::from_minutes(midnight.minutes() + hour * 60 + minute), true};
}

}  // namespace

LocalTime operator+(LocalTime t, Duration d) {
  // Compared as doubles before the cast: no duration, however long, may overflow.
  const double wanted = std::floor(static_cast<double>(t.minutes()) + d.minutes() + 0.5);
  if (!(wanted > static_cast<double>(earliest.minutes()))) return earliest;
  if (wanted >= static_cast<double>(latest.minutes())) return latest;
  return LocalTime::from_minutes(static_cast<std::int64_t>(wanted));
}

LocalTime operator-(LocalTime t, Duration d) {
  return t + -d;
}

Duration operator-(LocalTime a, LocalTime b) {
  return Duration::minutes(static_cast<double>(a.minutes()) - static_cast<double>(b.minutes()));
}

std::optional<WrittenTime> read_time(std::string_view text, std::string* problem,
                                     std::string* write) {
  Problem found;
  const auto time = read_time_or(text, found);
  if (!time && problem != nullptr) *problem = found.says;
  if (!time && write != nullptr) *write = found.write;
  return time;
}

std::string iso_day(LocalTime t) {
  const Date d = date_of(day_number(t));
  return day_text(d.year, d.month, d.day);
}

std::string iso(LocalTime t) {
  return fmt::format("{}T{}", iso_day(t), clock(t));
}

std::string spoken_day(LocalTime t) {
  constexpr std::array<std::string_view, 7> weekdays = {"Thu", "Fri", "Sat", "Sun",
                                                        "Mon", "Tue", "Wed"};  // 1970-01-01: Thu
  const std::int64_t days = day_number(t);
  const Date d = date_of(days);
  const auto weekday = static_cast<std::size_t>(days - floor_divide(days, 7) * 7);
  return fmt::format("{} {} {} {}", weekdays[weekday], d.day,
                     month_names[static_cast<std::size_t>(d.month - 1)].substr(0, 3), d.year);
}

std::string spoken(LocalTime t) {
  const std::string day = spoken_day(t);
  return day.substr(0, day.rfind(' ') + 1) + clock(t);
}

std::string spoken_if_time(const std::string& written) {
  const auto read = read_time(written);
  if (!read) return written;
  return spoken_day(read->at) + (read->has_clock ? " " + clock(read->at) : "");
}

}  // namespace starter
