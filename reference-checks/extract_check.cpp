// Extract and gravity: sugar tables, mass balances, hydrometers.

#include "science/extract.h"

#include "check.h"
#include "outside.h"

using namespace starter;
using namespace starter::science;
using namespace reference;

namespace {

const char* const circular =
    "F. J. Bates, NBS Circular 440, 1942, Table 114, as `brix` of GNU units";

std::string degrees(double p) {
  std::ostringstream text;
  text << p << " °P";
  return text.str();
}

}  // namespace

BOOST_AUTO_TEST_CASE(the_sugar_table) {
  std::vector<std::pair<std::string, std::string>> questions;
  for (int p = 0; p <= 30; ++p) questions.emplace_back("brix(" + std::to_string(p) + ")", "g/cm^3");
  const auto apparent = units(questions);
  Check there{"extract", "°P from SG, whole degrees 0–30", circular, Label::published,
              within(0.02, "°P")};
  Check back{"extract", "SG from °P, whole degrees 0–30", circular, Label::published,
             within(0.0001, "SG")};
  for (int p = 0; p <= 30; ++p) {
    // The table is of apparent density; its water is the first entry.
    const double ratio = apparent[static_cast<std::size_t>(p)] / apparent[0];
    there.point(plato(SpecificGravity::sg(ratio)).degrees(), p, degrees(p));
    back.point(sg(Plato::degrees(p)).sg(), ratio, degrees(p));
  }
}

BOOST_AUTO_TEST_CASE(between_the_entries) {
  std::vector<std::pair<std::string, std::string>> questions;
  for (double p = 0.25; p < 30; p += 0.5)
    questions.emplace_back("brix(" + std::to_string(p) + ")", "g/cm^3");
  questions.emplace_back("brix(0)", "g/cm^3");
  const auto apparent = units(questions);
  Check check{"extract", "SG from °P, between whole degrees", circular, Label::published,
              within(0.0001, "SG")};
  double p = 0.25;
  for (std::size_t i = 0; i + 1 < apparent.size(); ++i, p += 0.5)
    check.point(sg(Plato::degrees(p)).sg(), apparent[i] / apparent.back(), degrees(p));
}

BOOST_AUTO_TEST_CASE(either_scale_leads_to_the_same_number) {
  Check check{"extract", "SG to °P and back, 0.990 to 1.280", "arithmetic", Label::identity,
              within(1e-12, "SG")};
  Check scales{"extract", "A gravity written on either scale", "arithmetic", Label::identity,
               within(1e-12, "°P")};
  for (double g = 0.990; g < 1.28; g += 0.0073) {
    const auto gravity = SpecificGravity::sg(g);
    check.point(sg(plato(gravity)).sg(), g);
    const double p = plato(gravity).degrees();
    scales.point(plato(Gravity{Gravity::Scale::specific_gravity, g}).degrees(), p);
    scales.point(plato(Gravity{Gravity::Scale::plato, p}).degrees(), p);
    scales.point(plato(sg(Gravity{Gravity::Scale::plato, p})).degrees(), p);
    scales.point(plato(sg(Gravity{Gravity::Scale::specific_gravity, g})).degrees(), p);
  }
}

BOOST_AUTO_TEST_CASE(the_usual_cubic) {
  Check check{"extract", "°P from SG, 1.010 to 1.100, against the cubic of the trade",
              "ASBC cubic °P = −616.868 + 1111.14 SG − 630.272 SG² + 135.997 SG³", Label::memory,
              within(0.02, "°P")};
  for (double g = 1.010; g < 1.1001; g += 0.005)
    check.point(plato(SpecificGravity::sg(g)).degrees(),
                -616.868 + g * (1111.14 + g * (-630.272 + g * 135.997)));
}

BOOST_AUTO_TEST_CASE(density_and_concentration) {
  const char* const handbook =
      "CRC Handbook of Chemistry and Physics, sucrose in water, data/sucrose-density.csv";
  // The 0.02 °P that the table is held to is 0.08 g/L, and the handbook's last digit leaves 0.05
  // open. For grams in a litre six tenths of that count, and the rounding again.
  Check density{"extract", "Density in vacuum at 20 °C, 0–60 °P", handbook, Label::published,
                within(0.13, "g/L")};
  Check grams{"extract", "Grams of extract in a litre, 1–60 °P", handbook, Label::published,
              within(0.6 * 0.13 + 0.05, "g/L")};
  // 0.13 g/L of density, borne by a tenth of extract.
  Check room{"extract", "Room a kilogram of extract takes, 10–60 °P", handbook, Label::published,
             within(0.0012, "L")};
  for (const Row& row : table("sucrose-density.csv")) {
    const Plato p = Plato::degrees(row[0]);
    density.point(1000 * true_density(p).kilograms_per_litre(), row[1], degrees(row[0]));
    grams.point(concentration(p).grams_per_litre(), row[2], degrees(row[0]));
    // Printed to 0.1 kg/m³, weaker solutions tell nothing of it.
    if (row[0] < 10) continue;
    const double share = row[0] / 100;
    room.point(displacement(Mass::kilograms(1), p).litres(),
               (1000 / row[1] - (1 - share) * 1000 / 998.2) / share, degrees(row[0]));
  }
}

BOOST_AUTO_TEST_CASE(density_by_the_icumsa_polynomial) {
  const char* const source =
      "ICUMSA SPS-4, density of sucrose; coefficients as several public programs carry them";
  Check wort{"extract", "Density in vacuum at 20 °C by polynomial, as a strength, 0–30 °P", source,
             Label::published, within(0.02, "°P")};
  Check syrup{"extract", "The same, 32–60 °P", source, Label::published, within(0.04, "°P")};
  auto icumsa = [](double p) {
    const double w = p / 100;
    return 998.2017 +
           w * (385.1761 +
                w * (135.3705 + w * (40.9299 + w * (-3.9643 + w * (13.4853 + w * -17.2890)))));
  };
  for (double p = 0; p <= 60; p += 2) {
    const double ours = 1000 * true_density(Plato::degrees(p)).kilograms_per_litre();
    const double slope = (icumsa(p + 0.5) - icumsa(p - 0.5));
    (p <= 30 ? wort : syrup).point(p + (ours - icumsa(p)) / slope, p, degrees(p));
  }
}

BOOST_AUTO_TEST_CASE(extract_is_never_lost) {
  Check extract{"extract", "Extract weighed in, and found by volume × concentration after the boil",
                "conservation of mass", Label::identity, share_of_value(1e-9)};
  Check water{"extract", "Mass of the wort: in, less what boiled off", "conservation of mass",
              Label::identity, share_of_value(1e-12)};
  Check ratio{"extract", "Extract and dry malt a litre, by mass over volume",
              "conservation of mass", Label::identity, share_of_value(1e-9)};
  for (double grams : {20.0, 110.0, 180.0, 450.0})
    for (double litres : {0.6, 1.2, 3.5})
      for (double lost : {0.0, 0.06, 0.3}) {
        const Share solids = Share::ratio(0.96);
        const Wort before = dissolve(Mass::grams(grams), solids, Volume::litres(litres));
        const Wort after = boil_down(before, Volume::litres(lost));
        extract.point(volume(after).litres() * concentration(plato(after)).grams_per_litre(),
                      0.96 * grams);
        water.point(mass(after).grams(), grams + (litres - lost) * 998.20);
        const double litres_after = volume(after).litres();
        ratio.point(extract_ratio(after).grams_per_litre(), 0.96 * grams / litres_after);
        ratio.point(dry_malt_equivalent(after).grams_per_litre(), grams / litres_after);
        const Wort again = wort_of(volume(after), plato(after));
        extract.point(again.extract.grams(), after.extract.grams());
        water.point(again.water.grams(), after.water.grams());
      }
}

BOOST_AUTO_TEST_CASE(volumes_add_up) {
  Check check{"extract", "Volume of wort: its water and the room of its extract",
              "conservation of mass", Label::identity, share_of_value(1e-9)};
  for (double p : {2.0, 8.5, 12.0, 25.0, 40.0}) {
    const Wort w = wort_of(Volume::litres(2), Plato::degrees(p));
    check.point(w.water.kilograms() / 0.99820 + displacement(w.extract, plato(w)).litres(), 2);
  }
}

BOOST_AUTO_TEST_CASE(hydrometer) {
  std::vector<Row> temperatures;
  for (int t = 0; t <= 40; t += 4) temperatures.push_back({static_cast<double>(t)});
  temperatures.push_back({20});
  const auto water = ask("water.py", temperatures);
  Check check{"extract", "Hydrometer reading brought to 20 °C, 0–40 °C",
              "density of water, IAPWS-95 by python3-iapws", Label::published,
              within(0.0001, "SG")};
  for (std::size_t i = 0; i + 1 < water.size(); ++i)
    check.point(
        hydrometer_at_20C(SpecificGravity::sg(1.040), Temperature::celsius(temperatures[i][0]))
            .sg(),
        1.040 * water.back()[0] / water[i][0]);
  Check trust{"extract", "Where a reading can still be corrected: up to 40 °C", "the trade",
              Label::practice, within(0, "")};
  for (double t : {-0.1, 0.0, 20.0, 40.0, 40.1})
    trust.point(hydrometer_trusted(Temperature::celsius(t)), t >= 0 && t <= 40);
}
