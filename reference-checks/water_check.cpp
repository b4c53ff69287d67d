// Water: the engine's short formulas against the IAPWS's general ones.

#include "science/water.h"

#include "check.h"
#include "outside.h"
#include "science/headroom.h"
#include "science/heat.h"

using namespace starter;
using namespace starter::science;
using namespace reference;

BOOST_AUTO_TEST_CASE(water_against_the_iapws) {
  std::vector<Row> temperatures;
  for (double t : {0.0, 2.0, 4.0, 10.0, 14.0, 20.0, 25.0, 30.0, 40.0, 50.0, 60.0, 70.0, 80.0, 90.0,
                   95.0, 98.0})
    temperatures.push_back({t});
  const auto answers = ask("water.py", temperatures);
  const char* const general = "IAPWS-95 by python3-iapws";
  Check density{"water", "Density, 0–98 °C", general, Label::published, within(0.03, "g/L")};
  Check swell{"water", "Expansion from 20 °C, 0–98 °C", general, Label::published,
              within(0.00005, "")};
  Check slope{"water", "Expansion coefficient, 10–98 °C", general, Label::published,
              share_of_value(0.005)};
  Check cold_slope{"water", "Expansion coefficient, 0–4 °C", general, Label::published,
                   within(5e-7, "1/K")};
  Check viscosity{"water", "Viscosity, 0–98 °C", "IAPWS R12-08 by python3-iapws", Label::published,
                  share_of_value(0.001)};
  Check conductivity{"water", "Thermal conductivity, 0–98 °C", "IAPWS R15-11 by python3-iapws",
                     Label::published, share_of_value(0.001)};
  Check viscosity_same{"water", "Viscosity, the same equation in another program",
                       "IAPWS SR6-08 by python3-iapws", Label::published, share_of_value(1e-6)};
  Check conductivity_same{"water", "Thermal conductivity, the same equation in another program",
                          "IAPWS SR6-08 by python3-iapws", Label::published, share_of_value(1e-6)};
  Check heat{"water", "Specific heat of water taken for wort, 20–98 °C", general, Label::published,
             share_of_value(0.002)};
  Check cold_heat{"water", "Specific heat of water taken for wort, 0–14 °C", general,
                  Label::published, share_of_value(0.011)};
  Check filling{"water", "How much fuller a hot vessel is", general, Label::published,
                share_of_value(0.0001)};
  const double at_20 = answers[5][0];
  for (std::size_t i = 0; i < answers.size(); ++i) {
    const double t = temperatures[i][0];
    const Row& w = answers[i];
    const auto at = Temperature::celsius(t);
    const std::string where = std::to_string(t) + " °C";
    density.point(1000 * water_density(at).kilograms_per_litre(), 1000 * w[0], where);
    swell.point(expansion(at), at_20 / w[0], where);
    if (t >= 10)
      slope.point(water_expansivity_per_K(at), w[1], where);
    else
      cold_slope.point(water_expansivity_per_K(at), w[1], where);
    viscosity.point(water_viscosity_mPa_s(at), w[3], where);
    conductivity.point(water_conductivity_W_per_mK(at), w[4], where);
    viscosity_same.point(water_viscosity_mPa_s(at), w[5], where);
    conductivity_same.point(water_conductivity_W_per_mK(at), w[6], where);
    (t >= 20 ? heat : cold_heat).point(specific_heat(Plato(), at), w[2], where);
    const auto held = Volume::litres(1.2), capacity = Volume::litres(2);
    filling.point(hot_fill(held, capacity, at).ratio(), 0.6 * at_20 / w[0], where);
  }
  Check constant{"water", "Specific heat of baths and melted ice, at 20 °C", general,
                 Label::published, share_of_value(0.0005)};
  constant.point(water_specific_heat, answers[5][2]);
  Check fixed{"water", "Density at 20 °C that the sugar tables are built on", general,
              Label::published, within(0.01, "g/L")};
  fixed.point(1000 * water_density_20C.kilograms_per_litre(), 1000 * at_20);
  Check empty{"water", "Filling of a vessel", "arithmetic", Label::identity, share_of_value(1e-12)};
  for (double litres : {0.5, 1.2, 3.0})
    empty.point(fill(Volume::litres(litres), Volume::litres(2)).ratio(), litres / 2);
}

BOOST_AUTO_TEST_CASE(melting_ice) {
  Check check{"water", "Heat to melt ice", "IAPWS-95 and R10-06 by python3-iapws", Label::published,
              share_of_value(0.0005)};
  check.point(ice_latent_heat, ask("ice.py", {{0.101325}})[0][0]);
}

BOOST_AUTO_TEST_CASE(specific_heat_of_wort) {
  Check check{"water", "Specific heat of sugar solution, 2–20 °P, 10–90 °C",
              "J. Llano, 2005, cp = 4184 − 2971 w + 460 w + 7.5 w t J/(kg K), as a public program "
              "of sugar technology carries it",
              Label::published, share_of_value(0.01)};
  for (double p : {2.0, 5.0, 9.0, 12.0, 20.0})
    for (double t : {10.0, 30.0, 60.0, 90.0})
      check.point(specific_heat(Plato::degrees(p), Temperature::celsius(t)),
                  4.184 + p / 100 * (-2.971 + 0.460 + 0.0075 * t),
                  std::to_string(p) + " °P, " + std::to_string(t) + " °C");
  Check dilute{"water", "Specific heat of sugar solution, 1–12 °P, 25 °C",
               "water by IAPWS-95; dissolved sucrose 640 J/(mol K) by calorimetry", Label::memory,
               share_of_value(0.003)};
  const double water = ask("water.py", {{25}})[0][2];
  for (double p : {1.0, 5.0, 9.0, 12.0})
    dilute.point(specific_heat(Plato::degrees(p), Temperature::celsius(25)),
                 (1 - p / 100) * water + p / 100 * 640 / 342.3);
}
