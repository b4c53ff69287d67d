#include "science/lethality.h"

#include <cmath>

#include "near.h"
#include "science/boiling.h"

using namespace starter;
using namespace starter::literals;
using namespace starter::science;

BOOST_AUTO_TEST_SUITE(lethality)

BOOST_AUTO_TEST_CASE(by_definition) {
  check_close(pasteurisation_units_per_minute(60_degC), 1, 1e-15);
  check_close(pasteurisation_units(61_degC, 2_min), 2 * 1.393, 1e-12);
  check_close(f0(121.1_degC, 3_min), 3, 1e-12);
  check_close(f0(111.1_degC, 3_min), 0.3, 1e-12);
}

BOOST_AUTO_TEST_CASE(the_trades_own_figures) {
  check_close(pasteurisation_units_per_minute(boiling_point(240_m, 9_degP, 0_kPa)), 4.6e5, 0.02);
  // Water at 5,000 m.
  check_close(pasteurisation_units_per_minute(boiling_point(5000_m, 0_degP, 0_kPa)), 2200, 0.03);
  check_within(f0(99_degC, 12_min), 0.08, 0.01);
}

BOOST_AUTO_TEST_CASE(grows_with_heat_and_time) {
  for (int t = 0; t < 130; ++t)
    BOOST_TEST(pasteurisation_units(Temperature::celsius(t), 1_min) <
               pasteurisation_units(Temperature::celsius(t + 1), 1_min));
  BOOST_TEST(pasteurisation_units(99_degC, Duration::minutes(-1)) == 0);
  BOOST_TEST(f0(99_degC, Duration::minutes(-1)) == 0);
  BOOST_TEST(f0(99_degC, 0_min) == 0);
  BOOST_TEST(std::isfinite(pasteurisation_units(1e9_degC, 1_min)));
  BOOST_TEST(pasteurisation_units(201_degC, 1_min) == pasteurisation_units(200_degC, 1_min));
  BOOST_TEST(pasteurisation_units(199_degC, 1_min) < pasteurisation_units(200_degC, 1_min));
}

BOOST_AUTO_TEST_SUITE_END()
