#pragma once

// The cases of the rules: for each rule one file in cases/, beside each other.
//
//   {"rule": ID, "breaks": [CASE...], "keeps": [CASE...], "not_steered": {BOUND: WHY}}
//   CASE: "why" in words; "patch" on the sound example (RFC 6902), or "plan", a whole one, or
//         "measures", numbers put in place of the plan's;
//         "where" the finding points; "bound" and "side" for a number close to a bound;
//         for breaks "severity", and where they matter "certainty" and parts of what it "says" and
//         of how the "fix" says it.
//   A case of keeps has no finding of the rule but one that is only possible.

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "rules/judge.h"

struct RuleCase {
  std::string rule;
  bool breaks = false;
  nlohmann::json made;          ///< the case as it stands in the file
  nlohmann::ordered_json plan;  ///< the plan it makes; null for one of measures

  std::string name() const { return rule + ": " + made.at("why").get<std::string>(); }
  std::string text(const char* field) const { return made.value(field, std::string()); }
};

/// A case with what the engine says of it, in metric units.
struct JudgedCase {
  RuleCase of;
  starter::Judgement judgement;

  /// The rule's finding where the case says; nullptr when there is none that is more than possible,
  /// or for a case that expects a possible one, none at all.
  const starter::Finding* finding() const;
};

std::string file_text(const std::string& path_in_source);
nlohmann::ordered_json sound_example();

/// A plan that must be usable.
starter::Plan plan_from(const nlohmann::ordered_json& document);

nlohmann::json case_file(const std::string& rule);
const std::vector<RuleCase>& all_cases();
/// All cases that make a plan; judged once for all tests.
const std::vector<JudgedCase>& judged_cases();
