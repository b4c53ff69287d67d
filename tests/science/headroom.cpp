#include "science/headroom.h"

#include <cmath>

#include "near.h"

using namespace starter;
using namespace starter::literals;
using namespace starter::science;

BOOST_AUTO_TEST_SUITE(headroom)

BOOST_AUTO_TEST_CASE(cold_and_hot) {
  check_close(fill(1.2_L, 2_L).ratio(), 0.6, 1e-15);
  check_within(hot_fill(1.2_L, 2_L, 100_degC).ratio(), 0.625, 2e-4);
  check_close(hot_fill(1.2_L, 2_L, 20_degC).ratio(), 0.6, 1e-15);
}

BOOST_AUTO_TEST_CASE(no_room_is_overfull_not_infinite) {
  BOOST_TEST(fill(1_L, 0_L).ratio() > 1e3);
  BOOST_TEST(std::isfinite(fill(1_L, 0_L).ratio()));
  BOOST_TEST(fill(0_L, 0_L).ratio() == 0);
  BOOST_TEST(fill(Volume::litres(-1), 2_L).ratio() == 0);
}

BOOST_AUTO_TEST_SUITE_END()
