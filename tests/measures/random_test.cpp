// Any plan at any draw gives numbers, tried on many random ones with a fixed generator.

#include <boost/test/unit_test.hpp>
#include <cmath>
#include <random>

#include "many_plans.h"

using starter::Draw;
using starter::Unknown;

namespace {

class Dice {
 public:
  explicit Dice(unsigned seed) : engine_(seed) {}
  int roll(int below) { return static_cast<int>(engine_() % static_cast<unsigned>(below)); }
  double between(double low, double high) { return low + (high - low) * roll(1000001) / 1e6; }
  /// Spread evenly over the orders of magnitude.
  double across(double low, double high) {
    return std::exp(between(std::log(low), std::log(high)));
  }
  std::string quantity(double low, double high, const char* unit) {
    return std::to_string(between(low, high)) + " " + unit;
  }
  std::string sized(double low, double high, const char* unit) {
    return std::to_string(across(low, high)) + " " + unit;
  }

 private:
  std::mt19937 engine_;
};

void change(nlohmann::json& plan, Dice& dice) {
  auto& place = plan["place"];
  place["altitude"] = dice.quantity(-300, 8000, "m");
  place["tap_water"] = dice.quantity(0, 60, "°C");
  place["room"] = dice.quantity(-5, 45, "°C");
  place["fridge"] = dice.quantity(-5, 20, "°C");
  plan["beer"]["volume"] = dice.sized(0.5, 2000, "L");
  plan["beer"]["ferment_at"] = dice.quantity(0, 35, "°C");
  for (auto& [name, vessel] : plan["vessels"].items()) {
    vessel["capacity"] = dice.sized(0.05, 200, "L");
    if (dice.roll(3) == 0) vessel["diameter"] = dice.sized(1, 100, "cm");
    if (dice.roll(3) == 0) vessel["depth"] = dice.sized(1, 100, "cm");
    if (dice.roll(3) == 0) vessel["empty_mass"] = dice.sized(1, 5000, "g");
  }
  for (auto& stage : plan["stages"]) {
    if (stage["extract"].contains("mass")) stage["extract"]["mass"] = dice.sized(0.1, 20000, "g");
    stage["water"] = dice.sized(0.01, 100, "L");
    stage["temperature"] = dice.quantity(-5, 60, "°C");
    stage["duration"] = dice.sized(0.05, 500, "h");
    if (dice.roll(4) == 0) stage["boil_off"] = dice.quantity(0, 3, "L");
  }
  if (!plan.contains("steps")) return;
  auto& steps = plan["steps"];
  for (auto& step : steps) {
    if (step["do"] == "chill") {
      if (dice.roll(2) == 0) step["bath"] = dice.sized(0.01, 100, "L");
      if (dice.roll(2) == 0) step["ice"] = dice.sized(1, 20000, "g");
      if (dice.roll(2) == 0) step["to"] = dice.quantity(-5, 110, "°C");
      if (dice.roll(2) == 0) step["water"] = dice.quantity(0, 99, "°C");
    }
    if (step["do"] == "warm") step["to"] = dice.quantity(-5, 60, "°C");
    if (step["do"] == "crash") step["at"] = dice.quantity(-5, 30, "°C");
    if (step["do"] == "boil") step["for"] = dice.quantity(0, 200, "min");
  }
  // Some steps go, some change places.
  for (int n = dice.roll(3); n > 0 && steps.size() > 2; --n)
    steps.erase(static_cast<std::size_t>(dice.roll(static_cast<int>(steps.size()))));
  for (int n = dice.roll(3); n > 0; --n) {
    const int count = static_cast<int>(steps.size());
    std::swap(steps[static_cast<std::size_t>(dice.roll(count))],
              steps[static_cast<std::size_t>(dice.roll(count))]);
  }
}

}  // namespace

BOOST_AUTO_TEST_CASE(five_hundred_random_plans_at_random_draws) {
  const auto plans = many_plans();
  Dice dice(20270320);
  int numbers = 0;
  for (int round = 0; round < 500; ++round) {
    const auto& [name, document] =
        plans[static_cast<std::size_t>(dice.roll(static_cast<int>(plans.size())))];
    nlohmann::json changed = document;
    change(changed, dice);
    Draw draw;
    for (std::size_t u = 0; u < starter::unknown_count; ++u)
      draw.set(static_cast<Unknown>(u),
               dice.roll(4) == 0 ? 2.0 * dice.roll(2) - 1 : dice.between(-1, 1));
    BOOST_TEST_CONTEXT("plan " << round << ", from " << name) {
      const Likely one(plan_of(changed), draw);
      const starter::Case c{one.plan, one.process, one.workings};
      for (int stage = 0; stage < static_cast<int>(one.plan.stages.size()); ++stage)
        for (const auto& kind : starter::measure_kinds()) {
          const auto value = kind.value(c, stage);
          if (!value) continue;
          ++numbers;
          BOOST_TEST_INFO(kind.name);
          BOOST_REQUIRE(std::isfinite(*value));
          BOOST_TEST_INFO(kind.name);
          BOOST_REQUIRE(kind.how(c, stage).find("nan") == std::string::npos);
        }
    }
  }
  BOOST_TEST(numbers > 15000);
}
