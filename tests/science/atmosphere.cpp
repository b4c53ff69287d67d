#include "science/atmosphere.h"

#include "near.h"

using namespace starter;
using namespace starter::literals;
using namespace starter::science;

BOOST_AUTO_TEST_SUITE(atmosphere)

// Tables of the standard atmosphere by geometric altitude.
BOOST_AUTO_TEST_CASE(agrees_with_the_tables) {
  check_close(air_pressure(0_m).kilopascals(), 101.325, 1e-12);
  check_close(air_pressure(Length::metres(-1000)).kilopascals(), 113.93, 5e-5);
  check_close(air_pressure(1000_m).kilopascals(), 89.876, 5e-5);
  check_close(air_pressure(5000_m).kilopascals(), 54.048, 5e-5);
  check_close(air_pressure(10000_m).kilopascals(), 26.500, 5e-5);
}

BOOST_AUTO_TEST_CASE(falls_with_height_and_stands_at_the_ends) {
  for (int h = -2000; h < 11000; h += 100)
    BOOST_TEST((air_pressure(Length::metres(h)) > air_pressure(Length::metres(h + 100))));
  BOOST_TEST((air_pressure(Length::metres(-2001)) == air_pressure(Length::metres(-2000))));
  BOOST_TEST((air_pressure(Length::metres(-1999)) < air_pressure(Length::metres(-2000))));
  BOOST_TEST((air_pressure(11001_m) == air_pressure(11000_m)));
  BOOST_TEST((air_pressure(10999_m) > air_pressure(11000_m)));
}

BOOST_AUTO_TEST_SUITE_END()
