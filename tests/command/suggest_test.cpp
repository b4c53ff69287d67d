// `starter-plan suggest` as a person or a script runs it.

#include <sys/stat.h>
#include <unistd.h>

#include <boost/test/unit_test.hpp>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>

#include "child.h"

namespace {

using nlohmann::ordered_json;

/// A faulty plan in a file of its own, so that what is written beside it goes with it.
std::string own_plan(const std::string& name, const std::string& of = "faulty/rich-wort") {
  return written_file(name, bytes_of(plan_file(of)));
}

/// Ice that goes in too early, with or without a mentor's word that it may.
std::string early_ice(const std::string& name) {
  std::string text = bytes_of(plan_file("harvest-amber"));
  const std::string from = "\"ice_from\": \"38 °C\"";
  const auto at = text.find(from);
  BOOST_REQUIRE(at != std::string::npos);
  return written_file(name, text.replace(at, from.size(), "\"ice_from\": \"80 °C\""));
}

Ran accept(const std::string& plan, const std::string& rule) {
  return run({"accept", plan, rule, "--by", "Moss", "--because", "ice is cheap here"});
}

}  // namespace

BOOST_AUTO_TEST_SUITE(suggest)

BOOST_AUTO_TEST_CASE(a_sound_plan_ends_well_with_nothing_to_change) {
  const Ran ran = run({"suggest", plan_file("harvest-amber")});
  BOOST_TEST(ran.code == 0);
  BOOST_TEST(ran.error == "");
  BOOST_TEST(holds(ran.out, "Nothing to change."));
}

BOOST_AUTO_TEST_CASE(changes_are_told_with_before_after_and_what_they_clear) {
  const Ran ran = run({"suggest", plan_file("faulty/rich-wort")});
  BOOST_TEST(ran.code == 0);
  BOOST_TEST(ran.error == "");
  BOOST_TEST(holds(ran.out, "mass: 180 g → "), ran.out);
  BOOST_TEST(holds(ran.out, "Clears  boil-headroom, extract-ratio"), ran.out);
  BOOST_TEST(holds(ran.out, "Take care"));
  BOOST_TEST(!holds(ran.out, "JSON Patch"));
  BOOST_TEST(ran.out.find('\x1b') == std::string::npos);
}

BOOST_AUTO_TEST_CASE(the_patch_is_told_when_asked_for) {
  const Ran ran = run({"suggest", "--patch", plan_file("faulty/rich-wort")});
  const auto open = ran.out.find("\n[\n"), close = ran.out.find("\n]\n");
  BOOST_REQUIRE((open != std::string::npos && close != std::string::npos));
  const auto patch = ordered_json::parse(ran.out.substr(open + 1, close + 2 - open - 1));
  const auto json =
      ordered_json::parse(run({"suggest", "--format", "json", plan_file("faulty/rich-wort")}).out);
  BOOST_TEST(patch.dump() == json.at("patch").dump());
}

BOOST_AUTO_TEST_CASE(texts_follow_the_units) {
  const Ran ran = run({"suggest", "--units", "us", plan_file("faulty/rich-wort")});
  BOOST_TEST(ran.code == 0);
  BOOST_TEST(holds(ran.out, " oz of extract"), ran.out);
}

BOOST_AUTO_TEST_CASE(the_mended_plan_is_saved_beside_and_the_plan_stays) {
  const std::string plan = own_plan("mend.plan.json");
  const std::string before = bytes_of(plan);
  const Ran ran = run({"suggest", plan, "--write"});
  BOOST_TEST(ran.code == 0);
  BOOST_TEST(bytes_of(plan) == before);
  const std::string mended = in_scratch("mend.mended.plan.json");
  BOOST_TEST(holds(ran.out, "mend.mended.plan.json"));
  BOOST_TEST(run({"check", mended}).code == 0);
  const auto was = ordered_json::parse(before), now = ordered_json::parse(bytes_of(mended));
  std::vector<std::string> keys, kept;
  for (const auto& item : was.items()) keys.push_back(item.key());
  for (const auto& item : now.items()) kept.push_back(item.key());
  BOOST_TEST(kept == keys);
  for (const auto& entry : std::filesystem::directory_iterator(scratch_folder()))
    BOOST_TEST(!holds(entry.path().filename().string(), "mended.plan.json."), "left behind");
}

BOOST_AUTO_TEST_CASE(a_mended_plan_is_replaced_only_when_told_so) {
  const std::string plan = own_plan("again.plan.json");
  const std::string mended = written_file("again.mended.plan.json", "mine");
  const Ran refused = run({"suggest", plan, "--write"});
  BOOST_TEST(refused.code == 2);
  BOOST_TEST(refused.out == "");
  BOOST_TEST(holds(refused.error, "--overwrite"), refused.error);
  BOOST_TEST(bytes_of(mended) == "mine");
  BOOST_TEST(run({"suggest", plan, "--write", "--overwrite"}).code == 0);
  BOOST_TEST(bytes_of(mended) != "mine");
}

BOOST_AUTO_TEST_CASE(the_plan_is_never_written_over) {
  const std::string plan = own_plan("self.plan.json");
  const std::string before = bytes_of(plan);
  const std::string mended = in_scratch("self.mended.plan.json");
  BOOST_REQUIRE(symlink(plan.c_str(), mended.c_str()) == 0);
  const Ran ran = run({"suggest", plan, "--write", "--overwrite"});
  BOOST_TEST(ran.code == 2);
  BOOST_TEST(holds(ran.error, "is the plan itself"), ran.error);
  BOOST_TEST(bytes_of(plan) == before);
}

BOOST_AUTO_TEST_CASE(nothing_is_written_where_nothing_changes) {
  const std::string plan = own_plan("sound.plan.json", "harvest-amber");
  const Ran ran = run({"suggest", plan, "--write"});
  BOOST_TEST(ran.code == 0);
  BOOST_TEST(holds(ran.out, "nothing was written"));
  BOOST_TEST(!std::filesystem::exists(in_scratch("sound.mended.plan.json")));
}

BOOST_AUTO_TEST_CASE(what_cannot_be_saved_ends_with_2) {
  if (geteuid() == 0) return;  // root may write anywhere
  const std::string folder = in_scratch("locked");
  std::filesystem::create_directory(folder);
  std::ofstream(folder + "/a.plan.json") << bytes_of(plan_file("faulty/rich-wort"));
  BOOST_REQUIRE(chmod(folder.c_str(), 0500) == 0);
  const Ran ran = run({"suggest", folder + "/a.plan.json", "--write"});
  chmod(folder.c_str(), 0700);
  BOOST_TEST(ran.code == 2);
  BOOST_TEST(holds(ran.error, "was not written"), ran.error);
}

BOOST_AUTO_TEST_CASE(standard_input_is_read_but_nothing_saved_beside_it) {
  const std::string text = bytes_of(plan_file("faulty/rich-wort"));
  BOOST_TEST(run({"suggest", "-"}, {.input = text}).code == 0);
  const Ran ran = run({"suggest", "-", "--write"}, {.input = text});
  BOOST_TEST(ran.code == 2);
  BOOST_TEST(ran.out == "");
}

BOOST_AUTO_TEST_CASE(a_plan_without_stages_is_sized_and_a_bad_one_is_told) {
  const Ran sized = run({"suggest", plan_file("bad/no-stages")});
  BOOST_TEST(sized.code == 0);
  BOOST_TEST(holds(sized.out, "Your plan has no stages yet."), sized.out);
  const Ran bad = run({"suggest", plan_file("bad/no-beer")});
  BOOST_TEST(bad.code == 2);
  BOOST_TEST(bad.out == "");
  BOOST_TEST(holds(bad.error, "cannot be used yet"), bad.error);
  const Ran json = run({"suggest", "--format", "json", plan_file("bad/no-beer")});
  BOOST_TEST(json.code == 2);
  BOOST_TEST(ordered_json::parse(json.out).contains("errors"));
}

BOOST_AUTO_TEST_CASE(new_steps_are_told_once_by_where_they_go_and_in_words) {
  const std::string grown = run({"suggest", plan_file("faulty/too-small")}).out;
  BOOST_TEST(holds(grown, "new: 11 steps, before step 12, warm"), grown);
  BOOST_TEST(!holds(grown, "before the end"), grown);
  BOOST_TEST(!holds(grown, "ice_from"), grown);
  BOOST_TEST(!holds(grown, "swirl true"), grown);
  BOOST_TEST(holds(grown, "ice from 40 °C, swirl, to 21 °C"), grown);
  BOOST_TEST(holds(grown, "    Or  brew on Mon 22 Mar 19:00 (58 h later)."), grown);
  const std::string base = run({"suggest", plan_file("good/base")}).out;
  BOOST_TEST(holds(base, "new: “pitch to beer”, at the end"), base);
  // Each of three steps that go in one in front of the other names the one it goes before.
  BOOST_TEST(holds(base, "new: “decant”, before the new step “warm”"), base);
  BOOST_TEST(holds(base, "new: “crash”: for 36 h, before the new step “decant”"), base);
}

BOOST_AUTO_TEST_CASE(dry_yeast_comes_first) {
  const Ran ran = run({"suggest", plan_file("good/dry")});
  BOOST_TEST(holds(ran.out, "\nFirst   Your yeast is dry"), ran.out);
  BOOST_TEST(ran.out.find("First ") < ran.out.find("Now "));
  BOOST_TEST(!holds(run({"suggest", plan_file("faulty/rich-wort")}).out, "First "));
}

BOOST_AUTO_TEST_CASE(what_is_left_is_told_with_its_reason_and_ends_with_1) {
  // A count of tired yeast: nothing in a plan makes it live.
  auto plan = ordered_json::parse(bytes_of(plan_file("harvest-amber")));
  plan.erase("start");
  plan["beer"].erase("brew_day");
  plan["yeast"].erase("packaged");
  plan["yeast"]["viability"] = "40 %";
  const Ran ran = run({"suggest", "-"}, {.input = plan.dump()});
  BOOST_TEST(ran.code == 1);
  BOOST_TEST(holds(ran.out, "What is left, and why"), ran.out);
  BOOST_TEST(holds(ran.out, "explain viability"), ran.out);
}

BOOST_AUTO_TEST_CASE(what_a_mentor_accepted_is_left_alone) {
  const std::string plan = early_ice("iced.plan.json");
  const auto open = ordered_json::parse(run({"suggest", "--format", "json", plan}).out);
  BOOST_TEST(open.at("changes").size() == 1u);
  BOOST_TEST(open.at("stands").empty());

  BOOST_REQUIRE(accept(plan, "ice-late").code == 0);
  const Ran text = run({"suggest", plan, "--write"});
  BOOST_TEST(text.code == 0);
  BOOST_TEST(holds(text.out, "Nothing to change."), text.out);
  BOOST_TEST(holds(text.out, "with Moss’s word: ice is cheap here"), text.out);
  BOOST_TEST(!std::filesystem::exists(in_scratch("iced.mended.plan.json")));
  const auto stands = ordered_json::parse(run({"suggest", "--format", "json", plan}).out);
  BOOST_REQUIRE(stands.at("stands").size() == 1u);
  BOOST_TEST(stands.at("stands")[0].at("rule") == "ice-late");
  BOOST_TEST(stands.at("left").empty());
  const auto checked = ordered_json::parse(run({"check", "--format", "json", plan}).out);
  BOOST_TEST(stands.at("before").at("verdict") == checked.at("verdict"));
}

BOOST_AUTO_TEST_CASE(what_is_accepted_stays_while_the_rest_is_mended) {
  auto document = ordered_json::parse(bytes_of(early_ice("part.plan.json")));
  for (ordered_json& step : document.at("steps"))
    if (step.at("do") == "boil") step["for"] = "4 min";
  const std::string plan = written_file("part.plan.json", document.dump());
  BOOST_REQUIRE(accept(plan, "ice-late").code == 0);
  const Ran ran = run({"suggest", "--format", "json", plan, "--write"});
  BOOST_TEST(ran.code == 0);
  const auto said = ordered_json::parse(ran.out);
  BOOST_REQUIRE(said.at("stands").size() == 1u);
  BOOST_TEST(said.at("stands")[0].at("rule") == "ice-late");
  BOOST_TEST(said.at("left").empty());
  bool boiled = false;
  for (const auto& change : said.at("changes"))
    for (const auto& cleared : change.at("clears")) {
      BOOST_TEST(cleared.at("rule") != "ice-late");
      boiled |= cleared.at("rule") == "boil-time";
    }
  BOOST_TEST(boiled);
  for (const auto& step : said.at("mended").at("steps"))
    if (step.contains("ice_from")) BOOST_TEST(step.at("ice_from") == "80 °C");
}

// The word was for 144 g/L; a change that leaves some other strength needs another.
BOOST_AUTO_TEST_CASE(a_word_that_a_change_makes_void_leaves_nothing_unmended) {
  const std::string plan = own_plan("void.plan.json");
  BOOST_REQUIRE(accept(plan, "extract-ratio").code == 0);
  const Ran ran = run({"suggest", "--format", "json", plan});
  BOOST_TEST(ran.code == 0);
  const auto said = ordered_json::parse(ran.out);
  BOOST_TEST(said.at("left").empty());
  BOOST_TEST(said.at("after").at("findings").at("spoils") == 0);
}

BOOST_AUTO_TEST_CASE(a_danger_is_mended_whoever_accepted_it) {
  const std::string plan = own_plan("danger.plan.json", "faulty/many-at-once");
  BOOST_REQUIRE(accept(plan, "glass-shock").code == 0);
  const auto said = ordered_json::parse(run({"suggest", "--format", "json", plan}).out);
  BOOST_TEST(said.at("after").at("findings").at("danger") == 0);
  BOOST_TEST(said.at("stands").empty());
}

BOOST_AUTO_TEST_CASE(what_is_kept_beside_the_plan_must_be_readable) {
  const std::string plan = own_plan("torn.plan.json");
  written_file("torn.accepted.json", "{");
  const Ran ran = run({"suggest", plan});
  BOOST_TEST(ran.code == 2);
  BOOST_TEST(holds(ran.error, "torn.accepted.json"), ran.error);
}

BOOST_AUTO_TEST_CASE(a_beer_too_big_for_one_starter_is_told_so) {
  const std::string text = R"({"plan": 1,
    "beer": {"kind": "lager", "volume": "28 L", "gravity": "1.050 SG"},
    "yeast": {"form": "liquid", "viability": "40 %"}})";
  const Ran ran = run({"suggest", "-"}, {.input = text});
  BOOST_TEST(ran.code == 2);
  std::string said = ran.error;
  for (char& c : said)
    if (c == '\n') c = ' ';
  BOOST_TEST(holds(said, "too many for one starter"), said);
  BOOST_TEST(holds(said, "packs would do"), said);
  BOOST_TEST(holds(said, "up to 5 L"), said);
  const Ran gallons = run({"suggest", "--units", "us", "-"}, {.input = text});
  BOOST_TEST(!holds(gallons.error, "5 L"), gallons.error);
  BOOST_TEST(holds(gallons.error, "1.32 gal"), gallons.error);
}

BOOST_AUTO_TEST_SUITE_END()
