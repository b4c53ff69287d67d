#include "science/films.h"

#include <cmath>

#include "near.h"

using namespace starter;
using namespace starter::literals;
using namespace starter::science;

namespace {

Wetted flask() {
  return wetted(outline(Shape::cone, 2_L), 1.2_L);
}
double ua(Temperature wort, Temperature bath, double swirl) {
  return conductance(flask(), 2_mm, 1.2, wort, bath, swirl).watts_per_kelvin();
}

}  // namespace

BOOST_AUTO_TEST_SUITE(films)

// The same correlation worked out with the IAPWS formulations for the water.
BOOST_AUTO_TEST_CASE(natural_convection_on_an_upright_wall) {
  check_close(film_W_per_m2K(100_mm, 60_degC, 40_degC), 947.60, 1e-3);
  check_close(film_W_per_m2K(300_mm, 20_degC, 21_degC), 228.26, 1e-3);
  check_close(film_W_per_m2K(50_mm, 90_degC, 50_degC), 1444.01, 1e-3);
  check_close(film_W_per_m2K(100_mm, 25_degC, 15_degC), 499.75, 1e-3);
}

BOOST_AUTO_TEST_CASE(still_water_only_conducts) {
  // Ra = 0: Nu = 0.825².
  check_close(film_W_per_m2K(100_mm, 20_degC, 20_degC), 0.825 * 0.825 * 0.59800 / 0.1, 1e-4);
}

BOOST_AUTO_TEST_CASE(overall_is_its_parts_in_series) {
  // The wall temperatures that the overall coefficient implies give films that add up to it.
  const double u = overall_W_per_m2K(74_mm, 2_mm, 1.2, 60_degC, 20_degC, 1);
  double inside = 1000, outside = 1000;
  for (int i = 0; i < 100; ++i) {
    inside =
        film_W_per_m2K(74_mm, 60_degC, 60_degC - TemperatureDifference::kelvins(40 * u / inside));
    outside =
        film_W_per_m2K(74_mm, 20_degC, 20_degC + TemperatureDifference::kelvins(40 * u / outside));
  }
  check_close(1 / u, 1 / inside + 0.002 / 1.2 + 1 / outside, 1e-6);
}

BOOST_AUTO_TEST_CASE(a_two_litre_flask_lies_where_the_trade_finds_it) {
  for (const double swirl : {1.0, swirl_gain.low, swirl_gain.likely, swirl_gain.high}) {
    BOOST_TEST(ua(60_degC, 20_degC, swirl) > 5);
    BOOST_TEST(ua(60_degC, 20_degC, swirl) < 12);
    BOOST_TEST(ua(40_degC, 20_degC, swirl) > 5);
    BOOST_TEST(ua(40_degC, 20_degC, swirl) < 12);
  }
}

BOOST_AUTO_TEST_CASE(what_helps_and_what_hinders) {
  BOOST_TEST(ua(60_degC, 20_degC, 2.5) > ua(60_degC, 20_degC, 1));
  BOOST_TEST(ua(60_degC, 20_degC, 0.2) == ua(60_degC, 20_degC, 1));
  BOOST_TEST(ua(80_degC, 20_degC, 1) > ua(30_degC, 20_degC, 1));
  BOOST_TEST(overall_W_per_m2K(74_mm, 5_mm, 1.2, 60_degC, 20_degC, 1) <
             overall_W_per_m2K(74_mm, 2_mm, 1.2, 60_degC, 20_degC, 1));
  BOOST_TEST(overall_W_per_m2K(74_mm, 2_mm, 200, 60_degC, 20_degC, 1) >
             overall_W_per_m2K(74_mm, 2_mm, 1.2, 60_degC, 20_degC, 1));
  BOOST_TEST(conductance(Wetted{}, 2_mm, 1.2, 60_degC, 20_degC, 1).watts_per_kelvin() == 0);
}

BOOST_AUTO_TEST_CASE(odd_inputs_stay_finite) {
  for (const double t : {-300.0, 0.0, 4.0, 20.0, 1e6}) {
    const double u =
        overall_W_per_m2K(Length(), Length::metres(-1), 0, Temperature::celsius(t), 4_degC, -1);
    BOOST_TEST(std::isfinite(u));
    BOOST_TEST(u > 0);
  }
}

BOOST_AUTO_TEST_SUITE_END()
