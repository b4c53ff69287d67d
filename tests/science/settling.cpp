#include "science/settling.h"

#include <cmath>

#include <boost/test/unit_test.hpp>

using namespace starter;
using namespace starter::literals;
using namespace starter::science;

namespace tt = boost::test_tools;

namespace {

double hours(Clumping c, double cm = 10, double celsius = 4, double factor = 1) {
  return crash_time_needed(c, Length::centimetres(cm), Temperature::celsius(celsius), factor)
      .hours();
}

}  // namespace

BOOST_AUTO_TEST_SUITE(settling)

BOOST_AUTO_TEST_CASE(stokes_sphere) {
  // Quartz of 50 µm in water at 20 °C: 1650 × 9.80665 × 2.5e-9 / (18 × 1.0016e-3) = 2.2438 mm/s
  BOOST_TEST(stokes_velocity(0.05_mm, Density::kilograms_per_litre(1.65), 1.0016e-3) == 2.2438e-3,
             tt::tolerance(1e-4));
  // Twice the diameter falls four times as fast, twice the viscosity half as fast.
  const auto heavier = Density::kilograms_per_litre(0.07);
  const double v = stokes_velocity(0.005_mm, heavier, 1e-3);
  BOOST_TEST(stokes_velocity(0.01_mm, heavier, 1e-3) == 4 * v, tt::tolerance(1e-12));
  BOOST_TEST(stokes_velocity(0.005_mm, heavier, 2e-3) == v / 2, tt::tolerance(1e-12));
  BOOST_TEST(stokes_velocity(0.005_mm, -heavier, 1e-3) == -v);
  BOOST_TEST(stokes_velocity(0.005_mm, heavier, 0) == 0.0);
  BOOST_TEST(stokes_velocity(0.005_mm, heavier, -1) == 0.0);
}

BOOST_AUTO_TEST_CASE(a_single_cell_falls_millimetres_an_hour) {
  BOOST_TEST(cell_velocity(20_degC, 1) * 3.6e6 == 3.5, tt::tolerance(0.02));
  // Water at 4 °C has 1.567 mPa·s (handbooks), beer 1.3 times that.
  BOOST_TEST(
      cell_velocity(4_degC) * 3.6e6 == 3.6e6 * 0.072e3 * 9.80665 * 25e-12 / (18 * 1.567e-3 * 1.3),
      tt::tolerance(2e-3));
  BOOST_TEST(cell_velocity(2_degC) < cell_velocity(6_degC));
  BOOST_TEST(cell_velocity(4_degC, 1.5) < cell_velocity(4_degC, 1.1));
  BOOST_TEST(std::isfinite(cell_velocity(4_degC, 0)));
}

BOOST_AUTO_TEST_CASE(ten_centimetres_at_four_degrees_agree_with_practice) {
  BOOST_TEST(hours(Clumping::high) >= 10.0);
  BOOST_TEST(hours(Clumping::high) <= 12.0);
  BOOST_TEST(hours(Clumping::medium) >= 20.0);
  BOOST_TEST(hours(Clumping::medium) <= 24.0);
  BOOST_TEST(hours(Clumping::low) >= 40.0);
  BOOST_TEST(hours(Clumping::low) <= 48.0);
}

BOOST_AUTO_TEST_CASE(deeper_colder_and_looser_take_longer) {
  BOOST_TEST(hours(Clumping::medium, 20) == 2 * hours(Clumping::medium, 10), tt::tolerance(1e-12));
  BOOST_TEST(hours(Clumping::medium, 10, 1) > hours(Clumping::medium, 10, 5));
  BOOST_TEST(hours(Clumping::medium, 10, 4, 2) == hours(Clumping::medium) / 2,
             tt::tolerance(1e-12));
  BOOST_TEST(hours(Clumping::medium, 0) == 0.0);
  BOOST_TEST(hours(Clumping::medium, -3) == 0.0);
  BOOST_TEST(std::isfinite(hours(Clumping::low, 10, -1e6, 0)));
  BOOST_TEST(std::isfinite(hours(Clumping::low, 10, 1e6, -1)));
}

BOOST_AUTO_TEST_CASE(the_spread_of_a_class_is_told_around_its_likely_value) {
  for (Clumping c : {Clumping::low, Clumping::medium, Clumping::high}) {
    const Uncertain f = clump_factor(c);
    BOOST_TEST(f.low < f.likely);
    BOOST_TEST(f.likely < f.high);
    BOOST_TEST(hours(c, 10, 4, clump_spread.low) == hours(c) * f.likely / f.low,
               tt::tolerance(1e-12));
  }
  BOOST_TEST(decanting_keeps(Clumping::low).likely == 0.80);
  BOOST_TEST(decanting_keeps(Clumping::medium).likely == 0.95);
  BOOST_TEST(decanting_keeps(Clumping::high).high == 0.98);
}

BOOST_AUTO_TEST_CASE(depth_in_a_flask) {
  // A 2 L flask is some 16 cm wide at the base and narrows, so 1.2 L stand deeper than the 6 cm of
  // a cylinder of that width and shallower than 9 cm.
  BOOST_TEST(liquid_depth(1.2_L, 2_L).centimetres() > 6.0);
  BOOST_TEST(liquid_depth(1.2_L, 2_L).centimetres() < 9.0);
  // The same shape, eight times the volume, twice the depth.
  BOOST_TEST((liquid_depth(4_L, 8_L) / liquid_depth(0.5_L, 1_L)) == 2.0, tt::tolerance(1e-6));
  for (double v = 0; v < 1; v += 0.01)
    BOOST_REQUIRE(liquid_depth(Volume::litres(v), 1_L) <
                  liquid_depth(Volume::litres(v + 0.01), 1_L));
}

BOOST_AUTO_TEST_CASE(no_liquid_or_no_flask_has_no_depth) {
  BOOST_TEST(liquid_depth(0_L, 1_L).metres() == 0.0);
  BOOST_TEST(liquid_depth(Volume::litres(-1), 1_L).metres() == 0.0);
  BOOST_TEST(liquid_depth(1_L, 0_L).metres() == 0.0);
  BOOST_TEST((liquid_depth(50_L, 1_L) == liquid_depth(5_L, 1_L)));
}

BOOST_AUTO_TEST_SUITE_END()
