// Chilling in a bath, with and without ice; cooling in air; films of still water.

#include "check.h"
#include "outside.h"
#include "science/chill.h"
#include "science/films.h"
#include "science/heat.h"
#include "science/newton_cooling.h"
#include "science/water.h"

using namespace starter;
using namespace starter::science;
using namespace reference;

namespace {

HeatCapacity kJ_per_K(double v) {
  return HeatCapacity::kilojoules_per_kelvin(v);
}
Temperature celsius(double v) {
  return Temperature::celsius(v);
}
Conductance W_per_K(double v) {
  return Conductance::watts_per_kelvin(v);
}
double kg_of_bath(double litres, double t) {
  return litres * water_density(celsius(t)).kilograms_per_litre();
}

ChillPlan chill_plan(double capacity, double start, double bath, double bath_at, double ice,
                     double ice_from, double ua, double target) {
  return {kJ_per_K(capacity),   celsius(start),    Volume::litres(bath), celsius(bath_at),
          Mass::kilograms(ice), celsius(ice_from), W_per_K(ua),          celsius(target)};
}

}  // namespace

BOOST_AUTO_TEST_CASE(two_bodies) {
  Check energy{"cooling", "Heat given equals heat taken, at any moment", "conservation of energy",
               Label::identity, share_of_value(1e-9)};
  Check end{"cooling", "Equilibrium does not depend on how well heat crosses",
            "(C₁T₁ + C₂T₂)/(C₁ + C₂)", Label::identity, within(1e-9, "K")};
  Check capacity{"cooling", "Heat capacity of a vessel, of a bath, of wort", "mass × specific heat",
                 Label::identity, share_of_value(1e-12)};
  for (double c1 : {1.0, 5.3, 12.0})
    for (double c2 : {8.0, 41.8})
      for (double ua : {2.0, 8.0, 40.0}) {
        const Body a{kJ_per_K(c1), celsius(99)}, b{kJ_per_K(c2), celsius(15)};
        const double even = (c1 * 99 + c2 * 15) / (c1 + c2);
        end.point(equilibrium(a, b).celsius(), even);
        end.point(temperature_after(a, b, W_per_K(ua), Duration::days(30)).celsius(), even);
        for (double minutes : {1.0, 7.0, 30.0, 90.0}) {
          const auto t = Duration::minutes(minutes);
          const double given = c1 * (99 - temperature_after(a, b, W_per_K(ua), t).celsius());
          const double taken = c2 * (temperature_after(b, a, W_per_K(ua), t).celsius() - 15);
          energy.point(given, taken);
        }
      }
  capacity.point(heat_capacity(borosilicate_vessel, empty_mass(Volume::litres(2), 0.22))
                     .kilojoules_per_kelvin(),
                 0.44 * 0.83);
  capacity.point(empty_mass(Volume::litres(5), 0.25).kilograms(), 1.25);
  for (double t : {4.0, 15.0, 27.0})
    capacity.point(bath_heat_capacity(Volume::litres(10), celsius(t)).kilojoules_per_kelvin(),
                   kg_of_bath(10, t) * 4.184);
  const Wort w = wort_of(Volume::litres(1.2), Plato::degrees(9));
  capacity.point(heat_capacity(w, celsius(60)).kilojoules_per_kelvin(),
                 mass(w).kilograms() * specific_heat(Plato::degrees(9), celsius(60)));
}

BOOST_AUTO_TEST_CASE(limits) {
  Check bath{"cooling", "A bath without end: Newton's law of cooling",
             "T = T₂ + (T₁ − T₂) e^(−t/τ)", Label::identity, within(1e-6, "K")};
  Check wall{"cooling", "A perfect wall: nothing happens", "conservation of energy",
             Label::identity, within(1e-6, "K")};
  for (double minutes : {1.0, 10.0, 45.0}) {
    const Body wort{kJ_per_K(5), celsius(99)};
    const auto t = Duration::minutes(minutes);
    bath.point(temperature_after(wort, {kJ_per_K(1e12), celsius(15)}, W_per_K(8), t).celsius(),
               15 + 84 * std::exp(-minutes * 60 * 8 / 5000));
    bath.point(newton(celsius(99), celsius(15), t, Duration::seconds(5000.0 / 8)).celsius(),
               15 + 84 * std::exp(-minutes * 60 * 8 / 5000));
    wall.point(temperature_after(wort, {kJ_per_K(40), celsius(15)}, W_per_K(0), t).celsius(), 99);
  }
  Check times{"cooling", "The time found, put back into the curve, gives the target", "arithmetic",
              Label::identity, within(1e-9, "K")};
  const Body a{kJ_per_K(5.3), celsius(99)}, b{kJ_per_K(41.8), celsius(15)};
  for (double target : {80.0, 40.0, 26.0}) {
    const auto t = time_to_reach(a, b, W_per_K(8), celsius(target));
    BOOST_TEST_REQUIRE(t.has_value());
    times.point(temperature_after(a, b, W_per_K(8), *t).celsius(), target);
  }
  for (double gap : {0.5, 1.0, 4.0}) {
    const auto tau = time_constant(Volume::litres(1.2));
    const auto t =
        newton_time_to_within(celsius(21), celsius(4), TemperatureDifference::kelvins(gap), tau);
    times.point(newton(celsius(21), celsius(4), t, tau).celsius(), 4 + gap);
  }
  Check size{"cooling", "Time constant in air grows as volume over surface: eightfold doubles it",
             "geometry", Label::identity, share_of_value(1e-9)};
  size.point(time_constant(Volume::litres(8), 2.5).hours(), 5);
  size.point(time_constant(Volume::litres(1), 2.5).hours(), 2.5);
  size.point(time_constant(Volume::millilitres(125), 2.5).hours(), 1.25);
}

BOOST_AUTO_TEST_CASE(curves) {
  std::vector<Row> questions;
  std::vector<ChillPlan> plans;
  for (double litres : {5.0, 10.0})
    for (double bath : {4.0, 15.0})
      for (double ice : {0.0, 0.5, 1.0, 3.0})
        for (double ua : {5.0, 12.0})
          for (double target : {35.0, 25.0}) {
            plans.push_back(chill_plan(5.3, 99, litres, bath, ice, 40, ua, target));
            const double c2 = kg_of_bath(litres, bath) * 4.184;
            // Where the bath alone stops above 40 °C the ice goes in a degree before that.
            const double stalls = (5.3 * 99 + c2 * bath) / (5.3 + c2) + 1;
            questions.push_back({5.3, 99, c2, bath, ua, ice, std::max(40.0, stalls), target, 24});
          }
  const auto answers = ask("cooling.py", questions);
  Check time{"cooling", "Minutes to the target, with and without ice",
             "the same bodies integrated step by step by scipy (DOP853)", Label::published,
             share_of_value(1e-6)};
  Check bath{"cooling", "Bath at the target", "the same, by scipy", Label::published,
             within(1e-5, "K")};
  Check ice{"cooling", "Ice left at the target", "the same, by scipy", Label::published,
            within(1e-5, "kg")};
  Check reach{"cooling", "Whether the target is reached at all", "the same, by scipy",
              Label::published, within(0, "")};
  Check energy{"cooling", "With ice: heat given equals heat taken and melted",
               "conservation of energy", Label::identity, share_of_value(1e-9)};
  for (std::size_t i = 0; i < plans.size(); ++i) {
    const Chilled c = chill(plans[i]);
    const bool reached = answers[i][0] >= 0;
    reach.point(c.reachable, reached, std::to_string(i));
    if (!reached || !c.time) continue;
    time.point(c.time->minutes(), answers[i][0], std::to_string(i));
    bath.point(c.bath_end.celsius(), answers[i][2], std::to_string(i));
    ice.point(c.ice_left.kilograms(), answers[i][3], std::to_string(i));
    if (c.ice_in)
      energy.point(1 + c.ice_in->minutes(),
                   1 + time_to_reach({plans[i].capacity, plans[i].start},
                                     {kJ_per_K(questions[i][2]), plans[i].bath_temperature},
                                     plans[i].ua, celsius(questions[i][6]))
                           ->minutes());
    const double melted = plans[i].ice.kilograms() - c.ice_left.kilograms();
    const double given = 5.3 * (99 - plans[i].target.celsius());
    const double used = c.ice_in ? melted : 0;
    energy.point(questions[i][2] * (c.bath_end.celsius() - plans[i].bath_temperature.celsius()) +
                     used * (333.5 + 4.184 * c.bath_end.celsius()),
                 given, std::to_string(i));
  }
}

BOOST_AUTO_TEST_CASE(how_far_down) {
  Check lowest{"cooling", "What bath and all the ice can reach", "conservation of energy",
               Label::identity, within(1e-9, "K")};
  for (double ice : {0.0, 0.5, 1.0, 2.0}) {
    const double c2 = kg_of_bath(10, 15) * 4.184;
    lowest.point(chill(chill_plan(5.3, 99, 10, 15, ice, 40, 8, 30)).lowest.celsius(),
                 (5.3 * 99 + c2 * 15 - ice * 333.5) / (5.3 + c2 + ice * 4.184));
  }
  Check needed{"cooling", "The ice that is said to be needed brings wort and bath just there",
               "conservation of energy", Label::identity, within(1e-9, "K")};
  for (double target : {5.0, 15.0, 21.0}) {
    const Mass ice = ice_needed({kJ_per_K(5.3), celsius(99)},
                                {bath_heat_capacity(Volume::litres(10), celsius(15)), celsius(15)},
                                celsius(target));
    needed.point(chill(chill_plan(5.3, 99, 10, 15, ice.kilograms(), 40, 8, 30)).lowest.celsius(),
                 target);
  }
}

BOOST_AUTO_TEST_CASE(films) {
  const std::vector<Row> questions = {
      {0.074, 0.002, 1.2, 60, 20, 1}, {0.074, 0.002, 1.2, 60, 20, 2.5},
      {0.074, 0.002, 1.2, 90, 15, 1}, {0.110, 0.002, 1.2, 55, 25, 1},
      {0.150, 0.004, 1.0, 60, 18, 1}, {0.150, 0.0008, 15, 60, 18, 2.5},
      {0.060, 0.002, 0.30, 50, 12, 1}};
  const auto answers = ask("films.py", questions);
  Check overall{"cooling", "Heat through wall and two films",
                "Churchill and Chu 1975, IAPWS-95 properties, root found by scipy",
                Label::published, share_of_value(0.003)};
  Check film{"cooling", "One film of still water", "Churchill and Chu 1975, IAPWS-95 properties",
             Label::published, share_of_value(0.003)};
  Check area{"cooling", "UA of a vessel: sides whole, a quarter of the base", "the same by hand",
             Label::practice, share_of_value(0.003)};
  for (std::size_t i = 0; i < questions.size(); ++i) {
    const Row& q = questions[i];
    const auto h = Length::metres(q[0]), wall = Length::metres(q[1]);
    overall.point(overall_W_per_m2K(h, wall, q[2], celsius(q[3]), celsius(q[4]), q[5]),
                  answers[i][0], std::to_string(i));
    film.point(film_W_per_m2K(h, celsius(q[3]), celsius(q[3] - (q[3] - q[4]) / 3)), answers[i][1]);
    area.point(conductance({h, 0.0342, 0.0205}, wall, q[2], celsius(q[3]), celsius(q[4]), q[5])
                   .watts_per_kelvin(),
               (0.0342 + 0.0205 / 4) * answers[i][0]);
  }
}
