#include "science/heat.h"

#include <cmath>

#include "near.h"

using namespace starter;
using namespace starter::literals;
using namespace starter::science;

namespace {

Body kettle() {
  return {HeatCapacity::kilojoules_per_kelvin(5), 100_degC};
}
Body tub() {
  return {HeatCapacity::kilojoules_per_kelvin(20), 20_degC};
}
constexpr Conductance ua = Conductance::watts_per_kelvin(8);

}  // namespace

BOOST_AUTO_TEST_SUITE(heat)

BOOST_AUTO_TEST_CASE(specific_heat_of_water_and_of_sugar_solution) {
  // IAPWS-95 at 101.325 kPa.
  check_close(specific_heat(0_degP, 20_degC), 4.18405, 2.5e-3);
  check_close(specific_heat(0_degP, 60_degC), 4.18495, 2.5e-3);
  check_close(specific_heat(0_degP, 99.9_degC), 4.21556, 2.5e-3);
  // By hand at 20 °C: 4.1765720 − 0.1 · (2.511 − 0.0075 · 20).
  check_close(specific_heat(10_degP, 20_degC), 3.9404720, 1e-6);
  BOOST_TEST(specific_heat(20_degP, 20_degC) < specific_heat(10_degP, 20_degC));
  BOOST_TEST(specific_heat(Plato::degrees(-5), 20_degC) == specific_heat(0_degP, 20_degC));
  BOOST_TEST(specific_heat(150_degP, 20_degC) == specific_heat(100_degP, 20_degC));
  BOOST_TEST(specific_heat(10_degP, 500_degC) == specific_heat(10_degP, 110_degC));
}

BOOST_AUTO_TEST_CASE(capacities_add_up) {
  const Wort w = wort_of(1.2_L, 10_degP);
  check_close(heat_capacity(w, 20_degC).kilojoules_per_kelvin(),
              mass(w).kilograms() * specific_heat(10_degP, 20_degC), 1e-12);
  check_close(empty_mass(2_L, 0.22).grams(), 440, 1e-12);
  check_close(heat_capacity(borosilicate_vessel, 440_g).kilojoules_per_kelvin(), 0.44 * 0.83,
              1e-12);
  check_within(bath_heat_capacity(10_L, 20_degC).kilojoules_per_kelvin(), 9.9820 * 4.184, 1e-3);
  BOOST_TEST(heat_capacity(Wort{}, 20_degC).kilojoules_per_kelvin() == 0);
  BOOST_TEST(bath_heat_capacity(Volume::litres(-1), 20_degC).kilojoules_per_kelvin() == 0);
  BOOST_TEST(empty_mass(Volume::litres(-2), 0.22).grams() == 0);
}

BOOST_AUTO_TEST_CASE(equilibrium_keeps_the_heat) {
  check_close(equilibrium(kettle(), tub()).celsius(), 36, 1e-14);  // (500 + 400)/25
  check_close(equilibrium(tub(), kettle()).celsius(), 36, 1e-14);
  BOOST_TEST(std::isfinite(equilibrium(Body{}, Body{}).celsius()));
}

BOOST_AUTO_TEST_CASE(approach_is_exponential) {
  // 8 W/K · (1/5000 + 1/20000) per second: half the gap after ln 2 / 0.002 s.
  const Duration half = Duration::seconds(std::log(2.0) / 0.002);
  check_close(temperature_after(kettle(), tub(), ua, half).celsius(), 36 + 32, 1e-12);
  check_close(temperature_after(tub(), kettle(), ua, half).celsius(), 36 - 8, 1e-12);
  BOOST_TEST((temperature_after(kettle(), tub(), ua, 0_s) == 100_degC));
  BOOST_TEST((temperature_after(kettle(), tub(), ua, Duration::seconds(-9)) == 100_degC));
  check_within(temperature_after(kettle(), tub(), ua, 100_h).celsius(), 36, 1e-9);
}

BOOST_AUTO_TEST_CASE(time_undoes_approach) {
  for (const double target : {99.9, 68.0, 40.0, 36.001}) {
    const auto t = time_to_reach(kettle(), tub(), ua, Temperature::celsius(target));
    BOOST_TEST_REQUIRE(t.has_value());
    check_close(temperature_after(kettle(), tub(), ua, *t).celsius(), target, 1e-12);
  }
  BOOST_TEST(time_to_reach(kettle(), tub(), ua, 100_degC)->hours() == 0);
  // Warming.
  const auto t = time_to_reach(tub(), kettle(), ua, 30_degC);
  BOOST_TEST_REQUIRE(t.has_value());
  check_close(temperature_after(tub(), kettle(), ua, *t).celsius(), 30, 1e-12);
}

BOOST_AUTO_TEST_CASE(the_equilibrium_is_never_reached) {
  BOOST_TEST(!time_to_reach(kettle(), tub(), ua, 36_degC));
  BOOST_TEST(!time_to_reach(kettle(), tub(), ua, 35_degC));
  BOOST_TEST(!time_to_reach(kettle(), tub(), ua, 101_degC));
  BOOST_TEST(!time_to_reach(tub(), kettle(), ua, 36_degC));
  BOOST_TEST(!time_to_reach(tub(), kettle(), ua, 19_degC));
  const Body same{HeatCapacity::kilojoules_per_kelvin(5), 20_degC};
  BOOST_TEST(!time_to_reach(same, tub(), ua, 19_degC));
}

BOOST_AUTO_TEST_CASE(nothing_conducts_nothing_moves) {
  const auto t = time_to_reach(kettle(), tub(), Conductance(), 50_degC);
  BOOST_TEST_REQUIRE(t.has_value());
  BOOST_TEST(t->hours() > 1e6);
  BOOST_TEST(std::isfinite(t->hours()));
}

BOOST_AUTO_TEST_SUITE_END()
