// Which stage a step belongs to, and the steps that a plan without any gets.

#include <algorithm>
#include <boost/test/unit_test.hpp>

#include "plan_files.h"

namespace {

using namespace starter;

std::vector<int> stages_of(const Plan& plan) {
  std::vector<int> stages;
  for (const auto& step : plan.steps) stages.push_back(step.stage);
  return stages;
}

std::vector<std::string> verbs_of(const Plan& plan, int stage) {
  std::vector<std::string> verbs;
  for (const auto& step : plan.steps)
    if (step.stage == stage) verbs.push_back(step.verb);
  return verbs;
}

std::string two_stages(const std::string& steps) {
  return with(short_plan_with("\"steps\": [" + steps + "]"),
              R"([{"extract": {"mass": "110 g"}, "water": "1.15 L"}])",
              R"([{"extract": {"mass": "50 g"}, "water": "0.5 L"},
                  {"extract": {"mass": "110 g"}, "water": "1.15 L"}])");
}

const Step* first(const Plan& plan, Do does, int stage = 0) {
  for (const auto& step : plan.steps)
    if (step.does == does && step.stage == stage) return &step;
  return nullptr;
}

BOOST_AUTO_TEST_SUITE(stage_of_a_step)

BOOST_AUTO_TEST_CASE(weighing_after_a_pitch_begins_the_next) {
  const Plan plan = plan_in(two_stages(
      R"({"do": "weigh"}, {"do": "dissolve"}, {"do": "pitch"}, {"do": "rest"},
         {"do": "weigh"}, {"do": "dissolve"}, {"do": "pitch"}, {"do": "weigh"})"));
  BOOST_TEST(stages_of(plan) == (std::vector<int>{0, 0, 0, 0, 1, 1, 1, 1}),
             boost::test_tools::per_element());
  BOOST_TEST(assumed_at(plan, "/steps/4/stage") == "2");
  BOOST_TEST(assumed_at(plan, "/steps/5/stage") == "", "told once, by the step that moves on");
  BOOST_TEST(assumed_at(plan, "/steps/7/stage") == "", "there is no third stage");
}

BOOST_AUTO_TEST_CASE(dissolving_does_so_too) {
  const Plan plan = plan_in(two_stages(R"({"do": "pitch"}, {"do": "dissolve"}, {"do": "boil"})"));
  BOOST_TEST(stages_of(plan) == (std::vector<int>{0, 1, 1}), boost::test_tools::per_element());
}

BOOST_AUTO_TEST_CASE(nothing_else_does) {
  const Plan plan = plan_in(two_stages(R"({"do": "weigh"}, {"do": "pitch"}, {"do": "boil"})"));
  BOOST_TEST(stages_of(plan) == (std::vector<int>{0, 0, 0}), boost::test_tools::per_element());
}

BOOST_AUTO_TEST_CASE(a_stated_stage_is_counted_from_one_and_holds_on) {
  const Plan plan = plan_in(two_stages(
      R"({"do": "weigh", "stage": 2}, {"do": "boil"}, {"do": "weigh", "stage": 1}, {"do": "boil"})"));
  BOOST_TEST(stages_of(plan) == (std::vector<int>{1, 1, 0, 0}), boost::test_tools::per_element());
  BOOST_TEST(errors_of(two_stages(R"({"do": "weigh", "stage": 3})"))[0].where == "/steps/0/stage");
  BOOST_TEST(errors_of(two_stages(R"({"do": "weigh", "stage": 0})"))[0].where == "/steps/0/stage");
  BOOST_TEST(errors_of(two_stages(R"({"do": "weigh", "stage": 1.5})"))[0].where ==
             "/steps/0/stage");
}

BOOST_AUTO_TEST_SUITE_END()

BOOST_AUTO_TEST_SUITE(standard_steps)

BOOST_AUTO_TEST_CASE(of_one_stage) {
  const Plan plan = plan_in(short_plan());
  BOOST_TEST(verbs_of(plan, 0) ==
                 (std::vector<std::string>{"weigh", "dissolve", "boil", "cover", "chill",
                                           "sanitise", "check temperature", "pitch", "rest",
                                           "crash", "decant", "warm", "pitch to beer"}),
             boost::test_tools::per_element());
  const Step* boil = first(plan, Do::boil);
  BOOST_TEST(boil->in.value() == "flask");
  BOOST_TEST(boil->lasts->minutes() == 12);
  BOOST_CHECK(boil->heat == HeatSource::gas);
  BOOST_TEST(boil->path == "");
  BOOST_TEST(first(plan, Do::cover)->during.value() == "boil");
  BOOST_TEST(!first(plan, Do::chill)->in.has_value());
  BOOST_TEST(first(plan, Do::pitch)->from.value() == "pack");
  BOOST_TEST(first(plan, Do::crash)->at->celsius() == 4);
}

BOOST_AUTO_TEST_CASE(everything_that_touches_cooled_wort_is_sanitised) {
  const Plan plan =
      plan_in(with(short_plan(), "\"1.15 L\"", R"("1.15 L", "agitation": "stir plate")"));
  const auto& items = first(plan, Do::sanitise)->items;
  for (const std::string item : {"thermometer", "pack", "stir bar"})
    BOOST_TEST(std::count(items.begin(), items.end(), item) == 1, item);
  BOOST_TEST(first(plan, Do::agitate)->with.front() == "stir bar");
  BOOST_TEST(first(plan, Do::agitate)->lasts->hours() == 36);
}

BOOST_AUTO_TEST_CASE(chill_in_a_tub_if_there_is_one) {
  const Plan plan = plan_in(short_plan_with(R"("vessels": {
      "flask": {"kind": "conical flask", "capacity": "2 L"},
      "wash tub": {"kind": "tub", "capacity": "20 L"}})"));
  BOOST_TEST(first(plan, Do::chill)->in.value() == "wash tub");
  BOOST_TEST(!first(plan, Do::chill)->bath.has_value());
}

BOOST_AUTO_TEST_CASE(a_jug_is_never_boiled_when_there_is_a_pot) {
  const std::string vessels = R"("vessels": {
      "jug": {"kind": "jug", "capacity": "4 L"}, "pan": {"kind": "pot", "capacity": "5 L"}})";
  const Plan plan =
      plan_in(with(short_plan_with(vessels), "\"1.15 L\"", R"("1.15 L", "vessel": "jug")"));
  BOOST_TEST(first(plan, Do::boil)->in.value() == "pan");
  BOOST_TEST(first(plan, Do::move)->into.value() == "jug");
  const auto& items = first(plan, Do::sanitise)->items;
  BOOST_TEST(std::count(items.begin(), items.end(), "jug") == 1);
  const Plan alone =
      plan_in(short_plan_with(R"("vessels": {"jug": {"kind": "jug", "capacity": "4 L"}})"));
  BOOST_TEST(first(alone, Do::boil)->in.value() == "jug", "there is nothing else; a rule tells");
}

BOOST_AUTO_TEST_CASE(of_two_stages) {
  const Plan plan = plan_in(with(two_stages(""), "\"steps\": [],", ""));
  BOOST_TEST(assumed_at(plan, "/steps") != "");
  BOOST_TEST(verbs_of(plan, 0) == (std::vector<std::string>{
                                      "weigh", "dissolve", "boil", "cover", "chill", "sanitise",
                                      "check temperature", "pitch", "rest", "crash", "decant"}),
             boost::test_tools::per_element());
  BOOST_TEST(verbs_of(plan, 1).back() == "pitch to beer");
  BOOST_TEST(first(plan, Do::warm, 0) == nullptr);
  BOOST_TEST(first(plan, Do::pitch, 1)->from.value() == "flask");
}

BOOST_AUTO_TEST_CASE(an_empty_list_of_steps_is_none) {
  const Plan plan = plan_in(bytes_of("good/empty-steps.plan.json"));
  BOOST_TEST(plan.steps.size() == 13U);
  BOOST_TEST(assumed_at(plan, "/steps") != "");
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
