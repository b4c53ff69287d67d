// Practice files: what they change of rules and defaults, what is refused and where, and that
// no bytes whatever bring the reader down.

#include "rules/practice.h"

#include <boost/test/unit_test.hpp>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <random>

#include "plan_of.h"
#include "rules/catalogue.h"
#include "rules/judge.h"

using namespace starter;

namespace {

const std::filesystem::path folder = std::string(STARTER_PLAN_SOURCE_DIR) + "/tests/practices";

std::string bytes_of(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  BOOST_REQUIRE_MESSAGE(file.good(), path);
  return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

PracticeResult read(const std::string& bytes) {
  return read_practice(bytes, {catalogue(), cautions()});
}

Practice practice_in(const std::string& bytes) {
  PracticeResult result = read(bytes);
  if (const auto* errors = std::get_if<std::vector<PlanError>>(&result))
    for (const PlanError& e : *errors) BOOST_ERROR(e.where << " line " << e.line << ": " << e.says);
  BOOST_REQUIRE(std::holds_alternative<Practice>(result));
  return std::get<Practice>(std::move(result));
}

/// A practice file with these members.
std::string file(const std::string& members) {
  return R"({"practice": 1, "club": "Lantern Lane Brewers", )" + members + "}";
}

/// One rule changed, for "our reason".
std::string changing(const std::string& rule, const std::string& change) {
  return file("\"rules\": {\"" + rule + R"(": {"because": "our reason", )" + change + "}}");
}

/// The only error of bytes that cannot be used.
PlanError error_of(const std::string& bytes) {
  const PracticeResult result = read(bytes);
  const auto* errors = std::get_if<std::vector<PlanError>>(&result);
  BOOST_REQUIRE_MESSAGE(errors != nullptr, "was read: " << bytes);
  BOOST_TEST(errors->size() == 1U, bytes);
  return errors->front();
}

bool holds(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

/// The finding of a rule in a plan; nullptr when it says nothing.
const Finding* finding(const Judgement& j, const std::string& rule) {
  for (const Finding& f : j.findings)
    if (f.rule->id == rule) return &f;
  return nullptr;
}

Judgement judged(const Practice& practice, const std::string& patch = "[]") {
  JudgeOptions how;
  how.fixes = false;
  auto plan = read_plan(harvest_amber_json(patch).dump(), practice.defaults);
  BOOST_REQUIRE(std::holds_alternative<Plan>(plan));
  return judge(std::get<Plan>(std::move(plan)), practice.rules(), how);
}

}  // namespace

BOOST_AUTO_TEST_SUITE(practice_files)

BOOST_AUTO_TEST_CASE(good_files_are_read_and_bad_ones_refused_with_place_and_advice) {
  int good = 0, bad = 0;
  for (const auto& entry : std::filesystem::directory_iterator(folder / "good")) {
    practice_in(bytes_of(entry.path()));
    ++good;
  }
  for (const auto& entry : std::filesystem::directory_iterator(folder / "bad")) {
    const PracticeResult result = read(bytes_of(entry.path()));
    const auto* errors = std::get_if<std::vector<PlanError>>(&result);
    BOOST_REQUIRE_MESSAGE(errors != nullptr, entry.path() << " was read");
    for (const PlanError& e : *errors) {
      BOOST_TEST(!e.says.empty(), entry.path());
      BOOST_TEST(!e.write.empty(), entry.path() << ": " << e.says);
      BOOST_TEST(e.line >= 1, entry.path() << ": " << e.says);
      BOOST_TEST((e.where.empty() || e.where.front() == '/'), entry.path());
    }
    ++bad;
  }
  BOOST_TEST(good >= 12);
  BOOST_TEST(bad >= 70);
}

BOOST_AUTO_TEST_CASE(without_a_file_the_catalogue_holds) {
  const Practice usual = usual_practice(catalogue());
  BOOST_TEST(usual.rules().data() == catalogue().data());
  BOOST_TEST(usual.find("ice-late") == find_rule("ice-late"));
  const Practice nothing = practice_in(file("\"about\": \"nothing\""));
  BOOST_TEST(nothing.rules().size() == catalogue().size());
  for (const Rule& rule : nothing.rules()) BOOST_TEST(!rule.club, rule.id);
}

BOOST_AUTO_TEST_CASE(changed_bounds_change_the_finding_and_say_whose_they_are) {
  BOOST_TEST(!finding(judged(usual_practice(catalogue())), "extract-ratio"));
  const Practice club =
      practice_in(changing("extract-ratio", R"("comfortable": [80, 90], "hard": [50, 92])"));
  const Judgement j = judged(club);
  const Finding* f = finding(j, "extract-ratio");
  BOOST_REQUIRE(f);
  BOOST_TEST((f->severity == Severity::spoils));
  BOOST_TEST(holds(f->margin, "80–90 g/L"));
  BOOST_REQUIRE(f->rule->club);
  BOOST_TEST(f->rule->club->club == "Lantern Lane Brewers");
  BOOST_TEST(f->rule->club->because == "our reason");
  BOOST_REQUIRE(f->rule->club->changes.size() == 2U);
  BOOST_TEST(f->rule->club->changes[0] == "comfortable 80–90 g/L, not 80–110 g/L");
  BOOST_TEST(f->rule->club->changes[1] == "hard bounds 50–92 g/L, not 50–135 g/L");
  BOOST_TEST(f->rule->sources.front().label == "practice");
  BOOST_TEST(f->rule->sources.front().text ==
             "Lantern Lane Brewers: comfortable 80–90 g/L, not 80–110 g/L; hard bounds 50–92 g/L, "
             "not 50–135 g/L – our reason");
  BOOST_TEST(f->rule->sources.size() == find_rule("extract-ratio")->sources.size() + 1);
}

BOOST_AUTO_TEST_CASE(bounds_by_a_fact_change_for_that_value_alone) {
  const Practice club = practice_in(
      changing("glass-shock", R"("by": {"soda-lime glass": {"comfortable": [null, 20]}})"));
  const Rule& rule = *club.find("glass-shock");
  const Rule& old = *find_rule("glass-shock");
  BOOST_TEST(*rule.by_value.at("soda-lime glass").comfortable.high == 20);
  BOOST_TEST(*rule.by_value.at("soda-lime glass").hard.high ==
             *old.by_value.at("soda-lime glass").hard.high);
  BOOST_TEST(*rule.by_value.at("borosilicate glass").comfortable.high ==
             *old.by_value.at("borosilicate glass").comfortable.high);
}

BOOST_AUTO_TEST_CASE(severities_texts_and_gaps_change) {
  const Practice club = practice_in(file(R"("rules": {
    "pack-age": {"because": "b", "severity": {"comfortable": "spoils"}},
    "extract-kind": {"because": "b", "severity": {"amber dry malt": "spoils"},
                     "says": {"amber dry malt": "Amber in {stage}."}},
    "clean-contact": {"because": "b", "severity": "danger", "why": "Our why.", "do": "Our advice."},
    "volume-balance": {"because": "b", "comfortable": 0.03}})"));
  BOOST_TEST((club.find("pack-age")->outside_comfortable == Severity::spoils));
  BOOST_TEST((club.find("extract-kind")->others.at("amber dry malt") == Severity::spoils));
  BOOST_TEST((club.find("extract-kind")->others.at("dark dry malt") == Severity::weakens));
  BOOST_TEST(club.find("extract-kind")->says.at("amber dry malt") == "Amber in {stage}.");
  BOOST_TEST((club.find("clean-contact")->severity == Severity::danger));
  BOOST_TEST(club.find("clean-contact")->why == "Our why.");
  BOOST_TEST(club.find("clean-contact")->advice == "Our advice.");
  BOOST_TEST(club.find("volume-balance")->comfortable_gap == 0.03);
  const Judgement j = judged(
      club, R"([{"op": "replace", "path": "/stages/0/extract/kind", "value": "amber dry malt"}])");
  BOOST_REQUIRE(finding(j, "extract-kind"));
  BOOST_TEST((finding(j, "extract-kind")->severity == Severity::spoils));
  BOOST_TEST(finding(j, "extract-kind")->says == "Amber in the starter.");
}

BOOST_AUTO_TEST_CASE(a_rule_that_is_off_is_silent_and_remembered) {
  const std::string hot = R"([{"op": "replace", "path": "/steps/4/ice_from", "value": "80 °C"}])";
  BOOST_TEST(finding(judged(usual_practice(catalogue()), hot), "ice-late"));
  const Practice club = practice_in(changing("ice-late", R"("off": true)"));
  BOOST_TEST(!finding(judged(club, hot), "ice-late"));
  BOOST_TEST(!club.find("ice-late"));
  BOOST_REQUIRE(club.find_off("ice-late"));
  BOOST_TEST(club.find_off("ice-late")->because == "our reason");
  BOOST_TEST(club.rules().size() + 1 == catalogue().size());
}

BOOST_AUTO_TEST_CASE(every_rule_that_can_tell_of_danger_can_only_get_stricter) {
  int dangerous = 0;
  for (const Rule& rule : catalogue()) {
    const PracticeResult off = read(changing(rule.id, R"("off": true)"));
    BOOST_TEST(std::holds_alternative<Practice>(off) == !can_endanger(rule), rule.id);
    if (!can_endanger(rule)) continue;
    ++dangerous;
    BOOST_TEST(holds(error_of(changing(rule.id, R"("off": true)")).says, "stricter"));
    BOOST_TEST(holds(error_of(changing(rule.id, R"("why": "It is fine.")")).says, "stricter"));
    BOOST_TEST(holds(error_of(changing(rule.id, R"("do": "Nothing.")")).says, "stricter"));
  }
  BOOST_TEST(dangerous >= 6);
  BOOST_TEST(error_of(changing("bumping", R"("severity": "spoils")")).write == "\"danger\"");
  BOOST_TEST(holds(error_of(changing("boil-headroom", R"("hard": [null, 0.9])")).says, "widen"));
  BOOST_TEST(holds(error_of(changing("boil-headroom", R"("hard": [null, null])")).says, "widen"));
  BOOST_TEST(holds(
      error_of(changing("stored-wort", R"("by": {"sealed and warm": {"hard": [null, 1]}})")).says,
      "widen"));
  BOOST_TEST(holds(error_of(changing("boil-headroom", R"("high": "{value} {comfortable}")")).says,
                   "replace their texts"));
  practice_in(changing("boil-headroom", R"("hard": [null, 0.7])"));
  practice_in(changing("boil-headroom", R"("severity": {"comfortable": "danger"})"));
}

BOOST_AUTO_TEST_CASE(a_dangerous_rule_stays_dangerous_under_every_good_file) {
  for (const auto& entry : std::filesystem::directory_iterator(folder / "good")) {
    const Practice club = practice_in(bytes_of(entry.path()));
    for (const Rule& rule : catalogue())
      if (can_endanger(rule)) {
        BOOST_REQUIRE_MESSAGE(club.find(rule.id), rule.id);
        BOOST_TEST(can_endanger(*club.find(rule.id)), rule.id);
        BOOST_TEST(club.find(rule.id)->why == rule.why);
      }
  }
}

BOOST_AUTO_TEST_CASE(defaults_are_supplied_and_told_as_the_clubs) {
  const Practice club = practice_in(bytes_of(folder / "good" / "all-defaults.practice.json"));
  const std::string bare = R"({"plan": 1, "beer": {"volume": "20 L", "gravity": "1.050 SG",
    "brew_day": "2027-03-20"}, "yeast": {"form": "liquid"},
    "stages": [{"extract": {"mass": "110 g"}, "water": "1.2 L"}]})";
  auto result = read_plan(bare, club.defaults);
  BOOST_REQUIRE(std::holds_alternative<Plan>(result));
  const Plan plan = std::get<Plan>(std::move(result));
  BOOST_TEST(plan.place.altitude.metres() == 90);
  BOOST_TEST(std::abs(plan.place.tap_water.celsius() - 12.7778) < 1e-3);
  BOOST_TEST(plan.place.room.celsius() == 19);
  BOOST_TEST(plan.place.fridge.celsius() == 5);
  BOOST_TEST((plan.beer.kind == BeerKind::lager));
  BOOST_TEST(plan.beer.ferment_at.celsius() == 9);
  BOOST_TEST(iso(*plan.beer.brew_day) == "2027-03-20T10:30");
  BOOST_TEST(iso(*yeast_due(plan)) == "2027-03-20T16:30");
  BOOST_TEST(plan.yeast.packs == 2);
  BOOST_TEST(plan.yeast.cells_per_pack.billion() == 150);
  BOOST_TEST((plan.yeast.flocculation == Flocculation::high));
  BOOST_TEST(plan.yeast.out_of_fridge.hours() == 3);
  BOOST_TEST((plan.stages[0].extract_kind == ExtractKind::wheat_dry_malt));
  BOOST_TEST((plan.stages[0].agitation == Agitation::shaken));
  BOOST_TEST(plan.stages[0].temperature.celsius() == 21);
  BOOST_TEST(plan.stages[0].duration.hours() == 60);
  for (const Step& step : plan.steps) {
    if (step.does == Do::boil) BOOST_TEST((step.heat == HeatSource::induction));
    if (step.does == Do::boil) BOOST_TEST(step.lasts->minutes() == 10);
    if (step.does == Do::chill) BOOST_TEST(step.to->celsius() == 20);
    if (step.does == Do::sanitise) BOOST_TEST(step.lasts->minutes() == 3);
    if (step.does == Do::crash) BOOST_TEST(step.lasts->hours() == 20);
  }
  const Judgement j = judge(plan, club.rules());
  BOOST_TEST(j.workings.pack_age.days() == 42);
  int named = 0;
  for (const Assumption& a : plan.assumed) named += holds(a.says, "Lantern Lane Brewers");
  BOOST_TEST(named >= 12);
  // A plan that says so itself is left alone, and nothing is the club's.
  for (const Assumption& a : judged(club).plan.assumed)
    BOOST_TEST(a.where != "/place/altitude", "harvest-amber gives its altitude");
}

BOOST_AUTO_TEST_CASE(fixes_are_worked_out_under_the_clubs_defaults) {
  // A fix re-reads the plan: with the usual altitude of 100 m instead of the club's it would not
  // see what the rule saw.
  const Practice club =
      practice_in(file(R"("defaults": {"altitude": "2500 m", "boil_for": "7 min"})"));
  auto document = harvest_amber_json(R"([{"op": "remove", "path": "/place/altitude"},
    {"op": "remove", "path": "/steps/2"}])");
  auto plan = read_plan(document.dump(), club.defaults);
  BOOST_REQUIRE(std::holds_alternative<Plan>(plan));
  const Judgement j = judge(std::get<Plan>(std::move(plan)), club.rules());
  BOOST_TEST(j.plan.defaults().altitude.metres() == 2500);
  const Finding* missing = finding(j, "step-missing");
  BOOST_REQUIRE(missing);
  BOOST_REQUIRE(missing->fix);
  BOOST_TEST(holds(missing->fix->patch, "7 min"));
}

BOOST_AUTO_TEST_CASE(own_rules_of_every_kind_speak) {
  const Practice club = practice_in(bytes_of(folder / "good" / "own-all.practice.json"));
  BOOST_TEST(club.rules().size() == catalogue().size() + 4);
  BOOST_TEST(std::is_sorted(club.rules().begin(), club.rules().end(),
                            [](const Rule& a, const Rule& b) { return a.id < b.id; }));
  const Judgement j = judged(club, R"([
    {"op": "replace", "path": "/steps/2/for", "value": "6 min"},
    {"op": "add", "path": "/steps/8", "value": {"do": "move", "from": "flask", "to": "flask", "with": "funnel"}},
    {"op": "remove", "path": "/steps/3"}])");
  const Finding* range = finding(j, "lane-boil");
  BOOST_REQUIRE(range);
  BOOST_TEST(holds(range->says, "6 min for the starter (comfortable: 8–15 min)."));
  BOOST_TEST((range->severity == Severity::note));
  BOOST_REQUIRE(range->rule->club);
  BOOST_TEST(range->rule->club->own);
  BOOST_TEST(range->rule->sources.front().text == "Lantern Lane Brewers, a rule of its own");
  BOOST_TEST(finding(j, "lane-order"));
  const Finding* contact = finding(j, "lane-funnel");
  BOOST_REQUIRE(contact);
  BOOST_TEST(holds(contact->says, "funnel in step"));
  for (const Finding& f : j.findings)
    if (f.rule->id == "lane-funnel") BOOST_TEST(holds(f.says, "funnel"));
  BOOST_TEST(finding(j, "lane-cover"));
}

BOOST_AUTO_TEST_CASE(mistakes_are_told_where_they_stand_with_the_nearest_word) {
  const struct {
    std::string bytes, where, says, write;
  } cases[] = {
      {changing("extract-ration", R"("comfortable": [80, 100])"), "/rules/extract-ration",
       "there is no rule", "extract-ratio"},
      {changing("extract-ratio", R"("comfortable": [110, 80])"), "/rules/extract-ratio/comfortable",
       "lies above", "[80, 110]"},
      {changing("extract-ratio", R"("comfortable": [20, 200])"), "/rules/extract-ratio/comfortable",
       "outside the hard ones [50, 135]", "[20, 200]"},
      {changing("extract-ratio", R"("comfortable": ["85", 105])"),
       "/rules/extract-ratio/comfortable/0", "in g/L", "[80, 110]"},
      {changing("extract-ratio", R"("confortable": [85, 105])"), "/rules/extract-ratio/confortable",
       "no field", "comfortable"},
      {changing("decant-before-pitch", R"("severity": "spoil")"),
       "/rules/decant-before-pitch/severity", "no severity", "spoils"},
      {changing("viability", R"("comfortable": [120, null])"), "/rules/viability/comfortable",
       "no plan could keep", "within"},
      {file(R"("defaults": {"tap_watr": "13 °C"})"), "/defaults/tap_watr", "no field", "tap_water"},
      {file(R"("defaults": {"room": 20})"), "/defaults/room", "has no unit", "20 °C"},
      {file(R"("own_rules": [{"id": "boil-time", "title": "T", "kind": "order", "first": "boil",
         "then": "chill", "severity": "note", "says": "S.", "why": "W.", "do": "D."}])"),
       "/own_rules/0/id", "already", "our-boil-time"},
      {file(R"("own_rules": [{"id": "x", "title": "T", "kind": "order", "first": "boill",
         "then": "chill", "severity": "note", "says": "S.", "why": "W.", "do": "D."}])"),
       "/own_rules/0/first", "no step", "boil"},
  };
  for (const auto& c : cases) {
    const PlanError e = error_of(c.bytes);
    BOOST_TEST(e.where == c.where, e.says);
    BOOST_TEST(holds(e.says, c.says), e.says);
    BOOST_TEST(holds(e.write, c.write), e.write);
    BOOST_TEST(e.line >= 1);
  }
}

BOOST_AUTO_TEST_CASE(the_line_is_that_of_the_mistake) {
  const PlanError e = error_of(
      "{\"practice\": 1,\n\"club\": \"Lantern Lane Brewers\",\n\"rules\": {\n\"ice-late\": "
      "{\"because\": \"b\",\n\"comfortable\": [50, 40]}}}");
  BOOST_TEST(e.line == 5);
}

BOOST_AUTO_TEST_CASE(no_bytes_bring_the_reader_down) {
  std::string original;
  for (const char* name : {"own-all", "bounds", "all-defaults", "texts"}) {
    original = bytes_of(folder / "good" / (std::string(name) + ".practice.json"));
    std::mt19937 random(20270320);  // NOLINT: fixed, so that a failure comes again
    const auto below = [&](std::size_t most) { return random() % most; };
    constexpr std::string_view pieces[] = {
        "\"",    "{",    "}",       "[",   "]",  ",", ":",          "null",          "true",
        "1e999", "\xFF", "\\u0000", "{x}", "-1", "0", "\"danger\"", "\"off\": true,"};
    int read_well = 0;
    for (int round = 0; round < 400; ++round) {
      std::string bytes = original;
      for (std::size_t change = 0, changes = 1 + below(3); change < changes; ++change) {
        const std::size_t at = below(bytes.size());
        if (below(3) == 0)
          bytes[at] = static_cast<char>(below(256));
        else if (below(2) == 0)
          bytes.erase(at, 1 + below(12));
        else
          bytes.insert(at, pieces[below(std::size(pieces))]);
        if (bytes.empty()) bytes = " ";
      }
      const PracticeResult result = read(bytes);
      if (const auto* errors = std::get_if<std::vector<PlanError>>(&result)) {
        BOOST_REQUIRE(!errors->empty());
        for (const PlanError& e : *errors)
          if (e.says.empty()) BOOST_FAIL("no reason for:\n" << bytes);
      } else {
        ++read_well;
        for (const Rule& rule : catalogue())
          if (can_endanger(rule)) BOOST_REQUIRE(std::get<Practice>(result).find(rule.id));
      }
    }
    BOOST_TEST(read_well < 400);
  }
}

BOOST_AUTO_TEST_SUITE_END()
