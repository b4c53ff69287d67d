// Two plans side by side.

#include "output/compare.h"

#include <boost/test/unit_test.hpp>
#include <set>

#include "../plan_of.h"
#include "output/compare_json.h"
#include "output/compare_text.h"
#include "rules/catalogue.h"

using namespace starter;

namespace {

Judgement judged_with(const std::string& patch = "[]") {
  JudgeOptions quick;
  quick.fixes = false;
  return judge(harvest_amber(patch), catalogue(), quick);
}

/// Both judgements, kept for what points into them.
struct Pair {
  Judgement first, second;
  Comparison c;
  Pair(const std::string& a, const std::string& b)
      : first(judged_with(a)),
        second(judged_with(b)),
        c(compare_plans(first, second, UnitSystem::metric)) {}
  std::string text(bool all = false, std::size_t width = 80) const {
    Look look;
    look.width = width;
    return compare_text(c, "a", "b", all, look);
  }
  const ComparedFinding* finding(const std::string& rule) const {
    for (const ComparedFinding& f : c.findings)
      if ((f.second ? f.second : f.first)->rule->id == rule) return &f;
    return nullptr;
  }
  const ComparedMeasure* measure(const std::string& name) const {
    for (const ComparedMeasure& m : c.measures)
      if ((m.second ? m.second : m.first)->name == name) return &m;
    return nullptr;
  }
  const ComparedField* field(const std::string& where) const {
    for (const ComparedField& f : c.fields)
      if (f.second_where == where || f.first_where == where) return &f;
    return nullptr;
  }
};

std::string mass(const char* grams) {
  return std::string(R"([{"op": "replace", "path": "/stages/0/extract/mass", "value": ")") + grams +
         R"("}])";
}

bool holds(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(compare)

BOOST_AUTO_TEST_CASE(a_plan_is_the_same_as_itself) {
  const Pair p("[]", "[]");
  BOOST_TEST(p.c.fields.empty());
  for (const ComparedFinding& f : p.c.findings) BOOST_TEST((f.change == FindingChange::same));
  for (const ComparedMeasure& m : p.c.measures) BOOST_TEST((!m.differs && !m.beyond));
  BOOST_TEST(p.c.measures.size() == p.first.measures.size());
  BOOST_TEST(comparison_in_words(p.c) == "Both are good to go; the findings are the same.");
  BOOST_TEST(holds(p.text(), "Nothing: both say the same."));
}

BOOST_AUTO_TEST_CASE(findings_are_gone_new_worse_and_milder) {
  const Pair gone(mass("200 g"), "[]"), fresh("[]", mass("200 g"));
  const Pair worse(mass("140 g"), mass("200 g")), milder(mass("200 g"), mass("140 g"));
  const Pair nearer(mass("220 g"), mass("200 g"));
  const auto change = [](const Pair& p) {
    const ComparedFinding* f = p.finding("extract-ratio");
    BOOST_REQUIRE(f != nullptr);
    return f->change;
  };
  BOOST_TEST((change(gone) == FindingChange::gone));
  BOOST_TEST((change(fresh) == FindingChange::fresh));
  BOOST_TEST((change(worse) == FindingChange::worse));
  BOOST_TEST((change(milder) == FindingChange::milder));
  // As bad by its word, and yet nearer to what is comfortable.
  const ComparedFinding* same_word = nearer.finding("extract-ratio");
  BOOST_REQUIRE(same_word != nullptr);
  BOOST_TEST((same_word->first->severity == same_word->second->severity));
  BOOST_TEST((same_word->change == FindingChange::milder));
  BOOST_TEST(holds(comparison_in_words(gone.c), "The second is better, and good to go."));
  BOOST_TEST(holds(comparison_in_words(fresh.c), "The first is better, and good to go."));
  BOOST_TEST(holds(milder.text(), "■ spoils → ◆ weakens"));
}

BOOST_AUTO_TEST_CASE(a_step_put_in_moves_no_finding) {
  // The thermometer is not sanitised in either; the second has a step more before it.
  const std::string dirty = R"({"op": "replace", "path": "/steps/5/items", "value": ["pack"]})";
  const Pair p("[" + dirty + "]", "[" + dirty + R"(, {"op": "add", "path": "/steps/1",
                 "value": {"do": "add", "items": ["yeast nutrient"]}}])");
  const ComparedFinding* f = p.finding("clean-contact");
  BOOST_REQUIRE(f != nullptr);
  BOOST_TEST((f->change == FindingChange::same));
  BOOST_TEST(f->first->where != f->second->where);
  BOOST_REQUIRE(p.c.fields.size() == 1u);
  BOOST_TEST((p.c.fields[0].how == ComparedField::How::added));
  BOOST_TEST(p.c.fields[0].second_where == "/steps/1");
}

BOOST_AUTO_TEST_CASE(items_at_one_step_are_told_apart) {
  const auto with_cleaned = [](const char* items) {
    return std::string(R"([{"op": "replace", "path": "/steps/5/items", "value": )") + items +
           R"(}, {"op": "add", "path": "/steps/7/with", "value": ["funnel", "spoon"]}])";
  };
  const Pair p(with_cleaned(R"(["thermometer", "pack", "funnel"])"),
               with_cleaned(R"(["thermometer", "pack", "spoon"])"));
  std::set<std::pair<std::string, std::string>> seen;
  for (const ComparedFinding& f : p.c.findings) {
    const Finding& any = f.second ? *f.second : *f.first;
    if (any.rule->id == "clean-contact" && any.where == "/steps/7")
      seen.emplace(spelling(f.change), any.item);
  }
  BOOST_TEST((seen.count({"gone", "spoon"}) == 1u));
  BOOST_TEST((seen.count({"new", "funnel"}) == 1u));
}

BOOST_AUTO_TEST_CASE(a_step_that_moved_is_told_as_moved) {
  const Pair p("[]", R"([{"op": "move", "from": "/steps/10", "path": "/steps/12"}])");
  const ComparedField* f = p.field("/steps/10");
  BOOST_REQUIRE(f != nullptr);
  BOOST_TEST(p.c.fields.size() == 1u);
  BOOST_TEST((f->how == ComparedField::How::moved));
  BOOST_TEST(holds(p.text(), "it was step 11 of the first"));
  // What is gone is told by its number in the first plan, which says so.
  BOOST_TEST(
      holds(Pair(R"([{"op": "move", "from": "/steps/10", "path": "/steps/9"}])", "[]").text(),
            "first’s step 11, crash · Cold before decanting"));
}

BOOST_AUTO_TEST_CASE(every_step_belongs_to_one_at_most) {
  const Plan a = harvest_amber();
  const Plan b = harvest_amber(R"([{"op": "remove", "path": "/steps/3"},
    {"op": "copy", "from": "/steps/4", "path": "/steps/6"}])");
  const auto match = steps_that_match(a, b);
  BOOST_REQUIRE(match.size() == a.steps.size());
  int last = -1;
  for (std::size_t i = 0; i < match.size(); ++i) {
    if (!match[i]) continue;
    BOOST_TEST(*match[i] > last);
    last = *match[i];
    BOOST_TEST(a.steps[i].verb == b.steps[static_cast<std::size_t>(last)].verb);
  }
  BOOST_TEST(!match[3].has_value());
  for (std::size_t i = 0; i < match.size(); ++i)
    if (i != 3) BOOST_TEST(match[i].has_value(), i);
}

BOOST_AUTO_TEST_CASE(fields_are_told_in_the_members_words) {
  const Pair p("[]", R"([
    {"op": "replace", "path": "/stages/0/extract/mass", "value": "4 oz"},
    {"op": "replace", "path": "/beer/kind", "value": "lager"},
    {"op": "remove", "path": "/place/altitude"},
    {"op": "add", "path": "/vessels/spare jar", "value": {"kind": "jar", "capacity": "1 L"}},
    {"op": "replace", "path": "/steps/5/items/0", "value": "long\nspoon"}])");
  const ComparedField* mass = p.field("/stages/0/extract/mass");
  BOOST_REQUIRE(mass != nullptr);
  BOOST_TEST(mass->second == "4 oz");
  BOOST_TEST(mass->place == "the extract, mass");
  BOOST_TEST(p.field("/beer/kind")->first == "ale");
  const ComparedField* altitude = p.field("/place/altitude");
  BOOST_REQUIRE(altitude != nullptr);
  BOOST_TEST(altitude->second_assumed == "100 m");
  const ComparedField* jar = p.field("/vessels/spare jar");
  BOOST_REQUIRE(jar != nullptr);
  BOOST_TEST((jar->how == ComparedField::How::added));
  BOOST_TEST(written_in_words(jar->second) == "capacity: 1 L; kind: jar");
  BOOST_TEST(p.field("/steps/5/items")->place == "step 6, sanitise, items");
  const std::string text = p.text(false, 100);
  BOOST_TEST(holds(text, "→ not said (100 m is taken)"));
  BOOST_TEST(holds(text, "long spoon"));  // its new line steers nothing
}

BOOST_AUTO_TEST_CASE(the_same_in_other_units_is_no_difference) {
  const Plan amber = harvest_amber();
  const double litres = amber.stages[0].water.litres();
  const std::string mL = std::to_string(static_cast<int>(litres * 1000 + 0.5)) + " mL";
  const Pair p("[]", R"([{"op": "replace", "path": "/stages/0/water", "value": ")" + mL + R"("},
    {"op": "replace", "path": "/steps/3/with", "value": ["foil"]}])");
  BOOST_TEST(p.c.fields.empty());
}

BOOST_AUTO_TEST_CASE(a_difference_is_weighed_against_the_ranges) {
  const Pair p("[]", R"([{"op": "replace", "path": "/beer/volume", "value": "21 L"},
    {"op": "replace", "path": "/stages/0/duration", "value": "40 h"},
    {"op": "replace", "path": "/stages/0/extract/mass", "value": "150 g"}])");
  const ComparedMeasure* ratio = p.measure("extract_ratio");
  BOOST_REQUIRE(ratio != nullptr);
  BOOST_TEST((ratio->differs && ratio->beyond));
  const ComparedMeasure* cells = p.measure("cells_at_pitch");
  BOOST_REQUIRE(cells != nullptr);
  BOOST_TEST((cells->differs && !cells->beyond));
  const ComparedMeasure* altitude = p.measure("chill_target");
  BOOST_TEST(!altitude->differs);
  for (const ComparedMeasure& m : p.c.measures)
    if (m.beyond) BOOST_TEST((m.first->high < m.second->low || m.second->high < m.first->low));
  BOOST_TEST(holds(p.text(), "within the ranges"));
  BOOST_TEST(holds(p.text(), "more than the ranges"));
  BOOST_TEST(holds(p.text(), "the same in both; --all tells"));
  BOOST_TEST(!holds(p.text(true), "--all tells"));
  BOOST_TEST(holds(p.text(true), "chilled to"));
}

BOOST_AUTO_TEST_CASE(a_stage_more_is_told_whole) {
  const Pair p("[]", R"([{"op": "remove", "path": "/steps"},
    {"op": "copy", "from": "/stages/0", "path": "/stages/1"}])");
  const ComparedField* stage = p.field("/stages/1");
  BOOST_REQUIRE(stage != nullptr);
  BOOST_TEST((stage->how == ComparedField::How::added));
  BOOST_TEST(p.field("/steps") != nullptr);
  for (const ComparedMeasure& m : p.c.measures) BOOST_TEST((m.first || m.second));
  BOOST_TEST(holds(p.text(), "Numbers, stage 2"));
}

BOOST_AUTO_TEST_CASE(all_of_it_fits_narrow_and_wide_pages) {
  const Pair p(mass("200 g"), R"([{"op": "remove", "path": "/place"},
    {"op": "move", "from": "/steps/10", "path": "/steps/12"}])");
  for (const std::size_t width : {30u, 40u, 60u, 80u, 100u}) {
    std::size_t widest = 0, now = 0;
    for (const char c : p.text(true, width)) {
      if (c == '\n')
        now = 0;
      else if ((static_cast<unsigned char>(c) & 0xC0) != 0x80)
        widest = std::max(widest, ++now);
    }
    BOOST_TEST(widest <= width);
  }
}

BOOST_AUTO_TEST_CASE(the_calendar_is_set_side_by_side) {
  const Pair p("[]", R"([{"op": "replace", "path": "/stages/0/duration", "value": "30 h"},
                         {"op": "replace", "path": "/steps/8/for", "value": "30 h"}])");
  BOOST_REQUIRE((p.c.first_calendar.slack && p.c.second_calendar.slack));
  const double gained = (*p.c.second_calendar.slack - *p.c.first_calendar.slack).hours();
  BOOST_TEST(gained == (p.first.plan.stages[0].duration - p.second.plan.stages[0].duration).hours(),
             boost::test_tools::tolerance(0.01));
  const Json json = compare_json(p.c, "a", "b");
  BOOST_TEST(json["calendar"]["second"]["slack"].get<double>() ==
                 json["calendar"]["first"]["slack"].get<double>() + gained,
             boost::test_tools::tolerance(1e-3));
  BOOST_TEST(json["measures"].size() == p.c.measures.size());
  BOOST_TEST(json["findings"].size() == p.c.findings.size());
}

BOOST_AUTO_TEST_SUITE_END()
