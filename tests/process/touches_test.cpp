// What meets cooled wort, and what cleaned it before.

#include <boost/test/unit_test.hpp>

#include "../plan_of.h"
#include "process/process.h"
#include "process_checks.h"

using starter::Do;

BOOST_AUTO_TEST_SUITE(touches)

BOOST_AUTO_TEST_CASE(the_shipped_example) {
  const auto process = unfolded(harvest_amber());
  // Thermometer, pack and stir bar, all sanitised in step 5; the foil hung over the boil.
  BOOST_TEST(process.touches.size() == 3U);
  BOOST_TEST((touch_of(process, "thermometer", 6).cleaned_by == 5));
  BOOST_TEST((touch_of(process, "pack", 7).cleaned_by == 5));
  BOOST_TEST((touch_of(process, "stir bar", 8).cleaned_by == 5));
  for (const auto& touch : process.touches) {
    BOOST_TEST(!touch.assumed);
    BOOST_TEST(!touch.cleaned_late.has_value());
    BOOST_TEST(!touch.last_touch.has_value());
  }
}

BOOST_AUTO_TEST_CASE(what_is_not_sanitised_is_told_so) {
  const auto process = unfolded(
      harvest_amber(R"([{"op": "replace", "path": "/steps/5/items", "value": ["pack"]}])"));
  BOOST_TEST(!touch_of(process, "thermometer", 6).cleaned_by.has_value());
  BOOST_TEST(!touch_of(process, "thermometer", 6).cleaned_late.has_value());
  BOOST_TEST((touch_of(process, "pack", 7).cleaned_by == 5));
}

BOOST_AUTO_TEST_CASE(what_is_sanitised_too_late_is_told_so) {
  const auto process = unfolded(plan_with_steps(R"([
    {"do": "dissolve"}, {"do": "boil"}, {"do": "chill"},
    {"do": "check temperature", "with": "thermometer"}, {"do": "sanitise", "items": "thermometer"},
    {"do": "sanitise", "items": "thermometer"}, {"do": "pitch", "with": "thermometer"}])"));
  const auto& first = touch_of(process, "thermometer", 3);
  BOOST_TEST(!first.cleaned_by.has_value());
  BOOST_TEST((first.cleaned_late == 4));  // the first that does after
  const auto& second = touch_of(process, "thermometer", 6);
  BOOST_TEST((second.cleaned_by == 5));  // the last one before
  BOOST_TEST((second.last_touch == 3));
}

BOOST_AUTO_TEST_CASE(items_that_practice_supplies_are_assumed) {
  const auto process = unfolded(plan_with_steps(R"([
    {"do": "dissolve"}, {"do": "boil"}, {"do": "chill"}, {"do": "cover"},
    {"do": "check temperature"}, {"do": "pitch"}, {"do": "agitate"}])"));
  BOOST_TEST(process.touches.size() == 4U);
  BOOST_TEST(touch_of(process, "cover", 3).assumed);
  BOOST_TEST(touch_of(process, "thermometer", 4).assumed);
  BOOST_TEST(touch_of(process, "pack", 5).assumed);
  BOOST_TEST(touch_of(process, "stir bar", 6).assumed);
}

BOOST_AUTO_TEST_CASE(every_kind_of_item_that_is_named) {
  const auto process = unfolded(plan_with_steps(R"([
    {"do": "dissolve"}, {"do": "boil"}, {"do": "chill"}, {"do": "add", "items": "nutrient"},
    {"do": "cover", "with": "foil"}, {"do": "move", "to": "jug", "with": "funnel"},
    {"do": "pitch", "from": "the yeast pack", "with": "scissors"}, {"do": "rest", "with": "airlock"}
    ])"));
  BOOST_TEST(process.touches.size() == 7U);
  for (const auto& [item, step] : std::vector<std::pair<std::string, int>>{{"nutrient", 3},
                                                                           {"foil", 4},
                                                                           {"jug", 5},
                                                                           {"funnel", 5},
                                                                           {"the yeast pack", 6},
                                                                           {"scissors", 6},
                                                                           {"airlock", 7}}) {
    BOOST_TEST_INFO(item);
    BOOST_TEST(!touch_of(process, item, step).assumed);
    BOOST_TEST(!touch_of(process, item, step).cleaned_by.has_value());
  }
}

BOOST_AUTO_TEST_CASE(nothing_touches_before_the_boil) {
  const auto process = unfolded(plan_with_steps(R"([
    {"do": "weigh", "with": "scales"}, {"do": "dissolve", "with": "spoon"},
    {"do": "add", "items": "nutrient"}, {"do": "boil", "with": "spoon"}, {"do": "chill"}])"));
  BOOST_TEST(process.touches.empty());
}

BOOST_AUTO_TEST_CASE(foil_over_the_boil_is_steamed_clean) {
  const auto process = unfolded(plan_with_steps(R"([
    {"do": "dissolve"}, {"do": "boil"}, {"do": "cover", "with": "foil", "during": "boil"},
    {"do": "chill"}, {"do": "cover", "with": "the foil"}])"));
  BOOST_TEST(touches_in(process, 2).empty());
  BOOST_TEST((touch_of(process, "the foil", 4).cleaned_by == 1));
}

BOOST_AUTO_TEST_CASE(a_stir_bar_added_before_the_boil_is_clean) {
  const auto process = unfolded(plan_with_steps(R"([
    {"do": "dissolve"}, {"do": "add", "items": "stir bar"}, {"do": "boil"}, {"do": "chill"},
    {"do": "pitch", "from": "pack"}, {"do": "agitate", "with": "stir bar"}])"));
  BOOST_TEST((touch_of(process, "stir bar", 5).cleaned_by == 2));
}

BOOST_AUTO_TEST_CASE(a_stir_bar_already_in_the_wort_is_not_assumed_again) {
  const auto process = unfolded(plan_with_steps(R"([
    {"do": "dissolve"}, {"do": "add", "items": "stir bar"}, {"do": "boil"}, {"do": "chill"},
    {"do": "pitch", "from": "pack"}, {"do": "agitate"}])"));
  BOOST_TEST(touches_in(process, 5).empty());
}

BOOST_AUTO_TEST_CASE(a_stir_bar_that_is_only_sanitised_still_goes_in_when_stirring) {
  const auto clean = unfolded(plan_with_steps(R"([
    {"do": "dissolve"}, {"do": "boil"}, {"do": "chill"}, {"do": "sanitise", "items": "stir bar"},
    {"do": "pitch", "from": "pack"}, {"do": "agitate"}])"));
  BOOST_TEST(touch_of(clean, "stir bar", 5).assumed);
  BOOST_TEST((touch_of(clean, "stir bar", 5).cleaned_by == 3));
  const auto late = unfolded(plan_with_steps(R"([
    {"do": "dissolve"}, {"do": "boil"}, {"do": "chill"}, {"do": "pitch", "from": "pack"},
    {"do": "agitate"}, {"do": "sanitise", "items": "stir bar"}])"));
  BOOST_TEST(!touch_of(late, "stir bar", 4).cleaned_by.has_value());
  BOOST_TEST((touch_of(late, "stir bar", 4).cleaned_late == 5));
}

BOOST_AUTO_TEST_CASE(a_still_starter_has_no_stir_bar) {
  const auto process = unfolded(
      harvest_amber(R"([{"op": "replace", "path": "/stages/0/agitation", "value": "shaken"},
                        {"op": "remove", "path": "/steps/8/with"}])"));
  BOOST_TEST(touches_in(process, 8).empty());
}

BOOST_AUTO_TEST_CASE(a_vessel_moved_into_touches) {
  const auto process = unfolded(plan_with_steps(R"([
    {"do": "dissolve", "in": "pot"}, {"do": "boil", "in": "pot"}, {"do": "chill"},
    {"do": "sanitise", "items": ["flask", "pack"]}, {"do": "move", "to": "flask"},
    {"do": "pitch", "from": "pack"}])"));
  BOOST_TEST((touch_of(process, "flask", 4).cleaned_by == 3));
  BOOST_TEST(touches_in(process, 5).size() == 1U);  // the move is told, so no silent one
}

BOOST_AUTO_TEST_CASE(a_move_back_into_the_boiled_pot_is_clean) {
  const auto process = unfolded(plan_with_steps(R"([
    {"do": "dissolve", "in": "pot"}, {"do": "boil"}, {"do": "chill"}, {"do": "move", "to": "flask"},
    {"do": "move", "to": "pot"}])"));
  BOOST_TEST(!touch_of(process, "flask", 3).cleaned_by.has_value());
  BOOST_TEST((touch_of(process, "pot", 4).cleaned_by == 1));
}

BOOST_AUTO_TEST_CASE(a_silent_move_touches_at_the_pitch) {
  const auto process = unfolded(plan_with_steps(R"([
    {"do": "dissolve", "in": "pot"}, {"do": "boil", "in": "pot"}, {"do": "chill"},
    {"do": "pitch", "from": "pack"}])"));
  BOOST_TEST(touches_in(process, 3).size() == 2U);
  BOOST_TEST(!touch_of(process, "flask", 3).cleaned_by.has_value());
}

BOOST_AUTO_TEST_CASE(a_boil_that_names_no_vessel_is_where_the_wort_is) {
  const auto plan = plan_with_steps(R"([
    {"do": "dissolve", "in": "pot"}, {"do": "boil"}, {"do": "chill"},
    {"do": "pitch", "from": "pack"}])");
  const auto process = unfolded(plan);
  BOOST_TEST(starter::vessel_at(plan, process, 0) == "flask");
  BOOST_TEST(starter::boiled_in(plan, process, 1) == "pot");
  BOOST_TEST(!touch_of(process, "flask", 3).cleaned_by.has_value());
}

BOOST_AUTO_TEST_CASE(where_the_wort_is) {
  const auto plan = plan_with_steps(R"([
    {"do": "dissolve", "in": "jug"}, {"do": "heat", "in": "pot"}, {"do": "boil"},
    {"do": "chill", "in": "tub"}, {"do": "move", "to": "carboy"}, {"do": "pitch"}])");
  const auto process = unfolded(plan);
  const std::vector<std::string> expected = {"flask", "jug", "pot", "pot", "pot", "carboy"};
  for (int i = 0; i < 6; ++i) BOOST_TEST(starter::vessel_at(plan, process, i) == expected[at(i)]);
}

BOOST_AUTO_TEST_CASE(between_two_boils_nothing_touches) {
  const auto process = unfolded(plan_with_steps(R"([
    {"do": "dissolve"}, {"do": "boil"}, {"do": "add", "items": "nutrient"},
    {"do": "boil"}, {"do": "chill"}, {"do": "add", "items": "nutrient"}])"));
  BOOST_TEST(touches_in(process, 2).empty());
  BOOST_TEST((touch_of(process, "nutrient", 5).cleaned_by == 3));  // by the boil it went into
}

BOOST_AUTO_TEST_CASE(a_slurry_comes_from_its_jar) {
  const auto plan = harvest_amber(R"([
    {"op": "replace", "path": "/yeast", "value": {"form": "slurry", "slurry_volume": "100 mL"}},
    {"op": "remove", "path": "/steps/7/from"}])");
  const auto process = unfolded(plan);
  BOOST_TEST(touch_of(process, "slurry jar", 7).assumed);
  BOOST_TEST(touches_in(process, 7).size() == 1U);
}

BOOST_AUTO_TEST_CASE(a_jar_sanitised_by_its_short_name_is_clean) {
  const auto plan = harvest_amber(R"([
    {"op": "replace", "path": "/yeast", "value": {"form": "slurry", "slurry_volume": "100 mL"}},
    {"op": "replace", "path": "/steps/5/items/2", "value": "jar"},
    {"op": "remove", "path": "/steps/7/from"}])");
  BOOST_TEST((touch_of(unfolded(plan), "slurry jar", 7).cleaned_by == 5));
}

BOOST_AUTO_TEST_CASE(later_stages) {
  const auto process = unfolded(plan_with_steps(R"([
    {"do": "dissolve"}, {"do": "boil"}, {"do": "chill"},
    {"do": "sanitise", "items": ["thermometer", "pack"]},
    {"do": "check temperature", "with": "thermometer"}, {"do": "pitch", "from": "pack"},
    {"do": "dissolve", "in": "pot"}, {"do": "boil", "in": "pot"}, {"do": "chill"},
    {"do": "check temperature", "with": "thermometer"}, {"do": "pitch", "from": "flask"},
    {"do": "agitate"}])",
                                                2));
  // Sanitised in the first stage: told with the step, and how long ago is the rule's business.
  BOOST_TEST((touch_of(process, "thermometer", 9).cleaned_by == 3));
  BOOST_TEST(!touch_of(process, "thermometer", 9).last_touch.has_value());
  // The flask poured from is no touch; the flask poured into, boiled in during stage 1, is clean.
  BOOST_TEST(touches_in(process, 10).size() == 1U);
  BOOST_TEST((touch_of(process, "flask", 10).cleaned_by == 1));
  BOOST_TEST(touch_of(process, "stir bar", 11).assumed);
}

BOOST_AUTO_TEST_CASE(from_something_that_is_no_vessel_touches_in_a_later_stage) {
  const auto process = unfolded(plan_with_steps(R"([
    {"do": "boil", "stage": 1}, {"do": "pitch", "stage": 1}, {"do": "boil", "stage": 2},
    {"do": "pitch", "from": "second pack", "stage": 2}])",
                                                2));
  BOOST_TEST(!touch_of(process, "second pack", 3).cleaned_by.has_value());
}

BOOST_AUTO_TEST_CASE(without_a_boil_wort_counts_as_finished_from_the_chilling_on) {
  const auto process = unfolded(plan_with_steps(R"([
    {"do": "dissolve", "with": "spoon"}, {"do": "chill"}, {"do": "add", "items": "nutrient"},
    {"do": "pitch", "from": "pack"}])"));
  BOOST_TEST(touches_in(process, 0).empty());
  BOOST_TEST(touches_in(process, 2).size() == 1U);
  const auto neither = unfolded(
      plan_with_steps(R"([{"do": "dissolve", "with": "spoon"}, {"do": "pitch", "from": "pack"}])"));
  BOOST_TEST(neither.touches.size() == 1U);
  BOOST_TEST(touches_in(neither, 1).size() == 1U);
}

BOOST_AUTO_TEST_SUITE_END()

BOOST_AUTO_TEST_SUITE(names)

BOOST_AUTO_TEST_CASE(same_item_table) {
  struct Row {
    const char* a;
    const char* b;
    bool same;
  };
  for (const Row& row : std::initializer_list<Row>{
           {"pack", "pack", true},
           {"Pack", "pACK", true},
           {"pack", "the yeast pack", true},
           {"yeast pack", "pack", true},
           {"a stir bar", "the  stir\n\tbar", true},
           {"bar", "stir bar", true},
           {"jar", "slurry jar", true},
           {"An airlock", "airlock", true},
           {"stir bar", "stir plate", false},
           {"bar stir", "stir bar", false},
           {"pack", "backpack", false},
           {"stir", "stir bar", false},
           {"thermometer", "pack", false},
           {"", "", true},
           {"the", "", true},
           {"", "pack", false},
           {"the", "the pack", false},
           {"2 L flask", "flask", true},
           {"Flöte", "flöte", true},
       }) {
    BOOST_TEST_INFO("“" << row.a << "” and “" << row.b << "”");
    BOOST_TEST(starter::same_item(row.a, row.b) == row.same);
    BOOST_TEST_INFO("“" << row.b << "” and “" << row.a << "”");
    BOOST_TEST(starter::same_item(row.b, row.a) == row.same);
  }
}

BOOST_AUTO_TEST_CASE(labels_count_from_one) {
  BOOST_TEST(starter::step_label(harvest_amber(), 10) == "step 11, decant");
}

BOOST_AUTO_TEST_CASE(steps_of_one_kind) {
  const auto plan = plan_with_steps(R"([
    {"do": "store"}, {"do": "weigh"}, {"do": "store"}, {"do": "store", "stage": 2}])",
                                    2);
  BOOST_TEST(starter::steps_of(plan, Do::store, 0) == (std::vector<int>{0, 2}),
             boost::test_tools::per_element());
  BOOST_TEST((starter::first_step(plan, Do::store, 0) == 0));
  BOOST_TEST((starter::last_step(plan, Do::store, 0) == 2));
  BOOST_TEST((starter::first_step(plan, Do::store, 1) == 3));
  BOOST_TEST(!starter::first_step(plan, Do::boil, 0).has_value());
  BOOST_TEST(!starter::last_step(plan, Do::weigh, 1).has_value());
}

BOOST_AUTO_TEST_CASE(every_step_has_its_phase) {
  using starter::Phase;
  const std::map<Do, Phase> expected = {{Do::weigh, Phase::wort},
                                        {Do::dissolve, Phase::wort},
                                        {Do::heat, Phase::wort},
                                        {Do::boil, Phase::wort},
                                        {Do::add, Phase::wort},
                                        {Do::cover, Phase::wort},
                                        {Do::move, Phase::wort},
                                        {Do::chill, Phase::wort},
                                        {Do::sanitise, Phase::cleaning},
                                        {Do::check_temperature, Phase::yeast},
                                        {Do::pitch, Phase::yeast},
                                        {Do::agitate, Phase::growth},
                                        {Do::rest, Phase::growth},
                                        {Do::crash, Phase::cold},
                                        {Do::store, Phase::cold},
                                        {Do::decant, Phase::brew_day},
                                        {Do::warm, Phase::brew_day},
                                        {Do::pitch_to_beer, Phase::brew_day},
                                        {Do::krausen_pitch, Phase::brew_day}};
  BOOST_TEST(expected.size() == starter::spellings<Do>().size());
  std::set<std::string_view> phases;
  for (const auto& row : starter::spellings<Do>()) {
    BOOST_TEST_INFO(row.text);
    BOOST_TEST((starter::phase_of(row.word) == expected.at(row.word)));
    phases.insert(starter::phase_name(starter::phase_of(row.word)));
  }
  BOOST_TEST(phases == (std::set<std::string_view>{"wort", "cleaning", "yeast", "growth", "cold",
                                                   "brew day"}));
}

BOOST_AUTO_TEST_CASE(only_clockwork_leaves_the_hands_free) {
  const std::set<Do> clockwork = {Do::agitate, Do::rest, Do::crash, Do::store, Do::warm};
  for (const auto& row : starter::spellings<Do>())
    BOOST_TEST(starter::hands_on(row.word) == (clockwork.count(row.word) == 0));
}

BOOST_AUTO_TEST_CASE(the_trade_never_contradicts_itself) {
  // Each pair once, and no way round from a step back to itself.
  std::set<std::pair<Do, Do>> pairs;
  for (const auto& order : starter::trade_orders()) {
    BOOST_TEST(pairs.insert({order.first, order.then}).second);
    BOOST_TEST(!order.because.empty());
  }
  for (std::size_t grown = 0; grown != pairs.size();) {
    grown = pairs.size();
    const auto now = pairs;
    for (const auto& a : now)
      for (const auto& b : now)
        if (a.second == b.first) pairs.insert({a.first, b.second});
  }
  for (const auto& pair : pairs) BOOST_TEST((pair.first != pair.second));
}

BOOST_AUTO_TEST_SUITE_END()

BOOST_AUTO_TEST_SUITE(wrong_order)

namespace {

using Pairs = std::vector<std::pair<int, int>>;

Pairs reversed(const char* steps, Do first, Do then, std::optional<Do> until = std::nullopt,
               const std::vector<std::string>& items = {}, int stages = 1) {
  const auto plan = plan_with_steps(steps, stages);
  Pairs pairs;
  for (const auto& r : starter::reversals(plan, unfolded(plan), first, then, until, items))
    pairs.emplace_back(r.first, r.then);
  return pairs;
}

}  // namespace

BOOST_AUTO_TEST_CASE(the_shipped_example_has_none) {
  const auto plan = harvest_amber();
  const auto process = unfolded(plan);
  for (const auto& order : starter::trade_orders())
    BOOST_TEST(
        starter::reversals(plan, process, order.first, order.then, std::nullopt, {}).empty());
}

BOOST_AUTO_TEST_CASE(a_first_that_comes_after) {
  BOOST_TEST(
      (reversed(R"([{"do": "pitch"}, {"do": "chill"}])", Do::chill, Do::pitch) == Pairs{{1, 0}}));
  BOOST_TEST(reversed(R"([{"do": "chill"}, {"do": "pitch"}])", Do::chill, Do::pitch).empty());
}

BOOST_AUTO_TEST_CASE(a_missing_first_is_no_reversal) {
  BOOST_TEST(reversed(R"([{"do": "boil"}, {"do": "pitch"}])", Do::chill, Do::pitch).empty());
}

BOOST_AUTO_TEST_CASE(one_first_before_is_enough) {
  BOOST_TEST(
      reversed(R"([{"do": "chill"}, {"do": "pitch"}, {"do": "chill"}])", Do::chill, Do::pitch)
          .empty());
}

BOOST_AUTO_TEST_CASE(each_then_is_told_once_with_the_first_that_follows) {
  BOOST_TEST((reversed(R"([{"do": "pitch"}, {"do": "pitch"}, {"do": "chill"}, {"do": "chill"}])",
                       Do::chill, Do::pitch) == Pairs{{2, 0}, {2, 1}}));
}

BOOST_AUTO_TEST_CASE(stages_are_looked_at_apart) {
  BOOST_TEST((reversed(R"([
    {"do": "chill", "stage": 1}, {"do": "pitch", "stage": 1}, {"do": "pitch", "stage": 2},
    {"do": "chill", "stage": 2}])",
                       Do::chill, Do::pitch, std::nullopt, {}, 2) == Pairs{{3, 2}}));
}

BOOST_AUTO_TEST_CASE(until_something_ends_it) {
  // A stir bar into boiling wort: while it boils, or after it and before the chilling.
  auto bumps = [](const char* steps) {
    return reversed(steps, Do::add, Do::boil, Do::chill, {"stir bar", "nutrient"});
  };
  BOOST_TEST(
      bumps(R"([{"do": "add", "items": "stir bar"}, {"do": "boil"}, {"do": "chill"}])").empty());
  BOOST_TEST((bumps(R"([{"do": "boil"}, {"do": "add", "items": "the stir bar", "during": "boil"},
                        {"do": "chill"}])") == Pairs{{1, 0}}));
  BOOST_TEST((bumps(R"([{"do": "boil"}, {"do": "add", "items": "stir bar"}, {"do": "chill"}])") ==
              Pairs{{1, 0}}));
  BOOST_TEST(
      bumps(R"([{"do": "boil"}, {"do": "chill"}, {"do": "add", "items": "stir bar"}])").empty());
  BOOST_TEST(bumps(R"([{"do": "boil"}, {"do": "add", "items": "hops"}, {"do": "chill"}])").empty());
}

BOOST_AUTO_TEST_SUITE_END()
