// What waits for what: written order, `after`, `during`, loops, the trade's own order.

#include <boost/test/unit_test.hpp>
#include <chrono>
#include <nlohmann/json.hpp>

#include "../plan_of.h"
#include "process/process.h"
#include "process_checks.h"

using starter::Do;
using Why = starter::Dependency::Why;
using Steps = std::vector<int>;

BOOST_AUTO_TEST_SUITE(order)

BOOST_AUTO_TEST_CASE(steps_run_one_after_another) {
  const auto plan = plan_with_steps(R"([{"do": "dissolve"}, {"do": "boil"}, {"do": "chill"}])");
  const auto process = unfolded(plan);
  BOOST_TEST(process.dependencies.size() == 2U);
  BOOST_TEST(waits(process, 0, 1, Why::written_order));
  BOOST_TEST(waits(process, 1, 2, Why::written_order));
  BOOST_TEST(process.precedes(0, 2));
  BOOST_TEST(!process.precedes(2, 0));
  BOOST_TEST(!process.precedes(1, 1));
  BOOST_TEST(process.order == (Steps{0, 1, 2}), boost::test_tools::per_element());
}

BOOST_AUTO_TEST_CASE(after_replaces_the_step_before) {
  const auto plan = plan_with_steps(
      R"([{"do": "weigh"}, {"do": "store"}, {"do": "sanitise", "after": "weigh"}])");
  const auto process = unfolded(plan);
  BOOST_TEST(waits(process, 0, 2, Why::after));
  BOOST_TEST(!process.precedes(1, 2));
}

BOOST_AUTO_TEST_CASE(after_nothing_starts_at_once) {
  const auto plan =
      plan_with_steps(R"([{"do": "weigh"}, {"do": "sanitise", "after": []}, {"do": "store"}])");
  const auto process = unfolded(plan);
  BOOST_TEST(!process.precedes(0, 1));
  BOOST_TEST(waits(process, 1, 2, Why::written_order));
}

BOOST_AUTO_TEST_CASE(after_takes_ids_words_and_several) {
  const auto plan = plan_with_steps(R"([
    {"do": "store", "id": "shelf"}, {"do": "store"}, {"do": "weigh"},
    {"do": "sanitise", "after": ["shelf", "weigh", "weigh"]}])");
  const auto process = unfolded(plan);
  BOOST_TEST(waits(process, 0, 3, Why::after));
  BOOST_TEST(waits(process, 2, 3, Why::after));
  BOOST_TEST(!waits(process, 1, 3));
  // A name said twice is one arrow: 0→1, 1→2, 0→3, 2→3.
  BOOST_TEST(process.dependencies.size() == 4U);
  BOOST_TEST(process.unknown.empty());
}

BOOST_AUTO_TEST_CASE(an_id_wins_over_a_word) {
  // "boil" is the id of step 0 and the word of step 1, which stands nearer.
  const auto plan = plan_with_steps(R"([
    {"do": "store", "id": "boil"}, {"do": "boil"}, {"do": "sanitise", "after": "boil"}])");
  const auto process = unfolded(plan);
  BOOST_TEST(waits(process, 0, 2, Why::after));
  BOOST_TEST(!waits(process, 1, 2));
}

BOOST_AUTO_TEST_CASE(the_same_stage_wins_over_an_earlier_step) {
  const auto plan = plan_with_steps(R"([
    {"do": "store", "stage": 1}, {"do": "sanitise", "after": "store", "stage": 2},
    {"do": "store", "stage": 2, "after": []}])",
                                    2);
  const auto process = unfolded(plan);
  BOOST_TEST(waits(process, 2, 1, Why::after));
  BOOST_TEST(!waits(process, 0, 1));
}

BOOST_AUTO_TEST_CASE(an_earlier_step_wins_over_a_nearer_later_one) {
  const auto plan = plan_with_steps(R"([
    {"do": "store"}, {"do": "weigh"}, {"do": "sanitise", "after": "store"},
    {"do": "store", "after": []}])");
  const auto process = unfolded(plan);
  BOOST_TEST(waits(process, 0, 2, Why::after));
  BOOST_TEST(!waits(process, 3, 2));
}

BOOST_AUTO_TEST_CASE(of_two_earlier_steps_the_nearer_is_meant) {
  const auto plan = plan_with_steps(R"([
    {"do": "store"}, {"do": "store"}, {"do": "weigh"}, {"do": "sanitise", "after": "store"}])");
  const auto process = unfolded(plan);
  BOOST_TEST(waits(process, 1, 3, Why::after));
  BOOST_TEST(!waits(process, 0, 3));
}

BOOST_AUTO_TEST_CASE(of_two_later_steps_the_nearer_is_meant) {
  const auto plan = plan_with_steps(R"([
    {"do": "sanitise", "after": "store"}, {"do": "store", "after": []},
    {"do": "store", "after": []}])");
  const auto process = unfolded(plan);
  BOOST_TEST(waits(process, 1, 0, Why::after));
  BOOST_TEST(!waits(process, 2, 0));
}

BOOST_AUTO_TEST_CASE(during_lays_a_step_inside_another) {
  const auto plan = plan_with_steps(R"([
    {"do": "dissolve"}, {"do": "boil"}, {"do": "cover", "during": "boil"}, {"do": "chill"}])");
  const auto process = unfolded(plan);
  BOOST_TEST((process.inside[2] == 1));
  BOOST_TEST(waits(process, 0, 2, Why::during));
  BOOST_TEST(waits(process, 2, 3, Why::during));
  BOOST_TEST(waits(process, 1, 3, Why::written_order));
  BOOST_TEST(!process.precedes(1, 2));
  BOOST_TEST(!process.precedes(2, 1));
}

BOOST_AUTO_TEST_CASE(a_step_inside_another_can_wait_for_one_beside_it) {
  const auto plan = plan_with_steps(R"([
    {"do": "dissolve"}, {"do": "boil"}, {"do": "add", "items": "nutrient", "during": "boil"},
    {"do": "cover", "during": "boil", "after": "add"}, {"do": "chill"}])");
  const auto process = unfolded(plan);
  BOOST_TEST(waits(process, 2, 3, Why::after));
  BOOST_TEST(waits(process, 0, 3, Why::during));
  BOOST_TEST(process.precedes(3, 4));
}

BOOST_AUTO_TEST_CASE(durings_nest) {
  const auto plan = plan_with_steps(R"([
    {"do": "dissolve"}, {"do": "boil"}, {"do": "cover", "during": "boil"},
    {"do": "sanitise", "during": "cover"}, {"do": "chill"}])");
  const auto process = unfolded(plan);
  BOOST_TEST((process.inside[3] == 2));
  BOOST_TEST(waits(process, 0, 3, Why::during));
  BOOST_TEST(waits(process, 3, 4, Why::during));
  BOOST_TEST(!process.precedes(3, 1));
}

BOOST_AUTO_TEST_CASE(a_during_may_name_a_step_that_comes_later) {
  const auto plan = plan_with_steps(R"([
    {"do": "dissolve"}, {"do": "cover", "during": "boil"}, {"do": "boil"}, {"do": "chill"}])");
  const auto process = unfolded(plan);
  BOOST_TEST((process.inside[1] == 2));
  BOOST_TEST(waits(process, 0, 2, Why::written_order));
  BOOST_TEST(waits(process, 0, 1, Why::during));
  BOOST_TEST(waits(process, 1, 3, Why::during));
}

BOOST_AUTO_TEST_CASE(steps_laid_inside_each_other_are_a_loop) {
  const auto plan = plan_with_steps(R"([
    {"do": "dissolve"}, {"do": "boil", "during": "cover"},
    {"do": "add", "items": "nutrient", "during": "boil"}, {"do": "cover", "during": "add"},
    {"do": "chill"}])");
  const auto process = unfolded(plan);
  BOOST_TEST((process.inside[1] == 3));
  BOOST_TEST((process.inside[2] == 1));
  BOOST_TEST(!process.inside[3].has_value());  // the last one written gives way
  BOOST_REQUIRE(process.loops.size() == 1U);
  auto members = process.loops[0];
  std::sort(members.begin(), members.end());
  BOOST_TEST(members == (Steps{1, 2, 3}), boost::test_tools::per_element());
  BOOST_TEST(process.precedes(0, 4));
}

BOOST_AUTO_TEST_CASE(a_step_laid_inside_itself_is_a_loop) {
  const auto plan = plan_with_steps(R"([{"do": "boil", "during": "boil"}, {"do": "chill"}])");
  const auto process = unfolded(plan);
  BOOST_TEST(process.loops == (std::vector<Steps>{{0}}));
  BOOST_TEST(process.unknown.empty());
  BOOST_TEST(process.precedes(0, 1));
}

BOOST_AUTO_TEST_SUITE_END()

BOOST_AUTO_TEST_SUITE(loops)

BOOST_AUTO_TEST_CASE(two_steps) {
  const auto plan = plan_with_steps(R"([
    {"do": "dissolve"}, {"do": "boil", "after": "chill"}, {"do": "chill", "after": "boil"},
    {"do": "pitch"}])");
  const auto process = unfolded(plan);
  BOOST_TEST(process.loops == (std::vector<Steps>{{1, 2}}));
  // The rest still works: the arrow along the file stays.
  BOOST_TEST(process.precedes(1, 2));
  BOOST_TEST(process.precedes(2, 3));
}

BOOST_AUTO_TEST_CASE(three_steps_in_the_order_they_wait) {
  const auto plan = plan_with_steps(R"([
    {"do": "store", "id": "a", "after": "b"}, {"do": "store", "id": "c", "after": "a"},
    {"do": "store", "id": "b", "after": "c"}, {"do": "weigh"}])");
  const auto process = unfolded(plan);
  BOOST_TEST(process.loops == (std::vector<Steps>{{0, 1, 2}}));
  BOOST_TEST(process.precedes(2, 3));
}

BOOST_AUTO_TEST_CASE(a_step_that_waits_for_itself) {
  const auto plan =
      plan_with_steps(R"([{"do": "dissolve"}, {"do": "boil", "after": "boil"}, {"do": "chill"}])");
  const auto process = unfolded(plan);
  BOOST_TEST(process.loops == (std::vector<Steps>{{1}}));
  BOOST_TEST(process.precedes(1, 2));
}

BOOST_AUTO_TEST_CASE(two_loops_are_both_told) {
  const auto plan = plan_with_steps(R"([
    {"do": "store", "id": "a", "after": "b"}, {"do": "store", "id": "b", "after": "a"},
    {"do": "store", "id": "c", "after": ["d", "b"]}, {"do": "store", "id": "d", "after": "c"}])");
  const auto process = unfolded(plan);
  BOOST_TEST(process.loops == (std::vector<Steps>{{0, 1}, {2, 3}}));
  BOOST_TEST(process.precedes(0, 3));
}

BOOST_AUTO_TEST_CASE(every_arrow_of_a_told_loop_is_written) {
  // From "a" a side ring b–c leads nowhere back; the ring through "a" goes by way of "d".
  const auto plan = plan_with_steps(R"([
    {"do": "store", "id": "a", "after": "d"}, {"do": "store", "id": "b", "after": ["a", "c"]},
    {"do": "store", "id": "c", "after": "b"}, {"do": "store", "id": "d", "after": "b"}])");
  const auto process = unfolded(plan);
  BOOST_TEST(process.loops == (std::vector<Steps>{{0, 1, 3}}));
}

BOOST_AUTO_TEST_SUITE_END()

BOOST_AUTO_TEST_SUITE(unknown_names)

BOOST_AUTO_TEST_CASE(each_field_is_told_with_the_nearest) {
  const auto plan = plan_with_steps(R"([
    {"do": "dissolve"}, {"do": "boyl"}, {"do": "cover", "during": "disolve"},
    {"do": "chill", "after": ["dissolve", "covver", "xylophone"]}])");
  const auto process = unfolded(plan);
  BOOST_REQUIRE(process.unknown.size() == 4U);
  auto told = [&](int step, const char* field, const char* word, const char* nearest) {
    return std::any_of(process.unknown.begin(), process.unknown.end(),
                       [&](const starter::UnknownName& name) {
                         return name.step == step && name.field == field && name.word == word &&
                                name.nearest == nearest;
                       });
  };
  BOOST_TEST(told(1, "do", "boyl", "boil"));
  BOOST_TEST(told(2, "during", "disolve", "dissolve"));
  BOOST_TEST(told(3, "after", "covver", "cover"));
  BOOST_TEST(told(3, "after", "xylophone", ""));
  // The name that is known is still waited for, and an unknown during keeps the written order.
  BOOST_TEST(waits(process, 0, 3, Why::after));
  BOOST_TEST(waits(process, 1, 2, Why::written_order));
}

BOOST_AUTO_TEST_CASE(an_id_can_be_the_nearest_name) {
  const auto plan = plan_with_steps(
      R"([{"do": "store", "id": "overnight"}, {"do": "weigh", "after": "overnigth"}])");
  const auto process = unfolded(plan);
  BOOST_REQUIRE(process.unknown.size() == 1U);
  BOOST_TEST(process.unknown[0].nearest == "overnight");
}

BOOST_AUTO_TEST_CASE(a_word_nobody_knows_still_has_its_place) {
  const auto plan = plan_with_steps(
      R"([{"do": "weigh"}, {"do": "frobnicate"}, {"do": "store", "after": "frobnicate"}])");
  const auto process = unfolded(plan);
  BOOST_REQUIRE(process.unknown.size() == 1U);
  BOOST_TEST(process.unknown[0].field == "do");
  BOOST_TEST(waits(process, 0, 1, Why::written_order));
  BOOST_TEST(waits(process, 1, 2, Why::after));
}

BOOST_AUTO_TEST_SUITE_END()

BOOST_AUTO_TEST_SUITE(the_trade)

BOOST_AUTO_TEST_CASE(parallel_steps_are_tied) {
  // Nothing says whether the reading comes before or after the chilling; the trade does.
  const auto plan = plan_with_steps(R"([
    {"do": "dissolve"}, {"do": "check temperature", "after": "dissolve"},
    {"do": "chill", "after": "dissolve"}, {"do": "pitch", "after": "dissolve"}])");
  const auto process = unfolded(plan);
  BOOST_TEST(waits(process, 2, 1, Why::trade));
  BOOST_TEST(waits(process, 1, 3, Why::trade));
  BOOST_TEST(process.order == (Steps{0, 2, 1, 3}), boost::test_tools::per_element());
}

BOOST_AUTO_TEST_CASE(the_written_order_stands_against_the_trade) {
  const auto plan = plan_with_steps(R"([{"do": "pitch"}, {"do": "chill"}])");
  const auto process = unfolded(plan);
  BOOST_TEST(process.precedes(0, 1));
  BOOST_TEST(!waits(process, 1, 0));
}

BOOST_AUTO_TEST_CASE(what_is_laid_inside_a_step_is_not_tied_to_it) {
  const auto plan =
      plan_with_steps(R"([{"do": "boil"}, {"do": "dissolve", "during": "boil"}, {"do": "chill"}])");
  const auto process = unfolded(plan);
  BOOST_TEST(!process.precedes(1, 0));
  BOOST_TEST(!process.precedes(0, 1));
}

BOOST_AUTO_TEST_CASE(stages_are_tied_by_their_pitches_only) {
  const auto plan = plan_with_steps(R"([
    {"do": "pitch", "stage": 1}, {"do": "pitch", "stage": 2, "after": []},
    {"do": "boil", "stage": 2, "after": []}, {"do": "chill", "stage": 1, "after": []}])",
                                    2);
  const auto process = unfolded(plan);
  BOOST_TEST(waits(process, 0, 1, Why::trade));
  BOOST_TEST(waits(process, 3, 0, Why::trade));
  BOOST_TEST(waits(process, 2, 1, Why::trade));
  BOOST_TEST(!process.precedes(2, 3));
  BOOST_TEST(!process.precedes(3, 2));
}

BOOST_AUTO_TEST_CASE(a_cleaning_beside_a_use_comes_first) {
  const auto plan = plan_with_steps(R"([
    {"do": "dissolve"}, {"do": "boil"}, {"do": "chill"},
    {"do": "check temperature", "with": "thermometer"},
    {"do": "sanitise", "items": "thermometer", "after": "boil"}])");
  const auto process = unfolded(plan);
  BOOST_TEST(waits(process, 4, 3, Why::trade));
  BOOST_TEST((touch_of(process, "thermometer", 3).cleaned_by == 4));
}

BOOST_AUTO_TEST_SUITE_END()

BOOST_AUTO_TEST_SUITE(missing_steps)

namespace {

struct Lacks {
  Do what;
  int stage;
  int before;
};

bool lacks(const starter::Process& process, Do what, int stage, int before) {
  return std::any_of(
      process.missing.begin(), process.missing.end(), [&](const starter::MissingStep& missing) {
        return missing.what == what && missing.stage == stage && missing.before == before;
      });
}

}  // namespace

BOOST_AUTO_TEST_CASE(the_shipped_example_lacks_nothing) {
  BOOST_TEST(unfolded(harvest_amber()).missing.empty());
}

BOOST_AUTO_TEST_CASE(each_kind_is_told_where_it_belongs) {
  // Taking out step n of the example moves those behind it up by one.
  const std::vector<std::pair<int, Do>> cases = {
      {1, Do::dissolve}, {2, Do::boil}, {4, Do::chill}, {7, Do::pitch}};
  const std::map<int, int> before = {{1, 1}, {2, 3}, {4, 5}, {7, 7}};
  for (const auto& [step, what] : cases) {
    const auto plan =
        harvest_amber(R"([{"op": "remove", "path": "/steps/)" + std::to_string(step) + R"("}])");
    const auto process = unfolded(plan);
    BOOST_TEST_INFO("without step " << step);
    BOOST_TEST(process.missing.size() == 1U);
    BOOST_TEST(lacks(process, what, 0, before.at(step)));
  }
  const auto process = unfolded(harvest_amber(R"([{"op": "remove", "path": "/steps/12"}])"));
  BOOST_TEST(process.missing.size() == 1U);
  BOOST_TEST(lacks(process, Do::pitch_to_beer, 0, 12));
}

BOOST_AUTO_TEST_CASE(a_step_belongs_before_all_that_follow_it_in_the_trade) {
  // No boil to dissolve before: the chilling still comes later.
  const auto plan = plan_with_steps(
      R"([{"do": "weigh"}, {"do": "chill"}, {"do": "pitch"}, {"do": "krausen pitch"}])");
  const auto process = unfolded(plan);
  BOOST_TEST(process.missing.size() == 2U);
  BOOST_TEST(lacks(process, Do::dissolve, 0, 1));
  BOOST_TEST(lacks(process, Do::boil, 0, 1));
}

BOOST_AUTO_TEST_CASE(with_nothing_after_it_a_step_belongs_at_the_end_of_its_stage) {
  const auto plan = plan_with_steps(R"([
    {"do": "weigh", "stage": 1}, {"do": "weigh", "stage": 2}, {"do": "dissolve", "stage": 2},
    {"do": "boil", "stage": 2}, {"do": "chill", "stage": 2}, {"do": "pitch", "stage": 2},
    {"do": "pitch to beer", "stage": 2}])",
                                    2);
  const auto process = unfolded(plan);
  BOOST_TEST(process.missing.size() == 4U);
  for (Do what : {Do::dissolve, Do::boil, Do::chill, Do::pitch})
    BOOST_TEST(lacks(process, what, 0, 1));
}

BOOST_AUTO_TEST_CASE(every_stage_is_looked_at) {
  const auto plan = plan_with_steps(R"([
    {"do": "dissolve", "stage": 1}, {"do": "boil", "stage": 1}, {"do": "chill", "stage": 1},
    {"do": "pitch", "stage": 1}, {"do": "dissolve", "stage": 2}, {"do": "chill", "stage": 2},
    {"do": "pitch", "stage": 2}, {"do": "dissolve", "stage": 3}, {"do": "boil", "stage": 3},
    {"do": "pitch", "stage": 3}])",
                                    3);
  const auto process = unfolded(plan);
  BOOST_TEST(process.missing.size() == 3U);
  BOOST_TEST(lacks(process, Do::boil, 1, 5));
  BOOST_TEST(lacks(process, Do::chill, 2, 9));
  BOOST_TEST(lacks(process, Do::pitch_to_beer, 2, 10));
}

BOOST_AUTO_TEST_CASE(ready_wort_needs_no_dissolving) {
  const auto plan = harvest_amber(R"([
    {"op": "replace", "path": "/stages/0/extract", "value": {"kind": "wort"}},
    {"op": "add", "path": "/stages/0/gravity", "value": "1.037 SG"},
    {"op": "remove", "path": "/steps/1"}])");
  BOOST_TEST(unfolded(plan).missing.empty());
}

BOOST_AUTO_TEST_CASE(a_krausen_pitch_gives_the_yeast_to_the_beer) {
  BOOST_TEST(unfolded(harvest_amber(R"([
    {"op": "replace", "path": "/steps/12", "value": {"do": "krausen pitch"}}])"))
                 .missing.empty());
}

BOOST_AUTO_TEST_SUITE_END()

BOOST_AUTO_TEST_SUITE(long_plans)

namespace {

/// Unfolds within the time that a debug build on a busy machine may take; a release build takes a
/// fraction of a second.
void unfolds_in_time(const starter::Plan& plan) {
  const auto begun = std::chrono::steady_clock::now();
  const auto process = starter::unfold(plan);
  const std::chrono::duration<double> took = std::chrono::steady_clock::now() - begun;
  BOOST_TEST_MESSAGE("unfolded in " << took.count() << " s");
  BOOST_TEST(took.count() < 8.0);
  BOOST_TEST(is_sound(plan, process));
}

}  // namespace

BOOST_AUTO_TEST_CASE(five_hundred_steps_with_many_repeats) {
  nlohmann::json steps = nlohmann::json::array();
  const auto verbs = starter::spellings<Do>();
  for (std::size_t i = 0; i < 500; ++i) {
    nlohmann::json step = {{"do", verbs[i % verbs.size()].text}};
    if (i % 19 == 8) step["items"] = {"thermometer", "stir bar", "pack", "funnel"};
    if (i % 19 == 9) step["with"] = "thermometer";
    steps.push_back(step);
  }
  unfolds_in_time(plan_with_steps(steps));
}

BOOST_AUTO_TEST_CASE(five_hundred_steps_side_by_side) {
  nlohmann::json steps = nlohmann::json::array();
  const auto verbs = starter::spellings<Do>();
  for (std::size_t i = 0; i < 500; ++i)
    steps.push_back({{"do", verbs[i % verbs.size()].text}, {"after", nlohmann::json::array()}});
  unfolds_in_time(plan_with_steps(steps));
}

BOOST_AUTO_TEST_CASE(five_hundred_nested_durings) {
  nlohmann::json steps = nlohmann::json::array({{{"do", "dissolve"}}});
  for (int i = 1; i < 499; ++i) {
    nlohmann::json step = {{"do", "store"}, {"id", "s" + std::to_string(i)}};
    if (i > 1) step["during"] = "s" + std::to_string(i - 1);
    steps.push_back(step);
  }
  steps.push_back({{"do", "chill"}});
  const auto plan = plan_with_steps(steps);
  unfolds_in_time(plan);
  BOOST_TEST(starter::unfold(plan).precedes(498, 499));
}

BOOST_AUTO_TEST_CASE(nested_durings_that_all_wait_for_much) {
  nlohmann::json steps = nlohmann::json::array();
  for (int i = 0; i < 500; ++i) {
    nlohmann::json step = {{"do", "store"}, {"id", "s" + std::to_string(i)}};
    if (i > 0) step["during"] = "s" + std::to_string(i - 1);
    for (int k = 0; k < 40; ++k) step["after"].push_back("s" + std::to_string((i * 7 + k) % 500));
    steps.push_back(step);
  }
  unfolds_in_time(plan_with_steps(steps));
}

BOOST_AUTO_TEST_SUITE_END()
