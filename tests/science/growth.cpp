#include "science/growth.h"

#include <cmath>

#include <boost/test/unit_test.hpp>

using namespace starter;
using namespace starter::literals;
using namespace starter::science;

namespace tt = boost::test_tools;

namespace {

double grown(Aeration aeration, double pitched, double grams, double factor = 1) {
  return new_cells(aeration, CellCount::billion(pitched), Mass::grams(grams), factor).billion();
}

constexpr Aeration every_aeration[] = {Aeration::stirred, Aeration::shaken, Aeration::still};

}  // namespace

BOOST_AUTO_TEST_SUITE(growth)

BOOST_AUTO_TEST_CASE(stirred_gives_so_much_a_gram) {
  BOOST_TEST(grown(Aeration::stirred, 100, 100) == 140.0, tt::tolerance(1e-12));
  BOOST_TEST(grown(Aeration::stirred, 10, 100) == 140.0, tt::tolerance(1e-12));
  // r = 2: (7 − 4)/3 = 1 a gram
  BOOST_TEST(grown(Aeration::stirred, 100, 50) == 50.0, tt::tolerance(1e-12));
  // The line as it is usually told, in two digits.
  for (double r : {1.5, 2.0, 2.5, 3.0, 3.4})
    BOOST_TEST(std::abs(grown(Aeration::stirred, 100 * r, 100) / 100 - (2.33 - 0.67 * r)) < 0.02);
}

BOOST_AUTO_TEST_CASE(stirred_bends_at_1_4_and_ends_at_3_5) {
  BOOST_TEST(grown(Aeration::stirred, 139.999, 100) == 140.0, tt::tolerance(1e-12));
  BOOST_TEST(grown(Aeration::stirred, 140, 100) == 140.0, tt::tolerance(1e-12));
  BOOST_TEST(grown(Aeration::stirred, 143, 100) == 138.0, tt::tolerance(1e-12));
  BOOST_TEST(grown(Aeration::stirred, 347, 100) == 2.0, tt::tolerance(1e-9));
  for (Aeration a : every_aeration) {
    BOOST_TEST(grown(a, 349.9, 100) > 0.0);
    BOOST_TEST(grown(a, 349.9, 100) < 0.1);
    BOOST_TEST(grown(a, 350.1, 100) == 0.0);
    BOOST_TEST(grown(a, 1e6, 100) == 0.0);
  }
}

BOOST_AUTO_TEST_CASE(still_follows_the_published_table) {
  const double litres[] = {0.5, 1, 1.5, 2, 4};
  const double ends[] = {112, 152, 181, 205, 276};
  for (int i = 0; i < 5; ++i)
    BOOST_TEST(100 + grown(Aeration::still, 100, 97 * litres[i]) == ends[i], tt::tolerance(1e-9));
  // Twice of everything grows twice as much.
  BOOST_TEST(200 + grown(Aeration::still, 200, 97) == 2 * 112.0, tt::tolerance(1e-9));
  // Half-way between 1 L and 1.5 L.
  BOOST_TEST(100 + grown(Aeration::still, 100, 97 * 1.25) == 166.5, tt::tolerance(1e-9));
  // Beyond 4 L the yield a gram is held: twice the wort, twice the growth.
  BOOST_TEST(grown(Aeration::still, 100, 97 * 8) == 2 * 176.0, tt::tolerance(1e-9));
  BOOST_TEST(grown(Aeration::still, 100, 97 * 4.001) == 176.0 * 4.001 / 4, tt::tolerance(1e-9));
}

BOOST_AUTO_TEST_CASE(shaken_stands_between) {
  const auto n = CellCount::billion(100);
  BOOST_TEST(grown(Aeration::shaken, 100, 97) == (135.8 + 52) / 2, tt::tolerance(1e-9));
  BOOST_TEST(new_cells(Aeration::shaken, n, 97_g, 1, 0).billion() == 52.0, tt::tolerance(1e-9));
  BOOST_TEST(new_cells(Aeration::shaken, n, 97_g, 1, 1).billion() == 135.8, tt::tolerance(1e-9));
  BOOST_TEST(new_cells(Aeration::shaken, n, 97_g, 1, 9).billion() == 135.8, tt::tolerance(1e-9));
  BOOST_TEST(new_cells(Aeration::still, n, 97_g, 1, 1).billion() == 52.0, tt::tolerance(1e-9));
  for (double r = 0.05; r < 3.5; r += 0.05) {
    BOOST_REQUIRE(grown(Aeration::still, 100 * r, 100) < grown(Aeration::shaken, 100 * r, 100));
    BOOST_REQUIRE(grown(Aeration::shaken, 100 * r, 100) < grown(Aeration::stirred, 100 * r, 100));
  }
}

BOOST_AUTO_TEST_CASE(nothing_comes_of_nothing) {
  for (Aeration a : every_aeration) {
    BOOST_TEST(grown(a, 0, 100) == 0.0);
    BOOST_TEST(grown(a, 100, 0) == 0.0);
    BOOST_TEST(grown(a, -1, 100) == 0.0);
    BOOST_TEST(grown(a, 100, -1) == 0.0);
    BOOST_TEST(grown(a, 100, 100, 0) == 0.0);
    BOOST_TEST(grown(a, 100, 100, -1) == 0.0);
    // A thousandth of a million cells makes ten doublings at most.
    BOOST_TEST(grown(a, 1e-6, 100) == 1023e-6, tt::tolerance(1e-9));
  }
}

BOOST_AUTO_TEST_CASE(sugar_bounds_it) {
  BOOST_TEST(biomass_bound(100_g).billion() == 10e12 / 30 / 1e9, tt::tolerance(1e-12));
  BOOST_TEST(biomass_bound(100_g, 0.05, 40).billion() == 125.0, tt::tolerance(1e-12));
  BOOST_TEST(biomass_bound(Mass::grams(-5)).billion() == 0.0);
  BOOST_TEST(biomass_bound(100_g, 0.05, 0).billion() == 0.0);
  // 333 billion over 140: a factor of 2.38.
  BOOST_TEST(grown(Aeration::stirred, 100, 100, 2.3) == 322.0, tt::tolerance(1e-12));
  BOOST_TEST(grown(Aeration::stirred, 100, 100, 2.5) == biomass_bound(100_g).billion());
  BOOST_TEST(grown(Aeration::stirred, 100, 100, 1e9) == biomass_bound(100_g).billion());
}

BOOST_AUTO_TEST_CASE(more_extract_or_more_yeast_is_never_less) {
  for (Aeration a : every_aeration) {
    for (double factor : {growth_yield.low, 1.0, growth_yield.high, 1.5}) {
      for (double n = 0; n < 500; n += 0.5) {
        const double slack = 1e-9;
        BOOST_REQUIRE(grown(a, 100, n, factor) <= grown(a, 100, n + 0.5, factor) + slack);
        BOOST_REQUIRE(n + grown(a, n, 100, factor) <=
                      n + 0.5 + grown(a, n + 0.5, 100, factor) + slack);
      }
    }
  }
}

BOOST_AUTO_TEST_CASE(no_jumps) {
  for (Aeration a : every_aeration) {
    for (double r = 0; r < 4; r += 0.001)
      BOOST_REQUIRE(std::abs(grown(a, 100 * (r + 1e-9), 100) - grown(a, 100 * r, 100)) < 2e-4);
  }
}

BOOST_AUTO_TEST_CASE(extreme_numbers_stay_numbers) {
  for (Aeration a : every_aeration)
    for (double n : {1e-300, 1e-50, 1.0, 1e50, 1e300})
      for (double g : {1e-300, 1e-50, 1.0, 1e50, 1e300}) BOOST_REQUIRE(!std::isnan(grown(a, n, g)));
}

BOOST_AUTO_TEST_CASE(inoculation_rate) {
  // 100 billion in 1.25 L: 80 million/mL
  BOOST_TEST(inoculation(CellCount::billion(100), 1.25_L).million_per_mL() == 80.0,
             tt::tolerance(1e-12));
  BOOST_TEST(inoculation(CellCount::billion(100), 0_L).million_per_mL() == 0.0);
  BOOST_TEST(inoculation(CellCount::billion(-1), 1_L).million_per_mL() == 0.0);
}

BOOST_AUTO_TEST_CASE(stages_chain) {
  const auto in = CellCount::billion(50), made = CellCount::billion(140);
  BOOST_TEST(cells_after_stage(in, made, 100_percent).billion() == 190.0);
  BOOST_TEST(cells_after_stage(in, made, 50_percent).billion() == 120.0);
  BOOST_TEST(cells_after_stage(in, made, 150_percent).billion() == 190.0);
  BOOST_TEST(cells_after_stage(in, made, Share::ratio(-1)).billion() == 50.0);
}

BOOST_AUTO_TEST_SUITE_END()
