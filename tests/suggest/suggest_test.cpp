// What `suggest` changes, and what it leaves alone.

#include "suggest/suggest.h"

#include <boost/test/unit_test.hpp>
#include <cmath>
#include <fstream>
#include <iterator>

#include "plan/layout.h"
#include "rules/catalogue.h"
#include "suggest/search.h"
#include "suggest/sizing.h"

using namespace starter;
using nlohmann::ordered_json;

namespace {

std::string file_text(const std::string& path_in_source) {
  std::ifstream file(std::string(STARTER_PLAN_SOURCE_DIR) + "/" + path_in_source, std::ios::binary);
  BOOST_REQUIRE_MESSAGE(file.good(), "cannot open " << path_in_source);
  return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

ordered_json sound() {
  return ordered_json::parse(file_text("tests/plans/harvest-amber.plan.json"));
}

Suggestion suggested(const std::string& text) {
  auto made = suggest(text, catalogue());
  BOOST_REQUIRE(made);
  return std::move(*made);
}

Suggestion suggested(const ordered_json& document) {
  return suggested(document.dump());
}

std::ptrdiff_t above_note(const std::vector<Finding>& findings) {
  return std::count_if(findings.begin(), findings.end(),
                       [](const Finding& f) { return f.severity >= Severity::weakens; });
}

bool clears(const Change& change, const std::string& rule) {
  return std::any_of(change.clears.begin(), change.clears.end(),
                     [&](const FindingAt& f) { return f.rule->id == rule; });
}

bool any_clears(const Suggestion& s, const std::string& rule) {
  return std::any_of(s.changes.begin(), s.changes.end(),
                     [&](const Change& c) { return clears(c, rule); });
}

}  // namespace

BOOST_AUTO_TEST_SUITE(suggestions)

BOOST_AUTO_TEST_CASE(a_sound_plan_is_left_alone) {
  const ordered_json document = sound();
  const Suggestion s = suggested(document);
  BOOST_TEST(s.changes.empty());
  BOOST_TEST(s.patch.empty());
  BOOST_TEST(s.left.empty());
  BOOST_TEST(s.document.dump() == document.dump());
}

BOOST_AUTO_TEST_CASE(a_newcomers_plan_is_mended_whole) {
  const Suggestion s = suggested(file_text("lessons/plans/newcomer.plan.json"));
  BOOST_REQUIRE(s.before);
  BOOST_TEST(above_note(s.before->findings) == 14);
  // The yeast is tired, and no plan makes it younger: that is left, told as a pack to buy.
  BOOST_REQUIRE(s.left.size() == 1U);
  BOOST_TEST(s.left[0].told.rule->id == "viability");
  BOOST_TEST(s.left[0].why_not.find("buy another pack, no more than") != std::string::npos,
             s.left[0].why_not);
  BOOST_TEST(above_note(s.after.findings) == 1);
  BOOST_TEST(s.finished);
  // Fewer changes than findings: four things not clean are cleaned in one step.
  BOOST_TEST(s.changes.size() < 14U);
  std::size_t cleaned = 0;
  for (const Change& change : s.changes) {
    BOOST_TEST(!change.says.empty());
    BOOST_TEST(!change.clears.empty(), change.says << " clears nothing");
    if (clears(change, "clean-contact")) cleaned = std::max(cleaned, change.clears.size());
  }
  BOOST_TEST(cleaned >= 4U);
  // The file on disk and the document in hand are the same plan.
  const auto applied =
      ordered_json::parse(file_text("lessons/plans/newcomer.plan.json")).patch(s.patch);
  BOOST_TEST(applied.dump() == s.document.dump());
  const PlanResult read = read_plan(lay_out(s.document));
  BOOST_TEST(std::holds_alternative<Plan>(read));
}

BOOST_AUTO_TEST_CASE(no_change_can_be_left_out) {
  for (const char* name : {"lessons/plans/newcomer", "tests/plans/faulty/many-at-once",
                           "tests/plans/faulty/hot-jug", "tests/plans/faulty/rich-wort"}) {
    BOOST_TEST_CONTEXT(name) {
      const std::string text = file_text(std::string(name) + ".plan.json");
      const Draft original = draft_of(std::get<Plan>(read_plan(text)), catalogue());
      const Search found = search(original, original, catalogue(), UnitSystem::metric, 4000);
      BOOST_TEST(!found.draft.made.empty());
      for (std::size_t i = 0; i < found.draft.made.size(); ++i) {
        auto fewer = found.draft.made;
        fewer.erase(fewer.begin() + static_cast<std::ptrdiff_t>(i));
        const auto without = replay(original, fewer, catalogue());
        BOOST_TEST((!without || !no_worse(without->verdicts, found.draft.verdicts)),
                   found.draft.made[i].says << " is not needed");
      }
    }
  }
}

BOOST_AUTO_TEST_CASE(the_same_plan_gives_the_same_answer) {
  const std::string text = file_text("tests/plans/faulty/many-at-once.plan.json");
  const Suggestion a = suggested(text), b = suggested(text);
  BOOST_TEST(a.patch.dump() == b.patch.dump());
}

BOOST_AUTO_TEST_CASE(a_search_cut_short_makes_nothing_worse_and_says_so) {
  const std::string text = file_text("lessons/plans/newcomer.plan.json");
  for (const int tries : {0, 1, 20, 60}) {
    SuggestOptions options;
    options.most_tries = tries;
    const auto s = suggest(text, catalogue(), options);
    BOOST_REQUIRE(s);
    BOOST_TEST(!s->finished, tries << " tries");
    BOOST_TEST(above_note(s->after.findings) <= above_note(s->before->findings));
    BOOST_TEST(s->left.size() == static_cast<std::size_t>(above_note(s->after.findings)));
    for (const Left& left : s->left)
      BOOST_TEST(left.why_not == "the search ended before it was reached");
  }
}

BOOST_AUTO_TEST_CASE(what_is_bought_is_for_the_member_to_decide) {
  ordered_json document = sound();
  document["stages"][0]["agitation"] = "none";
  const Suggestion s = suggested(document);
  bool bought = false;
  for (const Change& change : s.changes)
    if (clears(change, "cells-enough")) bought |= change.asks == Asks::purchase;
  BOOST_TEST(bought);
}

/// What is so, whatever anybody would like: where it stands, or null.
ordered_json facts_in(const ordered_json& document) {
  ordered_json facts = ordered_json::array();
  const auto keep = [&](const ordered_json& from, std::initializer_list<const char*> names) {
    for (const char* name : names)
      facts.push_back(from.contains(name) ? from.at(name) : ordered_json());
  };
  keep(document, {"place"});
  keep(document.at("yeast"),
       {"form", "packaged", "best_before", "viability", "cells_counted", "measured_cells",
        "cells_per_pack", "pack_mass", "slurry_volume", "slurry_density"});
  return facts;
}

BOOST_AUTO_TEST_CASE(a_fact_is_never_written_over) {
  const auto holds = [](ordered_json document, const char* what) {
    BOOST_TEST_CONTEXT(what) {
      const Suggestion s = suggested(document);
      BOOST_TEST(facts_in(s.document).dump() == facts_in(document).dump());
      for (std::size_t i = 0; i < document.at("stages").size(); ++i)
        for (const char* read : {"boil_off", "measured"}) {
          const auto& was = document["stages"][i];
          const auto& now = s.document["stages"][i];
          BOOST_TEST(now.contains(read) == was.contains(read));
          if (was.contains(read)) BOOST_TEST(now.at(read).dump() == was.at(read).dump());
        }
    }
  };
  ordered_json old_pack = sound();
  old_pack["yeast"]["packaged"] = "2026-10-01";
  holds(old_pack, "an old pack");
  const Suggestion aged = suggested(old_pack);
  const auto tired = std::find_if(aged.left.begin(), aged.left.end(), [](const Left& left) {
    return left.told.rule->id == "viability";
  });
  BOOST_REQUIRE((tired != aged.left.end()));
  BOOST_TEST(tired->why_not.find("and write its own date") != std::string::npos, tired->why_not);
  ordered_json counted = sound();
  counted["yeast"]["viability"] = "30 %";
  counted["yeast"]["cells_counted"] = 400;
  holds(counted, "a count of tired yeast");
  ordered_json lost = sound();
  lost["stages"][0]["boil_off"] = "400 mL";
  lost["stages"][0]["measured"] = {{"volume", "0.8 L"}, {"gravity", "1.050 SG"}};
  holds(lost, "what a boil was seen to lose");
  for (const char* name :
       {"lessons/plans/newcomer.plan.json", "lessons/05-how-many-cells/plan.json",
        "lessons/16-stepping-up/plan.json", "lessons/04-water-in-wort-out/plan.json",
        "tests/plans/faulty/hot-jug.plan.json", "tests/plans/good/step-up.plan.json"})
    holds(ordered_json::parse(file_text(name)), name);
}

BOOST_AUTO_TEST_CASE(new_wort_is_boiled_in_the_pot_that_is_there) {
  ordered_json document = {
      {"plan", 1},
      {"beer", {{"volume", "20 L"}, {"gravity", "1.050 SG"}, {"brew_day", "2027-03-20T09:00"}}},
      {"yeast", {{"form", "liquid"}, {"packaged", "2027-02-25"}}},
      {"vessels",
       {{"flask", {{"kind", "conical flask"}, {"capacity", "3 L"}}},
        {"tub", {{"kind", "tub"}, {"capacity", "30 L"}}}}}};
  const auto boils_in = [](const Suggestion& s) {
    std::string all;
    for (const Step& step : s.after.plan.steps)
      if (step.does == Do::boil) all += step.in.value_or("?") + ";";
    return all;
  };
  BOOST_TEST(boils_in(suggested(document)) == "flask;");
  document["vessels"]["kettle"] = {
      {"kind", "pot"}, {"capacity", "8 L"}, {"material", "stainless steel"}};
  const Suggestion s = suggested(document);
  BOOST_TEST(boils_in(s) == "kettle;");
  BOOST_TEST(s.left.empty());
  BOOST_TEST(s.document.at("vessels").size() == 3U);  // nothing is bought
  BOOST_TEST(s.after.plan.stages[0].vessel == "flask");
  BOOST_TEST(std::any_of(s.changes.begin(), s.changes.end(), [](const Change& c) {
    return c.says.find("boil in your “kettle”") != std::string::npos;
  }));
  // One too small for it stays on the shelf; where a member's own steps boil is the member's
  // choice.
  document["vessels"]["kettle"]["capacity"] = "1 L";
  BOOST_TEST(boils_in(suggested(document)) == "flask;");
  ordered_json own = sound();
  own["vessels"]["kettle"] = {
      {"kind", "pot"}, {"capacity", "8 L"}, {"material", "stainless steel"}};
  own["stages"][0]["extract"]["mass"] = "140 g";
  BOOST_TEST(boils_in(suggested(own)).find("kettle") == std::string::npos);
}

BOOST_AUTO_TEST_CASE(a_stage_that_is_added_boils_in_the_pot_that_is_there) {
  // The big beer of one flask: a second stage is grown, for which a flask is bought.
  ordered_json document = ordered_json::parse(file_text("tests/plans/faulty/too-small.plan.json"));
  document["vessels"]["kettle"] = {
      {"kind", "pot"}, {"capacity", "10 L"}, {"material", "stainless steel"}};
  const Suggestion s = suggested(document);
  BOOST_REQUIRE(s.after.plan.stages.size() == 2U);
  bool in_pot = false;
  for (const Step& step : s.after.plan.steps) {
    if (step.does != Do::boil) continue;
    if (step.stage == 0) BOOST_TEST(step.in.value_or("") != "kettle");
    if (step.stage == 1) in_pot = step.in == "kettle";
  }
  BOOST_TEST(in_pot);
  BOOST_TEST(above_note(s.after.findings) == static_cast<std::ptrdiff_t>(s.left.size()));
}

BOOST_AUTO_TEST_CASE(other_ways_are_of_other_kinds) {
  const auto without_numbers = [](const std::string& says) {
    std::string left;
    for (const char c : says)
      if ((c < '0' || c > '9') && c != '.') left += c;
    return left;
  };
  for (const char* name :
       {"lessons/plans/newcomer.plan.json", "tests/plans/faulty/too-late.plan.json",
        "lessons/16-stepping-up/plan.json", "tests/plans/good/short.plan.json"})
    for (const Change& change : suggested(file_text(name)).changes) {
      std::vector<std::string> kinds = {without_numbers(change.says)};
      for (const std::string& other : change.instead) {
        const std::string kind = without_numbers(other);
        BOOST_TEST((std::find(kinds.begin(), kinds.end(), kind) == kinds.end()),
                   name << ": " << change.says << " | " << other);
        kinds.push_back(kind);
      }
    }
  // Brewing later is told by its day and clock.
  bool later = false;
  for (const Change& change : suggested(file_text("tests/plans/faulty/too-late.plan.json")).changes)
    for (const std::string& other : change.instead)
      later |= other == "brew on Fri 19 Mar 18:00 (33 h later)";
  BOOST_TEST(later);
}

BOOST_AUTO_TEST_CASE(a_step_of_an_unknown_word_gets_no_second_one_beside_it) {
  for (const char* word : {"boill", "boiling", "simmer", "cook up"}) {
    BOOST_TEST_CONTEXT(word) {
      ordered_json document = sound();
      for (ordered_json& step : document["steps"])
        if (step["do"] == "boil") step["do"] = word;
      const Suggestion s = suggested(document);
      BOOST_TEST(s.document["steps"].size() == document["steps"].size());
      const bool near = std::string(word).rfind("boil", 0) == 0;
      BOOST_TEST(s.left.empty() == near);
      if (near) continue;
      BOOST_TEST(std::any_of(s.left.begin(), s.left.end(), [&](const Left& left) {
        return left.why_not.find("“" + std::string(word) + "” is that step, write “boil”") !=
               std::string::npos;
      }));
    }
  }
  // A step that is nowhere is still put in.
  ordered_json document = sound();
  document["steps"].erase(2);
  BOOST_TEST(any_clears(suggested(document), "step-missing"));
}

BOOST_AUTO_TEST_CASE(one_seal_behind_another_is_opened_too) {
  ordered_json document = sound();
  for (std::size_t i = document["steps"].size(); i-- > 0;) {
    ordered_json& step = document["steps"][i];
    if (step["do"] == "cover") step.update({{"with", "stopper"}, {"sealed", true}});
    if (step["do"] == "agitate")
      document["steps"].insert(
          document["steps"].begin() + static_cast<std::ptrdiff_t>(i),
          ordered_json::object({{"do", "cover"}, {"with", "lid"}, {"sealed", true}}));
  }
  const Suggestion s = suggested(document);
  BOOST_TEST(any_clears(s, "sealed-vessel"));
  BOOST_TEST(s.left.empty());
  for (const Step& step : s.after.plan.steps) BOOST_TEST(!step.sealed);
}

BOOST_AUTO_TEST_CASE(dry_yeast_is_told_first_that_it_needs_no_starter) {
  ordered_json document = {
      {"plan", 1},
      {"beer", {{"volume", "20 L"}, {"gravity", "1.050 SG"}, {"brew_day", "2027-03-20T09:00"}}},
      {"yeast", {{"form", "dry"}, {"best_before", "2028-01-01"}}}};
  const Suggestion s = suggested(document);
  BOOST_TEST(s.first.find("Your yeast is dry and in date, so it needs no starter") == 0U, s.first);
  BOOST_TEST(s.first.find("as its label says") != std::string::npos);
  BOOST_TEST(!s.changes.empty());  // then what it would do if one is wanted
  // The packs that it names bring the cells that the beer wants; one fewer does not.
  const double wanted = s.after.workings.beer_needs.billion();
  const double one = s.after.workings.cells_available.billion() / s.after.plan.yeast.packs;
  const int packs = static_cast<int>(std::ceil(wanted / one));
  BOOST_TEST(s.first.find("By its number, " + std::to_string(packs) + " pack") != std::string::npos,
             s.first);
  BOOST_TEST(dry_needs_no_starter(document.dump(), Defaults()) == s.first);
  document["yeast"]["best_before"] = "2026-01-01";
  BOOST_TEST(dry_needs_no_starter(document.dump(), Defaults()) == "");
  document["yeast"].erase("best_before");
  BOOST_TEST(dry_needs_no_starter(document.dump(), Defaults()).find("while it is in date") !=
             std::string::npos);
  BOOST_TEST(suggested(sound()).first == "");
}

BOOST_AUTO_TEST_CASE(a_size_that_is_too_big_is_told_in_the_readers_units) {
  const ordered_json document = {
      {"plan", 1},
      {"beer", {{"kind", "lager"}, {"volume", "28 L"}, {"gravity", "1.050 SG"}}},
      {"yeast", {{"form", "liquid"}, {"viability", "40 %"}}}};
  const auto told = [&](UnitSystem units, bool packs) {
    return too_big_for_one_starter(document.dump(), catalogue(), Defaults(), units, packs);
  };
  BOOST_TEST(told(UnitSystem::metric, true).find("5 L") != std::string::npos);
  BOOST_TEST(told(UnitSystem::us, true).find("1.32 gal") != std::string::npos);
  BOOST_TEST(told(UnitSystem::us, true).find(" L ") == std::string::npos);
  BOOST_TEST(told(UnitSystem::metric, true).find("packs would do") != std::string::npos);
  BOOST_TEST(told(UnitSystem::metric, false).find("packs would do") == std::string::npos);
}

BOOST_AUTO_TEST_CASE(late_yeast_begins_whole_days_earlier_at_the_same_hour) {
  const Suggestion s = suggested(file_text("tests/plans/faulty/too-late.plan.json"));
  BOOST_TEST(s.left.empty());
  BOOST_REQUIRE(s.after.plan.start);
  constexpr std::int64_t day = 24 * 60;
  BOOST_TEST((s.before->plan.start->minutes() - s.after.plan.start->minutes()) % day == 0);
  BOOST_TEST((*s.after.plan.start < *s.before->plan.start));
  for (const Change& change : s.changes)
    if (clears(change, "ready-by-brew-day")) BOOST_TEST((change.asks == Asks::time));
}

BOOST_AUTO_TEST_CASE(a_plan_without_stages_is_sized) {
  for (const char* vessels : {"{}", R"({"flask": {"kind": "conical flask", "capacity": "5 L"}})",
                              R"({"a": {"kind": "conical flask", "capacity": "2 L"},
            "b": {"kind": "conical flask", "capacity": "5 L"},
            "tub": {"kind": "tub", "capacity": "30 L"}})"})
    for (const char* kind : {"ale", "lager"}) {
      BOOST_TEST_CONTEXT(kind << " in " << vessels) {
        ordered_json document = {{"plan", 1},
                                 {"beer",
                                  {{"kind", kind},
                                   {"volume", "20 L"},
                                   {"gravity", "1.050 SG"},
                                   {"brew_day", "2027-03-20T09:00"}}},
                                 {"yeast", {{"form", "liquid"}, {"packaged", "2027-02-20"}}},
                                 {"vessels", ordered_json::parse(vessels)}};
        const Suggestion s = suggested(document);
        BOOST_TEST(!s.before);
        BOOST_TEST(s.left.empty(), (s.left.empty() ? "" : s.left[0].says));
        BOOST_TEST(s.document.contains("stages"));
        BOOST_TEST(s.document.contains("steps"));
        BOOST_TEST(s.document.contains("start"));
        BOOST_TEST(document.patch(s.patch).dump() == s.document.dump());
        for (const Measure& m : s.after.measures)
          if (m.name == "cells_coverage") BOOST_TEST((m.value >= 1 && m.value <= 2.5));
      }
    }
}

BOOST_AUTO_TEST_CASE(nobody_is_sent_to_buy_a_starter_of_a_barrel) {
  ordered_json document = {
      {"plan", 1},
      {"beer", {{"kind", "lager"}, {"volume", "60 L"}, {"gravity", "1.050 SG"}}},
      {"yeast", {{"form", "liquid"}, {"viability", "40 %"}}}};
  const Defaults defaults;
  BOOST_TEST(!suggest(document.dump(), catalogue()));
  BOOST_TEST(too_big_for_one_starter(document.dump(), catalogue(), defaults) != "");
  // The number of packs that is told will do, and one fewer will not.
  document["beer"]["volume"] = "28 L";
  const auto packs = packs_for_one_starter(document, catalogue(), defaults);
  BOOST_REQUIRE(packs);
  BOOST_TEST(*packs > 1);
  document["yeast"]["packs"] = *packs - 1;
  BOOST_TEST(!suggest(document.dump(), catalogue()));
  document["yeast"]["packs"] = *packs;
  const Suggestion s = suggested(document);
  BOOST_TEST(too_big_for_one_starter(document.dump(), catalogue(), defaults) == "");
  for (const auto& [name, vessel] : s.after.plan.vessels)
    if (may_grow(vessel)) BOOST_TEST(vessel.capacity.litres() <= largest_flask);
  // A larger one that the member has is used.
  document["yeast"]["packs"] = 1;
  document["vessels"] = {{"big", {{"kind", "conical flask"}, {"capacity", "12 L"}}}};
  const Suggestion own = suggested(document);
  BOOST_TEST(own.after.plan.stages.back().vessel == "big");
}

BOOST_AUTO_TEST_CASE(a_change_says_whether_the_member_or_a_change_brought_what_it_mends) {
  const Suggestion s = suggested(file_text("lessons/plans/newcomer.plan.json"));
  bool since_a_change = false, to_a_note = false;
  for (std::size_t i = 0; i < s.changes.size(); ++i)
    for (const Cleared& c : s.changes[i].clears) {
      BOOST_TEST(c.since <= static_cast<int>(i));
      const bool had = std::any_of(
          s.before->findings.begin(), s.before->findings.end(),
          [&](const Finding& f) { return f.rule == c.rule && f.severity >= Severity::weakens; });
      if (c.since == 0) BOOST_TEST(had, c.rule->id);
      since_a_change |= c.since > 0;
      to_a_note |= c.to_a_note;
      if (c.to_a_note)
        BOOST_TEST(std::any_of(s.after.findings.begin(), s.after.findings.end(),
                               [&](const Finding& f) { return f.rule == c.rule; }));
    }
  BOOST_TEST(since_a_change);
  BOOST_TEST(to_a_note);
}

BOOST_AUTO_TEST_CASE(a_bath_is_never_drained) {
  const Suggestion s = suggested(file_text("lessons/09-chill-and-ice/plan.json"));
  BOOST_TEST(s.left.empty());
  for (const Step& step : s.after.plan.steps)
    if (step.does == Do::chill && step.bath) BOOST_TEST(step.bath->litres() >= 2);
}

BOOST_AUTO_TEST_CASE(cells_to_keep_are_grown_too) {
  ordered_json document = {{"plan", 1},
                           {"beer", {{"volume", "20 L"}, {"gravity", "1.050 SG"}}},
                           {"yeast", {{"form", "liquid"}}}};
  const auto water = [](const Suggestion& s) {
    double litres = 0;
    for (const Stage& stage : s.after.plan.stages) litres += stage.water.litres();
    return litres;
  };
  const double without = water(suggested(document));
  document["beer"]["keep_cells"] = "60 billion";
  const Suggestion s = suggested(document);
  BOOST_TEST(s.left.empty());
  BOOST_TEST(water(s) > without);
}

BOOST_AUTO_TEST_CASE(a_short_plan_gets_its_steps) {
  const Suggestion s = suggested(file_text("tests/plans/good/short.plan.json"));
  BOOST_TEST(s.document.contains("steps"));
  BOOST_TEST(s.left.empty());
  for (const Step& step : s.after.plan.steps)
    if (step.does == Do::chill) BOOST_TEST(step.bath.has_value());
}

BOOST_AUTO_TEST_CASE(what_is_not_said_is_asked_for) {
  const Suggestion s = suggested(file_text("tests/plans/good/short.plan.json"));
  for (const char* where : {"/beer/brew_day", "/yeast/packaged"})
    BOOST_TEST(std::any_of(s.decisions.begin(), s.decisions.end(),
                           [&](const Decision& d) { return d.where == where; }),
               where);
}

BOOST_AUTO_TEST_CASE(what_is_no_plan_gives_nothing) {
  for (const char* text : {"", "[]", "{", "{\"plan\": 1}", "\xff\xfe",
                           R"({"plan": 1, "stages": [], "beer": {"volume": "20 L"}})"})
    BOOST_TEST(!suggest(text, catalogue()), text);
  const std::string deep =
      R"({"plan": 1, "title": )" + std::string(200000, '[') + std::string(200000, ']') + "}";
  BOOST_TEST(!suggest(deep, catalogue()));
}

BOOST_AUTO_TEST_SUITE_END()

BOOST_AUTO_TEST_SUITE(drafts)

BOOST_AUTO_TEST_CASE(a_change_outlives_one_before_it_that_is_left_out) {
  const ordered_json document = ordered_json::parse(R"({"steps": [{"do": "a"}, {"do": "b"}]})");
  StepIds ids(2);
  const auto first = stable(
      ordered_json::parse(R"([{"op": "add", "path": "/steps/0", "value": {"do": "new"}}])"), ids);
  const auto second = stable(ordered_json::parse(R"([
      {"op": "add", "path": "/steps/2/for", "value": "1 h"},
      {"op": "move", "from": "/steps/2", "path": "/steps/1"}])"),
                             ids);
  BOOST_REQUIRE((first && second));
  // Both.
  ordered_json both = document;
  StepIds now(2);
  BOOST_TEST(rejoin(*first, both, now).has_value());
  BOOST_TEST(rejoin(*second, both, now).has_value());
  BOOST_TEST(both.dump() == R"({"steps":[{"do":"new"},{"do":"b","for":"1 h"},{"do":"a"}]})");
  // The second alone names the same steps, which stand elsewhere now.
  ordered_json alone = document;
  StepIds again(2);
  const auto patch = rejoin(*second, alone, again);
  BOOST_REQUIRE(patch);
  BOOST_TEST(alone.dump() == R"({"steps":[{"do":"b","for":"1 h"},{"do":"a"}]})");
  BOOST_TEST(document.patch(*patch).dump() == alone.dump());
}

BOOST_AUTO_TEST_CASE(what_hangs_on_a_step_left_out_does_not_fit) {
  ordered_json document = ordered_json::parse(R"({"steps": [{"do": "a"}]})");
  StepIds ids(1);
  const auto first = stable(
      ordered_json::parse(R"([{"op": "add", "path": "/steps/-", "value": {"do": "new"}}])"), ids);
  const auto second = stable(
      ordered_json::parse(R"([{"op": "add", "path": "/steps/1/for", "value": "1 h"}])"), ids);
  BOOST_REQUIRE((first && second));
  StepIds now(1);
  BOOST_TEST(!rejoin(*second, document, now));
}

BOOST_AUTO_TEST_CASE(an_op_is_add_or_replace_as_the_plan_it_meets_has_it) {
  ordered_json document = ordered_json::parse(R"({"yeast": {"form": "dry"}})");
  StepIds ids(0);
  const auto change = stable(
      ordered_json::parse(R"([{"op": "replace", "path": "/yeast/packs", "value": 2}])"), ids);
  BOOST_REQUIRE(change);
  BOOST_TEST((*rejoin(*change, document, ids))[0]["op"] == "add");
  BOOST_TEST((*rejoin(*change, document, ids))[0]["op"] == "replace");
}

BOOST_AUTO_TEST_CASE(operations_that_no_fix_makes_are_refused) {
  for (const char* patch : {R"([{"op": "test", "path": "/plan", "value": 1}])",
                            R"([{"op": "copy", "from": "/steps/0", "path": "/steps/1"}])",
                            R"([{"op": "remove", "path": "/steps/7"}])",
                            R"([{"op": "add", "path": "/steps/9/for", "value": "1 h"}])",
                            R"([{"op": "move", "from": "/steps/8", "path": "/steps/0"}])"}) {
    StepIds ids(2);
    BOOST_TEST(!stable(ordered_json::parse(patch), ids), patch);
  }
}

BOOST_AUTO_TEST_SUITE_END()
