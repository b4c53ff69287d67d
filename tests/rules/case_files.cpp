#include "rules/case_files.h"

#include <boost/test/unit_test.hpp>
#include <fstream>
#include <iterator>

#include "rules/catalogue.h"

using namespace starter;
using nlohmann::ordered_json;

std::string file_text(const std::string& path_in_source) {
  std::ifstream file(std::string(STARTER_PLAN_SOURCE_DIR) + "/" + path_in_source, std::ios::binary);
  BOOST_REQUIRE_MESSAGE(file.good(), "cannot open " << path_in_source);
  return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

ordered_json sound_example() {
  static const ordered_json example =
      ordered_json::parse(file_text("tests/plans/harvest-amber.plan.json"));
  return example;
}

Plan plan_from(const ordered_json& document) {
  PlanResult result = read_plan(document.dump());
  if (const auto* errors = std::get_if<std::vector<PlanError>>(&result))
    for (const PlanError& error : *errors) BOOST_ERROR(error.where << ": " << error.says);
  BOOST_REQUIRE_MESSAGE(std::holds_alternative<Plan>(result), "the plan cannot be used");
  return std::get<Plan>(std::move(result));
}

nlohmann::json case_file(const std::string& rule) {
  return nlohmann::json::parse(file_text("tests/rules/cases/" + rule + ".json"));
}

const std::vector<RuleCase>& all_cases() {
  static const std::vector<RuleCase> cases = [] {
    std::vector<RuleCase> made;
    for (const Rule& rule : catalogue()) {
      const nlohmann::json file = case_file(rule.id);
      for (const bool breaks : {true, false})
        for (const auto& one : file.at(breaks ? "breaks" : "keeps")) {
          RuleCase next{rule.id, breaks, one, nullptr};
          if (one.contains("plan")) next.plan = ordered_json::parse(one.at("plan").dump());
          if (one.contains("patch"))
            next.plan = sound_example().patch(ordered_json::parse(one.at("patch").dump()));
          made.push_back(std::move(next));
        }
    }
    return made;
  }();
  return cases;
}

const std::vector<JudgedCase>& judged_cases() {
  static const std::vector<JudgedCase> judged = [] {
    std::vector<JudgedCase> made;
    for (const RuleCase& one : all_cases()) {
      if (one.plan.is_null()) continue;
      BOOST_TEST_CONTEXT(one.name())
      made.push_back({one, judge(plan_from(one.plan), catalogue())});
    }
    return made;
  }();
  return judged;
}

const Finding* JudgedCase::finding() const {
  const std::string where = of.text("where");
  const bool possible = of.text("certainty") == "possible";
  for (const Finding& f : judgement.findings)
    if (f.rule->id == of.rule && (where.empty() || f.where == where) &&
        (possible || f.certainty != Certainty::possible))
      return &f;
  return nullptr;
}
