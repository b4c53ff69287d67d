// What the trade expects of a starter, against what the science computes for one.

#include "check.h"
#include "outside.h"
#include "science/boiling.h"
#include "science/chill.h"
#include "science/demand.h"
#include "science/extract.h"
#include "science/films.h"
#include "science/growth.h"
#include "science/heat.h"
#include "science/kinetics.h"
#include "science/newton_cooling.h"
#include "science/supply.h"
#include "science/vessel_shape.h"

using namespace starter;
using namespace starter::science;
using namespace reference;

namespace {

const char* const trade = "the trade";

double points_per_pound_and_gallon(double solids) {
  // A pound made up to a US gallon.
  const double extract_per_litre =
      solids * Mass::pounds(1).grams() / Volume::us_gallons(1).litres();
  double low = 0, high = 40;
  for (int i = 0; i < 60; ++i) {
    const double p = (low + high) / 2;
    (concentration(Plato::degrees(p)).grams_per_litre() < extract_per_litre ? low : high) = p;
  }
  return 1000 * (sg(Plato::degrees(low)).sg() - 1);
}

}  // namespace

BOOST_AUTO_TEST_CASE(malt_extract) {
  Check yield{"practice", "Dry malt extract of 95–97 % solids: 43.9–44.8 points a pound and gallon",
              trade, Label::practice, within(0.1, "points")};
  yield.point(points_per_pound_and_gallon(0.95), 43.9);
  yield.point(points_per_pound_and_gallon(0.97), 44.8);
  Check rich{"practice", "180 g of dry extract in 1.2 L of water: 12.5 °P, 1.0507, 137 g/L", trade,
             Label::practice, share_of_value(0.005)};
  const Wort w =
      dissolve(Mass::grams(180), Share::ratio(dry_malt_solids.likely), Volume::litres(1.2));
  rich.point(plato(w).degrees(), 12.5);
  rich.point(1000 * (sg(plato(w)).sg() - 1), 50.7);
  rich.point(dry_malt_equivalent(w).grams_per_litre(), 137);
  Check usual{"practice", "100 g of dry extract made up to a litre: 1.0366–1.0374", trade,
              Label::practice, inside_the_span()};
  usual.between(points_per_pound_and_gallon(0.96) * 100 * Volume::us_gallons(1).litres() /
                        Mass::pounds(1).grams() / 1000 +
                    1,
                1.0366, 1.0374);
  Check room{"practice", "Sugar takes 0.61–0.62 mL a gram in weak wort", trade, Label::practice,
             inside_the_span()};
  for (double p : {5.0, 10.0, 15.0})
    room.between(displacement(Mass::grams(1), Plato::degrees(p)).millilitres(), 0.61, 0.62);
}

BOOST_AUTO_TEST_CASE(chilling) {
  const Outline flask = outline(Shape::cone, Volume::litres(2));
  const Wetted wet = wetted(flask, Volume::litres(1.2));
  Check ua{"practice", "A 2 L flask gives 5–12 W/K", trade, Label::practice, inside_the_span()};
  for (double swirl : {1.0, 2.5})
    ua.between(conductance(wet, borosilicate_vessel.wall, borosilicate_vessel.conductivity_W_per_mK,
                           Temperature::celsius(60), Temperature::celsius(20), swirl)
                   .watts_per_kelvin(),
               5, 12);
  const Wort wort = wort_of(Volume::litres(1.2), Plato::degrees(9));
  const HeatCapacity all = heat_capacity(wort, Temperature::celsius(60)) +
                           heat_capacity(borosilicate_vessel, empty_mass(Volume::litres(2), 0.22));
  auto settles = [&](double bath, double at, double ice) {
    return chill({all, Temperature::celsius(100), Volume::litres(bath), Temperature::celsius(at),
                  Mass::kilograms(ice), Temperature::celsius(40), Conductance::watts_per_kelvin(8),
                  Temperature::celsius(30)})
        .lowest.celsius();
  };
  Check check{"practice", "Where 1.2 L of boiling wort settles in 5, 10, 20 L, and with ice", trade,
              Label::practice, within(1.0, "K")};
  check.point(settles(10, 27, 0), 35);
  check.point(settles(5, 27, 0), 41);
  check.point(settles(20, 27, 0), 31);
  check.point(settles(10, 14, 0), 23.5);
  check.point(settles(10, 14, 1), 15);
}

BOOST_AUTO_TEST_CASE(growing) {
  Check hours{"practice", "A stir plate takes 18–48 h between 18 and 24 °C at 70 million/mL", trade,
              Label::practice, inside_the_span()};
  for (double t : {18.0, 20.0, 21.0, 22.0, 24.0})
    for (double p : {7.5, 9.0, 10.0}) {
      const double needed = growth_time_needed(CellDensity::million_per_mL(70), Plato::degrees(p),
                                               Temperature::celsius(t), growth_pace.likely)
                                .hours();
      // Within the pace that strains differ by.
      hours.between(needed, 18 * growth_pace.low, 48);
    }
}

BOOST_AUTO_TEST_CASE(stated_spans) {
  Check check{"practice", "Coefficients as the trade states them", trade, Label::practice,
              share_of_value(1e-12)};
  struct Stated {
    Uncertain ours;
    double low, high;
  };
  const Stated all[] = {{dry_malt_solids, 0.95, 0.97},      {liquid_malt_solids, 0.78, 0.82},
                        {boil_off_covered_flask, 0.2, 0.4}, {boil_off_open_pot, 1, 3},
                        {dry_yeast_cells, 5, 20},           {slurry_cells_per_mL, 1, 2},
                        {slurry_not_yeast, 0.10, 0.25},     {litre_time_constant_hours, 2, 3},
                        {biomass_yield, 0.05, 0.10},        {stir_plate_warming, 1, 3}};
  for (const Stated& s : all) {
    check.point(s.ours.low, s.low);
    check.point(s.ours.high, s.high);
  }
  check.point(ale_pitching_rate.likely, 0.75);
  check.point(lager_pitching_rate.likely, 1.5);
  check.point(textbook_pitching_rate, 1);
}
