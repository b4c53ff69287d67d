#include "quantity/local_time.h"

#include <boost/test/unit_test.hpp>
#include <chrono>
#include <limits>
#include <random>
#include <string>
#include <vector>

using namespace starter;
using namespace starter::literals;

namespace {

LocalTime time_of(std::string_view text) {
  const auto read = read_time(text);
  BOOST_TEST_REQUIRE(read.has_value(), std::string(text));
  return read->at;
}

struct Refusal {
  std::string says, write;
};

Refusal refusal(std::string_view text) {
  Refusal out;
  BOOST_TEST_REQUIRE(!read_time(text, &out.says, &out.write).has_value(), std::string(text));
  return out;
}

/// Every alternative of a hint can be read.
bool hint_reads(std::string write) {
  if (write.empty()) return false;
  for (std::size_t at = 0; at != std::string::npos;) {
    const std::size_t end = write.find(" or ", at);
    if (!read_time(write.substr(at, end == std::string::npos ? end : end - at))) return false;
    at = end == std::string::npos ? end : end + 4;
  }
  return true;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(local_time)

BOOST_AUTO_TEST_CASE(reads_days_and_times) {
  BOOST_TEST(time_of("1970-01-01").minutes() == 0);
  BOOST_TEST(time_of("1970-01-02T00:01").minutes() == 1441);
  BOOST_TEST(time_of("1969-12-31T23:59").minutes() == -1);
  BOOST_TEST(time_of("2027-03-16 18:00").minutes() == time_of("2027-03-16T18:00").minutes());
  BOOST_TEST(time_of("  2027-03-16T18:00\n").minutes() == time_of("2027-03-16T18:00").minutes());
  BOOST_TEST(read_time("2027-03-16T18:00")->has_clock);
  BOOST_TEST(!read_time("2027-03-16")->has_clock);
  BOOST_TEST(iso(time_of("2027-03-16")) == "2027-03-16T00:00");
}

BOOST_AUTO_TEST_CASE(agrees_with_the_standard_calendar_on_every_day) {
  using namespace std::chrono;
  const sys_days last = 2200y / December / 31;
  for (sys_days day = 1900y / January / 1; day <= last; day += days(1)) {
    const year_month_day date(day);
    const auto t = LocalTime::from_minutes(std::int64_t{day.time_since_epoch().count()} * 1440);
    const auto read = read_time(iso_day(t));
    BOOST_TEST_REQUIRE(read.has_value());
    BOOST_TEST_REQUIRE((read->at == t));
    BOOST_TEST_REQUIRE(std::stoi(iso_day(t).substr(0, 4)) == static_cast<int>(date.year()));
    BOOST_TEST_REQUIRE(std::stoul(iso_day(t).substr(5, 2)) == static_cast<unsigned>(date.month()));
    BOOST_TEST_REQUIRE(std::stoul(iso_day(t).substr(8, 2)) == static_cast<unsigned>(date.day()));
  }
}

BOOST_AUTO_TEST_CASE(knows_leap_days) {
  for (const std::string day : {"2028-02-29", "2000-02-29", "1904-02-29", "2196-02-29"})
    BOOST_TEST(iso_day(time_of(day)) == day);
  for (const std::string day : {"2027-02-29", "1900-02-29", "2100-02-29", "2200-02-29"}) {
    BOOST_TEST(refusal(day).says.find("28 days") != std::string::npos);
    BOOST_TEST(refusal(day).write == day.substr(0, 8) + "28");
  }
  BOOST_TEST(iso(time_of("2028-02-28T23:59") + 1_min) == "2028-02-29T00:00");
  BOOST_TEST(iso(time_of("2027-02-28T23:59") + 1_min) == "2027-03-01T00:00");
}

BOOST_AUTO_TEST_CASE(keeps_to_the_years_1900_to_2200) {
  BOOST_TEST(iso(time_of("1900-01-01")) == "1900-01-01T00:00");
  BOOST_TEST(iso(time_of("2200-12-31T23:59")) == "2200-12-31T23:59");
  for (const std::string text : {"1899-12-31", "2201-01-01", "0000-01-01", "9999-12-31T10:00"})
    BOOST_TEST(refusal(text).says.find("1900 to 2200") != std::string::npos);
}

BOOST_AUTO_TEST_CASE(adds_hours_without_daylight_saving) {
  // The nights on which clocks change in many places: an hour is an hour all the same.
  BOOST_TEST(iso(time_of("2027-03-27T22:00") + 8_h) == "2027-03-28T06:00");
  BOOST_TEST(iso(time_of("2027-10-30T22:00") + 8_h) == "2027-10-31T06:00");
  BOOST_TEST(iso(time_of("2027-03-14T00:00") + 24_h) == "2027-03-15T00:00");
  BOOST_TEST(iso(time_of("2027-01-01T00:00") - 1_min) == "2026-12-31T23:59");
  BOOST_TEST(((time_of("2027-03-16T18:00") - time_of("2027-03-14T06:30")) == 59.5_h));
  BOOST_TEST(((time_of("2027-03-14") - time_of("2027-03-16")) == -48_h));
}

BOOST_AUTO_TEST_CASE(rounds_to_the_nearest_minute) {
  const LocalTime t = time_of("2027-03-16T18:00");
  BOOST_TEST(iso(t + 29_s) == "2027-03-16T18:00");
  BOOST_TEST(iso(t + 31_s) == "2027-03-16T18:01");
  BOOST_TEST(iso(t + 0.5_min) == "2027-03-16T18:01");
  BOOST_TEST(iso(t - 29_s) == "2027-03-16T18:00");
  BOOST_TEST(iso(t - 31_s) == "2027-03-16T17:59");
}

BOOST_AUTO_TEST_CASE(no_duration_overflows) {
  const LocalTime t = time_of("2027-03-16T18:00");
  const double endless = std::numeric_limits<double>::infinity();
  BOOST_TEST(iso(t + Duration::hours(1e300)) == "2200-12-31T23:59");
  BOOST_TEST(iso(t + Duration::hours(endless)) == "2200-12-31T23:59");
  BOOST_TEST(iso(t - Duration::hours(endless)) == "1900-01-01T00:00");
  BOOST_TEST(iso(t + Duration::hours(std::numeric_limits<double>::quiet_NaN())) ==
             "1900-01-01T00:00");
  BOOST_TEST(iso(time_of("2200-12-31T23:58") + 1_min) == "2200-12-31T23:59");
  BOOST_TEST(iso(time_of("1900-01-01T00:01") - 1_min) == "1900-01-01T00:00");
  // Even times that nobody can write can be printed.
  BOOST_TEST(!iso(LocalTime::from_minutes(std::numeric_limits<std::int64_t>::max())).empty());
  BOOST_TEST(!spoken(LocalTime::from_minutes(std::numeric_limits<std::int64_t>::min())).empty());
}

BOOST_AUTO_TEST_CASE(there_and_back_is_the_same_minute) {
  std::mt19937 random(3);
  std::uniform_int_distribution<std::int64_t> minutes(time_of("1950-01-01").minutes(),
                                                      time_of("2150-01-01").minutes());
  std::uniform_int_distribution<int> spans(-100000, 100000);
  for (int i = 0; i < 2000; ++i) {
    const auto t = LocalTime::from_minutes(minutes(random));
    const auto d = Duration::minutes(spans(random));
    BOOST_TEST_REQUIRE((t + d - d == t));
    BOOST_TEST_REQUIRE((t + ((t + d) - t) == t + d));
    BOOST_TEST_REQUIRE((time_of(iso(t)) == t));
  }
}

BOOST_AUTO_TEST_CASE(speaks_times_in_english) {
  BOOST_TEST(spoken(time_of("2027-03-16T18:00")) == "Tue 16 Mar 18:00");
  BOOST_TEST(spoken(time_of("1970-01-01T00:00")) == "Thu 1 Jan 00:00");
  BOOST_TEST(spoken(time_of("1969-12-31T07:05")) == "Wed 31 Dec 07:05");
  BOOST_TEST(spoken(time_of("2000-02-29T09:30")) == "Tue 29 Feb 09:30");
  BOOST_TEST(starter::spoken_day(time_of("2027-03-06T18:00")) == "Sat 6 Mar 2027");
}

BOOST_AUTO_TEST_CASE(says_what_a_plan_writes_as_people_do) {
  using starter::spoken_if_time;
  BOOST_TEST(spoken_if_time("2027-03-16T18:00") == "Tue 16 Mar 2027 18:00");
  BOOST_TEST(spoken_if_time("2027-03-16") == "Tue 16 Mar 2027");
  for (const std::string other : {"", "36 h", "2027", "2027-03-16 or so", "2027-02-30"})
    BOOST_TEST(spoken_if_time(other) == other);
}

BOOST_AUTO_TEST_CASE(refuses_with_what_to_write_instead) {
  const std::vector<std::pair<std::string, std::string>> cases = {
      {"2027-03-16T18:00:00", "2027-03-16T18:00"},
      {"2027-03-16T18:00Z", "2027-03-16T18:00"},
      {"2027-03-16T18:00+02:00", "2027-03-16T18:00"},
      {"2027-03-16T24:00", "2027-03-17T00:00"},
      {"2027-12-31T24:00", "2028-01-01T00:00"},
      {"2200-12-31T24:00", "2200-12-31T23:59"},
      {"2027-03-16T24:30", "2027-03-16T18:00"},
      {"2027-03-16T18:60", "2027-03-16T18:00"},
      {"2027-03-16T6:00", "2027-03-16T06:00"},
      {"2027-03-16 6:00 pm", "2027-03-16T18:00"},
      {"2027-03-16 06:30 pm", "2027-03-16T18:30"},
      {"2027-03-16 12:15 am", "2027-03-16T00:15"},
      {"2027-03-16 6 pm", "2027-03-16T18:00"},
      {"2027-03-16T", "2027-03-16T18:00"},
      {"2027-03-16T18", "2027-03-16T18:00"},
      {"2027-3-16", "2027-03-16"},
      {"2027/03/16", "2027-03-16"},
      {"16.03.2027", "2027-03-16"},
      {"16/3/2027 18:00", "2027-03-16T18:00"},
      {"03/16/2027", "2027-03-16"},
      {"03/04/2027", "2027-04-03 or 2027-03-04"},
      {"04/04/2027", "2027-04-04"},
      {"2027-02-30", "2027-02-28"},
      {"2027-04-31", "2027-04-30"},
      {"2027-04-00", "2027-04-01"},
      {"2027-16-03", "2027-03-16"},
      {"2027-13-40", "2027-03-16T18:00"},
      {"2027-00-10", "2027-03-16T18:00"},
      {"tomorrow", "2027-03-16T18:00"},
      {"", "2027-03-16T18:00"},
      {"18:00", "2027-03-16T18:00"},
      {"2027-03-16x18:00", "2027-03-16T18:00"},
      {"99999999999999999999-01-01", "2027-03-16T18:00"},
  };
  for (const auto& [text, write] : cases) {
    const Refusal r = refusal(text);
    BOOST_TEST(r.write == write, text << " -> " << r.write);
    BOOST_TEST(!r.says.empty(), text);
    BOOST_TEST(hint_reads(r.write), text << " -> " << r.write);
  }
}

BOOST_AUTO_TEST_CASE(random_texts_are_refused_politely) {
  std::mt19937 random(20270316);
  const std::string alphabet = "0123456789---TT::  ZPpMm+/.2027";
  std::uniform_int_distribution<std::size_t> pick(0, alphabet.size() - 1);
  std::uniform_int_distribution<int> lengths(0, 24);
  std::uniform_int_distribution<int> bytes(0, 255);
  for (int i = 0; i < 20000; ++i) {
    std::string text = i % 3 == 0 ? "2027-03-16" : "";
    for (int n = lengths(random); n > 0; --n)
      text += i % 5 == 0 ? static_cast<char>(bytes(random)) : alphabet[pick(random)];
    std::string says, write;
    const auto read = read_time(text, &says, &write);
    if (read)
      BOOST_TEST_REQUIRE(iso(read->at).size() == 16U);
    else
      BOOST_TEST_REQUIRE((!says.empty() && hint_reads(write)), text << " -> " << write);
  }
}

BOOST_AUTO_TEST_SUITE_END()
