#include "science/boiling.h"

#include "near.h"
#include "science/atmosphere.h"

using namespace starter;
using namespace starter::literals;
using namespace starter::science;

BOOST_AUTO_TEST_SUITE(boiling)

// IAPWS-IF97 release, table 36.
BOOST_AUTO_TEST_CASE(saturation_agrees_with_the_release) {
  check_within(saturation_temperature(100_kPa).kelvins(), 372.755919, 6e-7);
  check_within(saturation_temperature(1000_kPa).kelvins(), 453.035632, 6e-7);
  check_within(saturation_temperature(10000_kPa).kelvins(), 584.149488, 6e-7);
}

BOOST_AUTO_TEST_CASE(saturation_at_and_past_its_ends) {
  check_within(saturation_temperature(0.611213_kPa).celsius(), 0, 1e-5);
  check_close(saturation_temperature(22064_kPa).kelvins(), 647.096, 1e-9);
  BOOST_TEST((saturation_temperature(0.1_kPa) == saturation_temperature(0.611213_kPa)));
  BOOST_TEST(
      (saturation_temperature(Pressure::kilopascals(-5)) == saturation_temperature(0.611213_kPa)));
  BOOST_TEST((saturation_temperature(30000_kPa) == saturation_temperature(22064_kPa)));
  BOOST_TEST((saturation_temperature(0.62_kPa) > saturation_temperature(0.611213_kPa)));
  BOOST_TEST((saturation_temperature(22000_kPa) < saturation_temperature(22064_kPa)));
}

// The table that GNU units prints from the same formula at one atmosphere.
BOOST_AUTO_TEST_CASE(elevation_agrees_with_the_table_at_one_atmosphere) {
  const struct {
    double degrees, kelvins;
  } rows[] = {{0, 0.0000},  {5, 0.0788},  {10, 0.1690}, {20, 0.3936},
              {30, 0.7027}, {60, 2.9400}, {70, 4.9905}, {95, 39.1636}};
  for (const auto& r : rows)
    check_within(boiling_elevation(Plato::degrees(r.degrees), 100_degC).kelvins(), r.kelvins, 6e-5);
}

// The formula before its pressure was fixed, with water boiling at 80 °C, worked out elsewhere.
BOOST_AUTO_TEST_CASE(elevation_shrinks_with_pressure) {
  check_within(boiling_elevation(10_degP, 80_degC).kelvins(), 0.1491, 0.003);
  check_within(boiling_elevation(40_degP, 80_degC).kelvins(), 1.0198, 0.01);
  BOOST_TEST((boiling_elevation(10_degP, 80_degC) < boiling_elevation(10_degP, 100_degC)));
  BOOST_TEST(boiling_elevation(Plato::degrees(-3), 100_degC).kelvins() == 0);
  BOOST_TEST((boiling_elevation(120_degP, 100_degC) == boiling_elevation(95_degP, 100_degC)));
  BOOST_TEST((boiling_elevation(94_degP, 100_degC) < boiling_elevation(95_degP, 100_degC)));
}

BOOST_AUTO_TEST_CASE(water_boils_at_99_97_by_the_sea) {
  check_within(boiling_point(0_m, 0_degP, 0_kPa).celsius(), 99.974, 5e-4);
}

BOOST_AUTO_TEST_CASE(height_and_weather_move_the_boil) {
  for (int h = -2000; h < 11000; h += 500)
    BOOST_TEST((boiling_point(Length::metres(h), 9_degP, 0_kPa) >
                boiling_point(Length::metres(h + 500), 9_degP, 0_kPa)));
  const double up = (boiling_point(240_m, 9_degP, Pressure::kilopascals(weather_kPa.high)) -
                     boiling_point(240_m, 9_degP, Pressure::kilopascals(weather_kPa.low)))
                        .kelvins();
  check_within(up / 2, 0.85, 0.02);
}

BOOST_AUTO_TEST_CASE(time_to_boil_is_heat_over_power) {
  const HeatCapacity c = HeatCapacity::kilojoules_per_kelvin(5);
  check_close(time_to_boil(c, 80_K, 1.0).seconds(), 400, 1e-12);
  check_close(time_to_boil(c, 80_K, 2.0).seconds(), 200, 1e-12);
  BOOST_TEST(time_to_boil(c, TemperatureDifference::kelvins(-5), 1.0).seconds() == 0);
  check_close(time_to_boil(c, 80_K, 0.0).seconds(), 400000, 1e-12);
  check_close(time_to_boil(c, 80_K, -1.0).seconds(), 400000, 1e-12);
}

BOOST_AUTO_TEST_SUITE_END()
