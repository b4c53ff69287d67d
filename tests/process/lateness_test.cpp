// How late each step may be, and what gives way first. Times are worked out by hand from durations
// of whole hours.

#include "process/lateness.h"

#include <boost/test/unit_test.hpp>

#include "plan/read.h"

namespace starter {
namespace {

struct Laid {
  Plan plan;
  Process process;
  StepDurations durations;
  Schedule schedule;
  std::vector<Lateness> late;

  double may_wait(std::size_t step) const { return schedule.may_wait.at(step)->hours(); }
};

/// A plan of these steps, each lasting as many hours as `hours` says.
Laid laid(const std::string& when, const std::string& steps, const std::vector<double>& hours) {
  const std::string text =
      R"({"plan": 1, "yeast": {"form": "liquid", "packs": 1, "cells_per_pack": "100 billion"},
          "vessels": {"flask": {"kind": "conical flask", "capacity": "3 L",
                                "material": "borosilicate glass"}},
          "stages": [{"extract": {"kind": "light dry malt", "mass": "110 g"}, "water": "1.1 L",
                      "vessel": "flask", "temperature": "21 °C", "duration": "36 h"}],)" +
      when + R"("steps": [)" + steps + "]}";
  PlanResult result = read_plan(text);
  if (const auto* errors = std::get_if<std::vector<PlanError>>(&result))
    throw std::runtime_error(errors->front().where + ": " + errors->front().says);
  Laid made;
  made.plan = std::get<Plan>(std::move(result));
  made.process = unfold(made.plan);
  for (const double h : hours) made.durations.lasts.push_back(Duration::hours(h));
  made.durations.then_waits.assign(hours.size(), Duration());
  made.schedule = schedule(made.plan, made.process, made.durations);
  made.late = lateness(made.process, made.durations, made.schedule);
  return made;
}

const std::string beer_without_day =
    R"("beer": {"kind": "ale", "volume": "20 L", "gravity": "1.050 SG", "ferment_at": "19 °C"},)";

/// The yeast is due at 14:00 of that day.
std::string brewing(const std::string& day) {
  return R"("beer": {"kind": "ale", "volume": "20 L", "gravity": "1.050 SG",
             "ferment_at": "19 °C", "brew_day": ")" +
         day + R"(T09:00"},)";
}

std::string starting(const std::string& time) {
  return R"("start": ")" + time + R"(",)";
}

const std::string whole = R"({"do": "boil"}, {"do": "cover", "during": "boil"}, {"do": "chill"},
  {"do": "pitch"}, {"do": "agitate"}, {"do": "crash"}, {"do": "decant"}, {"do": "pitch to beer"})";
const std::vector<double> whole_hours = {2, 1, 1, 1, 36, 24, 1, 1};  // 66 h from boil to beer

BOOST_AUTO_TEST_SUITE(lateness_of_steps)

BOOST_AUTO_TEST_CASE(time_to_spare_is_taken_from_the_cold_rest) {
  const Laid l = laid(starting("2027-04-06T14:00") + brewing("2027-04-10"), whole, whole_hours);
  BOOST_TEST(l.schedule.slack->hours() == 30);
  for (const std::size_t step : {0u, 2u, 3u, 4u, 5u}) {
    BOOST_TEST_CONTEXT("step " << step + 1) {
      BOOST_TEST(l.may_wait(step) == 30);
      BOOST_TEST((l.late[step].first == GivesWay::cold_rest));
      BOOST_TEST(*l.late[step].step == 5);
      BOOST_TEST(l.schedule.critical[step]);
    }
  }
  for (const std::size_t step : {6u, 7u}) {
    BOOST_TEST(l.may_wait(step) == 0);
    BOOST_TEST((l.late[step].first == GivesWay::yeast));
    BOOST_TEST(l.schedule.critical[step]);
  }
  BOOST_TEST(*l.schedule.takes_slack == 5);
  BOOST_TEST((l.schedule.times[5].end - l.schedule.times[5].start).hours() == 54);
  BOOST_TEST(l.schedule.ready.hours() == 96);
}

BOOST_AUTO_TEST_CASE(a_step_laid_inside_another_has_its_own_room) {
  const Laid l = laid(starting("2027-04-06T14:00") + brewing("2027-04-10"), whole, whole_hours);
  BOOST_TEST(l.may_wait(1) == 31);  // an hour of the boil is left when the cover is on
  BOOST_TEST(!l.schedule.critical[1]);
  BOOST_TEST((l.late[1].first == GivesWay::pause));
  BOOST_TEST(*l.late[1].step == 2);
}

BOOST_AUTO_TEST_CASE(laid_back_from_brew_day_nothing_is_to_spare) {
  const Laid l = laid(brewing("2027-04-10"), whole, whole_hours);
  BOOST_TEST(iso(*l.schedule.origin) == "2027-04-07T20:00");
  BOOST_TEST(!l.schedule.slack);
  BOOST_TEST(!l.schedule.takes_slack);
  for (const std::size_t step : {0u, 2u, 3u, 4u, 5u, 6u, 7u}) {
    BOOST_TEST(l.may_wait(step) == 0);
    BOOST_TEST((l.late[step].first == GivesWay::yeast));
  }
  BOOST_TEST(l.may_wait(1) == 1);
}

BOOST_AUTO_TEST_CASE(a_late_plan_has_less_than_no_room) {
  const Laid l = laid(starting("2027-04-08T14:00") + brewing("2027-04-10"), whole, whole_hours);
  BOOST_TEST(l.schedule.slack->hours() == -18);
  BOOST_TEST(l.may_wait(0) == -18);
  BOOST_TEST(l.may_wait(1) == -17);
  BOOST_TEST(l.may_wait(7) == -18);
  BOOST_TEST((l.late[1].first == GivesWay::yeast));
  BOOST_TEST(l.schedule.ready.hours() == 66);
  BOOST_TEST(iso(*l.schedule.latest_start) == "2027-04-07T20:00");
}

BOOST_AUTO_TEST_CASE(just_in_time_is_neither_late_nor_to_spare) {
  const Laid l = laid(starting("2027-04-07T20:00") + brewing("2027-04-10"), whole, whole_hours);
  BOOST_TEST(l.schedule.slack->hours() == 0);
  BOOST_TEST(l.may_wait(0) == 0);
  BOOST_TEST((l.late[0].first == GivesWay::yeast));
}

BOOST_AUTO_TEST_CASE(without_a_brew_day_lateness_is_against_the_soonest) {
  const Laid l = laid(starting("2027-04-06T14:00") + beer_without_day, whole, whole_hours);
  BOOST_TEST(l.may_wait(0) == 0);
  BOOST_TEST(l.may_wait(1) == 1);
  BOOST_TEST(!l.schedule.due);
  BOOST_TEST(l.schedule.ready.hours() == 66);
}

BOOST_AUTO_TEST_CASE(the_yeast_does_not_wait_for_what_comes_after_it) {
  const Laid l = laid(brewing("2027-04-10"),
                      R"({"do": "pitch"}, {"do": "agitate"}, {"do": "pitch to beer"},
                         {"do": "decant"})",
                      {1, 36, 1, 1});
  BOOST_TEST(!l.schedule.may_wait[3]);
  BOOST_TEST((l.late[3].first == GivesWay::nothing));
  BOOST_TEST(!l.schedule.critical[3]);
  BOOST_TEST(l.may_wait(2) == 0);
  BOOST_TEST(l.schedule.critical[2]);
  BOOST_TEST(l.schedule.ready.hours() == 38);
}

BOOST_AUTO_TEST_CASE(a_branch_waits_for_the_longer_one) {
  const Laid l = laid(beer_without_day,
                      R"({"do": "boil", "id": "b"}, {"do": "chill", "id": "c"},
                         {"do": "sanitise", "id": "s", "after": []},
                         {"do": "add", "id": "a", "after": ["s"]},
                         {"do": "pitch", "after": ["c", "a"]}, {"do": "pitch to beer"})",
                      {3, 4, 1, 2, 1, 1});
  BOOST_TEST(l.may_wait(2) == 4);  // 7 h of wort against 3 h beside it
  BOOST_TEST(l.may_wait(3) == 4);
  BOOST_TEST((l.late[2].first == GivesWay::pause));
  BOOST_TEST(*l.late[2].step == 4);
  BOOST_TEST(!l.schedule.critical[2]);
  BOOST_TEST(l.schedule.critical[0]);
}

BOOST_AUTO_TEST_CASE(without_a_cold_rest_the_grown_yeast_pauses) {
  const Laid l = laid(starting("2027-04-06T14:00") + brewing("2027-04-10"),
                      R"({"do": "pitch"}, {"do": "agitate"}, {"do": "decant"},
                         {"do": "pitch to beer"})",
                      {1, 36, 1, 1});
  BOOST_TEST(l.schedule.slack->hours() == 57);
  BOOST_TEST(!l.schedule.takes_slack);
  BOOST_TEST(l.may_wait(0) == 57);
  BOOST_TEST((l.late[0].first == GivesWay::pause));
  BOOST_TEST(*l.late[0].step == 2);
  BOOST_TEST(l.may_wait(2) == 0);
}

BOOST_AUTO_TEST_CASE(no_step_to_the_beer_means_that_all_must_be_done) {
  const Laid l = laid(brewing("2027-04-10"), R"({"do": "boil"}, {"do": "chill"})", {2, 1});
  BOOST_TEST(l.may_wait(0) == 0);
  BOOST_TEST(l.may_wait(1) == 0);
  BOOST_TEST(iso(*l.schedule.origin) == "2027-04-10T11:00");
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
}  // namespace starter
