// --practice through the program: every command that takes it, and files that cannot be used.

#include <boost/test/unit_test.hpp>
#include <fstream>
#include <iterator>
#include <nlohmann/json.hpp>

#include "child.h"

using Json = nlohmann::ordered_json;

namespace {

const std::string lessons = STARTER_PLAN_SOURCE_DIR "/lessons/plans/";
const std::string lane = lessons + "lantern-lane.practice.json";

Json json_of(std::vector<std::string> arguments) {
  arguments.insert(arguments.begin() + 1, {"--format", "json"});
  const Ran ran = run(arguments);
  BOOST_TEST(ran.error == "");
  return Json::parse(ran.out);
}

const Json* finding(const Json& plan, const std::string& rule) {
  for (const Json& f : plan.at("findings"))
    if (f.at("rule") == rule) return &f;
  return nullptr;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(practice)

BOOST_AUTO_TEST_CASE(check_judges_by_the_clubs_practice_and_says_so) {
  const std::string plan = lessons + "newcomer.plan.json";
  const Json usual = json_of({"check", plan});
  const Json club = json_of({"check", plan, "--practice", lane});
  const Json* before = finding(usual, "extract-ratio");
  const Json* after = finding(club, "extract-ratio");
  BOOST_REQUIRE(before && after);
  BOOST_TEST(before->at("club") == nullptr);
  BOOST_TEST(after->at("club") == "Lantern Lane Brewers");
  BOOST_TEST(holds(after->at("margin").get<std::string>(), "85–105 g/L"));
  BOOST_TEST(holds(after->at("sources")[0].at("text").get<std::string>(),
                   "Lantern Lane Brewers: comfortable 85–105 g/L, not 80–110 g/L"));
  BOOST_TEST(after->at("sources").size() == before->at("sources").size() + 1);
  BOOST_TEST(!finding(usual, "lane-clean-before-boil"));
  BOOST_TEST(finding(json_of({"check", lessons + "sound.plan.json", "--practice", lane}),
                     "lane-clean-before-boil"));
  const std::string text = run({"check", plan, "--practice", lane}).out;
  BOOST_TEST(holds(text, "Club    Lantern Lane Brewers: comfortable 85–105 g/L, not 80–110 g/L"));
  BOOST_TEST(!holds(run({"check", plan}).out, "Club    Lantern"));
}

BOOST_AUTO_TEST_CASE(a_rule_that_is_off_is_not_told) {
  std::ifstream file(plan_file("harvest-amber"));
  std::string bytes{std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
  const std::string cool = "\"ice_from\": \"38 °C\"";
  const auto at = bytes.find(cool);
  BOOST_REQUIRE(at != std::string::npos);
  const std::string plan = written_file("early-ice.plan.json",
                                        bytes.replace(at, cool.size(), "\"ice_from\": \"80 °C\""));
  BOOST_REQUIRE(finding(json_of({"check", plan}), "ice-late"));
  BOOST_TEST(!finding(json_of({"check", plan, "--practice", lane}), "ice-late"));
}

BOOST_AUTO_TEST_CASE(defaults_reach_every_command_that_reads_plans) {
  const std::string plan = plan_file("good/short");
  for (const char* command : {"check", "measure"}) {
    const Json told = json_of({command, plan, "--practice", lane});
    bool seen = false;
    for (const Json& a : told.at("assumed")) {
      if (a.at("where") != "/place/altitude") continue;
      seen = true;
      BOOST_TEST(a.at("value") == "90 m");
      BOOST_TEST(a.at("says") ==
                 "No altitude is given, so a usual one is taken, as Lantern Lane Brewers has it.");
    }
    BOOST_TEST(seen);
  }
  const std::string usual = run({"schedule", plan}).out;
  const std::string club = run({"schedule", plan, "--practice", lane}).out;
  BOOST_TEST(usual != club);
  const Ran drawn = run({"draw", plan, "--practice", lane, "-o", "-", "--as", "dot"});
  BOOST_TEST(drawn.code == 0);
  BOOST_TEST(holds(drawn.out, "electric"));
  BOOST_TEST(!holds(run({"draw", plan, "-o", "-", "--as", "dot"}).out, "electric"));
}

BOOST_AUTO_TEST_CASE(explain_tells_where_a_bound_comes_from) {
  const std::string changed = run({"explain", "extract-ratio", "--practice", lane}).out;
  BOOST_TEST(holds(changed, "Changed by    Lantern Lane Brewers – two of our batches"));
  BOOST_TEST(holds(changed, "85–105 g/L"));
  BOOST_TEST(holds(changed, "catalogue has\n              80–110 g/L"));
  const std::string own = run({"explain", "lane-batch-cells", "--practice", lane}).out;
  BOOST_TEST(holds(own, "A rule of     Lantern Lane Brewers"));
  BOOST_TEST(!holds(own, "For example"));
  const std::string off = run({"explain", "ice-late", "--practice", lane}).out;
  BOOST_TEST(holds(off, "Switched off  our ice comes free"));
  BOOST_TEST(run({"explain", "lane-batch-cells"}).code == 2);
  BOOST_TEST(holds(run({"explain", "lane-batch-cell", "--practice", lane}).error,
                   "Did you mean lane-batch-cells?"));

  const std::string all = run({"explain", "--all", "--practice", lane}).out;
  for (const char* part : {"Extract for the wort · changed", "· the club’s own",
                           "switched off by Lantern Lane Brewers", "of Lantern Lane Brewers"})
    BOOST_TEST(holds(all, part), part);
  const Json listed =
      Json::parse(run({"explain", "--all", "--format", "json", "--practice", lane}).out);
  const Json usual = Json::parse(run({"explain", "--all", "--format", "json"}).out);
  BOOST_TEST(listed.size() == usual.size() + 2);
  for (const Json& rule : usual) {
    BOOST_TEST(rule.at("club") == nullptr);
    BOOST_TEST(rule.at("off") == nullptr);
  }
  int changed_count = 0, own_count = 0, off_count = 0;
  for (const Json& rule : listed) {
    off_count += !rule.at("off").is_null();
    if (rule.at("club").is_null()) continue;
    (rule.at("club").at("own") == true ? own_count : changed_count) += 1;
  }
  BOOST_TEST(changed_count == 3);
  BOOST_TEST(own_count == 2);
  BOOST_TEST(off_count == 1);
}

BOOST_AUTO_TEST_CASE(a_practice_that_cannot_be_used_stops_every_command_with_its_mistake) {
  const std::string plan = plan_file("harvest-amber");
  const std::string bad = STARTER_PLAN_SOURCE_DIR "/tests/practices/bad/danger-off.practice.json";
  for (const std::vector<std::string>& call : std::vector<std::vector<std::string>>{
           {"check", plan},
           {"check", "--format", "json", plan},
           {"measure", plan},
           {"schedule", plan},
           {"explain", "--all"},
           {"draw", plan, "-o", "-", "--as", "dot"},
           {"accept", plan, "ice-late", "--by", "Moss", "--because", "b"}}) {
    std::vector<std::string> with = call;
    with.insert(with.end(), {"--practice", bad});
    const Ran ran = run(with);
    BOOST_TEST(ran.code == 2, call[0]);
    BOOST_TEST(ran.out == "", call[0]);
    BOOST_TEST(holds(ran.error, "danger-off.practice.json"), call[0]);
    BOOST_TEST(holds(ran.error, "/rules/glass-shock/off"), ran.error);
  }
  BOOST_TEST(holds(run({"check", plan, "--practice", lane + "x"}).error, "no file of this name"));
  BOOST_TEST(holds(run({"check", plan, "--practice", lessons}).error, "folder"));
  BOOST_TEST(holds(run({"check", plan, "--practice", "-"}).error, "name the file"));
  BOOST_TEST(run({"check", plan, "--practice", ""}).code == 2);
}

BOOST_AUTO_TEST_CASE(a_practice_full_of_escapes_does_not_reach_the_terminal) {
  const std::string bad =
      written_file("escapes.practice.json", "{\"practice\": 1, \"club\": \"\\u001b[31mred\"}");
  const Ran ran = run({"check", plan_file("harvest-amber"), "--practice", bad});
  BOOST_TEST(ran.code == 2);
  BOOST_TEST(!holds(ran.error, "\x1b"));
}

BOOST_AUTO_TEST_SUITE_END()
