// What is not certain names the field that would make it surer, and filling that field in does.

#include "rules/narrow.h"

#include <boost/test/unit_test.hpp>
#include <filesystem>
#include <fstream>

#include "../measures/many_plans.h"
#include "rules/catalogue.h"
#include "rules/judge.h"

using namespace starter;
using Json = nlohmann::json;

namespace {

/// Plans of the corpus, and many that bring out every measure and fact, each also weakened in ways
/// that move numbers near their bounds.
std::vector<std::pair<std::string, Json>> plans() {
  auto all = many_plans();
  const std::filesystem::path root(STARTER_PLAN_SOURCE_DIR);
  for (const char* folder : {"tests/plans/good", "tests/plans/faulty", "lessons/plans"})
    for (const auto& file : std::filesystem::directory_iterator(root / folder)) {
      if (file.path().stem().extension() != ".plan") continue;  // a practice file
      std::ifstream in(file.path());
      const Json plan = Json::parse(in, nullptr, false);
      if (plan.is_object()) all.emplace_back(file.path().filename().string(), plan);
    }
  const std::size_t known = all.size();
  for (std::size_t i = 0; i < known; i += 5)
    for (const char* mass : {"75 g", "131 g"}) {
      Json plan = all[i].second;
      for (auto& stage : plan["stages"])
        if (stage["extract"].contains("mass")) stage["extract"]["mass"] = mass;
      all.emplace_back(all[i].first + " with " + mass, plan);
    }
  return all;
}

double width(const std::vector<Measure>& measures, const Finding& f) {
  double sum = 0;
  const std::size_t counted = f.rule->kind == RuleKind::consistent ? 2 : 1;
  for (std::size_t i = 0; i < counted; ++i)
    if (const Measure* m = find_measure(measures, f.numbers.at(i).name, f.numbers.at(i).stage))
      sum += m->high - m->low;
  return sum;
}

bool about_a_number(const Finding& f) {
  return f.rule->kind == RuleKind::range || f.rule->kind == RuleKind::consistent;
}

/// Whether nothing but the weather moves the number: no field of a plan holds it.
bool only_the_weather(const Finding& f) {
  return about_a_number(f) && f.numbers.front().movers == std::vector<Unknown>{Unknown::weather};
}

Json filled_in(const Json& plan, const Finding& f) {
  return plan.patch(Json::parse(f.narrow_patch));
}

}  // namespace

BOOST_AUTO_TEST_SUITE(narrow)

BOOST_AUTO_TEST_CASE(what_is_uncertain_says_what_would_narrow_it_and_it_does) {
  int told = 0;
  std::set<std::string> fields;
  for (const auto& [name, document] : plans()) BOOST_TEST_CONTEXT(name) {
      JudgeOptions quick;
      quick.fixes = false;
      const Judgement j = judge(plan_of(document), catalogue(), quick);
      for (const Finding& f : j.findings) BOOST_TEST_CONTEXT(f.rule->id << " at " << f.where) {
          BOOST_TEST((f.certainty == Certainty::certain) == f.narrow.empty());
          if (f.certainty == Certainty::certain || only_the_weather(f)) continue;
          BOOST_TEST(!f.narrow_where.empty(), f.narrow);
          if (f.narrow_where.empty()) continue;
          ++told;
          fields.insert(f.narrow_where.substr(f.narrow_where.rfind('/') + 1));
          const Judgement now = judge(plan_of(filled_in(document, f)), catalogue(), quick);
          if (about_a_number(f)) {
            BOOST_TEST(width(now.measures, f) < width(j.measures, f));
            continue;
          }
          for (const Finding& after : now.findings)
            if (after.rule->id == f.rule->id && after.where == f.where && after.item == f.item)
              BOOST_TEST(
                  (after.certainty == Certainty::certain || f.rule->id == "weak-pack-first-step"));
        }
    }
  BOOST_TEST(told > 100);
  for (const char* field : {"viability", "measured_cells", "boil_off", "growth_time",
                            "settling_time", "chill_time", "cells_kept", "cells"})
    BOOST_TEST(fields.count(field) == 1u, field);
}

BOOST_AUTO_TEST_CASE(the_field_that_narrows_most_is_named) {
  // Of an old pack it is the living share that nobody knows, and of a counted one its size.
  const auto narrowed = [](const Json& plan, const char* rule) {
    for (const Finding& f : judge(plan_of(plan), catalogue()).findings)
      if (f.rule->id == rule && f.certainty != Certainty::certain) return f.narrow_where;
    return std::string("nothing uncertain");
  };
  Json plan = harvest_amber_json();
  plan["yeast"]["packaged"] = "2027-01-01";
  BOOST_TEST(narrowed(plan, "viability") == "/yeast/viability");
  plan["yeast"]["viability"] = "61 %";
  BOOST_TEST(narrowed(plan, "viability") == "/yeast/cells_counted");
}

BOOST_AUTO_TEST_CASE(a_reading_stands_in_for_what_is_worked_out) {
  const auto measures_with = [](const std::string& patch) {
    const Plan plan = harvest_amber(patch);
    return measure(plan, unfold(plan));
  };
  const auto value = [](const std::vector<Measure>& all, const char* name, int stage) {
    const Measure* m = find_measure(all, name, stage);
    BOOST_REQUIRE(m != nullptr);
    return *m;
  };
  const auto read = measures_with(R"([
    {"op": "add", "path": "/stages/0/measured", "value": {"chill_time": "25 min",
      "growth_time": "20 h", "settling_time": "30 h", "cells_kept": "150 billion"}},
    {"op": "add", "path": "/yeast/measured_cells", "value": "90 billion"},
    {"op": "add", "path": "/yeast/viability", "value": "80 %"},
    {"op": "add", "path": "/yeast/cells_counted", "value": 400}])");
  BOOST_TEST(value(read, "chill_time", 0).value == 25);
  BOOST_TEST(value(read, "chill_time", 0).certain());
  BOOST_TEST(value(read, "growth_time_needed", 0).value == 20);
  BOOST_TEST(value(read, "growth_time_needed", 0).certain());
  BOOST_TEST(value(read, "cells_available", -1).value == 72);
  // The count's own error, two of 1/√400 and of √(0.8 × 0.2/400), as a root of the sum of squares.
  const double of_count = 72 * 2 / std::sqrt(400.0), of_share = 90 * 2 * std::sqrt(0.16 / 400);
  BOOST_TEST(value(read, "cells_available", -1).high == 72 + std::hypot(of_count, of_share),
             boost::test_tools::tolerance(1e-5));
  const Measure rest = value(read, "crash_time", -1), needed = value(read, "crash_time_needed", -1);
  // Cooling takes the same hours of both.
  const double planned = 36;
  BOOST_TEST(planned - rest.value == 30 - needed.value, boost::test_tools::tolerance(1e-4));
}

BOOST_AUTO_TEST_SUITE_END()
