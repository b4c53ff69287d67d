#include <fmt/format.h>

#include <set>

#include "output/cautions_of.h"
#include "output/explain_text.h"
#include "output/json.h"
#include "output/key_numbers.h"
#include "output/measures_text.h"
#include "output/places.h"
#include "output/scale.h"
#include "output/text.h"
#include "output/verdict.h"
#include "rules/telling.h"
#include "support.h"

using namespace starter;

namespace {

Finding finding(Severity severity) {
  Finding f;
  f.severity = severity;
  return f;
}

std::string verdict(int dangers, int spoils, int weakens, int notes) {
  std::vector<Finding> all;
  for (int i = 0; i < dangers; ++i) all.push_back(finding(Severity::danger));
  for (int i = 0; i < spoils; ++i) all.push_back(finding(Severity::spoils));
  for (int i = 0; i < weakens; ++i) all.push_back(finding(Severity::weakens));
  for (int i = 0; i < notes; ++i) all.push_back(finding(Severity::note));
  return verdict_of(all);
}

std::string plain(const Pieces& pieces) {
  std::string text;
  for (const Piece& piece : pieces) text += piece.text;
  while (!text.empty() && text.back() == ' ') text.pop_back();
  return text;
}

/// The scale of a rule's number at `value`, at the bounds of harvest-amber's vessels.
std::string scale_at(const char* rule, double value) {
  static const Judgement j = judged("harvest-amber");
  Finding f;
  f.rule = find_rule(rule);
  f.stage = 0;
  Measure m;
  m.name = f.rule->measure;
  m.value = m.low = m.high = value;
  m.unit = find_measure_kind(m.name)->unit;
  f.numbers = {m};
  return plain(scale_of(f, j, UnitSystem::metric));
}

const NeededCaution* caution(const std::vector<NeededCaution>& all, const std::string& id) {
  for (const NeededCaution& n : all)
    if (n.caution->id == id) return &n;
  return nullptr;
}

std::string row(const Judgement& j, const std::string& name) {
  for (const KeyNumbers& table : key_numbers(j, UnitSystem::metric))
    for (const auto& [title, text] : table.rows)
      if (title == name) return text;
  return "";
}

}  // namespace

BOOST_AUTO_TEST_SUITE(tell)

BOOST_AUTO_TEST_CASE(verdicts) {
  BOOST_TEST(verdict(0, 0, 0, 0) == "Good to go: nothing to mend.");
  BOOST_TEST(verdict(0, 0, 0, 1) == "Good to go: nothing to mend; 1 note.");
  BOOST_TEST(verdict(0, 0, 0, 2) == "Good to go: nothing to mend; 2 notes.");
  BOOST_TEST(verdict(0, 0, 1, 0) == "Nearly: it would work, but 1 thing weakens it.");
  BOOST_TEST(verdict(0, 0, 2, 9) == "Nearly: it would work, but 2 things weaken it.");
  BOOST_TEST(verdict(0, 1, 0, 0) == "Not yet: 1 thing that spoils it.");
  BOOST_TEST(verdict(0, 2, 1, 0) ==
             "Not yet: 2 things that spoil it, 1 that weakens it. Start with the first.");
  BOOST_TEST(verdict(1, 0, 0, 4) == "Not yet: 1 danger.");
  BOOST_TEST(verdict(2, 0, 3, 0) ==
             "Not yet: 2 dangers, 3 things that weaken it. Start with the first.");
}

BOOST_AUTO_TEST_CASE(places_are_told_in_words) {
  const Plan one = plan_from(corpus("harvest-amber"));
  BOOST_TEST(place_in_words(one, "/steps/5") == "step 6, sanitise");
  BOOST_TEST(place_in_words(one, "/steps/5/items/0") == "step 6, sanitise");
  BOOST_TEST(place_in_words(one, "/steps") == "the steps");
  BOOST_TEST(place_in_words(one, "/stages/0") == "the starter");
  BOOST_TEST(place_in_words(one, "/stages/0/extract") == "the extract");
  BOOST_TEST(place_in_words(one, "/beer/brew_day") == "the beer, brew day");
  BOOST_TEST(place_in_words(one, "/yeast/viability") == "the yeast, viability");
  BOOST_TEST(place_in_words(one, "/vessels/a~1b~0") == "the vessel “a/b~”");
  BOOST_TEST(place_in_words(one, "") == "the plan");
  BOOST_TEST(place_in_words(one, "/steps/99") == "the steps, 99");
  BOOST_TEST(place_in_words(one, "/else/where") == "/else/where");
  Plan two = one;
  two.stages.push_back(two.stages[0]);
  BOOST_TEST(place_in_words(two, "/stages/1") == "stage 2");
  BOOST_TEST(place_in_words(two, "/stages/1/extract/mass") == "stage 2, the extract");
}

BOOST_AUTO_TEST_CASE(scales_show_the_number_among_its_bounds) {
  BOOST_TEST(scale_at("extract-ratio", 152) == "···· 50 ──── 80 ━━━━ 110 ──── 135 ·· ● 152 g/L");
  BOOST_TEST(scale_at("extract-ratio", 120) == "···· 50 ──── 80 ━━━━ 110 ── ● 120 g/L ── 135 ····");
  BOOST_TEST(scale_at("extract-ratio", 95) == "···· 50 ──── 80 ━━ ● 95 g/L ━━ 110 ──── 135 ····");
  BOOST_TEST(scale_at("extract-ratio", 20) == "● 20 g/L ·· 50 ──── 80 ━━━━ 110 ──── 135 ····");
  // A bound is on its better side.
  BOOST_TEST(scale_at("extract-ratio", 80) == "···· 50 ──── 80 ━━ ● 80 g/L ━━ 110 ──── 135 ····");
  BOOST_TEST(scale_at("extract-ratio", 110) == "···· 50 ──── 80 ━━ ● 110 g/L ━━ 110 ──── 135 ····");
  BOOST_TEST(scale_at("cells-enough", 0.3) == "● 30 % ·· 50 ──── 100 ━━━━");
  // One that prints like the bound it is beyond.
  BOOST_TEST(scale_at("extract-ratio", 110.001) ==
             "···· 50 ──── 80 ━━━━ 110 ── ● just over 110 g/L ── 135 ····");
  BOOST_TEST(scale_at("extract-ratio", 135.001) ==
             "···· 50 ──── 80 ━━━━ 110 ──── 135 ·· ● just over 135 g/L");
  BOOST_TEST(scale_at("extract-ratio", 49.999) ==
             "● just under 50 g/L ·· 50 ──── 80 ━━━━ 110 ──── 135 ····");
  // Only comfortable bounds.
  BOOST_TEST(scale_at("ice-late", 60) == "━━━━ 45 ── ● 60 °C");
  // Bounds that differ by a fact.
  BOOST_TEST(scale_at("glass-shock", 120) == "━━━━ 100 ── ● 120 °C ── 140 ····");
}

BOOST_AUTO_TEST_CASE(only_range_rules_have_a_scale) {
  const Judgement j = judged("faulty/bar-never-clean");
  for (const Finding& f : j.findings)
    BOOST_TEST(scale_of(f, j, UnitSystem::metric).empty() == (f.rule->kind != RuleKind::range));
}

BOOST_AUTO_TEST_CASE(cautions_name_the_steps_that_need_them) {
  const Judgement j = judged("harvest-amber");
  const auto all = cautions_of(j);
  const auto steps = [&](const char* id) {
    const NeededCaution* n = caution(all, id);
    return n ? n->steps : std::set<int>{};
  };
  BOOST_TEST((steps("heat") == std::set<int>{2, 4}));
  BOOST_TEST((steps("glass") == std::set<int>{2, 4}));
  BOOST_TEST((steps("gas") == std::set<int>{2}));
  BOOST_TEST((steps("chemicals") == std::set<int>{5}));
  BOOST_TEST((steps("magnet") == std::set<int>{8}));
  BOOST_TEST((steps("pressure") == std::set<int>{7, 8}));
  BOOST_TEST((steps("allergen") == std::set<int>{0}));
  BOOST_TEST(caution(all, "storage") == nullptr);
}

BOOST_AUTO_TEST_CASE(cautions_follow_the_plan) {
  const auto without = [](const std::string& from, const std::string& to) {
    std::string bytes = corpus("harvest-amber");
    for (auto at = bytes.find(from); at != std::string::npos; at = bytes.find(from, at + to.size()))
      bytes.replace(at, from.size(), to);
    return cautions_of(judge(plan_from(bytes), catalogue()));
  };
  BOOST_TEST(caution(without("\"gas\"", "\"electric glass\""), "gas") == nullptr);
  BOOST_TEST(caution(without("borosilicate glass", "stainless steel"), "glass") == nullptr);
  BOOST_TEST(caution(without("\"stir plate\"", "\"shaken\""), "magnet") == nullptr);
  BOOST_TEST(caution(without("\"do\": \"crash\"", "\"do\": \"store\""), "storage") != nullptr);
}

BOOST_AUTO_TEST_CASE(key_numbers_are_the_measures) {
  const Judgement j = judged("harvest-amber");
  const Measure* volume = find_measure(j.measures, "wort_volume", 0);
  BOOST_REQUIRE(volume);
  BOOST_TEST(holds(row(j, "Wort"), value_text(*volume, UnitSystem::metric)));
  BOOST_TEST(holds(row(j, "Wort"), "°P"));
  BOOST_TEST(row(j, "Begin") == "Tue 16 Mar 18:00");
  BOOST_TEST(row(j, "Yeast due") == "Sat 20 Mar 14:00");
  BOOST_TEST(holds(row(j, "Ready"), "to spare"));
  BOOST_TEST(holds(row(judged("faulty/too-late"), "Ready"), "too late"));
  BOOST_TEST(holds(row(judged("faulty/warm-bath"), "Chill"), "never reaches 21 °C"));
  BOOST_TEST(row(judged("good/short"), "Begin") == "");
}

BOOST_AUTO_TEST_CASE(a_range_that_prints_like_its_value_is_left_out) {
  Measure m;
  m.value = m.low = m.high = 1.2;
  m.unit = "L";
  BOOST_TEST(value_text(m, UnitSystem::metric) == "1.2 L");
  m.low = 1.19999;
  BOOST_TEST(value_text(m, UnitSystem::metric) == "1.2 L");
  m.low = 1.1;
  BOOST_TEST(value_text(m, UnitSystem::metric) == "1.2 L (1.1–1.2 L)");
}

BOOST_AUTO_TEST_CASE(a_reason_is_told_once) {
  const Judgement j = judged("faulty/many-at-once");
  const std::string text = check_text(j, {});
  std::size_t told = 0;
  const std::string start = "Boiled, cooled wort is sweet";
  for (auto at = text.find(start); at != std::string::npos; at = text.find(start, at + 1)) ++told;
  long findings = 0;
  for (const Finding& f : j.findings) findings += f.rule->id == "clean-contact";
  BOOST_TEST(findings > 1);
  BOOST_TEST(told == 1u);
}

BOOST_AUTO_TEST_CASE(errors_are_told_in_file_order_and_not_without_end) {
  std::vector<PlanError> errors(30,
                                PlanError{"/beer/volme", 4, "there is no such field", "volume"});
  const std::string text = errors_text("oak.plan.json", errors, {});
  BOOST_TEST(holds(text, "oak.plan.json cannot be used yet: 30 things to mend."));
  BOOST_TEST(holds(text, "line 4, /beer/volme: There is no such field."));
  BOOST_TEST(holds(text, "… and 10 more"));
  const std::string one = errors_text("x", std::vector<PlanError>{{"", 0, "it is empty", ""}}, {});
  BOOST_TEST(one == "x cannot be used yet: 1 thing to mend.\n  It is empty.\n");
}

BOOST_AUTO_TEST_CASE(json_text_calms_control_characters_and_broken_names) {
  const Json odd = {{"a", "\x7f\u009b\x1b°\xff"}};
  const std::string text = json_text(odd);
  BOOST_TEST(text == "{\n  \"a\": \"\\u007f\\u009b\\u001b°\uFFFD\"\n}\n");
  BOOST_TEST(Json::parse(text).at("a") == "\x7f\u009b\x1b°\uFFFD");
}

BOOST_AUTO_TEST_CASE(json_numbers_are_those_of_the_measures) {
  const Judgement j = judged("faulty/rich-wort");
  const Json back = Json::parse(json_text(check_json("rich", j)));
  BOOST_REQUIRE(back.at("measures").size() == j.measures.size());
  for (std::size_t i = 0; i < j.measures.size(); ++i) {
    BOOST_TEST(back["measures"][i]["value"].get<double>() == j.measures[i].value);
    BOOST_TEST(back["measures"][i]["low"].get<double>() == j.measures[i].low);
    BOOST_TEST(back["measures"][i]["high"].get<double>() == j.measures[i].high);
  }
  BOOST_TEST(back.at("findings")[0].at("accepted").is_null());
}

BOOST_AUTO_TEST_CASE(one_document_stands_alone_and_several_in_a_list) {
  BOOST_TEST(one_or_all({Json::object()}).is_object());
  BOOST_TEST(one_or_all({Json::object(), Json::object()}).size() == 2u);
}

BOOST_AUTO_TEST_CASE(sources_say_what_they_are) {
  BOOST_TEST(source_text({"published", "A book"}) == "Published: A book");
  BOOST_TEST(source_text({"memory", "A book"}) == "From memory, not confirmed: A book");
  BOOST_TEST(source_text({"practice", "the bounds"}) == "Common practice, no source: the bounds");
  Rule changed;
  changed.club = ClubWord{"Lantern Lane Brewers", "", false, {}};
  changed.sources = {{"practice", "Lantern Lane Brewers: at most 20 °C"}, {"published", "A book"}};
  BOOST_TEST(source_text(changed, changed.sources[0]) == "The club’s practice: at most 20 °C");
  BOOST_TEST(source_text(changed, changed.sources[1]) == "Published: A book");
  BOOST_TEST(source_text({"practice", "Common practice, no source"}) ==
             "Common practice, no source");
}

BOOST_AUTO_TEST_CASE(every_measure_of_a_plan_is_told) {
  const Judgement j = judged("harvest-amber");
  const std::string text = measures_text(j.plan, j.measures, {});
  for (const Measure& m : j.measures)
    BOOST_TEST(holds(text, std::string(find_measure_kind(m.name)->title)));
}

BOOST_AUTO_TEST_SUITE_END()
