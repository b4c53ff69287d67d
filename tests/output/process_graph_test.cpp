#include "output/process_graph.h"

#include <algorithm>

#include "output/calendar_words.h"
#include "output/step_words.h"
#include "output/support.h"

using starter::Arrow;
using starter::Drawing;
using starter::DrawnStep;
using starter::Joining;
using starter::Severity;

namespace {

/// A plan with these steps, in a flask that is stirred.
std::string plan_of(const std::string& steps) {
  return R"({"plan": 1, "title": "T", "start": "2027-03-16T18:00",
    "beer": {"kind": "ale", "volume": "20 L", "gravity": "1.046 SG", "brew_day": "2027-03-20T09:00"},
    "yeast": {"form": "liquid", "packs": 1, "cells_per_pack": "100 billion",
              "packaged": "2027-03-01"},
    "vessels": {"flask": {"kind": "conical flask", "capacity": "3 L",
                          "material": "borosilicate glass"},
                "tub": {"kind": "tub", "capacity": "20 L", "material": "plastic"}},
    "stages": [{"extract": {"kind": "light dry malt", "mass": "140 g"}, "water": "1.5 L",
                "vessel": "flask", "agitation": "stir plate", "temperature": "21 °C",
                "duration": "36 h"}],
    "steps": [)" +
         steps + "]}";
}

Drawing drawn(const std::string& bytes, const starter::DrawingOptions& options = {}) {
  return starter::drawing_of(starter::judge(plan_from(bytes), starter::catalogue()), options);
}

const DrawnStep& row(const Drawing& drawing, const std::string& words) {
  for (const DrawnStep& node : drawing.nodes)
    if (node.words.rfind(words, 0) == 0) return node;
  BOOST_FAIL("no row " << words);
  return drawing.nodes.front();
}

int index_of(const Drawing& drawing, const std::string& words) {
  return static_cast<int>(&row(drawing, words) - drawing.nodes.data());
}

bool has_arrow(const Drawing& drawing, int from, int to, Arrow::Kind kind) {
  return std::any_of(drawing.arrows.begin(), drawing.arrows.end(), [&](const Arrow& a) {
    return a.from == from && a.to == to && a.kind == kind;
  });
}

int count(const Drawing& drawing, Arrow::Kind kind) {
  return static_cast<int>(std::count_if(drawing.arrows.begin(), drawing.arrows.end(),
                                        [kind](const Arrow& a) { return a.kind == kind; }));
}

const Joining& joining(const DrawnStep& node, const std::string& what) {
  for (const Joining& j : node.joins)
    if (j.what == what) return j;
  BOOST_FAIL(what << " does not join " << node.words);
  return node.joins.front();
}

std::vector<std::string> titles(const DrawnStep& node) {
  std::vector<std::string> all;
  for (const auto& badge : node.badges) all.push_back(badge.title);
  return all;
}

bool told(const DrawnStep& node, const std::string& rule) {
  const auto all = titles(node);
  return std::find(all.begin(), all.end(), starter::find_rule(rule)->title) != all.end();
}

const std::string in_order = R"({"do": "weigh"}, {"do": "dissolve", "in": "flask"},
  {"do": "boil", "in": "flask", "heat": "gas", "for": "12 min"},
  {"do": "cover", "with": "foil", "during": "boil"},
  {"do": "chill", "in": "tub", "bath": "12 L", "ice": "1 kg", "to": "21 °C"},
  {"do": "sanitise", "items": ["thermometer", "pack", "stir bar"], "for": "2 min"},
  {"do": "check temperature", "with": "thermometer"},
  {"do": "pitch", "from": "pack"}, {"do": "agitate", "with": "stir bar"},
  {"do": "crash", "at": "4 °C", "for": "36 h"}, {"do": "decant"},
  {"do": "warm", "to": "18 °C"}, {"do": "pitch to beer"})";

}  // namespace

BOOST_AUTO_TEST_SUITE(process_graph)

BOOST_AUTO_TEST_CASE(every_step_is_a_row_with_its_number_and_its_key) {
  const Drawing d = drawn(plan_of(in_order));
  BOOST_TEST(d.nodes.size() == 13u);
  BOOST_TEST(row(d, "Weigh").key == "140 g");
  BOOST_TEST(row(d, "Dissolve").key == "1.5 L");
  BOOST_TEST(row(d, "Boil").key == "12 min");
  BOOST_TEST(row(d, "Boil").words == "Boil in flask, gas");
  BOOST_TEST(row(d, "Chill").key == "21 °C");
  BOOST_TEST(row(d, "Agitate").key == "36 h");
  BOOST_TEST(row(d, "Crash").key == "51 h");  // 36 h, and what the clock leaves over
  BOOST_TEST(row(d, "Pitch to beer").number == "13");
  BOOST_TEST(row(d, "Pitch to beer").key.find("cells") != std::string::npos);
}

BOOST_AUTO_TEST_CASE(numbers_follow_the_units) {
  const Drawing d = drawn(plan_of(in_order), {starter::UnitSystem::us, false});
  BOOST_TEST(row(d, "Chill").key == "69.8 °F");
  BOOST_TEST(row(d, "Weigh").key.find("oz") != std::string::npos);
}

BOOST_AUTO_TEST_CASE(what_is_laid_inside_hangs_on_its_step_and_not_in_the_chain) {
  const Drawing d = drawn(plan_of(in_order));
  const int boil = index_of(d, "Boil"), foil = index_of(d, "Cover"), chill = index_of(d, "Chill");
  BOOST_TEST(foil == boil + 1);
  BOOST_TEST(*d.nodes[static_cast<std::size_t>(foil)].inside == boil);
  BOOST_TEST(has_arrow(d, foil, boil, Arrow::Kind::during));
  BOOST_TEST(has_arrow(d, boil, chill, Arrow::Kind::then));
  BOOST_TEST(!has_arrow(d, foil, chill, Arrow::Kind::then));
  BOOST_TEST(count(d, Arrow::Kind::during) == 1);
}

BOOST_AUTO_TEST_CASE(materials_and_things_join_where_they_are_used) {
  const Drawing d = drawn(plan_of(in_order));
  BOOST_TEST(joining(row(d, "Weigh"), "light dry malt").key == "140 g");
  BOOST_TEST(joining(row(d, "Dissolve"), "water").key == "1.5 L");
  BOOST_TEST(joining(row(d, "Chill"), "ice").key == "1 kg");
  const Joining& pack = joining(row(d, "Pitch"), "pack");
  BOOST_TEST((pack.kind == Joining::Kind::clean));
  BOOST_TEST(pack.note == "clean: step 6");
  BOOST_TEST(*pack.cleaned_in == index_of(d, "Sanitise"));
}

BOOST_AUTO_TEST_CASE(what_touches_the_wort_unclean_is_marked) {
  const Drawing d = drawn(plan_of(R"({"do": "weigh"}, {"do": "dissolve", "in": "flask"},
    {"do": "boil", "in": "flask", "heat": "gas", "for": "12 min"},
    {"do": "chill", "in": "tub", "bath": "12 L", "to": "21 °C"},
    {"do": "check temperature", "with": "thermometer"},
    {"do": "pitch", "from": "pack"}, {"do": "sanitise", "items": ["pack"]},
    {"do": "agitate", "for": "36 h"}, {"do": "pitch to beer"})"));
  BOOST_TEST((joining(row(d, "Check"), "thermometer").kind == Joining::Kind::unclean));
  BOOST_TEST(joining(row(d, "Check"), "thermometer").note == "not clean");
  BOOST_TEST(joining(row(d, "Pitch"), "pack").note == "cleaned too late: step 7");
  BOOST_TEST(joining(row(d, "Agitate"), "stir bar").assumed);
  BOOST_TEST(told(row(d, "Check"), "clean-contact"));
}

BOOST_AUTO_TEST_CASE(a_sound_plan_has_no_fault_and_no_ghost) {
  const Drawing d = drawn(plan_of(in_order));
  BOOST_TEST(count(d, Arrow::Kind::fault) == 0);
  BOOST_TEST(count(d, Arrow::Kind::ghost) == 0);
  BOOST_TEST(count(d, Arrow::Kind::ring) == 0);
  for (const DrawnStep& node : d.nodes) {
    BOOST_TEST(!node.missing);
    for (const auto& badge : node.badges) BOOST_TEST((badge.severity == Severity::note));
  }
}

BOOST_AUTO_TEST_CASE(an_arrow_against_the_order_is_a_fault) {
  const Drawing d = drawn(plan_of(R"({"do": "weigh"}, {"do": "dissolve", "in": "flask"},
    {"do": "boil", "in": "flask", "heat": "gas", "for": "12 min"},
    {"do": "chill", "in": "tub", "bath": "12 L", "to": "21 °C"}, {"do": "pitch", "from": "pack"},
    {"do": "agitate"}, {"do": "crash", "for": "36 h"}, {"do": "pitch to beer"},
    {"do": "decant"})"));
  const int decant = index_of(d, "Decant"), beer = index_of(d, "Pitch to beer");
  BOOST_TEST(has_arrow(d, decant, beer, Arrow::Kind::fault));
  BOOST_TEST(has_arrow(d, beer, decant, Arrow::Kind::then));
  BOOST_TEST(told(d.nodes[static_cast<std::size_t>(decant)], "decant-before-pitch"));
}

BOOST_AUTO_TEST_CASE(missing_steps_stand_where_they_belong) {
  const Drawing d = drawn(plan_of(R"({"do": "weigh"}, {"do": "dissolve", "in": "flask"},
    {"do": "pitch", "from": "pack"}, {"do": "agitate"}, {"do": "crash", "for": "36 h"},
    {"do": "decant"})"));
  const int boil = index_of(d, "boil"), chill = index_of(d, "chill"), pitch = index_of(d, "Pitch");
  BOOST_TEST(d.nodes[static_cast<std::size_t>(boil)].missing);
  BOOST_TEST(index_of(d, "Dissolve") < boil);
  BOOST_TEST(boil < chill);
  BOOST_TEST(chill < pitch);
  BOOST_TEST(d.nodes.back().missing);
  BOOST_TEST(d.nodes.back().words == "pitch to beer");
  for (const DrawnStep& node : d.nodes)
    if (node.missing) BOOST_TEST(told(node, "step-missing"), node.words << " is not told of");
  BOOST_TEST(has_arrow(d, boil, chill, Arrow::Kind::ghost));
  BOOST_TEST(has_arrow(d, chill, pitch, Arrow::Kind::ghost));
}

BOOST_AUTO_TEST_CASE(an_unknown_word_stays_as_typed_and_a_ring_is_closed) {
  const Drawing d = drawn(plan_of(R"({"do": "wiegh"}, {"do": "dissolve", "in": "flask"},
    {"do": "boil", "in": "flask", "heat": "gas", "for": "12 min", "after": ["chill"]},
    {"do": "chill", "in": "tub", "bath": "12 L", "to": "21 °C"}, {"do": "pitch", "from": "pack"},
    {"do": "agitate"}, {"do": "pitch to beer"})"));
  BOOST_TEST(d.nodes[0].unknown);
  BOOST_TEST(d.nodes[0].words == "wiegh");
  BOOST_TEST(has_arrow(d, index_of(d, "Chill"), index_of(d, "Boil"), Arrow::Kind::ring));
}

BOOST_AUTO_TEST_CASE(findings_of_a_stage_go_to_the_step_that_does_it) {
  const Drawing d = starter::drawing_of(judged("faulty/rich-wort"));
  BOOST_TEST(told(row(d, "Weigh"), "extract-ratio"));
  const auto& badge = row(d, "Weigh").badges.front();
  BOOST_TEST(badge.value.find("g/L") != std::string::npos);
  BOOST_TEST(badge.wanted.find("–") != std::string::npos);
  BOOST_TEST(badge.wanted.find("g/L") != std::string::npos);
}

BOOST_AUTO_TEST_CASE(two_temperatures_apart_are_not_told_as_one) {
  const Drawing d = starter::drawing_of(judged("faulty/hot-jug"));
  const std::string& title = starter::find_rule("glass-shock")->title;
  for (const DrawnStep& node : d.nodes)
    for (const auto& badge : node.badges) {
      if (badge.title != title) continue;
      BOOST_TEST(badge.value.rfind("sudden change in the glass ", 0) == 0u, badge.value);
      BOOST_TEST(badge.wanted.rfind("at most ", 0) == 0u, badge.wanted);
      return;
    }
  BOOST_FAIL("no " << title);
}

BOOST_AUTO_TEST_CASE(what_any_part_of_the_work_has_stands_with_what_is_before_it) {
  const Drawing d = drawn(plan_of(R"({"do": "weigh"}, {"do": "dissolve", "in": "flask"},
    {"do": "boil", "in": "flask"}, {"do": "chill", "in": "tub", "to": "21 °C"},
    {"do": "pitch", "from": "pack"}, {"do": "cover", "with": "foil"}, {"do": "agitate"},
    {"do": "decant"}, {"do": "pitch to beer"})"));
  BOOST_TEST((row(d, "Cover").phase == starter::Phase::yeast));
  BOOST_TEST((row(d, "Decant").phase == starter::Phase::brew_day));
}

BOOST_AUTO_TEST_CASE(what_is_decanted_between_stages_is_not_of_brew_day) {
  const Drawing d = starter::drawing_of(judged("good/step-up"));
  std::vector<starter::Phase> phases;
  for (const DrawnStep& node : d.nodes)
    if (node.words == "Decant") phases.push_back(node.phase);
  BOOST_REQUIRE(phases.size() == 2u);
  BOOST_TEST((phases[0] == starter::Phase::yeast));
  BOOST_TEST((phases[1] == starter::Phase::brew_day));
}

BOOST_AUTO_TEST_CASE(a_step_is_told_alone_or_beside_its_number) {
  const auto plan =
      plan_from(plan_of(R"({"do": "weigh"}, {"do": "boil", "in": "flask", "heat": "gas",
    "for": "12 min"}, {"do": "add", "items": ["stir bar", "nutrient"]}, {"do": "move", "from": "pot",
    "to": "flask"}, {"do": "wiegh", "in": "flask"})"));
  const auto told = [&](std::size_t i, starter::Said said) {
    return starter::step_in_words(plan, plan.steps[i], starter::UnitSystem::metric, said);
  };
  using starter::Said;
  BOOST_TEST(told(0, Said::alone) == "weigh 140 g light dry malt");
  BOOST_TEST(told(0, Said::drawn) == "Weigh");
  BOOST_TEST(told(1, Said::alone) == "boil for 12 min in flask");
  BOOST_TEST(told(1, Said::drawn) == "Boil in flask, gas");
  BOOST_TEST(told(2, Said::alone) == "add stir bar and nutrient");
  BOOST_TEST(told(2, Said::drawn) == "Add stir bar and nutrient");
  BOOST_TEST(told(3, Said::alone) == "move from pot to flask");
  BOOST_TEST(told(4, Said::alone) == "wiegh in flask");
  BOOST_TEST(told(4, Said::drawn) == "wiegh in flask");
}

BOOST_AUTO_TEST_CASE(a_closed_vessel_is_told_with_what_closes_it) {
  const auto plan = plan_from(plan_of(R"({"do": "cover", "with": "cork", "sealed": true},
    {"do": "cover", "with": "airlock"}, {"do": "store", "with": "rubber stopper", "sealed": true,
    "for": "20 h"}, {"do": "store", "at": "5 °C"})"));
  const auto told = [&](std::size_t i) {
    return starter::step_in_words(plan, plan.steps[i], starter::UnitSystem::metric,
                                  starter::Said::alone);
  };
  BOOST_TEST(told(0) == "cover with cork, sealed");
  BOOST_TEST(told(1) == "cover with airlock");
  BOOST_TEST(told(2) == "store with rubber stopper, sealed");
  BOOST_TEST(told(3) == "store at 5 °C");
}

BOOST_AUTO_TEST_CASE(the_cold_lasts_as_long_as_the_clock_leaves) {
  // Begun on time, the rest in the cold takes what is left until the beer.
  const auto j = judged("harvest-amber");
  const auto crash = std::find_if(j.plan.steps.begin(), j.plan.steps.end(),
                                  [](const auto& step) { return step.does == starter::Do::crash; });
  BOOST_REQUIRE((crash != j.plan.steps.end()));
  const auto index = static_cast<std::size_t>(crash - j.plan.steps.begin());
  const auto& time = j.workings.times.times[index];
  const std::string clock = starter::time_in_words(time.end - time.start);
  BOOST_TEST(clock != starter::write(*crash->lasts, starter::UnitSystem::metric));
  BOOST_TEST(row(starter::drawing_of(j), "Crash").key == clock);
  // What is filled in by hand is one number in one unit.
  BOOST_TEST(row(starter::drawing_of(j, {starter::UnitSystem::metric, true}), "Crash").key == "h");
}

BOOST_AUTO_TEST_CASE(every_finding_is_on_the_sheet) {
  for (const char* name : {"faulty/many-at-once", "faulty/bar-never-clean", "faulty/hot-jug",
                           "faulty/too-late", "faulty/too-small", "good/slurry", "good/step-up",
                           "good/unknown-step", "good/empty-steps", "good/short"}) {
    const auto j = judged(name);
    const Drawing d = starter::drawing_of(j);
    int badges = 0;
    for (const DrawnStep& node : d.nodes)
      for (const auto& badge : node.badges) badges += badge.times;
    BOOST_TEST(badges == static_cast<int>(j.findings.size()), name);
  }
}

BOOST_AUTO_TEST_CASE(a_blank_sheet_tells_nothing) {
  const auto j = judged("faulty/many-at-once");
  const Drawing d = starter::drawing_of(j, {starter::UnitSystem::metric, true});
  BOOST_TEST(d.blank);
  BOOST_TEST(d.nodes.size() == j.plan.steps.size());
  for (const DrawnStep& node : d.nodes) {
    BOOST_TEST(node.badges.empty());
    BOOST_TEST(node.key.find_first_of("0123456789") == std::string::npos, node.key);
    for (const Joining& joined : node.joins) {
      BOOST_TEST((joined.kind != Joining::Kind::unclean && joined.kind != Joining::Kind::clean));
      BOOST_TEST(joined.key.find_first_of("0123456789") == std::string::npos, joined.key);
    }
  }
  BOOST_TEST(count(d, Arrow::Kind::fault) == 0);
  BOOST_TEST(row(d, "Boil").key == "min");
}

BOOST_AUTO_TEST_CASE(the_critical_path_is_marked) {
  const Drawing d = drawn(plan_of(R"({"do": "weigh"}, {"do": "dissolve", "in": "flask"},
    {"do": "boil", "in": "flask", "heat": "gas", "for": "12 min"},
    {"do": "sanitise", "items": ["pack"], "after": []},
    {"do": "chill", "in": "tub", "bath": "12 L", "to": "21 °C", "after": ["boil"]},
    {"do": "pitch", "from": "pack", "after": ["chill", "sanitise"]}, {"do": "agitate"},
    {"do": "pitch to beer"})"));
  BOOST_TEST(row(d, "Boil").critical);
  BOOST_TEST(row(d, "Chill").critical);
  BOOST_TEST(!row(d, "Sanitise").critical);
  for (const Arrow& arrow : d.arrows)
    if (arrow.from == index_of(d, "Sanitise")) BOOST_TEST(!arrow.critical);
}

BOOST_AUTO_TEST_CASE(an_arrow_that_others_say_is_left_out) {
  const Drawing d = starter::drawing_of(judged("harvest-amber"));
  for (const Arrow& direct : d.arrows) {
    if (direct.kind != Arrow::Kind::then && direct.kind != Arrow::Kind::trade) continue;
    for (const Arrow& first : d.arrows)
      if (first.kind == Arrow::Kind::then && first.from == direct.from && first.to != direct.to)
        BOOST_TEST(!has_arrow(d, first.to, direct.to, Arrow::Kind::then));
  }
}

BOOST_AUTO_TEST_CASE(the_standard_process_has_the_rules_own_numbers) {
  const Drawing d = starter::standard_drawing();
  BOOST_TEST(d.standard);
  BOOST_TEST(row(d, "Weigh").key == "80–110 g/L");
  BOOST_TEST(row(d, "Boil").key == "5–20 min");
  BOOST_TEST(row(d, "Crash").key == "24–48 h");
  for (const DrawnStep& node : d.nodes) {
    BOOST_TEST(node.badges.empty());
    BOOST_TEST(!node.missing);
    for (const Joining& joined : node.joins)
      BOOST_TEST((joined.kind != Joining::Kind::unclean), joined.what);
  }
}

BOOST_AUTO_TEST_CASE(every_rule_has_a_part_that_it_watches) {
  for (const starter::Rule& rule : starter::catalogue()) {
    const Drawing d = starter::rule_drawing(rule);
    BOOST_TEST(d.title == rule.title);
    BOOST_TEST(std::any_of(d.nodes.begin(), d.nodes.end(),
                           [](const DrawnStep& node) { return node.watched; }),
               rule.id);
    const int rows = static_cast<int>(d.nodes.size());
    for (const Arrow& arrow : d.arrows)
      BOOST_TEST((arrow.from >= 0 && arrow.from < rows && arrow.to >= 0 && arrow.to < rows));
    if (rule.kind == starter::RuleKind::order) BOOST_TEST(count(d, Arrow::Kind::rule) > 0, rule.id);
  }
}

BOOST_AUTO_TEST_CASE(a_rule_about_the_boil_shows_the_boil_and_not_the_beer) {
  const Drawing d = starter::rule_drawing(*starter::find_rule("boil-time"));
  BOOST_TEST(row(d, "Boil").watched);
  BOOST_TEST(std::none_of(d.nodes.begin(), d.nodes.end(), [](const DrawnStep& node) {
    return node.words.rfind("Pitch to beer", 0) == 0;
  }));
}

BOOST_AUTO_TEST_SUITE_END()
