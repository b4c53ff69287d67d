// The catalogue as a whole, and the one door to the engine.

#include "rules/judge.h"

#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <chrono>
#include <set>

#include "rules/case_files.h"
#include "rules/catalogue.h"
#include "rules/rule_file.h"

using namespace starter;
using nlohmann::ordered_json;

BOOST_AUTO_TEST_SUITE(judging)

namespace {

ordered_json very_faulty() {
  ordered_json plan = sound_example();
  plan["place"]["tap_water"] = "27 °C";
  plan["yeast"]["packaged"] = "2026-11-20";
  plan["yeast"]["out_of_fridge"] = "0 min";
  plan["beer"]["kind"] = "lager";
  plan["beer"]["brew_day"] = "2027-03-17T01:00";
  plan["stages"][0]["extract"]["mass"] = "180 g";
  plan["stages"][0]["duration"] = "8 h";
  plan["vessels"]["flask"]["capacity"] = "1.4 L";
  ordered_json& steps = plan["steps"];
  steps[4].erase("ice");
  steps[5]["items"] = {"pack"};
  steps[9]["for"] = "6 h";
  std::swap(steps[10], steps[12]);
  return plan;
}

bool same_fix(const std::optional<Fix>& a, const std::optional<Fix>& b) {
  if (!a || !b) return !a && !b;
  return a->says == b->says && a->patch == b->patch;
}

}  // namespace

BOOST_AUTO_TEST_CASE(rules_are_sorted_and_unique) {
  const auto rules = catalogue();
  BOOST_REQUIRE(!rules.empty());
  for (std::size_t i = 1; i < rules.size(); ++i)
    BOOST_TEST((rules[i - 1].id < rules[i].id), rules[i].id);
  for (const Rule& rule : rules) {
    BOOST_TEST(find_rule(rule.id) == &rule);
    for (const std::string& other : rule.yields_to) {
      BOOST_TEST(find_rule(other), rule.id << " yields to " << other);
      BOOST_TEST(other != rule.id);
    }
    for (const std::string& caution : rule.cautions)
      BOOST_TEST(find_caution(caution), rule.id << " warns of " << caution);
  }
  BOOST_TEST(!find_rule("no-such-rule"));
  BOOST_TEST(!find_caution("no-such-caution"));
}

BOOST_AUTO_TEST_CASE(the_rules_that_others_count_on_are_there) {
  for (const char* id : {"extract-ratio",
                         "wort-gravity",
                         "extract-kind",
                         "volume-balance",
                         "boil-time",
                         "boil-off",
                         "boil-vessel",
                         "boil-headroom",
                         "growth-headroom",
                         "bumping",
                         "sealed-vessel",
                         "stored-wort",
                         "glass-shock",
                         "chill-target",
                         "chill-reach",
                         "chill-time",
                         "ice-late",
                         "bath-fits",
                         "temperature-checked",
                         "hot-pitch",
                         "pack-temperature",
                         "pack-age",
                         "viability",
                         "weak-pack-first-step",
                         "dry-yeast-grown",
                         "cells-enough",
                         "cells-too-many",
                         "inoculation",
                         "stage-step",
                         "growth-time",
                         "growth-temperature",
                         "agitation-stated",
                         "air-access",
                         "clean-contact",
                         "chill-before-pitch",
                         "boil-before-chill",
                         "decant-before-pitch",
                         "crash-before-decant",
                         "crash-time",
                         "decant-worthwhile",
                         "slurry-temperature",
                         "slurry-age",
                         "warm-last",
                         "ready-by-brew-day",
                         "step-missing",
                         "step-loop",
                         "step-unknown",
                         "measured-gravity",
                         "measured-count"})
    BOOST_TEST(find_rule(id), id);
}

BOOST_AUTO_TEST_CASE(no_ring_of_rules_yields_to_itself) {
  for (const Rule& rule : catalogue()) {
    std::set<std::string> seen;
    std::vector<std::string> next = rule.yields_to;
    while (!next.empty()) {
      const std::string id = next.back();
      next.pop_back();
      BOOST_TEST(id != rule.id);
      if (!seen.insert(id).second) continue;
      const auto& more = find_rule(id)->yields_to;
      next.insert(next.end(), more.begin(), more.end());
    }
  }
}

BOOST_AUTO_TEST_CASE(the_sound_example_has_nothing_above_a_note) {
  for (const UnitSystem units : {UnitSystem::metric, UnitSystem::us}) {
    JudgeOptions options;
    options.units = units;
    const Judgement j = judge(plan_from(sound_example()), catalogue(), options);
    for (const Finding& f : j.findings)
      BOOST_TEST((f.severity == Severity::note), f.rule->id << ": " << f.says);
    BOOST_TEST((worst(j.findings) == Severity::note));
  }
}

BOOST_AUTO_TEST_CASE(nor_high_in_the_mountains_nor_by_the_sea) {
  for (const char* altitude : {"0 m", "1500 m", "2500 m", "4000 m"}) {
    ordered_json plan = sound_example();
    plan["place"]["altitude"] = altitude;
    const Judgement j = judge(plan_from(plan), catalogue());
    for (const Finding& f : j.findings)
      BOOST_TEST((f.severity == Severity::note), altitude << ": " << f.says);
  }
}

BOOST_AUTO_TEST_CASE(worst_of_none_is_nothing) {
  BOOST_TEST(!worst({}));
}

BOOST_AUTO_TEST_CASE(judging_twice_gives_the_same) {
  for (const ordered_json& plan : {sound_example(), very_faulty()}) {
    const Judgement a = judge(plan_from(plan), catalogue());
    const Judgement b = judge(plan_from(plan), catalogue());
    BOOST_REQUIRE(a.findings.size() == b.findings.size());
    for (std::size_t i = 0; i < a.findings.size(); ++i) {
      const Finding &x = a.findings[i], &y = b.findings[i];
      BOOST_TEST(x.rule == y.rule);
      BOOST_TEST((x.severity == y.severity && x.certainty == y.certainty));
      BOOST_TEST(x.where == y.where);
      BOOST_TEST(x.says == y.says);
      BOOST_TEST(x.margin == y.margin);
      BOOST_TEST(same_fix(x.fix, y.fix));
    }
    BOOST_REQUIRE(a.measures.size() == b.measures.size());
    for (std::size_t i = 0; i < a.measures.size(); ++i) {
      BOOST_TEST(a.measures[i].value == b.measures[i].value);
      BOOST_TEST(a.measures[i].low == b.measures[i].low);
      BOOST_TEST(a.measures[i].high == b.measures[i].high);
    }
  }
}

BOOST_AUTO_TEST_CASE(units_change_words_only) {
  JudgeOptions options;
  options.units = UnitSystem::us;
  const Judgement a = judge(plan_from(very_faulty()), catalogue());
  const Judgement b = judge(plan_from(very_faulty()), catalogue(), options);
  BOOST_REQUIRE(a.findings.size() == b.findings.size());
  for (std::size_t i = 0; i < a.findings.size(); ++i) {
    BOOST_TEST(a.findings[i].rule == b.findings[i].rule);
    BOOST_TEST((a.findings[i].severity == b.findings[i].severity));
    BOOST_REQUIRE(a.findings[i].numbers.size() == b.findings[i].numbers.size());
    for (std::size_t k = 0; k < a.findings[i].numbers.size(); ++k)
      BOOST_TEST(a.findings[i].numbers[k].value == b.findings[i].numbers[k].value);
    if (a.findings[i].fix) BOOST_TEST((a.findings[i].fix->patch == b.findings[i].fix->patch));
  }
}

BOOST_AUTO_TEST_CASE(worst_first_then_by_step) {
  for (const JudgedCase& one : judged_cases()) {
    const auto& findings = one.judgement.findings;
    for (std::size_t i = 1; i < findings.size(); ++i) {
      BOOST_TEST((findings[i - 1].severity >= findings[i].severity), one.of.name());
      if (findings[i - 1].severity == findings[i].severity && findings[i - 1].step >= 0 &&
          findings[i].step >= 0)
        BOOST_TEST(findings[i - 1].step <= findings[i].step, one.of.name());
    }
    if (!findings.empty()) BOOST_TEST((worst(findings) == findings.front().severity));
  }
}

BOOST_AUTO_TEST_CASE(a_very_faulty_plan_is_told_in_order_of_its_steps) {
  const Judgement j = judge(plan_from(very_faulty()), catalogue());
  std::set<std::string> ids;
  for (const Finding& f : j.findings) ids.insert(f.rule->id);
  for (const char* id :
       {"extract-ratio", "boil-headroom", "growth-headroom", "chill-reach", "clean-contact",
        "growth-time", "crash-time", "ready-by-brew-day", "decant-before-pitch", "viability"})
    BOOST_TEST(ids.count(id) == 1U, id);
  // Cells are few because they have no time to grow: that is told, once.
  BOOST_TEST(ids.count("cells-enough") == 0U);
  auto place = [&](const char* id) {
    return std::find_if(j.findings.begin(), j.findings.end(),
                        [&](const Finding& f) { return f.rule->id == id; }) -
           j.findings.begin();
  };
  BOOST_TEST(place("boil-headroom") == 0);  // a danger
  BOOST_TEST(place("extract-ratio") < place("chill-reach"));
  BOOST_TEST(place("chill-reach") < place("clean-contact"));
  BOOST_TEST(place("clean-contact") < place("decant-before-pitch"));
}

BOOST_AUTO_TEST_CASE(what_only_an_end_of_the_range_brings_is_not_told_as_a_fact) {
  int possible = 0;
  for (const Finding& f : judge(plan_from(very_faulty()), catalogue()).findings) {
    possible += f.certainty == Certainty::possible;
    BOOST_TEST(f.says.starts_with("Possibly") == (f.certainty == Certainty::possible), f.says);
  }
  BOOST_TEST(possible > 0);
}

BOOST_AUTO_TEST_CASE(a_value_within_its_bounds_is_not_told_as_outside) {
  int possible = 0, certain = 0;
  for (const char* mass : {"127.5 g", "170 g"}) {
    ordered_json written = sound_example();
    written["stages"][0]["extract"]["mass"] = mass;
    const Plan plan = plan_from(written);
    for (const Finding& f : judge(plan, catalogue()).findings) {
      if (f.rule->id != "extract-ratio") continue;
      const bool maybe = f.certainty == Certainty::possible;
      (maybe ? possible : certain) += 1;
      BOOST_TEST((f.says.find("That is rich") == std::string::npos) == maybe, f.says);
      BOOST_TEST(
          f.says.starts_with("Possibly outside, at an end of its range: Your extract") == maybe,
          f.says);
      BOOST_TEST(f.says.find("comfortable: ") != std::string::npos, f.says);
    }
  }
  BOOST_TEST(possible == 1);
  BOOST_TEST(certain == 1);
}

BOOST_AUTO_TEST_CASE(quick_verdicts_agree_with_judging) {
  const Plan plan = plan_from(very_faulty());
  const Judgement j = judge(plan, catalogue());
  const auto quick = quick_verdicts(plan, catalogue());
  for (const Finding& f : j.findings) {
    if (f.certainty == Certainty::possible) continue;
    BOOST_TEST(std::any_of(quick.begin(), quick.end(),
                           [&](const Verdict& v) {
                             return v.rule == f.rule && v.stage == f.stage &&
                                    v.severity == f.severity && v.where == f.where;
                           }),
               f.rule->id);
  }
}

BOOST_AUTO_TEST_CASE(a_member_does_not_wait) {
  // Well under a tenth of a second as released; sanitizers and debug builds are slower.
  const Plan plan = plan_from(very_faulty());
  const auto begin = std::chrono::steady_clock::now();
  const Judgement j = judge(plan, catalogue());
  const auto took = std::chrono::duration_cast<std::chrono::milliseconds>(
      std::chrono::steady_clock::now() - begin);
  BOOST_TEST_MESSAGE(j.findings.size() << " findings in " << took.count() << " ms");
#ifdef NDEBUG
  BOOST_TEST(took.count() < 500);
#else
  BOOST_TEST(took.count() < 5000);
#endif
}

BOOST_AUTO_TEST_SUITE_END()
