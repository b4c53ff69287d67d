// What holds of any plan, tried on many random ones. The generator is fixed, so every run is the
// same.

#include <boost/test/unit_test.hpp>
#include <random>

#include "../plan_of.h"
#include "process/process.h"
#include "process/schedule.h"
#include "process_checks.h"

using starter::Do;
using starter::Duration;

namespace {

class Dice {
 public:
  explicit Dice(unsigned seed) : engine_(seed) {}
  /// 0 to `below` − 1. The engine's numbers are the same everywhere; a distribution's are not.
  int roll(int below) { return static_cast<int>(engine_() % static_cast<unsigned>(below)); }
  bool one_in(int n) { return roll(n) == 0; }
  const std::string& of(const std::vector<std::string>& words) {
    return words[at(roll(static_cast<int>(words.size())))];
  }

 private:
  std::mt19937 engine_;
};

starter::Plan random_plan(Dice& dice) {
  static const std::vector<std::string> items = {"pack",        "the pack", "foil", "stir bar",
                                                 "thermometer", "flask",    ""};
  static const std::vector<std::string> vessels = {"flask", "pot", "jug", "carboy", "tub"};
  std::vector<std::string> verbs;
  for (const auto& row : starter::spellings<Do>()) verbs.emplace_back(row.text);
  verbs.emplace_back("frobnicate");
  const int stages = 1 + dice.roll(3);
  const int count = 1 + dice.roll(16);
  auto name = [&] {
    return dice.one_in(3) ? dice.of(verbs) : "s" + std::to_string(dice.roll(count + 1));
  };
  nlohmann::json steps = nlohmann::json::array();
  for (int i = 0; i < count; ++i) {
    nlohmann::json step = {{"do", dice.of(verbs)}, {"id", "s" + std::to_string(i)}};
    if (dice.one_in(2)) step["stage"] = 1 + dice.roll(stages);
    if (dice.one_in(3)) {
      step["after"] = nlohmann::json::array();
      for (int n = dice.roll(4); n > 0; --n) step["after"].push_back(name());
    }
    if (dice.one_in(5)) step["during"] = name();
    for (const char* field : {"with", "items"})
      if (dice.one_in(4)) {
        const std::string item = dice.of(items);
        step[field] = item.empty() ? nlohmann::json::array() : nlohmann::json::array({item});
      }
    if (dice.one_in(4)) step["in"] = dice.of(vessels);
    if (step["do"] == "move" && dice.one_in(2)) step["to"] = dice.of(vessels);
    if (step["do"] == "pitch" && dice.one_in(2)) step["from"] = dice.of(vessels);
    steps.push_back(step);
  }
  return plan_with_steps(steps, stages);
}

bool has_no_repeats(std::vector<int> steps) {
  std::sort(steps.begin(), steps.end());
  return std::adjacent_find(steps.begin(), steps.end()) == steps.end();
}

/// The place of a step in the order of the process.
std::ptrdiff_t place(const starter::Process& process, int step) {
  return std::find(process.order.begin(), process.order.end(), step) - process.order.begin();
}

/// Delaying a critical step delays the yeast by as much; delaying another a little does not.
void check_critical(const starter::Plan& plan, const starter::Process& process,
                    const starter::StepDurations& d) {
  auto handed_over = [](const starter::Step& step) {
    return step.does == Do::pitch_to_beer || step.does == Do::krausen_pitch;
  };
  const bool any = std::any_of(plan.steps.begin(), plan.steps.end(), handed_over);
  auto ready = [&](const starter::StepDurations& durations) {
    const auto made = starter::schedule(plan, process, durations);
    double end = 0;
    for (std::size_t i = 0; i < plan.steps.size(); ++i)
      if (!any || handed_over(plan.steps[i])) end = std::max(end, made.times[i].end.hours());
    return end;
  };
  const double before = ready(d);
  const auto critical = starter::schedule(plan, process, d).critical;
  for (std::size_t i = 0; i < plan.steps.size(); ++i) {
    starter::StepDurations late = d;
    late.lasts[i] += critical[i] ? Duration::hours(1) : Duration::seconds(0.5);
    BOOST_TEST_INFO("step " << i);
    BOOST_CHECK_SMALL(ready(late) - before - (critical[i] ? 1 : 0), 1e-9);
  }
}

}  // namespace

BOOST_AUTO_TEST_CASE(two_thousand_random_plans) {
  Dice dice(20270316);
  int with_loops = 0, with_touches = 0, with_slack = 0;
  for (int round = 0; round < 2000; ++round) {
    starter::Plan plan = random_plan(dice);
    const auto process = starter::unfold(plan);
    BOOST_TEST_CONTEXT("plan " << round) {
      BOOST_REQUIRE(is_sound(plan, process));
      for (const auto& ring : process.loops) BOOST_REQUIRE(has_no_repeats(ring));
      for (const auto& touch : process.touches) {
        BOOST_REQUIRE(plan.steps[at(touch.step)].does.has_value());
        if (touch.cleaned_by) BOOST_REQUIRE(process.precedes(*touch.cleaned_by, touch.step));
        if (touch.cleaned_late) BOOST_REQUIRE(!process.precedes(*touch.cleaned_late, touch.step));
        if (touch.last_touch)
          BOOST_REQUIRE(place(process, *touch.last_touch) <= place(process, touch.step));
      }
      for (const auto& missing : process.missing) {
        BOOST_REQUIRE(missing.before >= 0);
        BOOST_REQUIRE(at(missing.before) <= plan.steps.size());
        if (missing.what != Do::pitch_to_beer)
          BOOST_REQUIRE(starter::steps_of(plan, missing.what, missing.stage).empty());
      }
      // A `then` of a reversal has no `first` before it, and the other way round none is told.
      for (const auto& order : starter::trade_orders())
        for (const auto& r :
             starter::reversals(plan, process, order.first, order.then, std::nullopt, {})) {
          BOOST_REQUIRE(process.precedes(r.then, r.first));
          BOOST_REQUIRE(!process.precedes(r.first, r.then));
        }

      starter::StepDurations d;
      for (std::size_t i = 0; i < plan.steps.size(); ++i) {
        d.lasts.push_back(Duration::minutes(dice.roll(600)));
        d.then_waits.push_back(Duration::minutes(dice.one_in(5) ? dice.roll(600) : 0));
      }
      check_critical(plan, process, d);
      plan.start = starter::read_time("2027-03-01T08:00")->at;
      if (dice.one_in(2))
        plan.beer.brew_day = *plan.start + Duration::minutes(dice.roll(60 * 24 * 20));
      const auto made = starter::schedule(plan, process, d);
      with_slack += made.slack && made.slack->hours() > 0 ? 1 : 0;
      for (const auto& arrow : process.dependencies)
        BOOST_REQUIRE(made.times[at(arrow.to)].start.hours() >=
                      (made.times[at(arrow.from)].end + d.then_waits[at(arrow.from)]).hours() -
                          1e-9);
      for (const auto& time : made.times) {
        BOOST_REQUIRE(time.start.hours() >= 0.0);
        BOOST_REQUIRE(time.end >= time.start);
      }
    }
    with_loops += process.loops.empty() ? 0 : 1;
    with_touches += process.touches.empty() ? 0 : 1;
  }
  // The random plans are worth trying: many have each of these.
  BOOST_TEST(with_loops > 200);
  BOOST_TEST(with_loops < 1800);
  BOOST_TEST(with_touches > 200);
  BOOST_TEST(with_slack > 200);
}
