// When each step happens, with durations handed in by the test.

#include <boost/test/unit_test.hpp>
#include <map>

#include "../plan_of.h"
#include "process/process.h"
#include "process/schedule.h"
#include "process_checks.h"

using starter::Do;
using starter::Duration;
using starter::Plan;
using starter::Process;
using starter::Schedule;
using starter::StepDurations;
using namespace starter::literals;

namespace {

/// Steps: 0 dissolve, 1 boil, 2 chill, 3 pitch, 4 agitate, 5 crash, 6 decant, 7 warm,
/// 8 pitch to beer.
const std::string straight = R"([
  {"do": "dissolve"}, {"do": "boil"}, {"do": "chill"}, {"do": "pitch"}, {"do": "agitate"},
  {"do": "crash"}, {"do": "decant"}, {"do": "warm"}, {"do": "pitch to beer"}])";

const std::map<Do, Duration> usual = {
    {Do::dissolve, 1_h}, {Do::boil, 1_h},     {Do::chill, 1_h},
    {Do::pitch, 1_h},    {Do::agitate, 36_h}, {Do::crash, 24_h},
    {Do::decant, 1_h},   {Do::warm, 3_h},     {Do::pitch_to_beer, 1_h}};

StepDurations durations_for(const Plan& plan) {
  StepDurations d;
  for (const auto& step : plan.steps) {
    const auto found = step.does ? usual.find(*step.does) : usual.end();
    d.lasts.push_back(found != usual.end() ? found->second : 30_min);
    d.then_waits.push_back(Duration());
  }
  return d;
}

/// \param start, brew_day as in a plan file; empty for none.
Plan dated(const std::string& start, const std::string& brew_day,
           const std::string& steps = straight) {
  Plan plan = plan_with_steps(nlohmann::json::parse(steps));
  if (!start.empty()) plan.start = starter::read_time(start)->at;
  if (!brew_day.empty()) plan.beer.brew_day = starter::read_time(brew_day)->at;
  return plan;
}

Schedule scheduled(const Plan& plan) {
  return starter::schedule(plan, unfolded(plan), durations_for(plan));
}

void check_hours(const Schedule& made, int step, double start, double end) {
  BOOST_TEST_INFO("step " << step);
  BOOST_CHECK_SMALL(made.times[at(step)].start.hours() - start, 1e-9);
  BOOST_TEST_INFO("step " << step);
  BOOST_CHECK_SMALL(made.times[at(step)].end.hours() - end, 1e-9);
}

/// No step begins before all it waits for is done.
void check_waits(const Process& process, const Schedule& made) {
  for (const auto& arrow : process.dependencies) {
    BOOST_TEST_INFO("step " << arrow.to << " waits for step " << arrow.from);
    BOOST_TEST(made.times[at(arrow.to)].start.hours() >=
               made.times[at(arrow.from)].end.hours() - 1e-9);
  }
}

std::string clock(const std::optional<starter::LocalTime>& t) {
  return t ? starter::iso(*t) : "none";
}

}  // namespace

BOOST_AUTO_TEST_SUITE(calendar)

// Begun at 18:00 on the 16th, the steps take 1+1+1+1+36+24+1+3+1 = 69 h.

BOOST_AUTO_TEST_CASE(forward_only) {
  const auto made = scheduled(dated("2027-03-16T18:00", ""));
  BOOST_TEST(clock(made.origin) == "2027-03-16T18:00");
  BOOST_TEST(clock(made.due) == "none");
  BOOST_TEST(!made.slack.has_value());
  BOOST_TEST(!made.latest_start.has_value());
  check_hours(made, 4, 4, 40);
  check_hours(made, 5, 40, 64);
  check_hours(made, 8, 68, 69);
  BOOST_TEST(clock(made.clock(made.times[8].end)) == "2027-03-19T15:00");
}

BOOST_AUTO_TEST_CASE(back_only) {
  // Due five hours into the brew day: 14:00 on the 20th, less 69 h.
  const auto made = scheduled(dated("", "2027-03-20T09:00"));
  BOOST_TEST(clock(made.due) == "2027-03-20T14:00");
  BOOST_TEST(clock(made.latest_start) == "2027-03-17T17:00");
  BOOST_TEST(clock(made.origin) == "2027-03-17T17:00");
  BOOST_TEST(!made.slack.has_value());
  check_hours(made, 5, 40, 64);
  BOOST_TEST(clock(made.clock(made.times[8].end)) == "2027-03-20T14:00");
}

BOOST_AUTO_TEST_CASE(the_cold_rest_takes_the_slack) {
  const auto plan = dated("2027-03-16T18:00", "2027-03-20T09:00");
  const auto made = scheduled(plan);
  BOOST_TEST(made.slack->hours() == 23.0);  // 92 h there, 69 h needed
  BOOST_TEST(clock(made.latest_start) == "2027-03-17T17:00");
  check_hours(made, 4, 4, 40);
  check_hours(made, 5, 40, 87);
  check_hours(made, 6, 87, 88);
  check_hours(made, 7, 88, 91);
  check_hours(made, 8, 91, 92);
  BOOST_TEST(clock(made.clock(made.times[8].end)) == "2027-03-20T14:00");
  check_waits(unfolded(plan), made);
}

BOOST_AUTO_TEST_CASE(late_yeast_runs_forward) {
  const auto made = scheduled(dated("2027-03-18T18:00", "2027-03-20T09:00"));
  BOOST_TEST(made.slack->hours() == -25.0);  // 44 h there, 69 h needed
  check_hours(made, 5, 40, 64);
  check_hours(made, 8, 68, 69);
  BOOST_TEST(clock(made.latest_start) == "2027-03-17T17:00");
}

BOOST_AUTO_TEST_CASE(just_in_time_has_no_slack) {
  const auto made = scheduled(dated("2027-03-17T17:00", "2027-03-20T09:00"));
  BOOST_TEST(made.slack->hours() == 0.0);
  check_hours(made, 5, 40, 64);
}

BOOST_AUTO_TEST_CASE(neither_start_nor_brew_day) {
  const auto made = scheduled(dated("", ""));
  BOOST_TEST(!made.origin.has_value());
  BOOST_TEST(!made.due.has_value());
  BOOST_TEST(!made.slack.has_value());
  BOOST_TEST(!made.latest_start.has_value());
  BOOST_TEST(!made.clock(1_h).has_value());
  check_hours(made, 8, 68, 69);
}

BOOST_AUTO_TEST_CASE(without_a_cold_rest_the_brew_day_steps_wait) {
  const auto plan = dated("2027-03-16T18:00", "2027-03-20T09:00",
                          R"([{"do": "boil"}, {"do": "pitch"}, {"do": "agitate"}, {"do": "decant"},
                              {"do": "pitch to beer"}])");
  const auto made = scheduled(plan);  // 1+1+36+1+1 = 40 h, slack 52 h
  BOOST_TEST(made.slack->hours() == 52.0);
  check_hours(made, 2, 2, 38);
  check_hours(made, 3, 90, 91);
  check_hours(made, 4, 91, 92);
  check_waits(unfolded(plan), made);
}

BOOST_AUTO_TEST_CASE(a_store_between_cold_rest_and_brew_day_takes_the_slack) {
  const auto plan = dated("2027-03-16T18:00", "2027-03-20T09:00",
                          R"([{"do": "pitch"}, {"do": "agitate"}, {"do": "crash"}, {"do": "store"},
                              {"do": "decant"}, {"do": "pitch to beer"}])");
  const auto made = scheduled(plan);  // 1+36+24+0.5+1+1 = 63.5 h, slack 28.5 h
  BOOST_TEST(made.slack->hours() == 28.5);
  check_hours(made, 2, 37, 61);
  check_hours(made, 3, 61, 90);
  check_hours(made, 4, 90, 91);
  check_waits(unfolded(plan), made);
}

BOOST_AUTO_TEST_CASE(a_store_beside_the_brew_day_steps_waits_for_the_cold_rest) {
  const auto plan =
      dated("2027-03-16T18:00", "2027-03-20T09:00",
            R"([{"do": "pitch"}, {"do": "agitate"}, {"do": "crash"}, {"do": "pitch to beer"},
                {"do": "store", "after": "crash"}])");
  const auto made = scheduled(plan);
  check_waits(unfolded(plan), made);
  BOOST_TEST(clock(made.clock(made.times[3].end)) == "2027-03-20T14:00");
}

BOOST_AUTO_TEST_CASE(a_crash_after_the_beer_is_served_is_no_cold_rest) {
  // What is left over goes cold; the yeast is still due at 14:00.
  const auto plan =
      dated("2027-03-16T18:00", "2027-03-20T09:00",
            R"([{"do": "pitch"}, {"do": "agitate"}, {"do": "krausen pitch"}, {"do": "crash"}])");
  const auto made = scheduled(plan);
  BOOST_TEST(clock(made.clock(made.times[2].end)) == "2027-03-20T14:00");
  check_hours(made, 3, 92, 116);
  check_waits(unfolded(plan), made);
}

BOOST_AUTO_TEST_CASE(when_the_yeast_is_due) {
  Plan plan = dated("", "2027-03-20T09:00");
  BOOST_TEST(clock(starter::yeast_due(plan)) == "2027-03-20T14:00");
  plan.beer.yeast_due = starter::read_time("2027-03-20T16:30")->at;
  BOOST_TEST(clock(starter::yeast_due(plan)) == "2027-03-20T16:30");
  plan.beer.brew_day.reset();
  BOOST_TEST(clock(starter::yeast_due(plan)) == "2027-03-20T16:30");
  plan.beer.yeast_due.reset();
  BOOST_TEST(clock(starter::yeast_due(plan)) == "none");
}

BOOST_AUTO_TEST_CASE(growth_that_no_step_speaks_of_is_waited_for) {
  const auto plan = dated("", "", R"([{"do": "pitch"}, {"do": "crash"}, {"do": "pitch to beer"}])");
  StepDurations d = durations_for(plan);
  d.then_waits[0] = 48_h;
  const auto made = starter::schedule(plan, unfolded(plan), d);
  check_hours(made, 0, 0, 1);
  check_hours(made, 1, 49, 73);
  BOOST_TEST(made.critical[0]);
}

BOOST_AUTO_TEST_CASE(what_is_laid_inside_starts_with_it) {
  const auto made = scheduled(dated("", "", R"([
    {"do": "dissolve"}, {"do": "boil"}, {"do": "cover", "during": "boil"}, {"do": "chill"}])"));
  check_hours(made, 2, 1, 1.5);
  check_hours(made, 3, 2, 3);
}

BOOST_AUTO_TEST_SUITE_END()

BOOST_AUTO_TEST_SUITE(critical_path)

namespace {

/// When the yeast is ready: the end of the last step that hands it over.
double ready(const Plan& plan, const Process& process, const StepDurations& d) {
  const auto made = starter::schedule(plan, process, d);
  double end = 0;
  for (std::size_t i = 0; i < plan.steps.size(); ++i)
    if (plan.steps[i].does == Do::pitch_to_beer || plan.steps[i].does == Do::krausen_pitch)
      end = std::max(end, made.times[i].end.hours());
  return end;
}

}  // namespace

BOOST_AUTO_TEST_CASE(a_straight_plan_is_critical_throughout) {
  const auto made = scheduled(dated("", ""));
  for (const bool critical : made.critical) BOOST_TEST(critical);
}

BOOST_AUTO_TEST_CASE(delays_tell_what_is_critical) {
  // Sanitising beside the boil has an hour and a half to spare; storing comes after it is over.
  const auto plan = dated("", "", R"([
    {"do": "dissolve"}, {"do": "boil"}, {"do": "cover", "during": "boil"},
    {"do": "chill"}, {"do": "sanitise", "items": "pack", "after": "dissolve"},
    {"do": "pitch", "after": ["chill", "sanitise"]}, {"do": "agitate"}, {"do": "crash"},
    {"do": "pitch to beer"}, {"do": "store"}])");
  const auto process = unfolded(plan);
  const auto d = durations_for(plan);
  const auto made = starter::schedule(plan, process, d);
  const std::vector<bool> expected = {true, true, false, true, false,
                                      true, true, true,  true, false};
  BOOST_TEST(made.critical == expected, boost::test_tools::per_element());
  const double before = ready(plan, process, d);
  auto delayed = [&](int step, Duration by) {
    StepDurations late = d;
    late.lasts[at(step)] += by;
    return ready(plan, process, late) - before;
  };
  for (int i = 0; i < static_cast<int>(plan.steps.size()); ++i) {
    BOOST_TEST_INFO("step " << i);
    if (made.critical[at(i)])
      BOOST_CHECK_SMALL(delayed(i, 1_h) - 1, 1e-9);
    else
      BOOST_CHECK_SMALL(delayed(i, 30_min), 1e-9);
  }
  // The slack of the sanitising, from both sides.
  BOOST_CHECK_SMALL(delayed(4, 90_min), 1e-9);
  BOOST_CHECK_SMALL(delayed(4, 91_min) - 1.0 / 60, 1e-9);
}

BOOST_AUTO_TEST_CASE(the_rest_of_the_plan_still_has_times_after_a_loop) {
  const auto plan = dated("", "", R"([
    {"do": "dissolve"}, {"do": "boil", "after": "chill"}, {"do": "chill", "after": "boil"},
    {"do": "pitch"}, {"do": "pitch to beer"}])");
  const auto made = scheduled(plan);
  BOOST_TEST(ready(plan, unfolded(plan), durations_for(plan)) > 3.0);
  check_waits(unfolded(plan), made);
}

BOOST_AUTO_TEST_SUITE_END()
