// When wort boils.

#include "science/boiling.h"

#include "check.h"
#include "outside.h"
#include "science/atmosphere.h"

using namespace starter;
using namespace starter::science;
using namespace reference;

BOOST_AUTO_TEST_CASE(boiling_point_of_water) {
  std::vector<Row> pressures;
  for (double p = 50; p <= 110; p += 2.5) pressures.push_back({p});
  const auto answers = ask("saturation.py", pressures);
  Check same{"boiling", "Water boils, 50–110 kPa",
             "IAPWS Industrial Formulation 1997, region 4, by python3-iapws", Label::published,
             within(0.01, "K")};
  Check general{"boiling", "Water boils, 50–110 kPa, another formulation",
                "IAPWS-95 by python3-iapws", Label::published, within(0.01, "K")};
  for (std::size_t i = 0; i < pressures.size(); ++i) {
    const double kelvins = saturation_temperature(Pressure::kilopascals(pressures[i][0])).kelvins();
    same.point(kelvins, answers[i][0], std::to_string(pressures[i][0]) + " kPa");
    general.point(kelvins, answers[i][1], std::to_string(pressures[i][0]) + " kPa");
  }
  Check release{"boiling", "The release's own verification points",
                "IAPWS R7-97(2012), table 36, data/if97-table-36.csv", Label::published,
                within(1e-6, "K")};
  for (const Row& row : table("if97-table-36.csv"))
    release.point(saturation_temperature(Pressure::kilopascals(1000 * row[0])).kelvins(), row[1]);
}

BOOST_AUTO_TEST_CASE(sugar_raises_it) {
  std::vector<double> degrees;
  std::vector<std::pair<std::string, std::string>> questions;
  // The entries of its table, which it joins by straight lines.
  for (double p : {5., 10., 15., 20., 25., 30., 35., 40., 42., 44., 46., 48., 50., 54., 58., 60.}) {
    degrees.push_back(p);
    questions.emplace_back("sugar_conc_bpe(" + std::to_string(p) + ")", "K");
  }
  const auto answers = units(questions);
  Check check{"boiling", "Sugar raises the boiling point, 5–60 °P at one atmosphere",
              "Starzak and Peacock by Saska 2002, eq. 3, as `sugar_conc_bpe` of GNU units",
              Label::published, within(0.0002, "K")};
  for (std::size_t i = 0; i < degrees.size(); ++i)
    check.point(boiling_elevation(Plato::degrees(degrees[i]), Temperature::celsius(100)).kelvins(),
                answers[i], std::to_string(degrees[i]) + " °P");
  Check thin{"boiling", "Sugar raises the boiling point, 1–6 °P, by its particles alone",
             "Raoult: 0.513 K per mol in a kilogram of water; constant of any handbook",
             Label::published, share_of_value(0.02)};
  for (double p = 1; p <= 6; ++p)
    thin.point(boiling_elevation(Plato::degrees(p), Temperature::celsius(100)).kelvins(),
               0.513 * 1000 * p / (342.3 * (100 - p)));
}

BOOST_AUTO_TEST_CASE(wort_at_an_altitude) {
  const std::vector<Row> heights = {{0}, {240}, {1600}, {2500}, {3500}};
  const auto air = ask("atmosphere.py", heights);
  std::vector<Row> pressures;
  for (const Row& p : air)
    for (double weather : {-3.0, 0.0, 3.0}) pressures.push_back({p[0] + weather});
  const auto water = ask("saturation.py", pressures);
  const double sugar = units({{"sugar_conc_bpe(9)", "K"}})[0];
  Check check{"boiling", "Wort of 9 °P boils, 0–3500 m, weather −3, 0, +3 kPa",
              "hydrostatics by scipy, python3-iapws and GNU units put together", Label::published,
              within(0.01, "K")};
  std::size_t i = 0;
  for (const Row& h : heights)
    for (double weather : {-3.0, 0.0, 3.0}) {
      const double t = water[i++][0] / 373.15;
      check.point(
          boiling_point(Altitude::metres(h[0]), Plato::degrees(9), Pressure::kilopascals(weather))
              .celsius(),
          373.15 * t - 273.15 + sugar * t * t);
    }
}

BOOST_AUTO_TEST_CASE(heating_up) {
  Check check{"boiling", "Heat put in while heating: power × time against C·ΔT",
              "conservation of energy", Label::identity, share_of_value(1e-9)};
  for (double capacity : {2.1, 5.4, 12.0})
    for (double rise : {20.0, 84.0})
      for (double kilowatts : {0.4, 1.4})
        check.point(time_to_boil(HeatCapacity::kilojoules_per_kelvin(capacity),
                                 TemperatureDifference::kelvins(rise), kilowatts)
                            .seconds() *
                        kilowatts,
                    capacity * rise);
}
