// Every rule speaks where its cases break it, as badly and as surely as they say, and is silent
// where they keep it; on both sides of every bound.

#include <boost/test/unit_test.hpp>
#include <cmath>
#include <filesystem>
#include <set>

#include "rules/case_files.h"
#include "rules/catalogue.h"
#include "rules/evaluate.h"

using namespace starter;

BOOST_AUTO_TEST_SUITE(cases)

namespace {

std::string said(const std::vector<Finding>& findings) {
  std::string all;
  for (const Finding& f : findings)
    all += "\n    " + f.rule->id + " at " + f.where + ", " + std::string(spelling(f.severity)) +
           ", " + std::string(spelling(f.certainty)) + ": " + f.says;
  return all;
}

/// The number a case is about: the measure, or the gap between two.
double number_of(const JudgedCase& one) {
  const Rule& rule = *find_rule(one.of.rule);
  const std::string where = one.of.text("where");
  const auto& measures = one.judgement.measures;
  if (rule.kind == RuleKind::consistent) {
    const Measure* a = find_measure(measures, rule.measures[0], 0);
    const Measure* b = find_measure(measures, rule.measures[1], 0);
    BOOST_REQUIRE((a && b));
    return gap_between(rule, a->value, b->value);
  }
  for (const Measure& m : measures)
    if (m.name == rule.measure && m.where == where) return m.value;
  BOOST_FAIL("no " << rule.measure << " at " << where);
  return 0;
}

std::string short_text(double bound) {
  std::string text = std::to_string(bound);
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
  return text;
}

/// The bounds of a rule, each with the value of the fact it holds for.
std::vector<std::pair<double, std::string>> all_bounds(const Rule& rule) {
  std::vector<std::pair<double, std::string>> all;
  auto add = [&](const RuleBounds& b, const std::string& value) {
    for (const Bounds& pair : {b.comfortable, b.hard})
      for (const auto& end : {pair.low, pair.high})
        if (end && std::find(all.begin(), all.end(), std::pair(*end, value)) == all.end())
          all.emplace_back(*end, value);
  };
  if (rule.kind == RuleKind::range) {
    add(rule.bounds, "");
    for (const auto& [value, b] : rule.by_value) add(b, value);
  } else if (rule.kind == RuleKind::consistent) {
    for (double end : {rule.comfortable_gap, rule.hard_gap.value_or(rule.comfortable_gap)})
      add({{-end, end}, {}}, "");
  }
  return all;
}

}  // namespace

BOOST_AUTO_TEST_CASE(every_rule_has_cases_both_ways) {
  std::set<std::string> files;
  const auto folder = std::filesystem::path(STARTER_PLAN_SOURCE_DIR) / "tests/rules/cases";
  for (const auto& entry : std::filesystem::directory_iterator(folder))
    files.insert(entry.path().stem().string());
  for (const Rule& rule : catalogue()) {
    BOOST_TEST_CONTEXT(rule.id) {
      BOOST_REQUIRE(files.erase(rule.id) == 1);
      const auto file = case_file(rule.id);
      BOOST_TEST(file.at("rule") == rule.id);
      BOOST_TEST(!file.at("breaks").empty());
      BOOST_TEST(!file.at("keeps").empty());
    }
  }
  for (const std::string& stray : files) BOOST_ERROR("cases of no rule: " << stray);
}

BOOST_AUTO_TEST_CASE(what_breaks_a_rule_is_found) {
  for (const JudgedCase& one : judged_cases()) {
    if (!one.of.breaks) continue;
    BOOST_TEST_CONTEXT(one.of.name()) {
      const Finding* f = one.finding();
      BOOST_CHECK_MESSAGE(f, "no such finding; there are" << said(one.judgement.findings));
      if (!f) continue;
      BOOST_TEST(spelling(f->severity) == one.of.text("severity"));
      if (one.of.made.contains("certainty"))
        BOOST_TEST(spelling(f->certainty) == one.of.text("certainty"));
      BOOST_CHECK_MESSAGE(f->says.find(one.of.text("says")) != std::string::npos, f->says);
      if (!one.of.made.contains("fix")) continue;
      BOOST_REQUIRE(f->fix);
      BOOST_CHECK_MESSAGE(f->fix->says.find(one.of.text("fix")) != std::string::npos, f->fix->says);
    }
  }
}

BOOST_AUTO_TEST_CASE(what_keeps_a_rule_is_not_found) {
  for (const JudgedCase& one : judged_cases()) {
    if (one.of.breaks) continue;
    BOOST_TEST_CONTEXT(one.of.name()) {
      const Finding* f = one.finding();
      BOOST_CHECK_MESSAGE(!f, (f ? f->says : ""));
    }
  }
}

BOOST_AUTO_TEST_CASE(cases_at_a_bound_lie_close_to_it_and_on_their_side) {
  for (const JudgedCase& one : judged_cases()) {
    if (!one.of.made.contains("bound")) continue;
    BOOST_TEST_CONTEXT(one.of.name()) {
      const Rule& rule = *find_rule(one.of.rule);
      const double bound = one.of.made.at("bound");
      const double number = number_of(one);
      // Zero has no per cent: there, within 5 % of 3 K or 3 h.
      BOOST_TEST(std::fabs(number - bound) <= 0.05 * (bound != 0 ? std::fabs(bound) : 3.0));
      bool lower = bound < 0;
      if (rule.kind == RuleKind::range) {
        lower = false;
        std::vector<RuleBounds> sets = {rule.bounds};
        for (const auto& [value, b] : rule.by_value) sets.push_back(b);
        for (const RuleBounds& b : sets) lower |= b.comfortable.low == bound || b.hard.low == bound;
      }
      const bool outside = lower ? number < bound : number > bound;
      BOOST_TEST(outside == (one.of.text("side") == "outside"));
      if (one.of.breaks && rule.kind == RuleKind::range && one.finding()) {
        BOOST_TEST(one.finding()->numbers.front().value == number);
        BOOST_TEST(!one.finding()->margin.empty());
      }
    }
  }
}

BOOST_AUTO_TEST_CASE(every_bound_has_a_case_on_each_side) {
  for (const Rule& rule : catalogue()) {
    const auto file = case_file(rule.id);
    for (const auto& [bound, value] : all_bounds(rule)) {
      const std::string key = short_text(bound) + (value.empty() ? "" : " " + value);
      if (file.contains("not_steered") && (file.at("not_steered").contains(key) ||
                                           file.at("not_steered").contains(short_text(bound))))
        continue;
      for (const char* side : {"inside", "outside"}) {
        bool found = false;
        for (const char* list : {"breaks", "keeps"})
          for (const auto& one : file.at(list))
            found |= one.contains("bound") && one.at("bound").get<double>() == bound &&
                     one.at("side") == side;
        BOOST_CHECK_MESSAGE(found, rule.id << " has no case just " << side << " " << key);
      }
    }
  }
}

BOOST_AUTO_TEST_CASE(cases_of_measures) {
  const Plan plan = plan_from(sound_example());
  const Process process = unfold(plan);
  const Workings workings = work_out(plan, process, Draw{});
  const auto facts = facts_of({plan, process, workings});
  for (const RuleCase& one : all_cases()) {
    if (!one.plan.is_null()) continue;
    BOOST_TEST_CONTEXT(one.name()) {
      std::vector<Measure> measures;
      for (const auto& [name, body] : one.made.at("measures").items()) {
        const MeasureKind* kind = find_measure_kind(name);
        BOOST_REQUIRE(kind);
        Measure m;
        m.name = name;
        m.unit = body.at("unit");
        BOOST_TEST(m.unit == kind->unit);
        m.stage = body.at("stage");
        m.value = m.low = m.high = body.at("value");
        m.where = one.text("where");
        measures.push_back(std::move(m));
      }
      const Rule* rule = find_rule(one.rule);
      const auto spoken = evaluate({rule, 1}, {plan, process, workings.times, measures, facts});
      BOOST_REQUIRE(spoken.size() == (one.breaks ? 1U : 0U));
      if (!one.breaks) continue;
      BOOST_TEST(spelling(spoken[0].severity) == one.text("severity"));
      BOOST_TEST(spelling(spoken[0].certainty) == one.text("certainty"));
    }
  }
}

BOOST_AUTO_TEST_SUITE_END()
