#include "science/newton_cooling.h"

#include <cmath>

#include "near.h"

using namespace starter;
using namespace starter::literals;
using namespace starter::science;

BOOST_AUTO_TEST_SUITE(newton_cooling)

BOOST_AUTO_TEST_CASE(one_time_constant_leaves_the_eth_part) {
  check_close(newton(21_degC, 4_degC, 2.5_h, 2.5_h).celsius(), 4 + 17 / std::exp(1.0), 1e-12);
  BOOST_TEST((newton(21_degC, 4_degC, 0_h, 2.5_h) == 21_degC));
  check_within(newton(4_degC, 20_degC, 100_h, 2.5_h).celsius(), 20, 1e-9);
}

BOOST_AUTO_TEST_CASE(time_to_within_undoes_the_cooling) {
  const Duration t = newton_time_to_within(21_degC, 4_degC, 1_K, 2.5_h);
  check_close(newton(21_degC, 4_degC, t, 2.5_h).celsius(), 5, 1e-12);
  check_close(t.hours(), 2.5 * 2.833213344, 1e-9);  // ln 17
  BOOST_TEST(newton_time_to_within(4.5_degC, 4_degC, 1_K, 2.5_h).hours() == 0);
  BOOST_TEST(newton_time_to_within(5_degC, 4_degC, 1_K, 2.5_h).hours() == 0);
  BOOST_TEST(newton_time_to_within(5.01_degC, 4_degC, 1_K, 2.5_h).hours() > 0);
  // Warming is the same law.
  check_close(newton_time_to_within(4_degC, 21_degC, 1_K, 2.5_h).hours(), t.hours(), 1e-12);
}

BOOST_AUTO_TEST_CASE(bigger_is_slower_by_the_cube_root) {
  check_close(time_constant(1_L).hours(), 2.5, 1e-15);
  check_close(time_constant(8_L).hours(), 5.0, 1e-14);
  check_close(time_constant(1_L, litre_time_constant_hours.low).hours(), 2.0, 1e-15);
}

BOOST_AUTO_TEST_CASE(odd_inputs_stay_finite) {
  BOOST_TEST((newton(21_degC, 4_degC, Duration::hours(-3), 2.5_h) == 21_degC));
  BOOST_TEST(std::isfinite(newton(21_degC, 4_degC, 1_h, 0_h).celsius()));
  BOOST_TEST(std::isfinite(newton_time_to_within(21_degC, 4_degC, 0_K, 2.5_h).hours()));
  BOOST_TEST(time_constant(0_L).hours() > 0);
}

BOOST_AUTO_TEST_SUITE_END()
