#include "science/chill.h"

#include <cmath>
#include <random>

#include "near.h"
#include "science/water.h"

using namespace starter;
using namespace starter::literals;
using namespace starter::science;

namespace {

HeatCapacity kJ_per_K(double v) {
  return HeatCapacity::kilojoules_per_kelvin(v);
}
Conductance W_per_K(double v) {
  return Conductance::watts_per_kelvin(v);
}

// 1.2 L of 9 °P wort in a 2 L borosilicate flask.
HeatCapacity flask() {
  return heat_capacity(wort_of(1.2_L, 9_degP), 60_degC) +
         heat_capacity(borosilicate_vessel, empty_mass(2_L, 0.22));
}

ChillPlan plan(Volume bath, Temperature bath_temperature, Mass ice, Temperature target) {
  return {flask(), 99.4_degC, bath, bath_temperature, ice, 40_degC, W_per_K(8), target};
}

// Heat of everything above water of 0 °C, kJ.
double heat_before(const ChillPlan& p) {
  const double bath = bath_heat_capacity(p.bath, p.bath_temperature).kilojoules_per_kelvin();
  return p.capacity.kilojoules_per_kelvin() * p.start.celsius() +
         bath * p.bath_temperature.celsius() - p.ice.kilograms() * ice_latent_heat;
}
double heat_after(const ChillPlan& p, const Chilled& c, Temperature wort) {
  const double bath = bath_heat_capacity(p.bath, p.bath_temperature).kilojoules_per_kelvin() +
                      (p.ice - c.ice_left).kilograms() * water_specific_heat;
  return p.capacity.kilojoules_per_kelvin() * wort.celsius() + bath * c.bath_end.celsius() -
         c.ice_left.kilograms() * ice_latent_heat;
}

// The same chill in small steps, as a reckoning of another kind.
double stepped_minutes(const ChillPlan& p) {
  const double c1 = p.capacity.kilojoules_per_kelvin();
  double c2 = bath_heat_capacity(p.bath, p.bath_temperature).kilojoules_per_kelvin();
  double wort = p.start.celsius(), heat = c2 * p.bath_temperature.celsius(), ice = 0;
  bool in = p.ice.grams() == 0;
  const double dt = 0.02;
  double t = 0;
  for (; wort > p.target.celsius() && t < 1e5; t += dt) {
    if (!in && wort <= p.ice_from.celsius()) {
      in = true;
      ice = p.ice.kilograms();
    }
    const double flow = p.ua.watts_per_kelvin() * (wort - heat / c2) * dt / 1000;
    wort -= flow / c1;
    heat += flow;
    if (ice > 0 && heat > 0) {
      const double melts = std::fmin(ice, heat / ice_latent_heat);
      ice -= melts;
      heat -= melts * ice_latent_heat;
      c2 += melts * water_specific_heat;
    }
  }
  return t / 60;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(chilling)

BOOST_AUTO_TEST_CASE(the_trades_own_figures) {
  check_within(chill(plan(10_L, 27_degC, 0_g, 20_degC)).lowest.celsius(), 35, 1);
  check_within(chill(plan(5_L, 27_degC, 0_g, 20_degC)).lowest.celsius(), 41, 1);
  check_within(chill(plan(20_L, 27_degC, 0_g, 20_degC)).lowest.celsius(), 31, 1);
  check_within(chill(plan(10_L, 14_degC, 0_g, 20_degC)).lowest.celsius(), 23.5, 0.5);
  check_within(chill(plan(10_L, 14_degC, 1_kg, 20_degC)).lowest.celsius(), 15, 0.5);
}

BOOST_AUTO_TEST_CASE(without_ice_it_is_two_bodies) {
  const ChillPlan p = plan(10_L, 14_degC, 0_g, 25_degC);
  const Body wort{p.capacity, p.start};
  const Body bath{bath_heat_capacity(10_L, 14_degC), 14_degC};
  const Chilled c = chill(p);
  BOOST_TEST_REQUIRE(c.reachable);
  check_close(c.time->hours(), time_to_reach(wort, bath, p.ua, 25_degC)->hours(), 1e-12);
  check_close(c.lowest.celsius(), equilibrium(wort, bath).celsius(), 1e-12);
  check_close(c.bath_end.celsius(), temperature_after(bath, wort, p.ua, *c.time).celsius(), 1e-12);
  BOOST_TEST(!c.ice_in.has_value());
}

BOOST_AUTO_TEST_CASE(the_equilibrium_itself_is_out_of_reach) {
  ChillPlan p = plan(10_L, 14_degC, 0_g, 20_degC);
  const Chilled c = chill(p);
  BOOST_TEST(!c.reachable);
  BOOST_TEST(!c.time.has_value());
  BOOST_TEST((c.bath_end == c.lowest));
  p.target = c.lowest;
  BOOST_TEST(!chill(p).reachable);
  p.target = c.lowest + 0.001_K;
  BOOST_TEST(chill(p).reachable);
}

BOOST_AUTO_TEST_CASE(ice_goes_in_at_its_temperature) {
  const ChillPlan p = plan(10_L, 14_degC, 1_kg, 20_degC);
  const Chilled c = chill(p);
  BOOST_TEST_REQUIRE(c.reachable);
  BOOST_TEST_REQUIRE(c.ice_in.has_value());
  check_close(c.ice_in->hours(), chill(plan(10_L, 14_degC, 0_g, 40_degC)).time->hours(), 1e-12);
  BOOST_TEST((*c.ice_in < *c.time));
  BOOST_TEST(c.ice_left.grams() == 0);
}

BOOST_AUTO_TEST_CASE(a_target_above_ice_from_needs_no_ice) {
  const Chilled c = chill(plan(10_L, 14_degC, 1_kg, 45_degC));
  BOOST_TEST_REQUIRE(c.reachable);
  BOOST_TEST(!c.ice_in.has_value());
  BOOST_TEST(c.ice_left.kilograms() == 1);
  check_within(c.lowest.celsius(), 15, 0.5);
  // At ice_from itself the wort is there, a hair below it is not.
  BOOST_TEST(!chill(plan(10_L, 14_degC, 1_kg, 40_degC)).ice_in.has_value());
  BOOST_TEST(chill(plan(10_L, 14_degC, 1_kg, 39.99_degC)).ice_in.has_value());
}

BOOST_AUTO_TEST_CASE(ice_goes_in_when_the_bath_alone_has_stalled) {
  ChillPlan p = plan(5_L, 27_degC, 2_kg, 20_degC);
  p.ice_from = 30_degC;  // the bath alone ends near 41 °C
  const Temperature alone = chill(plan(5_L, 27_degC, 0_g, 20_degC)).lowest;
  const Chilled c = chill(p);
  BOOST_TEST_REQUIRE(c.reachable);
  BOOST_TEST_REQUIRE(c.ice_in.has_value());
  check_close(c.ice_in->hours(), chill(plan(5_L, 27_degC, 0_g, alone + stalled)).time->hours(),
              1e-12);
}

BOOST_AUTO_TEST_CASE(ice_from_above_the_start_means_at_once) {
  ChillPlan p = plan(10_L, 14_degC, 1_kg, 20_degC);
  p.ice_from = 150_degC;
  const Chilled c = chill(p);
  BOOST_TEST_REQUIRE(c.ice_in.has_value());
  BOOST_TEST(c.ice_in->hours() == 0);
  check_close(c.lowest.celsius(), chill(plan(10_L, 14_degC, 1_kg, 20_degC)).lowest.celsius(),
              1e-12);
}

BOOST_AUTO_TEST_CASE(plenty_of_ice_holds_the_bath_at_freezing) {
  const ChillPlan p = plan(2_L, 10_degC, 3_kg, 5_degC);
  const Chilled c = chill(p);
  BOOST_TEST_REQUIRE(c.reachable);
  check_close(
      c.time->seconds() - c.ice_in->seconds(),
      1000 * flask().kilojoules_per_kelvin() / 8 *
          std::log(std::fmax(40, chill(plan(2_L, 10_degC, 0_g, 5_degC)).lowest.celsius() + 1) / 5),
      1e-9);
  BOOST_TEST(c.ice_left.grams() > 0);
  BOOST_TEST(c.bath_end.celsius() == 0);
  BOOST_TEST(c.lowest.celsius() == 0);
  // 0 °C itself is only approached.
  const Chilled cold = chill(plan(2_L, 10_degC, 3_kg, 0_degC));
  BOOST_TEST(!cold.reachable);
  BOOST_TEST(cold.ice_left.grams() > 0);
}

BOOST_AUTO_TEST_CASE(a_cold_wort_is_there_already) {
  ChillPlan p = plan(10_L, 14_degC, 1_kg, 20_degC);
  p.start = 20_degC;
  BOOST_TEST(chill(p).reachable);
  BOOST_TEST(chill(p).time->hours() == 0);
  BOOST_TEST(!chill(p).ice_in.has_value());
  p.start = 20.01_degC;
  BOOST_TEST(chill(p).time->hours() > 0);
}

BOOST_AUTO_TEST_CASE(agrees_with_small_steps) {
  for (const ChillPlan& p : {plan(10_L, 14_degC, 0_g, 25_degC), plan(10_L, 14_degC, 1_kg, 18_degC),
                             plan(10_L, 25_degC, 3_kg, 15_degC), plan(8_L, 5_degC, 1_kg, 10_degC),
                             plan(12_L, 1_degC, 500_g, 12_degC)}) {
    const Chilled c = chill(p);
    BOOST_TEST_REQUIRE(c.reachable);
    check_close(c.time->minutes(), stepped_minutes(p), 1e-3);
  }
}

BOOST_AUTO_TEST_CASE(heat_is_neither_made_nor_lost) {
  std::mt19937 chance(20270316);
  const auto between = [&](double low, double high) {
    return low + (high - low) * (static_cast<double>(chance()) / 4294967295.0);
  };
  int with_ice_left = 0, all_melted = 0, unreachable = 0, unused = 0;
  for (int i = 0; i < 5000; ++i) {
    const ChillPlan p{kJ_per_K(between(1, 30)),
                      Temperature::celsius(between(20, 101)),
                      Volume::litres(between(0.5, 30)),
                      Temperature::celsius(between(0, 30)),
                      Mass::kilograms(std::fmax(0, between(-1, 8))),
                      Temperature::celsius(between(5, 110)),
                      W_per_K(between(1, 30)),
                      Temperature::celsius(between(-2, 40))};
    const Chilled c = chill(p);
    // Short of its target the wort ends where the bath does.
    const Temperature end = c.reachable ? std::min(p.target, p.start) : c.bath_end;
    const double scale = 1 + std::fabs(heat_before(p)) + p.ice.kilograms() * ice_latent_heat;
    check_within(heat_after(p, c, end) / scale, heat_before(p) / scale, 1e-12);
    BOOST_TEST(c.ice_left.grams() >= 0);
    BOOST_TEST((c.ice_left <= p.ice));
    BOOST_TEST(c.reachable == c.time.has_value());
    if (c.reachable) BOOST_TEST((p.target >= c.lowest || p.start <= p.target));
    if (c.time && c.ice_in) BOOST_TEST((*c.ice_in <= *c.time));
    if (!c.reachable)
      ++unreachable;
    else if (p.ice.grams() > 0 && !c.ice_in)
      ++unused;
    else if (c.ice_left.grams() > 0)
      ++with_ice_left;
    else if (c.ice_in)
      ++all_melted;
  }
  // Every way through was taken.
  BOOST_TEST(with_ice_left > 50);
  BOOST_TEST(all_melted > 50);
  BOOST_TEST(unreachable > 50);
  BOOST_TEST(unused > 50);
}

BOOST_AUTO_TEST_CASE(more_ice_more_bath_more_conductance_never_slower) {
  double last = 1e9;
  for (double kg = 0.8; kg < 6; kg += 0.2) {
    const double t = chill(plan(10_L, 14_degC, Mass::kilograms(kg), 18_degC)).time->minutes();
    BOOST_TEST(t <= last);
    last = t;
  }
  last = 1e9;
  for (double litres = 8; litres < 40; litres += 2) {
    const double t = chill(plan(Volume::litres(litres), 14_degC, 0_g, 30_degC)).time->minutes();
    BOOST_TEST(t < last);
    last = t;
  }
  ChillPlan p = plan(10_L, 14_degC, 1_kg, 20_degC);
  const double slow = chill(p).time->minutes();
  p.ua = p.ua * 2;
  check_close(chill(p).time->minutes(), slow / 2, 1e-12);
}

BOOST_AUTO_TEST_CASE(the_ice_needed_is_the_ice_that_does_it) {
  for (const double target : {30.0, 21.0, 18.0, 10.0, 2.0}) {
    const ChillPlan p = plan(10_L, 27_degC, 0_g, Temperature::celsius(target));
    const Body wort{p.capacity, p.start};
    const Body bath{bath_heat_capacity(p.bath, p.bath_temperature), p.bath_temperature};
    ChillPlan with = p;
    with.ice = ice_needed(wort, bath, p.target);
    BOOST_TEST(with.ice.grams() > 0);
    check_close(chill(with).lowest.celsius(), target, 1e-9);
    with.ice = ice_needed(wort, bath, p.target, 1_K);
    check_close(chill(with).lowest.celsius(), target - 1, 1e-9);
    BOOST_TEST(chill(with).reachable);
  }
}

BOOST_AUTO_TEST_CASE(no_ice_where_the_bath_suffices) {
  const Body wort{flask(), 99.4_degC};
  const Body bath{bath_heat_capacity(10_L, 14_degC), 14_degC};
  const Temperature even = equilibrium(wort, bath);
  BOOST_TEST(ice_needed(wort, bath, even + 0.01_K).grams() == 0);
  BOOST_TEST(ice_needed(wort, bath, even - 0.01_K).grams() > 0);
  BOOST_TEST(ice_needed(wort, bath, even + 0.01_K, 1_K).grams() > 0);
  // Below freezing nothing can be aimed at.
  BOOST_TEST((ice_needed(wort, bath, Temperature::celsius(-5)) == ice_needed(wort, bath, 0_degC)));
}

BOOST_AUTO_TEST_CASE(odd_plans_stay_finite) {
  const double odd[] = {-50, 0, 1e-12, 20, 1e6};
  for (const double a : odd)
    for (const double b : odd)
      for (const double ice : odd)
        for (const double target : odd) {
          const Chilled c =
              chill({kJ_per_K(a), Temperature::celsius(b), Volume::litres(a),
                     Temperature::celsius(b / 2), Mass::kilograms(ice), Temperature::celsius(a),
                     W_per_K(b), Temperature::celsius(target)});
          BOOST_TEST(std::isfinite(c.lowest.celsius()));
          BOOST_TEST(std::isfinite(c.bath_end.celsius()));
          BOOST_TEST(std::isfinite(c.ice_left.grams()));
          if (c.time) BOOST_TEST(std::isfinite(c.time->hours()));
          if (c.ice_in) BOOST_TEST(std::isfinite(c.ice_in->hours()));
        }
}

BOOST_AUTO_TEST_SUITE_END()
