#include "science/supply.h"

#include <boost/test/unit_test.hpp>

using namespace starter;
using namespace starter::literals;
using namespace starter::science;

namespace tt = boost::test_tools;

BOOST_AUTO_TEST_SUITE(supply)

BOOST_AUTO_TEST_CASE(the_two_readings_part_ways_with_age) {
  // At 120 days: 1 − 4 × 0.2 = 0.2 against 0.8⁴ = 0.4096.
  BOOST_TEST(viability(120_d, -1).ratio() == 0.15, tt::tolerance(1e-12));
  BOOST_TEST(viability(120_d, 0).ratio() == 0.3048, tt::tolerance(1e-12));
  BOOST_TEST(viability(120_d, 1).ratio() == 0.4596, tt::tolerance(1e-12));
  // At one month they agree, and only the spread when fresh is left.
  BOOST_TEST(viability(30_d, -1).ratio() == 0.75, tt::tolerance(1e-12));
  BOOST_TEST(viability(30_d, 0).ratio() == 0.80, tt::tolerance(1e-12));
  BOOST_TEST(viability(30_d, 1).ratio() == 0.85, tt::tolerance(1e-12));
}

BOOST_AUTO_TEST_CASE(between_the_readings_it_is_straight) {
  BOOST_TEST(viability(120_d, 0.5).ratio() == (0.3048 + 0.4596) / 2, tt::tolerance(1e-12));
  BOOST_TEST(viability(120_d, -0.25).ratio() == 0.75 * 0.3048 + 0.25 * 0.15, tt::tolerance(1e-12));
  BOOST_TEST(viability(120_d, 7).ratio() == viability(120_d, 1).ratio());
  BOOST_TEST(viability(120_d, -7).ratio() == viability(120_d, -1).ratio());
}

BOOST_AUTO_TEST_CASE(fresh_and_older_than_fresh) {
  BOOST_TEST(viability(0_d, 0).ratio() == 1.0);
  BOOST_TEST(viability(0_d, 1).ratio() == 1.0);
  BOOST_TEST(viability(0_d, -1).ratio() == 0.95, tt::tolerance(1e-12));
  BOOST_TEST(viability(Duration::days(-9), -1).ratio() == viability(0_d, -1).ratio());
}

BOOST_AUTO_TEST_CASE(the_straight_line_ends_at_five_months) {
  BOOST_TEST(viability(142_d, -1).ratio() > 0.0);   // 0.2 × 8/30 = 0.0533, less 0.05
  BOOST_TEST(viability(143_d, -1).ratio() == 0.0);  // 0.0467, less 0.05
  BOOST_TEST(viability(150_d, 0).ratio() == 0.32768 / 2, tt::tolerance(1e-9));
  BOOST_TEST(viability(1e9 * 1_d, 0).ratio() == 0.0);
}

BOOST_AUTO_TEST_CASE(age_never_helps_and_a_kinder_reading_never_hurts) {
  for (double reading = -1; reading <= 1; reading += 0.25) {
    for (double days = 0; days < 400; days += 1) {
      const auto here = Duration::days(days), later = Duration::days(days + 1);
      BOOST_REQUIRE(viability(later, reading) <= viability(here, reading));
      BOOST_REQUIRE(slurry_viability(later, reading) <= slurry_viability(here, reading));
      BOOST_REQUIRE(viability(here, reading) <= viability(here, reading + 0.25));
      BOOST_REQUIRE(slurry_viability(here, reading) <= slurry_viability(here, reading + 0.25));
    }
  }
}

BOOST_AUTO_TEST_CASE(slurry_fades_twice_as_fast_from_95_percent) {
  BOOST_TEST(slurry_viability(0_d, 0).ratio() == 0.95, tt::tolerance(1e-12));
  BOOST_TEST(slurry_viability(15_d, 0).ratio() == 0.95 * 0.8, tt::tolerance(1e-12));
  BOOST_TEST(slurry_viability(30_d, 0).ratio() == 0.95 * (0.6 + 0.64) / 2, tt::tolerance(1e-12));
  BOOST_TEST(slurry_viability(30_d, -1).ratio() == 0.95 * 0.6 - 0.05, tt::tolerance(1e-12));
  BOOST_TEST(slurry_viability(30_d, 1).ratio() == 0.95 * 0.8 + 0.05, tt::tolerance(1e-12));
}

BOOST_AUTO_TEST_CASE(a_count_has_a_standard_error) {
  BOOST_TEST(standard_error(80_percent, 400).ratio() == 0.02, tt::tolerance(1e-12));
  BOOST_TEST(standard_error(50_percent, 100).ratio() == 0.05, tt::tolerance(1e-12));
  BOOST_TEST(standard_error(100_percent, 300).ratio() == 0.0);
  BOOST_TEST(standard_error(120_percent, 300).ratio() == 0.0);
  BOOST_TEST(standard_error(50_percent, 0).ratio() == 0.5);
  BOOST_TEST(standard_error(50_percent, -5).ratio() == 0.5);
}

BOOST_AUTO_TEST_CASE(cells_by_weight_and_by_volume) {
  BOOST_TEST(dry_yeast(11_g, dry_yeast_cells.likely).billion() == 110.0, tt::tolerance(1e-12));
  BOOST_TEST(dry_yeast(Mass::grams(-1), 10).billion() == 0.0);
  BOOST_TEST(slurry_cells(100_mL, 1.5, 17_percent).billion() == 124.5, tt::tolerance(1e-12));
  BOOST_TEST(slurry_cells(100_mL, 1.5, 100_percent).billion() == 0.0);
  BOOST_TEST(slurry_cells(100_mL, 1.5, 130_percent).billion() == 0.0);
  BOOST_TEST(slurry_cells(Volume::litres(-1), -1, 0_percent).billion() == 0.0);
}

BOOST_AUTO_TEST_SUITE_END()
