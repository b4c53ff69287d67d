// The shipped example, number by number, against values worked out apart from the program.
//
// The plan: 110 g dry malt in 1.15 L, 12 min of boil in a 2 L flask at 240 m, a bath of 10 L at
// 14 °C with 1 kg of ice from 38 °C, one pack of 100 billion packaged on 20 February, 36 h stirred
// at 20 °C, 36 h cold at 4 °C, begun on 16 March at 18:00 for 20 L of ale at 1.052, whose yeast is
// due on 20 March at 14:00.

#include <boost/test/unit_test.hpp>
#include <map>

#include "measured.h"
#include "quantity/write.h"

namespace {

struct Derived {
  const char* name;
  double value;
};

const std::vector<Derived> derived = {
    {"extract_mass", 110},
    // 110 g × 0.96 dry = 105.6 g extract; 1.15 L × 998.2 g/L + 4.4 g moisture = 1152.3 g water; the
    // boil takes 0.3 L/h × 0.2 h = 60 mL or 59.9 g. 1198.0 g of wort at 105.6/1198.0 = 8.814 °P,
    // which is 1.03514 by the table, so 1.03514 × 0.997 + 0.0012 = 1.03323 kg/L: 1.1595 L.
    {"wort_volume", 1.1595},
    {"wort_gravity", 8.814},
    // 105.6 g / 0.96 / 1.1595 L.
    {"extract_ratio", 94.87},
    {"boil_time", 12},
    // 101.325 kPa × (1 − 0.0065 × 240/288.15)^5.2559 = 98.47 kPa; water boils there at 99.21 °C
    // (steam tables: 99.61 °C at 100 kPa, 0.27 K less a kilopascal), and 8.8 °P adds 0.11 K.
    {"boil_temperature", 99.32},
    // 12 × 1.393^39.32 = 12 × exp(0.33146 × 39.32) = 12 × 457,700.
    {"boil_lethality", 5.49e6},
    // Before the boil 1257.9 g at 8.395 °P (1.03342): 1.2195 L. 60 mL of it.
    {"boil_off", 4.920},
    {"boil_fill", 0.6098},
    // 99.32 − 14.
    {"glass_shock", 85.32},
    {"chill_target", 21},
    // Wort 1.198 kg × 4.009 kJ/(kg·K) at 60 °C (water 4.190 less 0.0881 × 2.061) = 4.803, glass
    // 0.44 kg × 0.83 = 0.365: C₁ = 5.168 kJ/K. Bath 10 L × 0.99925 kg/L × 4.184 = C₂ = 41.81 kJ/K.
    // (5.168 × 99.32 + 41.81 × 14 − 333.5)/(5.168 + 41.81 + 4.184).
    {"bath_equilibrium", 14.955},
    {"chill_gap", -6.045},
    // The wort stands 7.06 cm deep in a cone of 8.09 cm base radius: side 329 cm², base 205 cm².
    // Films by Churchill and Chu at 60 and 19 °C: 1813 (swirled, × 2.5) and 689 W/(m²·K), wall
    // 2 mm/1.2; U = 272.5, UA = U × (side + base/4) = 10.37 W/K.
    // To 38 °C: even at 23.39 °C, ln(75.94/14.61) = 1.648 over UA(1/C₁ + 1/C₂) is 12.19 min.
    // The ice cools the bath, then at 21.6 °C, to 12.37 °C; ln(23.05/6.05) = 1.338 is 10.00 min.
    {"chill_time", 22.18},
    // (5.168 × 78.32 − 41.81 × 7)/(333.5 + 4.184 × 21).
    {"ice_needed", 0.2661},
    {"ice_wort_temperature", 38},
    // 10 L + 1.002 L of melt + 1.1595 L of flask inside + 2 mm of 534 cm² glass = 12.268 L of 18 L.
    {"bath_fill", 0.6816},
    // Sanitising 2 min, reading the thermometer 3 min.
    {"wort_wait", 5.0 / 60},
    // 20 + 1 × exp(−0.0833/2.6265): a litre's 2.5 h times 1.1595^(1/3).
    {"pitch_temperature", 20.969},
    // The pack, 150 mL, has a time constant of 2.5 × 0.15^(1/3) = 1.328 h: 20 − 16 exp(−3/1.328)
    // = 18.33 °C.
    {"pack_gap", 2.641},
    // 83.31 billion in 1.1595 L.
    {"inoculation_rate", 71.85},
    {"growth_fill", 0.5798},
    {"growth_temperature", 20},
    {"growth_time", 36},
    // The model of kinetics.h integrated apart by Euler's method with steps of 1.8 s, 71.85 × 0.03
    // = 2.156 g/L of yeast in 91.07 g/L: 95 % of the new cells after 22.66 h, 99.73 % after 36 h.
    {"growth_time_needed", 22.66},
    {"growth_time_ratio", 1.588},
    // 83.31/110 = 0.76 billion a gram, under 1.4: 1.4 × 110 g = 154 billion, 99.73 % of them.
    {"cells_grown", 153.6},
    {"cells_after_stage", 236.9},
    // From midnight on 20 February 24 days to 16 March, and 18 h + 64.7 min: weighing 10,
    // dissolving 10, heating 5.42 kJ/K × 85.3 K / 1.4 kW = 5.50, boiling 12, chilling 22.2, then 5.
    {"pack_age", 24.795},
    // 0.8265 months: (1 − 0.2 × 0.8265 + 0.8^0.8265)/2 = (0.8347 + 0.8316)/2.
    {"viability", 83.31},
    {"cells_available", 83.31},
    // 1.052 is 12 + (1.052 − 1.04837)/0.00422 = 12.86 °P; 0.75 × 20,000 mL × 12.86.
    {"cells_needed", 192.9},
    // 236.9 × 0.95 kept × what 2.278 d (0.0759 months at twice a pack's pace) leave: (0.96962 +
    // 0.96668)/2 = 0.96815.
    {"cells_at_pitch", 217.9},
    {"cells_missing", 0},
    {"cells_coverage", 1.1295},
    // 36 h less 2.6265 h × ln(16 K/1 K) = 7.28 h of cooling.
    {"crash_time", 28.72},
    // A cell falls 0.072 × 9.80665 × (5 µm)²/(18 × 1.3 × 1.567 mPa·s) = 1.733 mm/h; 70.56 mm at 2.6
    // times that.
    {"crash_time_needed", 15.66},
    {"crash_time_ratio", 1.834},
    {"starter_share", 5.798},
    // 0.15 L × 1.0332 = 0.155 kg of 8.81 °P into 21.0 kg of 12.86 °P: 0.155/21.156 × (8.81
    // − 12.86).
    {"beer_gravity_shift", -0.02964},
    {"slurry_gap", 1},
    // The cold rest begins 37.16 h in (69.7 min, 36 h), the beer gets its yeast at 91.83 h.
    {"slurry_age", 2.278},
    // 1.328 h × ln(16 K/2 K).
    {"warm_wait", 2.762},
    // 37.16 + 36 + 0.17 + 2.76 + 0.17 = 76.25 h of the 92 h until due.
    {"slack", 15.75},
};

}  // namespace

BOOST_AUTO_TEST_SUITE(the_shipped_example)

BOOST_AUTO_TEST_CASE(every_number) {
  const Likely example = amber();
  for (const Derived& wanted : derived) {
    BOOST_TEST_INFO(wanted.name);
    BOOST_TEST(example.value(wanted.name) == wanted.value, boost::test_tools::tolerance(0.01));
  }
  // And there is none that nobody worked out.
  for (const auto& m : example.measures) {
    BOOST_TEST_INFO(m.name);
    BOOST_TEST(std::any_of(derived.begin(), derived.end(),
                           [&](const Derived& wanted) { return m.name == wanted.name; }));
  }
  BOOST_TEST(example.measures.size() == derived.size());
}

BOOST_AUTO_TEST_CASE(numbers_with_ranges_are_the_likely_ones) {
  const auto plan = harvest_amber();
  const auto all = starter::measure(plan, starter::unfold(plan));
  const Likely example = amber();
  BOOST_REQUIRE(all.size() == example.measures.size());
  for (std::size_t i = 0; i < all.size(); ++i) {
    BOOST_TEST(all[i].name == example.measures[i].name);
    BOOST_TEST(all[i].value == example.measures[i].value);
    const auto* kind = starter::find_measure_kind(all[i].name);
    BOOST_REQUIRE(kind != nullptr);
    BOOST_TEST(starter::likely_value(*kind, plan, example.process, all[i].stage).value() ==
               all[i].value);
  }
}

BOOST_AUTO_TEST_CASE(one_end_of_a_range) {
  // Only the boil-off and the solids move the wort's volume: 0.2 or 0.4 L/h are 20 mL either way;
  // a hundredth of 110 g more or less solid is 0.4 mL.
  const auto plan = harvest_amber();
  const auto all = starter::measure(plan, starter::unfold(plan));
  const auto* volume = starter::find_measure(all, "wort_volume", 0);
  BOOST_REQUIRE(volume != nullptr);
  BOOST_CHECK_SMALL(volume->low - (volume->value - 0.0200), 1e-4);
  BOOST_CHECK_SMALL(volume->high - (volume->value + 0.0200), 1e-4);
  BOOST_TEST((volume->widest == starter::Unknown::boil_off));
}

BOOST_AUTO_TEST_SUITE_END()

BOOST_AUTO_TEST_SUITE(known_numbers)

BOOST_AUTO_TEST_CASE(rich_wort_before_the_boil) {
  // 180 g × 0.96 = 172.8 g in 1197.8 g of water and 180 g of powder: 172.8/1377.8.
  const Likely rich = amber(R"([
    {"op": "replace", "path": "/stages/0/extract/mass", "value": "180 g"},
    {"op": "replace", "path": "/stages/0/water", "value": "1.2 L"},
    {"op": "add", "path": "/stages/0/boil_off", "value": "0 L"}])");
  BOOST_TEST(rich.value("wort_gravity") > 12.0);
  BOOST_TEST(rich.value("wort_gravity") < 13.5);
  BOOST_TEST(rich.value("wort_gravity") == 12.54, boost::test_tools::tolerance(0.002));
  // 180 g over 1.2 L and the 0.61 mL that a gram of extract takes, and the moisture.
  BOOST_TEST(rich.value("extract_ratio") == 137, boost::test_tools::tolerance(0.01));
  BOOST_TEST(rich.value("boil_off") == 0.0);
}

BOOST_AUTO_TEST_CASE(a_warm_bath_without_ice_falls_short) {
  const Likely warm = amber(R"([
    {"op": "add", "path": "/steps/4/water", "value": "27 °C"},
    {"op": "remove", "path": "/steps/4/ice"}, {"op": "remove", "path": "/steps/4/ice_from"}])");
  BOOST_TEST(warm.value("bath_equilibrium") == 35.0, boost::test_tools::tolerance(0.02));
  BOOST_TEST(warm.value("chill_gap") > 0.0);
  BOOST_TEST(!warm.maybe("chill_time").has_value());
  BOOST_TEST(!warm.maybe("ice_wort_temperature").has_value());
  BOOST_TEST(warm.value("ice_needed") > 1.0);
  // What was said to be needed does it.
  const std::string ice = std::to_string(warm.value("ice_needed") * 1.01) + " kg";
  const Likely iced = amber(R"([
    {"op": "add", "path": "/steps/4/water", "value": "27 °C"},
    {"op": "replace", "path": "/steps/4/ice", "value": ")" +
                            ice + R"("}])");
  BOOST_TEST(iced.value("chill_gap") < 0.0);
  BOOST_TEST(iced.value("chill_gap") > -1.0);
  BOOST_TEST(iced.maybe("chill_time").has_value());
}

BOOST_AUTO_TEST_CASE(high_up_wort_boils_cooler) {
  const Likely high = amber_with("/place/altitude", "2500 m");
  BOOST_TEST(high.value("boil_temperature") > 91.0);
  BOOST_TEST(high.value("boil_temperature") < 92.5);
}

BOOST_AUTO_TEST_SUITE_END()
