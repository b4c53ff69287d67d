#pragma once

// Plans for the tests, read by the same door as a member's.

#include <boost/test/unit_test.hpp>
#include <fstream>
#include <iterator>
#include <nlohmann/json.hpp>
#include <string>
#include <variant>
#include <vector>

#include "plan/read.h"

/// The plan in this text; where it cannot be used, the test fails with what the reader says.
inline starter::Plan plan_of(const std::string& text) {
  auto result = starter::read_plan(text);
  if (const auto* errors = std::get_if<std::vector<starter::PlanError>>(&result))
    for (const auto& error : *errors)
      BOOST_ERROR(error.where << " line " << error.line << ": " << error.says);
  BOOST_REQUIRE(std::holds_alternative<starter::Plan>(result));
  return std::get<starter::Plan>(std::move(result));
}

inline starter::Plan plan_of(const nlohmann::json& document) {
  return plan_of(document.dump());
}

/// The shipped example as JSON, changed by an RFC 6902 patch.
inline nlohmann::json harvest_amber_json(const std::string& patch = "[]") {
  std::ifstream file(std::string(STARTER_PLAN_SOURCE_DIR) + "/tests/plans/harvest-amber.plan.json");
  BOOST_REQUIRE(file.good());
  const std::string text{std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
  return nlohmann::json::parse(text).patch(nlohmann::json::parse(patch));
}

/// The shipped example, changed by an RFC 6902 patch. Its steps: 0 weigh, 1 dissolve, 2 boil,
/// 3 cover, 4 chill, 5 sanitise, 6 check temperature, 7 pitch, 8 agitate, 9 crash, 10 decant,
/// 11 warm, 12 pitch to beer.
inline starter::Plan harvest_amber(const std::string& patch = "[]") {
  return plan_of(harvest_amber_json(patch));
}

/// A plan with these steps, a JSON list, and one or more stages that grow in "flask" on a stir
/// plate. Also declared: "pot", "jug", "carboy" and "tub".
inline starter::Plan plan_with_steps(const nlohmann::json& steps, int stages = 1) {
  nlohmann::json plan = nlohmann::json::parse(R"({
    "plan": 1,
    "beer": {"volume": "20 L", "gravity": "1.050 SG"},
    "yeast": {"form": "liquid"},
    "vessels": {
      "flask": {"kind": "conical flask", "capacity": "2 L"},
      "pot": {"kind": "pot", "capacity": "5 L"},
      "jug": {"kind": "jug", "capacity": "3 L"},
      "carboy": {"kind": "bottle", "capacity": "5 L"},
      "tub": {"kind": "tub", "capacity": "18 L"}
    },
    "stages": []
  })");
  for (int i = 0; i < stages; ++i)
    plan["stages"].push_back(nlohmann::json::parse(R"({
      "extract": {"kind": "light dry malt", "mass": "110 g"}, "water": "1.15 L",
      "vessel": "flask", "agitation": "stir plate", "duration": "36 h"
    })"));
  plan["steps"] = steps;
  return plan_of(plan);
}

inline starter::Plan plan_with_steps(const char* steps, int stages = 1) {
  return plan_with_steps(nlohmann::json::parse(steps), stages);
}
