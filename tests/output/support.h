#pragma once

// A plan read from text and judged, for tests of what is told of it.

#include <boost/test/unit_test.hpp>
#include <fstream>
#include <sstream>
#include <string>

#include "plan/read.h"
#include "rules/catalogue.h"
#include "rules/judge.h"

inline starter::Plan plan_from(const std::string& bytes) {
  auto result = starter::read_plan(bytes);
  BOOST_REQUIRE(std::holds_alternative<starter::Plan>(result));
  return std::get<starter::Plan>(std::move(result));
}

inline std::string corpus(const std::string& name) {
  std::ifstream file(STARTER_PLAN_SOURCE_DIR "/tests/plans/" + name + ".plan.json");
  std::ostringstream all;
  all << file.rdbuf();
  return all.str();
}

inline starter::Judgement judged(const std::string& name) {
  return starter::judge(plan_from(corpus(name)), starter::catalogue());
}

inline bool holds(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}
