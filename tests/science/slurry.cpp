#include "science/slurry.h"

#include <boost/test/unit_test.hpp>

#include "science/supply.h"

using namespace starter;
using namespace starter::literals;
using namespace starter::science;

namespace tt = boost::test_tools;

BOOST_AUTO_TEST_SUITE(slurry)

BOOST_AUTO_TEST_CASE(room_for_the_cells) {
  // 200 / (1.5 × 0.83) = 160.64
  BOOST_TEST(slurry_volume(CellCount::billion(200), 1.5, 17_percent).millilitres() == 160.64,
             tt::tolerance(1e-4));
  // There and back again.
  const Volume v = slurry_volume(CellCount::billion(93), 1.2, 12_percent);
  BOOST_TEST(slurry_cells(v, 1.2, 12_percent).billion() == 93.0, tt::tolerance(1e-12));
  BOOST_TEST(slurry_volume(CellCount::billion(200), 0, 17_percent).litres() == 0.0);
  BOOST_TEST(slurry_volume(CellCount::billion(-1), 1, 17_percent).litres() == 0.0);
  BOOST_TEST(slurry_volume(CellCount::billion(5), 1, 100_percent).millilitres() == 100.0,
             tt::tolerance(1e-9));
}

BOOST_AUTO_TEST_CASE(temperatures_mix_by_volume) {
  BOOST_TEST(mixed_temperature(1_L, 4_degC, 3_L, 20_degC).celsius() == 16.0, tt::tolerance(1e-12));
  BOOST_TEST(mixed_temperature(1_L, 4_degC, 0_L, 20_degC).celsius() == 4.0);
  BOOST_TEST(mixed_temperature(0_L, 4_degC, 1_L, 20_degC).celsius() == 20.0);
  BOOST_TEST(mixed_temperature(0_L, 4_degC, 0_L, 20_degC).celsius() == 4.0);
  BOOST_TEST(mixed_temperature(Volume::litres(-1), 4_degC, 1_L, 20_degC).celsius() == 20.0);
}

BOOST_AUTO_TEST_CASE(the_gap_has_no_sign) {
  BOOST_TEST(slurry_gap(4_degC, 18_degC).kelvins() == 14.0);
  BOOST_TEST(slurry_gap(22_degC, 18_degC).kelvins() == 4.0);
  BOOST_TEST(slurry_gap(18_degC, 18_degC).kelvins() == 0.0);
}

BOOST_AUTO_TEST_SUITE_END()
