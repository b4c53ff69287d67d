#include "science/glass.h"

#include "near.h"

using namespace starter;
using namespace starter::literals;
using namespace starter::science;

BOOST_AUTO_TEST_SUITE(glass)

BOOST_AUTO_TEST_CASE(the_step_that_pulls_a_given_tension) {
  // By hand: 30 · 0.80 / (64000 · 3.3e-6) and 30 · 0.78 / (70000 · 9e-6).
  check_close(sudden_step_limit(borosilicate_3_3, 30).kelvins(), 113.636364, 1e-8);
  check_close(sudden_step_limit(soda_lime, 30).kelvins(), 37.142857, 1e-8);
}

BOOST_AUTO_TEST_CASE(doubling_the_strength_doubles_the_step) {
  check_close(sudden_step_limit(soda_lime, 60) / sudden_step_limit(soda_lime, 30), 2, 1e-14);
  BOOST_TEST(sudden_step_limit(soda_lime, 0).kelvins() == 0);
  BOOST_TEST(sudden_step_limit(soda_lime, -3).kelvins() == 0);
}

BOOST_AUTO_TEST_CASE(the_trades_limits_lie_within_the_range_of_strengths) {
  BOOST_TEST(sudden_step_limit(soda_lime, worn_glass_strength.low).kelvins() < 42);
  BOOST_TEST(sudden_step_limit(soda_lime, worn_glass_strength.high).kelvins() > 42);
  BOOST_TEST(sudden_step_limit(borosilicate_3_3, worn_glass_strength.likely).kelvins() > 100);
}

BOOST_AUTO_TEST_CASE(down_shock_and_up_shock_are_told_apart) {
  const ThermalShock down = thermal_shock(99_degC, 15_degC);
  BOOST_TEST(down.step.kelvins() == 84);
  BOOST_TEST(down.cooling);
  const ThermalShock up = thermal_shock(15_degC, 99_degC);
  BOOST_TEST(up.step.kelvins() == 84);
  BOOST_TEST(!up.cooling);
  BOOST_TEST(thermal_shock(20_degC, 20_degC).step.kelvins() == 0);
  BOOST_TEST(!thermal_shock(20_degC, 20_degC).cooling);
}

BOOST_AUTO_TEST_SUITE_END()
