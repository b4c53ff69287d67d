// Acceptances through the program: kept beside the plan, shown, reopened, withdrawn.

#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <nlohmann/json.hpp>

#include "child.h"

using Json = nlohmann::ordered_json;
namespace fs = std::filesystem;

namespace {

/// Text as it was before it was wrapped.
std::string in_one_line(std::string text) {
  std::replace(text.begin(), text.end(), '\n', ' ');
  return text;
}

std::string contents(const std::string& name) {
  std::ifstream file(name, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

/// A plan of the corpus in a file of this test's own, with nothing accepted, and `from` replaced.
std::string copy_of(const std::string& plan, const std::string& name, const std::string& from = "",
                    const std::string& to = "") {
  std::string bytes = contents(plan_file(plan));
  if (!from.empty()) {
    const auto at = bytes.find(from);
    BOOST_REQUIRE_MESSAGE(at != std::string::npos, from);
    bytes.replace(at, from.size(), to);
  }
  const std::string file = written_file(name + ".plan.json", bytes);
  fs::remove(scratch_folder() + "/" + name + ".accepted.json");
  return file;
}

/// A plan that nothing is amiss with but ice that goes in too early.
std::string early_ice(const std::string& name) {
  return copy_of("harvest-amber", name, "\"ice_from\": \"38 °C\"", "\"ice_from\": \"80 °C\"");
}

std::string kept_beside(const std::string& name) {
  return scratch_folder() + "/" + name + ".accepted.json";
}

Json checked(const std::string& plan, int code = 1) {
  const Ran ran = run({"check", "--format", "json", plan});
  BOOST_TEST(ran.code == code);
  return Json::parse(ran.out);
}

Json finding(const Json& plan, const std::string& rule) {
  for (const Json& f : plan.at("findings"))
    if (f.at("rule") == rule) return f;
  BOOST_FAIL(rule << " finds nothing");
  return {};
}

Ran accept(const std::string& plan, const std::string& rule,
           const std::vector<std::string>& more = {}) {
  std::vector<std::string> call = {"accept", plan, rule, "--by", "Moss", "--because", "it may"};
  call.insert(call.end(), more.begin(), more.end());
  return run(call);
}

}  // namespace

BOOST_AUTO_TEST_SUITE(accepting)

BOOST_AUTO_TEST_CASE(an_accepted_finding_is_shown_and_no_longer_counts) {
  const std::string plan = early_ice("shown");
  BOOST_TEST(finding(checked(plan), "ice-late").at("accepted") == nullptr);
  const Ran done = accept(plan, "ice-late", {"--on", "2027-03-10"});
  BOOST_TEST(done.code == 0);
  BOOST_TEST(done.error == "");
  BOOST_TEST(holds(done.out, "Accepted: step 5, chill"));
  BOOST_TEST(fs::exists(kept_beside("shown")));
  const Json f = finding(checked(plan, 0), "ice-late");
  BOOST_TEST(f.at("severity") == "weakens");
  BOOST_TEST(f.at("accepted").at("by") == "Moss");
  BOOST_TEST(f.at("accepted").at("because") == "it may");
  BOOST_TEST(f.at("accepted").at("on") == "2027-03-10");
  BOOST_TEST(f.at("accepted").at("counts") == false);
  BOOST_TEST(f.at("reopened") == nullptr);
  const std::string text = run({"check", plan}).out;
  BOOST_TEST(holds(text, "Good to go: nothing to mend"));
  BOOST_TEST(holds(text, "1 finding more stands"));
  BOOST_TEST(holds(text, "── Accepted ─"));
  BOOST_TEST(holds(text, "Mentor  Moss, Wed 10 Mar 2027: “it may”."));
  BOOST_TEST(holds(text, "◆ WEAKENS  step 5, chill"));
  // The other commands that judge know it too.
  BOOST_TEST(run({"schedule", plan}).code == 0);
  BOOST_TEST(holds(run({"draw", plan, "-o", "-", "--as", "dot"}).out, "(accepted)"));
  // Standard input has no file beside it.
  Setting input;
  input.input = contents(plan);
  BOOST_TEST(run({"check", "-"}, input).code == 1);
}

BOOST_AUTO_TEST_CASE(sarif_tells_it_as_a_suppression) {
  const std::string plan = copy_of("faulty/rich-wort", "sarif");
  BOOST_TEST(accept(plan, "extract-ratio").code == 0);
  const Json log = Json::parse(run({"check", "--format", "sarif", plan}).out);
  int suppressed = 0;
  for (const Json& result : log.at("runs")[0].at("results")) {
    const Json& suppressions = result.at("suppressions");
    if (result.at("ruleId") != "extract-ratio") {
      BOOST_TEST(suppressions.empty());
      continue;
    }
    ++suppressed;
    BOOST_REQUIRE(suppressions.size() == 1U);
    BOOST_TEST(suppressions[0].at("kind") == "external");
    BOOST_TEST(suppressions[0].at("status") == "accepted");
    BOOST_TEST(suppressions[0].at("justification") == "Moss: it may");
  }
  BOOST_TEST(suppressed == 1);
}

BOOST_AUTO_TEST_CASE(a_danger_is_acknowledged_shown_first_and_counts) {
  const std::string plan = copy_of("faulty/hot-jug", "danger");
  const Ran done = accept(plan, "glass-shock");
  BOOST_TEST(done.code == 0);
  BOOST_TEST(holds(done.out, "Acknowledged: "));
  BOOST_TEST(holds(done.out, "still counts"));
  const Json f = finding(checked(plan, 1), "glass-shock");
  BOOST_TEST(f.at("accepted").at("counts") == true);
  BOOST_TEST(f.at("accepted").at("on") == nullptr);
  BOOST_TEST(run({"check", "--fail-at", "danger", plan}).code == 1);
  const std::string text = run({"check", plan}).out;
  BOOST_TEST(holds(text, "1 danger"));
  BOOST_TEST(holds(text, "Acknowledged only: it is a danger, so it still counts."));
  const Json log = Json::parse(run({"check", "--format", "sarif", plan}).out);
  for (const Json& result : log.at("runs")[0].at("results"))
    if (result.at("ruleId") == "glass-shock")
      BOOST_TEST(result.at("suppressions")[0].at("status") == "underReview");
}

BOOST_AUTO_TEST_CASE(a_changed_plan_opens_it_again_and_says_what_changed) {
  const std::string plan = early_ice("again");
  BOOST_TEST(accept(plan, "ice-late").code == 0);
  const std::string before = contents(plan);
  const auto with = [&](const std::string& from, const std::string& to) {
    const auto at = before.find(from);
    BOOST_REQUIRE_MESSAGE(at != std::string::npos, from);
    written_file("again.plan.json", std::string(before).replace(at, from.size(), to));
  };
  // What the rule does not read may change, and how the file is laid out.
  with("Starter for the harvest amber", "Another");
  checked(plan, 0);
  with("{\"do\": \"weigh\"},", "{\"do\": \"weigh\"},\n\n\n   {\"do\": \"weigh\"},");
  checked(plan, 0);
  // What it reads may not.
  with("80 °C", "70 °C");
  const Json f = finding(checked(plan, 1), "ice-late");
  BOOST_TEST(f.at("accepted") == nullptr);
  BOOST_TEST(f.at("reopened").at("by") == "Moss");
  BOOST_REQUIRE(f.at("reopened").at("changes").size() == 1U);
  const Json& change = f.at("reopened").at("changes")[0];
  BOOST_TEST(change.at("what") == "ice_wort_temperature, stage 1");
  BOOST_TEST(change.at("was") == "80 °C");
  BOOST_TEST(change.at("is") == "70 °C");
  const std::string text = run({"check", plan}).out;
  BOOST_TEST(holds(text, "Again   Moss accepted this, but since then wort when the ice goes in,"));
  // Accepted anew, it holds anew, and there is still one record.
  BOOST_TEST(accept(plan, "ice-late").code == 0);
  checked(plan, 0);
  BOOST_TEST(Json::parse(contents(kept_beside("again"))).at("findings").size() == 1U);
  // The plan as it was is another case again.
  written_file("again.plan.json", before);
  BOOST_TEST(finding(checked(plan, 1), "ice-late").at("accepted") == nullptr);
}

BOOST_AUTO_TEST_CASE(another_practice_opens_it_again) {
  const std::string plan = copy_of("faulty/rich-wort", "club");
  const std::string lane = STARTER_PLAN_SOURCE_DIR "/lessons/plans/lantern-lane.practice.json";
  BOOST_TEST(accept(plan, "extract-ratio", {"--practice", lane}).code == 0);
  const Json club = Json::parse(run({"check", "--format", "json", "--practice", lane, plan}).out);
  BOOST_TEST(finding(club, "extract-ratio").at("accepted") != nullptr);
  const Json f = finding(checked(plan, 1), "extract-ratio");
  BOOST_TEST(f.at("accepted") == nullptr);
  bool bounds = false;
  for (const Json& change : f.at("reopened").at("changes"))
    bounds |= change.at("what") == "comfortable bounds" && change.at("was") == "85–105 g/L" &&
              change.at("is") == "80–110 g/L";
  BOOST_TEST(bounds);
}

BOOST_AUTO_TEST_CASE(what_is_mended_needs_no_acceptance_and_says_so) {
  const std::string plan = early_ice("mended");
  BOOST_TEST(accept(plan, "ice-late").code == 0);
  written_file("mended.plan.json", contents(plan_file("harvest-amber")));
  const Json told = checked(plan, 0);
  BOOST_REQUIRE(told.at("unused_acceptances").size() == 1U);
  BOOST_TEST(told.at("unused_acceptances")[0].at("rule") == "ice-late");
  BOOST_TEST(holds(run({"check", plan}).out, "No longer needed: Moss accepted ice-late"));
  const Ran back = run({"accept", plan, "ice-late", "--withdraw"});
  BOOST_TEST(back.code == 0);
  BOOST_TEST(holds(back.out, "Taken back: Moss accepted ice-late"));
  BOOST_TEST(!fs::exists(kept_beside("mended")));
  BOOST_TEST(checked(plan, 0).at("unused_acceptances").empty());
}

BOOST_AUTO_TEST_CASE(several_findings_of_a_rule_need_a_place) {
  const std::string plan = written_file(
      "several.plan.json", contents(STARTER_PLAN_SOURCE_DIR "/lessons/plans/newcomer.plan.json"));
  fs::remove(kept_beside("several"));
  const Ran unsaid = accept(plan, "clean-contact");
  BOOST_TEST(unsaid.code == 2);
  BOOST_TEST(holds(unsaid.error, "--at"));
  BOOST_TEST(holds(unsaid.error, "/steps/5 (step 6, pitch)"));
  BOOST_TEST(!fs::exists(kept_beside("several")));
  const Ran elsewhere = accept(plan, "clean-contact", {"--at", "/steps/0"});
  BOOST_TEST(elsewhere.code == 2);
  BOOST_TEST(holds(elsewhere.error, "finds nothing at"));
  BOOST_TEST(accept(plan, "clean-contact", {"--at", "/steps/5"}).code == 0);
  BOOST_TEST(accept(plan, "clean-contact", {"--at", "/steps/6"}).code == 0);
  int accepted = 0;
  const Json told = checked(plan);
  for (const Json& f : told.at("findings"))
    if (f.at("rule") == "clean-contact" && !f.at("accepted").is_null()) ++accepted;
  BOOST_TEST(accepted == 2);
  const Ran both = run({"accept", plan, "clean-contact", "--withdraw"});
  BOOST_TEST(both.code == 2);
  BOOST_TEST(holds(both.error, "several places"));
  BOOST_TEST(run({"accept", plan, "clean-contact", "--withdraw", "--at", "/steps/6"}).code == 0);
  BOOST_TEST(run({"accept", plan, "clean-contact", "--withdraw"}).code == 0);
  BOOST_TEST(!fs::exists(kept_beside("several")));
}

BOOST_AUTO_TEST_CASE(wrong_calls_write_nothing_and_say_what_to_do) {
  const std::string plan = copy_of("faulty/rich-wort", "wrong");
  const struct {
    std::vector<std::string> call;
    const char* says;
  } cases[] = {
      {{"accept", plan, "glass-shock", "--by", "Moss", "--because", "b"}, "Found are: "},
      {{"accept", plan, "glas-shock", "--by", "Moss", "--because", "b"},
       "Did you mean glass-shock?"},
      {{"accept", plan, "extract-ratio", "--because", "b"}, "--by is missing"},
      {{"accept", plan, "extract-ratio", "--by", "Moss"}, "--because is missing"},
      {{"accept", plan, "extract-ratio", "--by", " ", "--because", "b"}, "--by is missing"},
      {{"accept", plan, "extract-ratio", "--by", "Moss", "--because", "b", "--on", "10.3.2027"},
       "--on"},
      {{"accept", plan, "extract-ratio", "--by", "Moss", "--because", "b", "--on",
        "2027-03-10T10:00"},
       "without a clock"},
      {{"accept", plan, "extract-ratio", "--by", "\x1b[31m", "--because", "b"},
       "control character"},
      {{"accept", plan, "extract-ratio", "--by", "\xff", "--because", "b"}, "UTF-8"},
      {{"accept", plan, "extract-ratio", "--withdraw"}, "nothing is accepted"},
      {{"accept", plan, "extract-ratio", "--withdraw", "--by", "Moss"}, "belong to"},
      {{"accept", "-", "extract-ratio", "--by", "Moss", "--because", "b"}, "standard input"},
      {{"accept", plan_file("bad/misspelt-field"), "extract-ratio", "--by", "Moss", "--because",
        "b"},
       "volme"},
      {{"accept", plan + "x", "extract-ratio", "--by", "Moss", "--because", "b"}, "no file"},
      {{"accept", plan}, "RULE is required"},
  };
  for (const auto& c : cases) {
    const Ran ran = run(c.call);
    BOOST_TEST(ran.code == 2, c.says);
    BOOST_TEST(ran.out == "", c.says);
    BOOST_TEST(holds(in_one_line(ran.error), c.says), ran.error);
    BOOST_TEST(!holds(ran.error, "\x1b"));
    BOOST_TEST(!fs::exists(kept_beside("wrong")), c.says);
  }
}

BOOST_AUTO_TEST_CASE(a_broken_file_of_acceptances_is_told_not_ignored) {
  const std::string plan = copy_of("faulty/rich-wort", "broken");
  BOOST_TEST(accept(plan, "extract-ratio").code == 0);
  const std::string sound = contents(kept_beside("broken"));
  for (const std::string& bytes :
       {std::string("{"), std::string(), std::string("[]"), sound.substr(0, sound.size() / 2),
        std::string(sound).replace(sound.find("\"value\": \""), 10, "\"value\": \"9")}) {
    written_file("broken.accepted.json", bytes);
    for (const std::vector<std::string>& call : std::vector<std::vector<std::string>>{
             {"check", plan},
             {"schedule", plan},
             {"draw", plan, "-o", "-", "--as", "dot"},
             {"accept", plan, "extract-ratio", "--by", "Moss", "--because", "b"},
             {"accept", plan, "extract-ratio", "--withdraw"}}) {
      const Ran ran = run(call);
      BOOST_TEST(ran.code == 2, call[0]);
      BOOST_TEST(ran.out == "", call[0]);
      BOOST_TEST(holds(ran.error, "broken.accepted.json"), ran.error);
    }
    const Json told = checked(plan, 2);
    BOOST_TEST(told.at("plan") == plan);
    BOOST_TEST(holds(told.at("errors")[0].at("says").get<std::string>(), "broken.accepted.json"));
    BOOST_TEST(contents(kept_beside("broken")) == bytes);
  }
  // Among several plans, the others are told all the same.
  const Ran both = run({"check", plan, plan_file("harvest-amber")});
  BOOST_TEST(both.code == 2);
  BOOST_TEST(holds(both.out, "Starter for the harvest amber"));
  fs::remove(kept_beside("broken"));
  fs::create_directory(kept_beside("broken"));
  BOOST_TEST(run({"check", plan}).code == 2);
  fs::remove(kept_beside("broken"));
}

BOOST_AUTO_TEST_CASE(the_file_is_named_after_the_plan) {
  const std::string bytes = contents(plan_file("faulty/rich-wort"));
  for (const auto& [plan, kept] : std::vector<std::pair<std::string, std::string>>{
           {"named.plan.json", "named.accepted.json"},
           {"plan.json", "plan.accepted.json"},
           {"bare", "bare.accepted.json"},
           {"a b[c].plan.json", "a b[c].accepted.json"}}) {
    const std::string file = written_file(plan, bytes);
    BOOST_TEST(accept(file, "extract-ratio").code == 0, plan);
    BOOST_TEST(fs::exists(scratch_folder() + "/" + kept), kept);
    BOOST_TEST(run({"accept", file, "extract-ratio", "--withdraw"}).code == 0);
    BOOST_TEST(!fs::exists(scratch_folder() + "/" + kept), kept);
  }
}

BOOST_AUTO_TEST_CASE(a_word_that_takes_the_place_of_another_says_whose) {
  const std::string plan = copy_of("faulty/rich-wort", "replaced");
  BOOST_TEST(!holds(accept(plan, "extract-ratio").out, "This replaces"));
  BOOST_TEST(!holds(accept(plan, "extract-ratio").out, "This replaces"));
  const Ran other =
      run({"accept", plan, "extract-ratio", "--by", "Tarn", "--because", "we tried it"});
  BOOST_TEST(other.code == 0);
  BOOST_TEST(holds(other.out, "This replaces Moss’s word: “it may”."));
  BOOST_TEST(holds(run({"check", plan}).out, "Mentor  Tarn: “we tried it”."));
}

BOOST_AUTO_TEST_CASE(hints_fit_what_was_asked) {
  const std::string plan = copy_of("faulty/rich-wort", "hints");
  const Ran day = accept(plan, "extract-ratio", {"--on", "2027-13-40"});
  BOOST_TEST(day.code == 2);
  BOOST_TEST(holds(day.error, "Write   2027-03-16\n"));
  fs::create_directory(kept_beside("hints"));
  const Ran folder = accept(plan, "extract-ratio");
  BOOST_TEST(folder.code == 2);
  BOOST_TEST(holds(folder.error, "a folder, not a file of acceptances"));
  BOOST_TEST(!holds(folder.error, "*.plan.json"));
  fs::remove(kept_beside("hints"));
}

BOOST_AUTO_TEST_CASE(no_clock_is_read_and_equal_words_give_equal_bytes) {
  const std::string plan = copy_of("faulty/rich-wort", "equal");
  BOOST_TEST(accept(plan, "extract-ratio").code == 0);
  const std::string once = contents(kept_beside("equal"));
  BOOST_TEST(!holds(once, "\"on\""));
  BOOST_TEST(accept(plan, "extract-ratio").code == 0);
  BOOST_TEST(contents(kept_beside("equal")) == once);
}

BOOST_AUTO_TEST_SUITE_END()
