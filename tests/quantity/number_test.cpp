#include <boost/test/unit_test.hpp>
#include <cmath>
#include <cstdlib>
#include <limits>
#include <random>
#include <string>
#include <vector>

#include "quantity/number.h"
#include "quantity/read.h"
#include "quantity/write.h"

using namespace starter;

BOOST_AUTO_TEST_SUITE(number)

BOOST_AUTO_TEST_CASE(reads_decimal_numbers) {
  const std::vector<std::pair<std::string, double>> cases = {
      {"0", 0},           {"1", 1},
      {"1.2", 1.2},       {".5", 0.5},
      {"5.", 5},          {"007", 7},
      {"1e11", 1e11},     {"1E+3", 1000},
      {"2.5e-3", 0.0025}, {"-1.5", -1.5},
      {"+4", 4},          {"\u22123", -3},
      {"-0.25", -0.25},   {"0.1", 0.1},
      {"1.037", 1.037},   {"9007199254740993", 9007199254740992.0},
      {"1e-400", 0},      {"0e999999999999999999999", 0},
  };
  for (const auto& [text, value] : cases) {
    const auto read = read_number(text);
    BOOST_TEST_REQUIRE(read.has_value(), text);
    BOOST_TEST(*read == value, text);
  }
}

BOOST_AUTO_TEST_CASE(refuses_what_is_not_wholly_a_decimal_number) {
  for (const std::string text : {"",       " ",
                                 ".",      "-",
                                 "+",      "e5",
                                 "1e",     "1e+",
                                 "1 ",     " 1",
                                 "1,2",    "1.2.3",
                                 "0x10",   "inf",
                                 "-inf",   "infinity",
                                 "nan",    "NaN",
                                 "1_000",  "1'000",
                                 "--1",    "+-1",
                                 "1/2",    "1e400",
                                 "-1e309", "1e999999999999999999999",
                                 "½",      "1f",
                                 "12 g"})
    BOOST_TEST(!read_number(text).has_value(), text);
}

BOOST_AUTO_TEST_CASE(is_correctly_rounded_like_the_c_library) {
  std::mt19937_64 random(20270316);
  std::uniform_int_distribution<std::uint64_t> mantissas;
  std::uniform_int_distribution<int> exponents(-345, 300);
  std::uniform_int_distribution<int> shifts(0, 60);
  for (int i = 0; i < 20000; ++i) {
    const std::uint64_t mantissa =
        (mantissas(random) % 10'000'000'000'000'000'000U) >> shifts(random);
    const std::string text = std::to_string(mantissa) + "e" + std::to_string(exponents(random));
    const double expected = std::strtod(text.c_str(), nullptr);
    const auto read = read_number(text);
    BOOST_TEST_REQUIRE(read.has_value() == std::isfinite(expected), text);
    if (read) BOOST_TEST_REQUIRE(*read == expected, text);
  }
}

BOOST_AUTO_TEST_CASE(rounds_at_the_edges_of_a_double) {
  BOOST_TEST(read_number("1.7976931348623157e308").value() == std::numeric_limits<double>::max());
  BOOST_TEST(!read_number("1.7976931348623159e308").has_value());
  BOOST_TEST(read_number("5e-324").value() == std::numeric_limits<double>::denorm_min());
  BOOST_TEST(read_number("2.4703282292062327e-324").value() == 0.0);  // below half the smallest
  BOOST_TEST(read_number("2.4703282292062328e-324").value() ==
             std::numeric_limits<double>::denorm_min());  // above it
  BOOST_TEST(read_number("2.2250738585072014e-308").value() == std::numeric_limits<double>::min());
  BOOST_TEST(read_number("9007199254740993").value() == 9007199254740992.0);  // tie, to even
  BOOST_TEST(read_number("9007199254740995").value() == 9007199254740996.0);  // tie, to even
}

BOOST_AUTO_TEST_CASE(cuts_digits_past_the_nineteenth) {
  BOOST_TEST(read_number("1." + std::string(400, '0') + "9").value() == 1.0);
  BOOST_TEST(read_number("0." + std::string(400, '0') + "9").value() == 0.0);
  BOOST_TEST(read_number("1" + std::string(25, '0')).value() == 1e25);
  BOOST_TEST(!read_number(std::string(400, '9')).has_value());
}

BOOST_AUTO_TEST_CASE(a_leading_decimal_stops_where_the_number_does) {
  BOOST_TEST(leading_decimal("1.5e3 L")->length == 5U);
  BOOST_TEST(leading_decimal("12eggs")->length == 2U);
  BOOST_TEST(leading_decimal("1.2.3")->length == 3U);
  BOOST_TEST(leading_decimal("1e5e5")->value == 1e5);
  BOOST_TEST(!leading_decimal("-1").has_value());
  BOOST_TEST(!leading_decimal("x1").has_value());
  BOOST_TEST(!leading_decimal("").has_value());
}

BOOST_AUTO_TEST_CASE(rounds_to_significant_digits) {
  struct Case {
    double value;
    int digits;
    double rounded;
  };
  for (const auto& c :
       {Case{0, 6, 0}, Case{1234567.0, 6, 1234570.0}, Case{-1234567.0, 6, -1234570.0},
        Case{0.000123456789, 6, 0.000123457}, Case{1.0 / 3, 3, 0.333}, Case{2.0 / 3, 1, 0.7},
        Case{999.96, 4, 1000}, Case{9.5, 3, 9.5}, Case{1e300 / 3, 6, 3.33333e299},
        Case{1e-300 / 3, 6, 3.33333e-301}, Case{5e-324, 6, 4.94066e-324},
        Case{1.0 / 3, 17, 1.0 / 3}, Case{1.0 / 3, 0, 0.3}, Case{95.2, 6, 95.2}})
    BOOST_TEST(round_to_digits(c.value, c.digits) == c.rounded);
  const double none = std::numeric_limits<double>::quiet_NaN();
  BOOST_TEST(std::isnan(round_to_digits(none, 6)));
  BOOST_TEST(std::isinf(round_to_digits(std::numeric_limits<double>::infinity(), 6)));
}

BOOST_AUTO_TEST_CASE(rounding_is_idempotent_odd_and_close) {
  std::mt19937_64 random(7);
  std::uniform_real_distribution<double> logs(-30, 30);
  for (int i = 0; i < 5000; ++i) {
    const double v = std::pow(10, logs(random));
    const double once = round_to_digits(v, 6);
    BOOST_TEST_REQUIRE(round_to_digits(once, 6) == once);
    BOOST_TEST_REQUIRE(round_to_digits(-v, 6) == -once);
    BOOST_TEST_REQUIRE(std::abs(once - v) <= 5.0000001e-6 * v);
  }
}

BOOST_AUTO_TEST_CASE(writes_numbers_plainly) {
  struct Case {
    double value;
    int digits;
    std::string text;
  };
  for (const auto& c :
       {Case{0, 3, "0"}, Case{-0.0, 3, "0"}, Case{1, 3, "1"}, Case{1.5, 3, "1.5"},
        Case{0.5832, 2, "0.58"}, Case{123456, 3, "123000"}, Case{1234.5, 6, "1234.5"},
        Case{0.000012345, 3, "0.0000123"}, Case{999.9, 3, "1000"}, Case{-2.50, 3, "-2.5"},
        Case{9.99e14, 3, "999000000000000"}, Case{1e15, 3, "1e15"}, Case{1.25e20, 3, "1.25e20"},
        Case{-1.25e20, 3, "-1.25e20"}, Case{1.0 / 3, 17, "0.33333333333333331"}})
    BOOST_TEST(write_number(c.value, c.digits) == c.text);
}

BOOST_AUTO_TEST_CASE(what_is_written_reads_back_as_rounded) {
  std::mt19937_64 random(11);
  std::uniform_real_distribution<double> logs(-20, 25);
  for (int i = 0; i < 5000; ++i) {
    const double v = std::pow(10, logs(random)) * (i % 2 == 0 ? 1 : -1);
    for (const int digits : {1, 3, 6, 15, 17})
      BOOST_TEST_REQUIRE(read_number(write_number(v, digits)).value() ==
                         round_to_digits(v, digits));
  }
}

BOOST_AUTO_TEST_SUITE_END()
