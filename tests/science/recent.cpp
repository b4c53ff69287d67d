#include "science/recent.h"

#include <boost/test/unit_test.hpp>
#include <limits>

using starter::science::Recent;

BOOST_AUTO_TEST_SUITE(recent)

BOOST_AUTO_TEST_CASE(only_the_very_same_numbers_were_asked_before_and_the_oldest_go) {
  Recent<2, double, 3> sums;
  int worked_out = 0;
  const auto sum = [&](double a, double b) {
    return sums.answer({a, b}, [&] {
      ++worked_out;
      return a + b;
    });
  };
  BOOST_TEST(sum(1, 2) == 3.0);
  BOOST_TEST(sum(2, 1) == 3.0);
  BOOST_TEST(worked_out == 2);
  BOOST_TEST(sum(1, 2) == 3.0);
  BOOST_TEST(worked_out == 2);
  // To the last bit, and zero has two signs.
  BOOST_TEST(sum(1, 2 + 4 * std::numeric_limits<double>::epsilon()) > 3.0);
  BOOST_TEST(worked_out == 3);
  sum(0.0, 0);
  sum(-0.0, 0);
  BOOST_TEST(worked_out == 5);
  // Three are kept: 1 and 2 have gone, and so has 2 and 1.
  BOOST_TEST(sum(1, 2) == 3.0);
  BOOST_TEST(worked_out == 6);
  BOOST_TEST(sum(-0.0, 0) == 0.0);
  BOOST_TEST(worked_out == 6);
}

BOOST_AUTO_TEST_SUITE_END()
