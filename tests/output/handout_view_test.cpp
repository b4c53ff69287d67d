// What a printed sheet shows, and what it keeps back.

#include "output/handout_view.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "output/by_hand.h"
#include "output/layout.h"
#include "plan_text.h"
#include "support.h"

using namespace starter;

namespace {

std::size_t count(const std::string& text, const std::string& part) {
  std::size_t n = 0;
  for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++n;
  return n;
}

HandoutOptions of_kind(SheetKind kind) {
  HandoutOptions o;
  o.kind = kind;
  return o;
}

BOOST_AUTO_TEST_SUITE(sheets_to_print)

BOOST_AUTO_TEST_CASE(a_sheet_stands_alone) {
  const std::string page = handout_page(judged("faulty/many-at-once"), {});
  BOOST_TEST(page.starts_with("<!doctype html>"));
  for (const char* outside :
       {"http:", "https:", "src=", "url(", "@import", "<script", "<link", "<iframe", "file:"})
    BOOST_TEST(!holds(page, outside), outside);
}

BOOST_AUTO_TEST_CASE(every_step_finding_and_number_is_there) {
  for (const char* name : {"harvest-amber", "faulty/many-at-once", "good/step-up"}) {
    const Judgement j = judged(name);
    const Json view = handout_view(j, {});
    std::size_t steps = 0;
    for (const Json& step : view["steps"]) steps += step["has_number"].get<bool>();
    BOOST_TEST(steps == j.plan.steps.size());
    BOOST_TEST(view["findings"].size() + view["notes"].size() == j.findings.size());
    std::size_t numbers = 0;
    for (const Json& part : view["measures"]) numbers += part["rows"].size();
    BOOST_TEST(numbers == j.measures.size());
    const std::string page = handout_page(j, {});
    BOOST_TEST(count(page, "class=\"box\"") >= j.plan.steps.size());
  }
}

BOOST_AUTO_TEST_CASE(an_exercise_shows_the_plan_and_no_answer) {
  const Judgement j = judged("faulty/many-at-once");
  const std::string whole = handout_page(j, of_kind(SheetKind::exercise));
  const std::string page = whole.substr(whole.find("</style>"));  // which names severities
  BOOST_TEST(holds(page, "What would you mend?"));
  for (const Finding& f : j.findings) BOOST_TEST(!holds(page, f.rule->title), f.rule->title);
  for (const char* answer : {"not clean", "too late", "spoils", "DANGER", "Key numbers"})
    BOOST_TEST(!holds(page, answer), answer);
  // Cautions are no answers.
  BOOST_TEST(holds(page, "Boiling wort sticks to skin"));
}

BOOST_AUTO_TEST_CASE(an_exercise_has_a_row_for_every_finding) {
  const auto rows = [](const Judgement& j, SheetKind kind) {
    return handout_view(j, of_kind(kind))["free_findings"].size();
  };
  const Judgement many = judged("faulty/many-at-once");  // eight above a note
  BOOST_TEST(rows(many, SheetKind::exercise) == 8u);
  // No fewer than before, so that their number tells nothing.
  BOOST_TEST(rows(judged("harvest-amber"), SheetKind::exercise) == 7u);
  BOOST_TEST(rows(many, SheetKind::workshop) == 7u);
  BOOST_TEST(rows(many, SheetKind::full) == 0u);
}

BOOST_AUTO_TEST_CASE(a_blank_stands_beside_the_way_to_its_number) {
  const Json view = handout_view(judged("harvest-amber"), of_kind(SheetKind::exercise));
  std::set<std::string> asked;
  for (const Json& part : view["measures"]) {
    BOOST_TEST(!part["rows"].empty());
    for (const Json& row : part["rows"]) {
      asked.insert(row["name"]);
      BOOST_TEST(!row["how"].get<std::string>().empty(), row["name"]);
      BOOST_TEST(row["value"] == "");
    }
  }
  BOOST_TEST(asked.count("finished wort, cold") == 1u);
  // The clock of cooling and the pace of growth are no work for a pencil.
  for (const char* name : {"chilling takes", "growth needed", "cold rest needed", "extract"})
    BOOST_TEST(asked.count(name) == 0u, name);
}

// What the ways come to for the shipped example is what the engine computes.
BOOST_AUTO_TEST_CASE(the_ways_by_hand_agree_with_the_engine) {
  const Judgement j = judged("harvest-amber");
  const auto near = [&j](const char* name, double by_pencil, double per_cent) {
    const Measure* m = nullptr;
    for (const Measure& one : j.measures)
      if (one.name == name) m = &one;
    BOOST_REQUIRE_MESSAGE(m != nullptr, name);
    BOOST_TEST(!by_hand(j.plan, *m).empty(), name);
    BOOST_TEST_INFO(name << ": engine " << m->value << ", pencil " << by_pencil);
    BOOST_TEST(std::fabs(m->value - by_pencil) <= per_cent / 100 * std::fabs(m->value));
  };
  // 110 g of dry malt in 1.15 L, boiled for 12 min in a flask; 20 L of ale at 1.052 (12.8 °P);
  // a pack of 24 days; a bath of 10 L at 14 °C with 1 kg of ice.
  const double extract = 0.96 * 0.110, boiled_off = 0.3 * 0.2;
  const double wort = 1.15 + 0.63 * extract - boiled_off;
  near("wort_volume", wort, 1);
  near("wort_gravity", 100 * extract / (1.15 - boiled_off + extract), 1);
  near("extract_ratio", 110 / wort, 1);
  near("boil_temperature", 100 - 240 / 300.0, 1);
  near("boil_off", 100 * boiled_off / (wort + boiled_off), 3);
  near("boil_fill", (wort + boiled_off) / 2, 1);
  near("bath_equilibrium", (wort * 100 + 10 * 14 - 1 * 80) / (wort + 10 + 1), 15);
  near("ice_needed", (wort * (100 - 21) - 10 * (21 - 14)) / (80 + 21), 25);
  const double days = find_measure(j.measures, "pack_age", -1)->value;
  const double living = (100 - 0.67 * days + 100 * std::pow(0.8, days / 30)) / 2;
  near("viability", living, 1);
  near("cells_available", living, 1);
  near("inoculation_rate", living / wort, 1);
  near("cells_needed", 0.75 * 20 * 12.8, 1);
  const double new_cells = std::min(1.4, (7 - 2 * living / 110) / 3) * 110;
  near("cells_grown", new_cells, 3);
  near("cells_after_stage", living + new_cells, 3);
  near("starter_share", 100 * wort / 20, 1);
}

BOOST_AUTO_TEST_CASE(a_workshop_sheet_shows_nothing_of_the_plan_but_its_steps) {
  PlanText text;
  text.title = "\"Secret bitter\"";
  text.member = "\"Quiet member\"";
  const Judgement j = text.judged();
  const std::string page = handout_page(j, of_kind(SheetKind::workshop));
  for (const char* own : {"Secret", "Quiet", "140 g", "1.5 L", "21 °C", "36 h", "18:00"})
    BOOST_TEST(!holds(page, own), own);
  BOOST_TEST(holds(page, "Decant"));
  BOOST_TEST(holds(page, "Boiling wort sticks to skin"));
  BOOST_TEST(count(page, "rule-line") > 20u);
}

BOOST_AUTO_TEST_CASE(a_term_names_its_source) {
  const std::string page = handout_page(judged("harvest-amber"), {});
  BOOST_TEST(holds(page, "Published: ISO 3585"));
  BOOST_TEST(holds(page, "From memory, not confirmed: Del Vecchio"));
  BOOST_TEST(holds(page, "Common practice, no source, where none is named."));
}

BOOST_AUTO_TEST_CASE(paper_and_print_are_as_asked) {
  HandoutOptions letter;
  letter.paper = Paper::letter;
  letter.large = true;
  const std::string page = handout_page(judged("harvest-amber"), letter);
  BOOST_TEST(holds(page, "size: letter"));
  BOOST_TEST(holds(page, "16pt"));
  BOOST_TEST(holds(handout_page(judged("harvest-amber"), {}), "size: A4"));
}

BOOST_AUTO_TEST_CASE(units_are_as_asked) {
  HandoutOptions us;
  us.units = UnitSystem::us;
  JudgeOptions how;
  how.units = UnitSystem::us;
  how.fixes = false;
  const Judgement j = judge(plan_from(corpus("harvest-amber")), catalogue(), how);
  const std::string page = handout_page(j, us);
  BOOST_TEST(holds(page, "3.88 oz"));
  BOOST_TEST(holds(page, "told in metric units"));
}

BOOST_AUTO_TEST_CASE(a_caution_stands_in_full_at_the_first_step_that_needs_it) {
  const Json view = handout_view(judged("harvest-amber"), {});
  std::size_t full = 0;
  bool again = false;
  for (const Json& step : view["steps"]) {
    for (const Json& caution : step["cautions"]) {
      BOOST_TEST(!caution["text"].get<std::string>().empty());
      full += caution["title"] == "Hot, sticky wort";
    }
    again |= holds(step["again"], "Hot, sticky wort (step 3)");
  }
  BOOST_TEST(full == 1u);
  BOOST_TEST(again);
}

/// Numbers of the steps as they stand on the sheet, growth left out.
std::string printed_order(const Json& view) {
  std::string order;
  for (const Json& step : view["steps"])
    if (step["has_number"]) order += step["number"].get<std::string>() + " ";
  return order;
}

BOOST_AUTO_TEST_CASE(steps_stand_by_the_clock_and_without_it_by_their_numbers) {
  PlanText text;
  text.steps = R"({"do": "weigh"}, {"do": "boil", "in": "flask", "heat": "gas", "for": "12 min"},
    {"do": "add", "items": ["stir bar"]}, {"do": "cover", "with": "foil", "during": "boil"},
    {"do": "pitch", "from": "pack"}, {"do": "agitate"}, {"do": "pitch to beer"})";
  const Judgement j = text.judged();
  const Json sheet = handout_view(j, {});
  BOOST_TEST(printed_order(sheet) == "1 2 4 3 5 6 7 ");
  const Json blank = handout_view(j, of_kind(SheetKind::workshop));
  BOOST_TEST(printed_order(blank) == "1 2 3 4 5 6 7 ");
  for (const Json& view : {sheet, blank})
    for (const Json& step : view["steps"])
      BOOST_TEST(holds(step["words"], "(during step 2)") == (step["number"] == "4"));
  // A caution that was told before was told further up.
  int told = 0;
  for (const Json& step : blank["steps"]) {
    const std::string again = step["again"];
    for (int number = 7; number > told + 1; --number)
      BOOST_TEST(!holds(again, "(step " + std::to_string(number) + ")"));
    ++told;
  }
}

BOOST_AUTO_TEST_CASE(what_closes_a_vessel_stands_in_the_step) {
  PlanText text;
  text.steps = R"({"do": "weigh"}, {"do": "boil", "in": "flask", "heat": "gas", "for": "12 min"},
    {"do": "pitch", "from": "pack"}, {"do": "cover", "with": "cork", "sealed": true},
    {"do": "store", "with": "rubber stopper", "sealed": true, "for": "20 h"},
    {"do": "pitch to beer"})";
  const std::string page = handout_page(text.judged(), {});
  BOOST_TEST(holds(page, "Cover with cork, sealed"));
  BOOST_TEST(holds(page, "with rubber stopper, sealed"));
}

BOOST_AUTO_TEST_CASE(people_read_days_and_minus_signs) {
  Judgement j = judged("faulty/many-at-once");
  j.findings.front().accepted = Acceptance{"Moss", "it may", "2027-03-10", false};
  const std::string page = handout_page(j, {});
  BOOST_TEST(holds(page, "Wed 10 Mar 2027"));
  BOOST_TEST(holds(page, "\u2212"));
  const std::string text = page.substr(page.find("</style>"));
  const auto digit = [&](std::size_t at) { return text[at] >= '0' && text[at] <= '9'; };
  for (std::size_t at = 1; at + 1 < text.size(); ++at) {
    if (text[at] != '-' || !digit(at + 1)) continue;
    const std::string around = text.substr(at < 20 ? 0 : at - 20, 40);
    BOOST_TEST(!digit(at - 1), "an ISO day in: " << around);
    BOOST_TEST((text[at - 1] != ' ' && text[at - 1] != '('), "a hyphen for a minus: " << around);
  }
}

BOOST_AUTO_TEST_CASE(each_page_of_the_picture_has_a_page) {
  HandoutOptions o;
  o.svgs = {"<svg>one</svg>", "<svg>two</svg>"};
  const std::string page = handout_page(judged("harvest-amber"), o);
  BOOST_TEST(count(page, "class=\"picture\"") == 2u);
  BOOST_TEST(count(page, "The steps as a picture</h2>") == 1u);
  BOOST_TEST(holds(page, "The steps as a picture, going on</h2>\n<figure>\n<svg>two"));
  BOOST_TEST(!holds(handout_page(judged("harvest-amber"), {}), "class=\"picture\""));
}

BOOST_AUTO_TEST_CASE(whatever_a_member_typed_is_shown_as_typed) {
  const std::string evil = R"(</title><script>alert(1)</script>{{title}} {{{x}}} " ' & \\)";
  PlanText text;
  text.title = Json(evil).dump();
  text.member = Json(evil).dump();
  const std::string page = handout_page(text.judged(), {});
  BOOST_TEST(!holds(page, "<script"));
  BOOST_TEST(holds(page, "&lt;script&gt;alert(1)&lt;/script&gt;{{title}} {{{x}}}"));
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
