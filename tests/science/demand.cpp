#include "science/demand.h"

#include <boost/test/unit_test.hpp>

using namespace starter;
using namespace starter::literals;
using namespace starter::science;

namespace tt = boost::test_tools;

BOOST_AUTO_TEST_SUITE(demand)

BOOST_AUTO_TEST_CASE(rate_times_volume_times_gravity) {
  // 0.75 million × 20 000 mL × 12 °P = 180 000 million
  BOOST_TEST(cells_needed(ale_pitching_rate.likely, 20_L, 12_degP).billion() == 180.0,
             tt::tolerance(1e-12));
  // A lager takes twice as much.
  BOOST_TEST(cells_needed(lager_pitching_rate.likely, 20_L, 12_degP).billion() == 360.0,
             tt::tolerance(1e-12));
  BOOST_TEST(cells_needed(hybrid_pitching_rate.likely, 1_L, 1_degP).billion() == 1.0);
}

BOOST_AUTO_TEST_CASE(nothing_asks_for_nothing) {
  BOOST_TEST(cells_needed(0.75, 0_L, 12_degP).billion() == 0.0);
  BOOST_TEST(cells_needed(0.75, 20_L, 0_degP).billion() == 0.0);
  BOOST_TEST(cells_needed(-1, 20_L, 12_degP).billion() == 0.0);
  BOOST_TEST(cells_needed(-1, Volume::litres(-20), 12_degP).billion() == 0.0);
}

BOOST_AUTO_TEST_SUITE_END()
