// Rules against made-up numbers: bounds to the last bit, certainty, conditions, yielding.

#include "rules/evaluate.h"

#include <boost/test/unit_test.hpp>
#include <cmath>

#include "rules/case_files.h"
#include "rules/catalogue.h"

using namespace starter;

BOOST_AUTO_TEST_SUITE(evaluation)

namespace {

/// The sound example, on which numbers and facts are laid.
struct Bench {
  Plan plan = plan_from(sound_example());
  Process process = unfold(plan);
  Workings workings = work_out(plan, process, Draw{});
  std::vector<Measure> measures;
  std::vector<Fact> facts;

  void lay(const std::string& name, double value, double low, double high, int stage) {
    Measure m;
    m.name = name;
    m.unit = find_measure_kind(name)->unit;
    m.stage = stage;
    m.value = value;
    m.low = low;
    m.high = high;
    m.where = "/here";
    measures.push_back(std::move(m));
  }
  void lay(const std::string& name, double value, int stage = 0) {
    lay(name, value, value, value, stage);
  }
  void fact(const std::string& name, const std::string& value, int stage = 0) {
    Fact f;
    f.name = name;
    f.value = value;
    f.stage = stage;
    f.where = "/here";
    facts.push_back(std::move(f));
  }
  std::vector<Spoken> ask(std::span<const Rule> rules) const {
    return evaluate(rules, {plan, process, workings.times, measures, facts});
  }
  std::vector<Spoken> ask(const Rule& rule) const { return ask({&rule, 1}); }
};

int place_of(const std::string& measure) {
  return find_measure_kind(measure)->of == Of::stage ? 0 : -1;
}

/// What the rule says of one exact number; nothing when it is silent.
std::optional<Severity> says(const Rule& rule, const std::string& value_of_fact, double number) {
  Bench bench;
  if (rule.kind == RuleKind::range) {
    bench.lay(rule.measure, number, place_of(rule.measure));
  } else {
    // The second number is 1, so that the gap is the same relative or not.
    bench.lay(rule.measures[0], 1 + number);
    bench.lay(rule.measures[1], 1);
  }
  for (const auto& [fact, values] : rule.when) bench.fact(fact, values.front());
  if (!rule.by_fact.empty()) bench.fact(rule.by_fact, value_of_fact);
  const auto spoken = bench.ask(rule);
  BOOST_REQUIRE(spoken.size() <= 1U);
  if (spoken.empty()) return std::nullopt;
  BOOST_TEST((spoken[0].certainty == Certainty::certain));
  BOOST_TEST(spoken[0].where == "/here");
  return spoken[0].severity;
}

void check_end(const Rule& rule, const std::string& value, std::optional<double> end, double out,
               std::optional<Severity> at_and_inside, Severity outside) {
  if (!end) return;
  const double step = 1e-9 * std::max(1.0, std::fabs(*end));
  BOOST_TEST_CONTEXT("bound " << *end << " " << value) {
    BOOST_TEST((says(rule, value, *end) == at_and_inside));
    BOOST_TEST((says(rule, value, *end - out * step) == at_and_inside));
    BOOST_TEST((says(rule, value, *end + out * step) == std::optional(outside)));
  }
}

void check_bounds(const Rule& rule, const std::string& value, const RuleBounds& b) {
  const Severity soft = rule.outside_comfortable, hard = rule.outside_hard;
  const bool low_same = b.hard.low && b.hard.low == b.comfortable.low;
  const bool high_same = b.hard.high && b.hard.high == b.comfortable.high;
  check_end(rule, value, b.comfortable.low, -1, std::nullopt, low_same ? hard : soft);
  check_end(rule, value, b.comfortable.high, 1, std::nullopt, high_same ? hard : soft);
  if (!low_same) check_end(rule, value, b.hard.low, -1, soft, hard);
  if (!high_same) check_end(rule, value, b.hard.high, 1, soft, hard);
}

Rule range_rule(const std::string& id, Bounds comfortable, Bounds hard = {}) {
  Rule rule;
  rule.id = id;
  rule.kind = RuleKind::range;
  rule.measure = "boil_time";
  rule.bounds = {comfortable, hard};
  rule.outside_comfortable = Severity::weakens;
  rule.outside_hard = Severity::spoils;
  return rule;
}

}  // namespace

BOOST_AUTO_TEST_CASE(every_range_rule_at_inside_and_outside_each_bound) {
  int rules = 0;
  for (const Rule& rule : catalogue()) {
    if (rule.kind != RuleKind::range) continue;
    BOOST_TEST_CONTEXT(rule.id) {
      check_bounds(rule, "any other", rule.bounds);
      for (const auto& [value, bounds] : rule.by_value) check_bounds(rule, value, bounds);
    }
    ++rules;
  }
  BOOST_TEST(rules >= 28);
}

BOOST_AUTO_TEST_CASE(every_consistent_rule_at_inside_and_outside_each_bound) {
  int rules = 0;
  for (const Rule& rule : catalogue()) {
    if (rule.kind != RuleKind::consistent) continue;
    // 1 + gap − 1 is the gap only to rounding: at the bound itself another test looks.
    auto near = [&](double gap, double out, std::optional<Severity> inside, Severity outside) {
      BOOST_TEST((says(rule, "", gap - out * 1e-9) == inside));
      BOOST_TEST((says(rule, "", gap + out * 1e-9) == std::optional(outside)));
    };
    BOOST_TEST_CONTEXT(rule.id)
    for (const double sign : {-1.0, 1.0}) {
      near(sign * rule.comfortable_gap, sign, std::nullopt, rule.outside_comfortable);
      if (rule.hard_gap)
        near(sign * *rule.hard_gap, sign, rule.outside_comfortable, rule.outside_hard);
    }
    ++rules;
  }
  BOOST_TEST(rules == 4);
}

BOOST_AUTO_TEST_CASE(at_the_bound_two_numbers_still_agree) {
  const Rule& rule = *find_rule("measured-gravity");
  Bench bench;
  bench.lay("measured_gravity", 8.5);
  bench.lay("wort_gravity", 8.0);
  BOOST_TEST(bench.ask(rule).empty());
}

BOOST_AUTO_TEST_CASE(two_numbers_count_as_apart_only_by_their_likely_values) {
  const Rule& rule = *find_rule("measured-gravity");
  Bench bench;
  bench.lay("measured_gravity", 8.2);
  bench.lay("wort_gravity", 8.0, 7.0, 9.0, 0);
  BOOST_TEST(bench.ask(rule).empty());
  bench.measures.clear();
  bench.lay("measured_gravity", 8.8);
  bench.lay("wort_gravity", 8.0, 7.0, 9.0, 0);
  BOOST_REQUIRE(bench.ask(rule).size() == 1U);
  BOOST_TEST((bench.ask(rule)[0].certainty == Certainty::likely));
  bench.measures.clear();
  bench.lay("measured_gravity", 9.8);
  bench.lay("wort_gravity", 8.0, 7.0, 9.0, 0);
  BOOST_TEST((bench.ask(rule)[0].certainty == Certainty::certain));
}

BOOST_AUTO_TEST_CASE(gaps) {
  Rule rule;
  BOOST_TEST(gap_between(rule, 3, 5) == -2);
  rule.relative = true;
  BOOST_TEST(gap_between(rule, 3, 5) == -0.4, boost::test_tools::tolerance(1e-12));
  BOOST_TEST(gap_between(rule, 5, -4) == 2.25, boost::test_tools::tolerance(1e-12));
  BOOST_TEST(gap_between(rule, 5, 0) == 0);  // of nothing there is no share
}

BOOST_AUTO_TEST_CASE(how_sure_follows_from_the_range) {
  const Rule rule = range_rule("r", {5, 20}, {1, 45});
  struct Row {
    double value, low, high;
    std::optional<Severity> severity;
    Certainty certainty;
    const char* side;
  };
  const Row rows[] = {
      {10, 6, 20, std::nullopt, Certainty::certain, ""},
      {10, 6, 21, Severity::note, Certainty::possible, "high"},
      {10, 4, 20, Severity::note, Certainty::possible, "low"},
      {10, 4, 50, Severity::note, Certainty::possible, "high"},  // the worse end
      {10, 0.5, 21, Severity::note, Certainty::possible, "low"},
      {4, 3, 6, Severity::weakens, Certainty::likely, "low"},
      {4, 3, 4.9, Severity::weakens, Certainty::certain, "low"},
      {4, 0.5, 4.9, Severity::weakens, Certainty::certain, "low"},  // as bad as is likely
      {0.5, 0.2, 4, Severity::spoils, Certainty::certain, "low"},
      {0.5, 0.2, 9, Severity::spoils, Certainty::likely, "low"},
      {25, 4, 30, Severity::weakens, Certainty::likely, "high"},  // broken both ways, not one
      {50, 21, 60, Severity::spoils, Certainty::certain, "high"},
  };
  for (const Row& row : rows) {
    BOOST_TEST_CONTEXT(row.value << " of " << row.low << " to " << row.high) {
      Bench bench;
      bench.lay("boil_time", row.value, row.low, row.high, 0);
      const auto spoken = bench.ask(rule);
      BOOST_REQUIRE(spoken.size() == (row.severity ? 1U : 0U));
      if (!row.severity) continue;
      BOOST_TEST((spoken[0].severity == *row.severity));
      BOOST_TEST((spoken[0].certainty == row.certainty));
      BOOST_TEST(spoken[0].message == row.side);
    }
  }
}

BOOST_AUTO_TEST_CASE(a_fact_that_practice_supplies_is_only_likely) {
  const Rule& rule = *find_rule("dry-yeast-grown");
  Bench bench;
  bench.fact("dry_grown", "dry in date", -1);
  BOOST_TEST((bench.ask(rule)[0].certainty == Certainty::certain));
  bench.facts[0].sure = false;
  BOOST_TEST((bench.ask(rule)[0].certainty == Certainty::likely));
}

BOOST_AUTO_TEST_CASE(a_rule_speaks_only_under_its_conditions) {
  Rule rule = range_rule("r", {5, 20});
  rule.when["boil_state"] = {"boiled"};
  Bench bench;
  bench.lay("boil_time", 2);
  BOOST_TEST(bench.ask(rule).empty());  // the fact is not there
  bench.fact("boil_state", "never boiled");
  BOOST_TEST(bench.ask(rule).empty());
  bench.facts.clear();
  bench.fact("boil_state", "boiled");
  BOOST_TEST(bench.ask(rule).size() == 1U);
  rule.when["boil_state"] = {"never boiled", "boiled"};  // one of them
  BOOST_TEST(bench.ask(rule).size() == 1U);
  rule.when["extract_kind"] = {"wort"};  // and all of the conditions
  BOOST_TEST(bench.ask(rule).empty());
  bench.fact("extract_kind", "wort", -1);  // a fact of the plan holds for every stage
  BOOST_TEST(bench.ask(rule).size() == 1U);
  bench.fact("extract_kind", "table sugar", 0);  // but the stage's own goes before
  BOOST_TEST(bench.ask(rule).empty());
}

BOOST_AUTO_TEST_CASE(bounds_differ_by_a_fact) {
  Rule rule = range_rule("r", {5, 20});
  rule.by_fact = "boil_state";
  rule.by_value["never boiled"] = {{1, 2}, {}};
  Bench bench;
  BOOST_TEST((bounds_at(rule, bench.facts, 0).comfortable.high == 20.0));
  bench.fact("boil_state", "boiled");
  BOOST_TEST((bounds_at(rule, bench.facts, 0).comfortable.high == 20.0));
  bench.facts[0].value = "never boiled";
  BOOST_TEST((bounds_at(rule, bench.facts, 0).comfortable.high == 2.0));
  BOOST_TEST((bounds_at(rule, bench.facts, 1).comfortable.high == 20.0));  // another stage's
  bench.lay("boil_time", 3);
  const auto spoken = bench.ask(rule);
  BOOST_REQUIRE(spoken.size() == 1U);
  BOOST_TEST((spoken[0].comfortable.high == 2.0));
  BOOST_TEST(spoken[0].fact == &bench.facts[0]);
}

BOOST_AUTO_TEST_CASE(one_cause_is_told_once) {
  std::vector<Rule> rules = {range_rule("cause", {5, 20}, {1, 45}), range_rule("effect", {6, 19})};
  rules[1].yields_to = {"cause"};
  auto ids = [&](const Bench& bench) {
    std::string all;
    for (const Spoken& s : bench.ask(rules)) all += s.rule->id + " ";
    return all;
  };
  Bench bench;
  bench.lay("boil_time", 4);
  BOOST_TEST(ids(bench) == "cause ");
  bench.measures.clear();
  bench.lay("boil_time", 5.5);
  BOOST_TEST(ids(bench) == "effect ");
  // A worse finding is not silenced by a lesser one, an equal or a lesser one is.
  rules[1].bounds.hard = {4.5, {}};
  bench.measures.clear();
  bench.lay("boil_time", 4.2);
  BOOST_TEST(ids(bench) == "cause effect ");
  bench.measures.clear();
  bench.lay("boil_time", 0.5);
  BOOST_TEST(ids(bench) == "cause ");
  // One that is only possible silences nothing worse.
  bench.measures.clear();
  bench.lay("boil_time", 5.5, 4, 5.8, 0);
  BOOST_TEST(ids(bench) == "cause effect ");
  // Another stage is another cause.
  rules[1].bounds.hard = {};
  rules[0].when["boil_state"] = {"boiled"};
  bench.measures.clear();
  bench.lay("boil_time", 4, 0);
  bench.lay("boil_time", 4, 1);
  bench.fact("boil_state", "boiled", 1);
  BOOST_TEST(ids(bench) == "cause effect ");
  const auto spoken = bench.ask(rules);
  BOOST_TEST(spoken[0].stage == 1);
  BOOST_TEST(spoken[1].stage == 0);
}

BOOST_AUTO_TEST_CASE(a_chain_of_yielding_tells_its_head_only) {
  std::vector<Rule> rules = {range_rule("a", {5, 20}), range_rule("b", {5, 20}),
                             range_rule("c", {5, 20})};
  rules[1].yields_to = {"a"};
  rules[2].yields_to = {"b"};
  Bench bench;
  bench.lay("boil_time", 4);
  const auto spoken = bench.ask(rules);
  BOOST_REQUIRE(spoken.size() == 1U);
  BOOST_TEST(spoken[0].rule->id == "a");
}

BOOST_AUTO_TEST_CASE(an_order_rule_may_look_at_some_items_only) {
  nlohmann::ordered_json document = sound_example();
  document["steps"].insert(document["steps"].begin() + 3,
                           nlohmann::ordered_json{{"do", "add"}, {"items", {"stir bar"}}});
  Bench bench;
  bench.plan = plan_from(document);
  bench.process = unfold(bench.plan);
  bench.workings = work_out(bench.plan, bench.process, Draw{});
  Rule rule = *find_rule("bumping");
  BOOST_TEST(bench.ask(rule).size() == 1U);
  rule.items = {"nutrient"};
  BOOST_TEST(bench.ask(rule).empty());
  rule.items = {"nutrient", "the stir bar"};
  BOOST_TEST(bench.ask(rule).size() == 1U);
}

BOOST_AUTO_TEST_CASE(cleaned_over_half_a_day_before_is_stale) {
  for (const auto& [rest, stale] : {std::pair("11 h", false), std::pair("12 h", true)}) {
    nlohmann::ordered_json document = sound_example();
    auto& steps = document["steps"];
    const auto sanitise = steps[5];
    steps.erase(steps.begin() + 5);
    // Between cleaning and the thermometer lie the rest and under an hour of work.
    steps.insert(steps.begin() + 5, nlohmann::ordered_json{{"do", "rest"}, {"for", rest}});
    steps.insert(steps.begin() + 5, sanitise);
    const Judgement j = judge(plan_from(document), catalogue());
    int found = 0;
    for (const Finding& f : j.findings) found += f.rule->id == "clean-contact";
    BOOST_TEST((found > 0) == stale, rest);
  }
}

BOOST_AUTO_TEST_SUITE_END()
