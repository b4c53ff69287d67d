#pragma once

// Short names for the comparisons the science tests use.

#include <boost/test/unit_test.hpp>

/// Both numbers agree within `relative` of each other; for values far from zero.
inline void check_close(double got, double wanted, double relative) {
  BOOST_TEST(got == wanted, boost::test_tools::tolerance(relative));
}

/// The two numbers are at most `apart` from each other.
inline void check_within(double got, double wanted, double apart) {
  BOOST_TEST_INFO("got " << got << ", wanted " << wanted << " within " << apart);
  BOOST_CHECK_SMALL(got - wanted, apart);
}
