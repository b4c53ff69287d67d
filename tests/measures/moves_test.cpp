// Which way a measure goes when a plan changes, and plans of other kinds than the example.

#include <boost/test/unit_test.hpp>

#include "many_plans.h"

using starter::Do;

namespace {

/// The measure rises, or falls, strictly, as the field takes these values in turn.
void goes(const char* which_way, const std::string& measure, const std::string& path,
          const std::vector<std::string>& values) {
  std::optional<double> last;
  for (const auto& value : values) {
    const double now = amber_with(path, value).value(measure);
    BOOST_TEST_INFO(measure << " with " << value << " at " << path << ": " << now);
    if (last) BOOST_TEST((which_way[0] == 'u' ? now > *last : now < *last));
    last = now;
  }
}
constexpr const char* up = "up";
constexpr const char* down = "down";

}  // namespace

BOOST_AUTO_TEST_SUITE(which_way)

BOOST_AUTO_TEST_CASE(extract_and_water) {
  const std::vector<std::string> masses = {"20 g", "60 g", "110 g", "180 g", "400 g"};
  for (const char* m : {"wort_gravity", "extract_ratio", "wort_volume", "boil_temperature"})
    goes(up, m, "/stages/0/extract/mass", masses);
  goes(up, "cells_grown", "/stages/0/extract/mass", {"30 g", "60 g", "110 g"});
  const std::vector<std::string> waters = {"0.8 L", "1 L", "1.15 L", "1.5 L"};
  goes(down, "wort_gravity", "/stages/0/water", waters);
  goes(up, "wort_volume", "/stages/0/water", waters);
  goes(up, "boil_fill", "/stages/0/water", waters);
  goes(up, "growth_fill", "/stages/0/water", waters);
  goes(down, "inoculation_rate", "/stages/0/water", waters);
  goes(up, "starter_share", "/stages/0/water", waters);
}

BOOST_AUTO_TEST_CASE(the_boil) {
  const std::vector<std::string> heights = {"-100 m", "0 m", "240 m", "1600 m", "2500 m", "4000 m"};
  goes(down, "boil_temperature", "/place/altitude", heights);
  goes(down, "boil_lethality", "/place/altitude", heights);
  goes(down, "glass_shock", "/place/altitude", heights);
  const std::vector<std::string> times = {"1 min", "5 min", "12 min", "45 min"};
  goes(up, "boil_time", "/steps/2/for", times);
  goes(up, "boil_lethality", "/steps/2/for", times);
  goes(up, "boil_off", "/steps/2/for", times);
  goes(up, "wort_gravity", "/steps/2/for", times);
  goes(down, "wort_volume", "/steps/2/for", times);
  goes(down, "slack", "/steps/2/for", times);
}

BOOST_AUTO_TEST_CASE(the_chill) {
  const std::vector<std::string> ice = {"100 g", "500 g", "1 kg", "2 kg"};
  goes(down, "bath_equilibrium", "/steps/4/ice", ice);
  goes(down, "chill_gap", "/steps/4/ice", ice);
  goes(up, "bath_fill", "/steps/4/ice", ice);
  goes(down, "chill_time", "/steps/4/ice", {"500 g", "1 kg", "2 kg"});
  goes(up, "bath_equilibrium", "/steps/4/water", {"5 °C", "10 °C", "14 °C", "20 °C", "27 °C"});
  goes(up, "ice_needed", "/steps/4/water", {"14 °C", "20 °C", "27 °C"});
  goes(down, "chill_time", "/steps/4/to", {"15 °C", "18 °C", "21 °C", "25 °C"});
  // Without ice a larger bath gets the wort colder.
  const std::string no_ice = R"([{"op": "remove", "path": "/steps/4/ice"},
                                 {"op": "remove", "path": "/steps/4/ice_from"},
                                 {"op": "replace", "path": "/steps/4/bath", "value": ")";
  double last = 1000;
  for (const char* bath : {"5 L", "10 L", "20 L"}) {
    const double now = amber(no_ice + bath + "\"}]").value("bath_equilibrium");
    BOOST_TEST(now < last);
    last = now;
  }
  // 99.3 °C of 5.1 kJ/K against 14 °C of 5, 10 and 20 L.
  BOOST_TEST(last == 18.9, boost::test_tools::tolerance(0.01));
  const double still = amber(set("/steps/4/swirl", "false")).value("chill_time");
  BOOST_TEST(still > amber().value("chill_time"));
}

BOOST_AUTO_TEST_CASE(the_yeast) {
  const std::vector<std::string> days = {"2026-10-01", "2027-01-01", "2027-02-20", "2027-03-10"};
  goes(down, "pack_age", "/yeast/packaged", days);
  for (const char* m :
       {"viability", "cells_available", "inoculation_rate", "cells_at_pitch", "cells_coverage"})
    goes(up, m, "/yeast/packaged", days);
  goes(down, "growth_time_needed", "/yeast/packaged", days);
  BOOST_TEST(amber(set("/yeast/packs", "2")).value("cells_available") ==
                 2 * amber().value("cells_available"),
             boost::test_tools::tolerance(1e-5));
  goes(up, "cells_available", "/yeast/cells_per_pack", {"50 billion", "100 billion"});
  goes(down, "pack_gap", "/yeast/out_of_fridge", {"0 h", "1 h", "3 h", "8 h"});
}

BOOST_AUTO_TEST_CASE(the_growth) {
  const std::vector<std::string> hours = {"4 h", "12 h", "24 h", "36 h", "48 h"};
  for (const char* m : {"cells_grown", "cells_after_stage", "growth_time", "growth_time_ratio"})
    goes(up, m, "/stages/0/duration", hours);
  goes(down, "slack", "/stages/0/duration", hours);
  goes(down, "growth_time_needed", "/stages/0/temperature", {"8 °C", "12 °C", "16 °C", "20 °C"});
  const double stirred = amber().value("cells_grown");
  const double shaken = amber_with("/stages/0/agitation", "shaken").value("cells_grown");
  const double still = amber_with("/stages/0/agitation", "none").value("cells_grown");
  BOOST_TEST(still < shaken);
  BOOST_TEST(shaken < stirred);
}

BOOST_AUTO_TEST_CASE(the_beer_and_the_cold) {
  goes(up, "cells_needed", "/beer/volume", {"10 L", "20 L", "40 L"});
  goes(up, "cells_needed", "/beer/gravity", {"1.040 SG", "1.052 SG", "1.080 SG"});
  goes(up, "cells_missing", "/beer/volume", {"25 L", "30 L", "40 L"});
  goes(down, "cells_coverage", "/beer/volume", {"10 L", "20 L", "40 L"});
  BOOST_TEST(
      amber_with("/beer/kind", "lager").value("cells_needed") == 2 * amber().value("cells_needed"),
      boost::test_tools::tolerance(1e-5));
  BOOST_TEST(amber_with("/beer/kind", "hybrid").value("cells_needed") ==
                 amber().value("cells_needed") / 0.75,
             boost::test_tools::tolerance(1e-5));
  BOOST_TEST(amber_with("/beer/keep_cells", "50 billion").value("cells_needed") ==
                 amber().value("cells_needed") + 50,
             boost::test_tools::tolerance(1e-5));
  goes(up, "crash_time", "/steps/9/for", {"12 h", "24 h", "36 h"});
  goes(down, "crash_time_needed", "/yeast/flocculation", {"low", "medium", "high"});
  goes(down, "crash_time_needed", "/steps/9/at", {"1 °C", "4 °C", "8 °C"});
  goes(up, "slack", "/beer/brew_day", {"2027-03-18", "2027-03-20T09:00", "2027-03-21"});
  goes(up, "slurry_age", "/beer/brew_day", {"2027-03-20T09:00", "2027-03-21", "2027-03-27"});
  goes(down, "cells_at_pitch", "/beer/brew_day", {"2027-03-20T09:00", "2027-03-21", "2027-03-27"});
  goes(up, "slurry_gap", "/beer/ferment_at", {"18 °C", "19 °C", "24 °C"});
}

BOOST_AUTO_TEST_SUITE_END()

BOOST_AUTO_TEST_SUITE(other_plans)

BOOST_AUTO_TEST_CASE(what_a_plan_lacks_has_no_number) {
  const std::map<std::string, std::vector<std::string>> absent = {
      {"/steps/2",
       {"boil_time", "boil_temperature", "boil_lethality", "boil_off", "boil_fill", "glass_shock"}},
      {"/steps/4",
       {"chill_target", "bath_equilibrium", "chill_time", "ice_needed", "bath_fill", "wort_wait",
        "pitch_temperature", "pack_gap", "glass_shock"}},
      {"/steps/7", {"wort_wait", "pitch_temperature"}},
      {"/steps/9", {"crash_time", "crash_time_needed", "crash_time_ratio", "slurry_age"}},
      {"/steps/11", {"warm_wait"}},
      {"/steps/12", {"slurry_gap", "slurry_age", "warm_wait"}},
      {"/beer/brew_day", {"slack"}},
      {"/start", {"slack"}}};
  for (const auto& [path, names] : absent) {
    const Likely without = amber(R"([{"op": "remove", "path": ")" + path + R"("}])");
    for (const auto& name : names) {
      BOOST_TEST_INFO(name << " without " << path);
      BOOST_TEST(!without.maybe(name).has_value());
    }
    BOOST_TEST(without.maybe("cells_at_pitch").has_value());
  }
}

BOOST_AUTO_TEST_CASE(without_a_boil_the_wort_is_as_dissolved) {
  const Likely raw = amber(R"([{"op": "remove", "path": "/steps/2"}])");
  BOOST_TEST(raw.value("wort_gravity") == 8.395, boost::test_tools::tolerance(0.001));
  BOOST_TEST(raw.fact("boil_state") == "never boiled");
  // Wort at 14 °C from the tap is not warmed by a chilling to 21 °C; five minutes in the room are
  // little.
  BOOST_TEST(raw.value("pitch_temperature") == 14.19, boost::test_tools::tolerance(0.005));
}

BOOST_AUTO_TEST_CASE(two_stages_hand_on) {
  const Likely two(plan_of(two_stages()));
  const auto& first = two.workings.stages[0];
  const auto& second = two.workings.stages[1];
  BOOST_TEST(first.decanted);
  // 95 % stay when a medium yeast is decanted.
  BOOST_TEST(first.handed_on.billion() == 0.95 * first.living_after.billion(),
             boost::test_tools::tolerance(1e-9));
  BOOST_TEST(second.living_pitched.billion() == first.handed_on.billion());
  // The slurry's 150 mL come along.
  BOOST_TEST(second.grown_volume.litres() == second.volume.litres() + 0.15,
             boost::test_tools::tolerance(1e-9));
  BOOST_TEST(
      two.value("stage_step", 1) == second.grown_volume.litres() / first.grown_volume.litres(),
      boost::test_tools::tolerance(1e-5));
  // A count at the end of a stage is what goes on; what was computed stays beside it to compare.
  BOOST_TEST(second.living_after.billion() == 350.0);
  BOOST_TEST(two.value("cells_after_stage", 1) == second.expected_after.billion(),
             boost::test_tools::tolerance(1e-5));
  BOOST_TEST(second.expected_after.billion() > 400);
  BOOST_TEST(two.value("measured_cells", 1) == 350.0);
  BOOST_TEST(two.value("count_error", 1) == 100 / std::sqrt(300.0),
             boost::test_tools::tolerance(1e-5));
  // Water takes 998.21/996.79 = 1.00143 times the room at 26 °C: 1.18 L less that, and 1.034 ×
  // 1.00143 = 1.03548, which is 8.90 °P.
  BOOST_TEST(two.value("measured_volume") == 1.1783, boost::test_tools::tolerance(0.0005));
  BOOST_TEST(two.value("measured_gravity") == 8.897, boost::test_tools::tolerance(0.0005));
  BOOST_TEST(two.value("stated_volume") == 1.2);
  BOOST_TEST(two.value("stated_gravity") == 8.78, boost::test_tools::tolerance(0.001));
  // Boiled in the steel pot, chilled there, moved cold: no glass takes a step in the second stage.
  BOOST_TEST(second.boil_vessel == "pot");
  BOOST_TEST(!two.maybe("glass_shock", 1).has_value());
  BOOST_TEST(two.fact("boil_vessel_heat", 1) == "fine");
  // 1.5 × 40 L × 12 °P and 50 billion to keep.
  BOOST_TEST(two.value("cells_needed") == 770.0);
}

BOOST_AUTO_TEST_CASE(undecanted_stages_add_up) {
  auto document = two_stages();
  document["steps"].erase(10);
  const Likely two(plan_of(document));
  const auto& first = two.workings.stages[0];
  const auto& second = two.workings.stages[1];
  BOOST_TEST(!first.decanted);
  BOOST_TEST(second.living_pitched.billion() == first.living_after.billion());
  BOOST_TEST(second.grown_volume.litres() == second.volume.litres() + first.volume.litres(),
             boost::test_tools::tolerance(1e-9));
}

BOOST_AUTO_TEST_CASE(three_stages_from_slurry_to_ready_wort) {
  const Likely three(plan_of(three_stages()));
  BOOST_TEST(three.workings.stages.size() == 3U);
  for (int s = 0; s < 3; ++s) {
    BOOST_TEST(three.value("cells_grown", s) > 0.0);
    BOOST_TEST(three.maybe("stage_step", s).has_value() == (s > 0));
  }
  BOOST_TEST(three.workings.stages[1].living_pitched.billion() ==
             three.workings.stages[0].handed_on.billion());
  BOOST_TEST(!three.maybe("extract_mass", 2).has_value());
  BOOST_TEST(!three.maybe("stated_gravity", 2).has_value());
  // 60 g of liquid malt at 80 % in 0.5 L: 48 g in 559 g before the boil.
  const auto before = starter::science::plato(three.workings.stages[0].before_boil);
  BOOST_TEST(before.degrees() == 8.58, boost::test_tools::tolerance(0.002));
}

BOOST_AUTO_TEST_CASE(ready_wort_is_what_it_says) {
  const Likely ready = amber(R"([
    {"op": "replace", "path": "/stages/0/extract", "value": {"kind": "wort"}},
    {"op": "add", "path": "/stages/0/gravity", "value": "9 °P"},
    {"op": "add", "path": "/stages/0/boil_off", "value": "0 L"}])");
  BOOST_TEST(ready.value("wort_gravity") == 9.0);
  BOOST_TEST(ready.value("wort_volume") == 1.15);
  BOOST_TEST(ready.fact("strength_told_by") == "gravity");
}

BOOST_AUTO_TEST_CASE(dry_yeast) {
  // Two packs of 11 g at 10 billion a gram.
  const Likely dry = amber(set("/yeast", R"({"form": "dry", "packs": 2})"));
  BOOST_TEST(dry.value("cells_available") == 220.0);
  BOOST_TEST(!dry.maybe("viability").has_value());
  BOOST_TEST(!dry.maybe("pack_age").has_value());
  BOOST_TEST(!dry.maybe("pack_gap").has_value());
  // A pack whose maker says how many.
  const auto plan = harvest_amber(
      set("/yeast", R"({"form": "dry", "packs": 2, "cells_per_pack": "70 billion"})"));
  const auto all = starter::measure(plan, starter::unfold(plan));
  const auto* available = starter::find_measure(all, "cells_available", -1);
  BOOST_TEST(available->value == 140.0);
  BOOST_TEST(available->how.find("gram") == std::string::npos);
}

BOOST_AUTO_TEST_CASE(slurry) {
  // 80 mL × 1.5 billion × 0.83 and what is alive of it.
  const Likely thick = amber(set("/yeast", R"({"form": "slurry", "slurry_volume": "80 mL",
                                               "packaged": "2027-03-01"})"));
  BOOST_TEST(thick.workings.cells_available.billion() == 99.6 * thick.workings.viability.ratio(),
             boost::test_tools::tolerance(1e-9));
  // A count of the slurry leaves out what is not yeast already: 80 × 1.2 × 0.9.
  const Likely counted = amber(set("/yeast", R"(
    {"form": "slurry", "slurry_volume": "80 mL", "slurry_density": "1.2 billion/mL",
     "viability": "90 %", "cells_counted": 400})"));
  BOOST_TEST(counted.value("cells_available") == 86.4);
  BOOST_TEST(counted.value("viability") == 90.0);
}

BOOST_AUTO_TEST_CASE(a_count_has_two_standard_errors_either_way) {
  const auto plan = harvest_amber(R"([
    {"op": "add", "path": "/yeast/viability", "value": "80 %"},
    {"op": "add", "path": "/yeast/cells_counted", "value": 400}])");
  const auto all = starter::measure(plan, starter::unfold(plan));
  const auto* m = starter::find_measure(all, "viability", -1);
  BOOST_TEST(m->value == 80.0);
  BOOST_TEST(m->low == 76.0);  // √(0.8 × 0.2/400) = 2 %
  BOOST_TEST(m->high == 84.0);
}

BOOST_AUTO_TEST_CASE(a_starter_pitched_whole) {
  const Likely whole = amber(R"([{"op": "remove", "path": "/steps/10"}])");
  BOOST_TEST(whole.workings.into_beer.litres() == whole.workings.starter_volume.litres());
  BOOST_TEST(whole.value("cells_at_pitch") > amber().value("cells_at_pitch"));
  BOOST_TEST(std::fabs(whole.value("beer_gravity_shift")) >
             std::fabs(amber().value("beer_gravity_shift")));
}

BOOST_AUTO_TEST_CASE(a_krausen_pitch_goes_in_as_warm_as_it_grew) {
  const Likely krausen(plan_with_steps(R"([
    {"do": "dissolve"}, {"do": "boil", "for": "12 min"}, {"do": "chill"}, {"do": "pitch"},
    {"do": "agitate"}, {"do": "krausen pitch"}])"));
  BOOST_TEST(krausen.value("slurry_gap") == 1.0);  // grown at 20 °C into ale at 19 °C
  BOOST_TEST(!krausen.maybe("crash_time").has_value());
  BOOST_TEST(krausen.value("cells_at_pitch") == krausen.value("cells_after_stage"));
}

BOOST_AUTO_TEST_CASE(the_boil_is_in_the_pot_that_the_wort_was_made_in) {
  const Likely pot(plan_with_steps(
      R"([{"do": "dissolve", "in": "pot"}, {"do": "boil", "for": "12 min"}, {"do": "chill"}])"));
  BOOST_TEST(pot.workings.stages[0].boil_vessel == "pot");
  // 1.22 L of the pot's 5 L.
  BOOST_TEST(pot.value("boil_fill") == 0.2439, boost::test_tools::tolerance(0.001));
}

BOOST_AUTO_TEST_CASE(hot_wort_meets_cold_glass) {
  const Likely hot = amber(R"([
    {"op": "add", "path": "/vessels/jug", "value": {"kind": "jug", "capacity": "3 L"}},
    {"op": "add", "path": "/steps/4", "value": {"do": "move", "to": "jug"}}])");
  // The bath, at 14 °C, is the harder meeting of the two: the room has 20 °C. Both meet the jug.
  BOOST_TEST(hot.workings.stages[0].glass->vessel == "jug");
  BOOST_TEST(hot.workings.stages[0].glass->cooling);
  BOOST_TEST(hot.fact("glass_kind") == "soda-lime glass");
  const Likely warm_bath = amber(R"([
    {"op": "add", "path": "/vessels/jug", "value": {"kind": "jug", "capacity": "3 L"}},
    {"op": "add", "path": "/steps/4/water", "value": "27 °C"},
    {"op": "add", "path": "/steps/4", "value": {"do": "move", "to": "jug"}}])");
  BOOST_TEST(!warm_bath.workings.stages[0].glass->cooling);
  BOOST_TEST(warm_bath.value("glass_shock") == 79.32, boost::test_tools::tolerance(0.001));
}

BOOST_AUTO_TEST_SUITE_END()

BOOST_AUTO_TEST_SUITE(how_long_growth_lasts)

namespace {

double hours(const Likely& one, int step) {
  return one.workings.durations.lasts[static_cast<std::size_t>(step)].hours();
}
double waits(const Likely& one, int step) {
  return one.workings.durations.then_waits[static_cast<std::size_t>(step)].hours();
}

}  // namespace

BOOST_AUTO_TEST_CASE(the_stage_governs_its_agitate_step) {
  const Likely four = amber_with("/steps/8/for", "4 h");
  BOOST_TEST(hours(four, 8) == 36.0);
  BOOST_TEST(four.value("growth_time") == 36.0);
  // A second agitate step is its own.
  const Likely two = amber(set("/steps/9", R"({"do": "agitate", "for": "2 h"})"));
  BOOST_TEST(hours(two, 8) == 36.0);
  BOOST_TEST(hours(two, 9) == 2.0);
}

BOOST_AUTO_TEST_CASE(without_an_agitate_step_a_rest_after_the_pitch_is_the_growth) {
  const Likely rest =
      amber(R"([{"op": "replace", "path": "/steps/8", "value": {"do": "rest", "for": "12 h"}}])");
  BOOST_TEST(hours(rest, 8) == 36.0);
  BOOST_TEST(waits(rest, 7) == 0.0);
}

BOOST_AUTO_TEST_CASE(a_rest_before_the_pitch_is_not_the_growth) {
  // Steps: ... 5 rest, 6 sanitise, 7 check, 8 pitch, 9 crash.
  const Likely rest = amber(R"([
    {"op": "remove", "path": "/steps/8"},
    {"op": "add", "path": "/steps/5", "value": {"do": "rest", "for": "10 min"}}])");
  BOOST_TEST(hours(rest, 5) == 1.0 / 6, boost::test_tools::tolerance(1e-9));
  BOOST_TEST(waits(rest, 8) == 36.0);
}

BOOST_AUTO_TEST_CASE(growth_that_no_step_speaks_of_follows_the_pitch) {
  const Likely none = amber(R"([{"op": "remove", "path": "/steps/8"}])");
  BOOST_TEST(waits(none, 7) == 36.0);
  const auto& times = none.workings.times.times;
  BOOST_TEST((times[8].start - times[7].end).hours() == 36.0, boost::test_tools::tolerance(1e-9));
}

BOOST_AUTO_TEST_SUITE_END()
