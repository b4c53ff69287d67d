#include "science/water.h"

#include <cmath>

#include "near.h"

using namespace starter;
using namespace starter::literals;
using namespace starter::science;

BOOST_AUTO_TEST_SUITE(water)

// Reference values: IAPWS-95, R12-08 and R15-11 at 101.325 kPa, which are other formulations than
// the ones under test.
struct Row {
  double celsius, density, viscosity, conductivity, expansivity;
};
constexpr Row rows[] = {
    {0.01, 999.84376, 1.79113, 0.555675, -6.7577e-5},
    {4, 999.97487, 1.56729, 0.565465, 3.488e-7},
    {20, 998.20715, 1.00160, 0.598012, 2.06806e-4},
    {40, 992.21635, 0.652729, 0.628486, 3.85479e-4},
    {60, 983.19582, 0.466035, 0.651000, 5.23253e-4},
    {80, 971.79040, 0.354051, 0.666995, 6.41364e-4},
    {99.9, 958.42092, 0.281878, 0.677173, 7.50083e-4},
};

BOOST_AUTO_TEST_CASE(agrees_with_the_international_formulations) {
  for (const Row& r : rows) {
    const Temperature t = Temperature::celsius(r.celsius);
    check_close(1000 * water_density(t).kilograms_per_litre(), r.density, 2e-5);
    check_close(water_viscosity_mPa_s(t), r.viscosity, 3e-4);
    check_close(water_conductivity_W_per_mK(t), r.conductivity, 3e-4);
    check_within(water_expansivity_per_K(t), r.expansivity, 6e-7);
  }
}

BOOST_AUTO_TEST_CASE(density_at_20C_is_the_sugar_tables_own) {
  check_within(water_density(20_degC).kilograms_per_litre(),
               water_density_20C.kilograms_per_litre(), 1e-5);
}

BOOST_AUTO_TEST_CASE(boiling_water_takes_four_per_cent_more_room) {
  check_within(expansion(100_degC), 1.0416, 1e-4);
  check_close(expansion(20_degC), 1.0, 1e-15);
}

BOOST_AUTO_TEST_CASE(densest_at_four_degrees) {
  BOOST_TEST(water_expansivity_per_K(3.9_degC) < 0);
  BOOST_TEST(water_expansivity_per_K(4.1_degC) > 0);
  for (int t = 4; t < 110; ++t) {
    BOOST_TEST(
        (water_density(Temperature::celsius(t)) > water_density(Temperature::celsius(t + 1))));
  }
}

BOOST_AUTO_TEST_CASE(expansivity_is_the_slope_of_density) {
  for (const double t : {5.0, 37.0, 95.0}) {
    const double above = water_density(Temperature::celsius(t + 0.01)).kilograms_per_litre();
    const double below = water_density(Temperature::celsius(t - 0.01)).kilograms_per_litre();
    check_close(water_expansivity_per_K(Temperature::celsius(t)),
                -(above - below) / 0.02 / ((above + below) / 2), 1e-5);
  }
}

BOOST_AUTO_TEST_CASE(outside_the_range_the_end_stands) {
  BOOST_TEST((water_density(Temperature::celsius(-40)) == water_density(0_degC)));
  BOOST_TEST((water_density(400_degC) == water_density(110_degC)));
  BOOST_TEST((water_density(110_degC) != water_density(109.9_degC)));
  BOOST_TEST(water_viscosity_mPa_s(Temperature::celsius(-1e9)) == water_viscosity_mPa_s(0_degC));
  BOOST_TEST(water_conductivity_W_per_mK(1e9_degC) == water_conductivity_W_per_mK(110_degC));
  BOOST_TEST(std::isfinite(expansion(Temperature::celsius(-1e300))));
}

BOOST_AUTO_TEST_SUITE_END()
