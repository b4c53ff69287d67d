// Placeholders: each kind filled with what the engine says, and what cannot be filled named with
// its line.

#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <string>

#include "lesson_files.h"
#include "rules/catalogue.h"
#include "rules/judge.h"
#include "rules/telling.h"

using namespace starter;

namespace {

std::string filled(const std::string& text, const FillOptions& options = {}) {
  return text_of(filled_lesson(lesson_of(rich_wort_files(text)), options));
}

/// What is said of the one placeholder in this text that cannot be filled.
std::string refused(const std::string& text) {
  const auto faults = faults_in(filled_lesson(lesson_of(rich_wort_files(text))));
  BOOST_TEST_REQUIRE(faults.size() == 1u);
  BOOST_TEST(faults[0].file == "03-rich-wort/lesson.md");
  return faults[0].says;
}

Judgement judged(const std::string& bytes) {
  return judge(std::get<Plan>(read_plan(bytes)), catalogue());
}

bool holds(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(fill)

BOOST_AUTO_TEST_CASE(text_without_placeholders_stays) {
  BOOST_TEST(filled("# A\n\nb { c } }} *d* `e`\n") == "# A\n\nb { c } }} *d* `e`\n");
}

BOOST_AUTO_TEST_CASE(measures_are_written_by_the_engine) {
  const Judgement plan = judged(rich_wort_files("").plan);
  const Measure* ratio = find_measure(plan.measures, "extract_ratio", 0);
  BOOST_REQUIRE(ratio);
  const auto m = UnitSystem::metric;
  BOOST_TEST(filled("{{plan: extract_ratio}}") == write_value(ratio->value, "g/L", m));
  BOOST_TEST(filled("{{ plan:extract_ratio |value }}") == write_value(ratio->value, "g/L", m));
  BOOST_TEST(filled("{{plan: extract_ratio | range}}") ==
             write_range(ratio->low, ratio->high, "g/L", m));
  BOOST_TEST(filled("{{plan: extract_ratio | both}}") == value_text(*ratio, m));
  BOOST_TEST(filled("{{plan: extract_ratio | how}}") == ratio->how);
  BOOST_TEST(filled("{{plan: extract_ratio @ /stages/0}}") == filled("{{plan: extract_ratio}}"));
  BOOST_TEST(filled("{{mended: extract_ratio}}") != filled("{{plan: extract_ratio}}"));
  BOOST_TEST(filled("{{plan: extract_ratio}}", {UnitSystem::us, ""}) ==
             write_value(ratio->value, "g/L", UnitSystem::us));
}

BOOST_AUTO_TEST_CASE(a_measure_told_in_per_cent_is_in_per_cent) {
  const Judgement plan = judged(rich_wort_files("").plan);
  const Measure* fill = find_measure(plan.measures, "boil_fill", 0);
  BOOST_REQUIRE(fill);
  BOOST_TEST(filled("{{plan: boil_fill}}") ==
             write_value(100 * fill->value, "%", UnitSystem::metric));
}

BOOST_AUTO_TEST_CASE(fields_stand_as_written_and_times_in_words) {
  BOOST_TEST(filled("{{plan: field /stages/0/extract/mass}}") == "180 g");
  BOOST_TEST(filled("{{mended: field /stages/0/extract/mass}}") == "110 g");
  BOOST_TEST(filled("{{plan: field /yeast/packs}}") == "1");
  BOOST_TEST(filled("{{plan: field /steps/4/swirl}}") == "true");
  BOOST_TEST(filled("{{plan: field /start}}") == "Tue 16 Mar 18:00");
  BOOST_TEST(filled("{{plan: field /yeast/packaged}}") == "Sat 20 Feb");
  BOOST_TEST(filled("{{plan: place /steps/2}}") == "step 3, boil");
}

BOOST_AUTO_TEST_CASE(findings_are_told_as_the_check_tells_them) {
  const Judgement plan = judged(rich_wort_files("").plan);
  const auto found = std::find_if(plan.findings.begin(), plan.findings.end(),
                                  [](const Finding& f) { return f.rule->id == "extract-ratio"; });
  BOOST_REQUIRE(found != plan.findings.end());
  BOOST_REQUIRE(found->fix.has_value());
  BOOST_TEST(filled("{{plan: finding extract-ratio says}}") == found->says);
  BOOST_TEST(filled("{{plan: finding extract-ratio fix}}") == found->fix->says);
  BOOST_TEST(filled("{{plan: finding extract-ratio margin}}") == found->margin);
  BOOST_TEST(filled("{{plan: finding extract-ratio severity}}") == spelling(found->severity));
  BOOST_TEST(filled("{{plan: finding extract-ratio title @ /stages/0/extract}}") ==
             found->rule->title);
  BOOST_TEST(filled("{{plan: count}} {{mended: count}}") == "one no");
  const std::string list = filled("{{plan: findings}}");
  BOOST_TEST(list == "- **spoils** · " + found->rule->title + " – " + found->says);
  BOOST_TEST(holds(filled("{{plan: verdict}}"), "Not yet"));
}

BOOST_AUTO_TEST_CASE(rules_and_cautions_are_quoted) {
  const Rule* rule = find_rule("extract-ratio");
  BOOST_REQUIRE(rule);
  BOOST_TEST(filled("{{rule extract-ratio title}}") == rule->title);
  BOOST_TEST(filled("{{rule extract-ratio why}}") == rule->why);
  BOOST_TEST(filled("{{rule extract-ratio do}}") == rule->advice);
  BOOST_TEST(filled("{{rule extract-ratio wrong}}") == rule->wrong);
  BOOST_TEST(filled("{{rule extract-ratio right}}") == rule->right);
  BOOST_TEST(filled("{{rule extract-ratio comfortable}}") == "80–110 g/L");
  BOOST_TEST(filled("{{rule extract-ratio hard}}") == "50–135 g/L");
  BOOST_TEST(filled("{{rule extract-ratio comfortable for weak eased in}}") == "42–110 g/L");
  BOOST_TEST(filled("{{rule glass-shock hard for soda-lime glass}}") == "at most 42 °C");
  BOOST_TEST(filled("{{rule boil-headroom comfortable}}") == "at most 65 %");
  BOOST_TEST(filled("{{rule volume-balance comfortable}}") == "at most 5 %");
  BOOST_TEST(filled("{{rule agitation-stated do}}") ==
             "Write `agitation` in the stage: `stir plate`, `shaken` or `none`.");
  const Caution* glass = find_caution("glass");
  BOOST_REQUIRE(glass);
  BOOST_TEST(filled("{{caution glass}}") == "**" + glass->title + ".** " + glass->text);
}

BOOST_AUTO_TEST_CASE(the_lesson_itself) {
  BOOST_TEST(filled("{{title}}: {{summary}}") == "Rich wort: Too much of a good thing.");
  BOOST_TEST(filled("{{diff}}") == "- **the extract, mass**: 180 g → 110 g");
  BOOST_TEST(filled("{{diagram}}", {UnitSystem::metric, "![x](plan.svg)"}) == "![x](plan.svg)");
  BOOST_TEST(holds(filled("{{diagram}}"), "starter-plan draw lessons/03-rich-wort/plan.json"));
  BOOST_REQUIRE(!lessons().empty());
  BOOST_TEST(filled("{{lesson " + lessons()[0].name + "}}") == lessons()[0].title);
}

BOOST_AUTO_TEST_CASE(what_cannot_be_filled_is_named) {
  BOOST_TEST(holds(refused("{{nonsense}}"), "{{nonsense}}: “nonsense” is no placeholder"));
  BOOST_TEST(holds(refused("{{}}"), "is no placeholder"));
  BOOST_TEST(holds(refused("{{plan: no_such}}"), "“no_such” is no measure"));
  BOOST_TEST(holds(refused("{{plan: }}"), "is no measure"));
  BOOST_TEST(holds(refused("{{plan: extract_ratio | loud}}"), "“loud” is no form"));
  BOOST_TEST(holds(refused("{{plan: stage_step}}"), "no measure “stage_step”"));
  BOOST_TEST(holds(refused("{{plan: extract_ratio @ /stages/7}}"), "no measure"));
  BOOST_TEST(holds(refused("{{plan: field /stages/0/colour}}"), "no field"));
  BOOST_TEST(holds(refused("{{plan: field stages}}"), "no field"));
  BOOST_TEST(holds(refused("{{plan: field /stages/0}}"), "no single value"));
  BOOST_TEST(holds(refused("{{plan: finding boil-time says}}"), "no finding of “boil-time”"));
  BOOST_TEST(holds(refused("{{mended: finding extract-ratio says}}"), "the mended plan has no"));
  BOOST_TEST(holds(refused("{{plan: finding extract-ratio smell}}"), "no part of a finding"));
  BOOST_TEST(holds(refused("{{plan: finding no-rule says}}"), "no rule of the catalogue"));
  BOOST_TEST(holds(refused("{{mended: findings}}"), "nothing above note"));
  BOOST_TEST(holds(refused("{{rule no-rule why}}"), "no rule of the catalogue"));
  BOOST_TEST(holds(refused("{{rule extract-ratio smell}}"), "no part of a rule"));
  BOOST_TEST(holds(refused("{{rule extract-ratio comfortable for fun}}"), "“fun”"));
  BOOST_TEST(holds(refused("{{rule extract-ratio comfortable if so}}"), "no part of a rule"));
  BOOST_TEST(holds(refused("{{rule glass-shock comfortable}}"), "no such bounds"));
  BOOST_TEST(holds(refused("{{rule boil-before-chill hard}}"), "has no bounds"));
  BOOST_TEST(holds(refused("{{rule measured-volume hard}}"), "no hard bounds"));
  BOOST_TEST(holds(refused("{{caution dragons}}"), "no caution"));
  BOOST_TEST(holds(refused("{{lesson 99-none}}"), "no lesson"));
  BOOST_TEST(holds(refused("open {{plan: extract_ratio\n}}"), "without “}}”"));
  BOOST_TEST(holds(refused("open {{"), "without “}}”"));
}

BOOST_AUTO_TEST_CASE(every_fault_is_told_with_its_line) {
  const auto faults = faults_in(
      filled_lesson(lesson_of(rich_wort_files("a\n{{b}}\nc {{title}}\r\n\n{{d}} {{e}}"))));
  BOOST_REQUIRE(faults.size() == 3u);
  BOOST_TEST(faults[0].line == 2);
  BOOST_TEST(faults[1].line == 5);
  BOOST_TEST(faults[2].line == 5);
}

BOOST_AUTO_TEST_CASE(what_a_member_wrote_cannot_become_markup) {
  LessonFiles files = rich_wort_files("{{plan: field /title}}|{{plan: place /vessels/a*b}}");
  auto plan = nlohmann::ordered_json::parse(files.plan);
  plan["title"] = "*a* _b_ `c` <script>&amp; [x](y) ![z]\n# h";
  files.plan = plan.dump();
  BOOST_TEST(text_of(filled_lesson(lesson_of(files))) ==
             "\\*a\\* \\_b\\_ \\`c\\` \\<script\\>\\&amp; \\[x\\](y) \\!\\[z\\] \\# h|"
             "the vessel “a\\*b”");
}

BOOST_AUTO_TEST_CASE(a_plan_that_cannot_be_used_is_an_error) {
  Lesson lesson = lesson_of(rich_wort_files("{{title}}"));
  lesson.mended = "{";
  const auto faults = faults_in(filled_lesson(lesson));
  BOOST_REQUIRE(!faults.empty());
  BOOST_TEST(faults[0].file == "03-rich-wort/mended.json");
}

BOOST_AUTO_TEST_SUITE_END()
