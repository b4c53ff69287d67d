#include <boost/test/unit_test.hpp>
#include <nlohmann/json.hpp>

#include "child.h"

using Json = nlohmann::ordered_json;

namespace {

/// What a wrong call is told.
std::string complaint(const std::vector<std::string>& arguments) {
  const Ran ran = run(arguments);
  BOOST_TEST(ran.code == 2);
  BOOST_TEST(ran.out == "");
  return ran.error;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(usage)

BOOST_AUTO_TEST_CASE(help_ends_with_examples) {
  for (const std::vector<std::string>& call : std::vector<std::vector<std::string>>{
           {"--help"}, {"-h"}, {"check", "--help"}, {"explain", "--help"}, {"measure", "--help"}}) {
    const Ran ran = run(call);
    BOOST_TEST(ran.code == 0);
    const auto examples = ran.out.find("Examples:\n  starter-plan ");
    BOOST_TEST(examples != std::string::npos);
    BOOST_TEST(ran.error == "");
    BOOST_TEST(holds(ran.out, "Usage: starter-plan"));
  }
  BOOST_TEST(!holds(run({"--help"}).out, "--practice"));
}

BOOST_AUTO_TEST_CASE(version_is_told) {
  const Ran ran = run({"--version"});
  BOOST_TEST(ran.code == 0);
  BOOST_TEST(ran.out == "starter-plan " STARTER_PLAN_VERSION "\n");
}

BOOST_AUTO_TEST_CASE(wrong_calls_are_told_with_the_nearest) {
  BOOST_TEST(holds(complaint({"chek", "x"}), "Did you mean check?"));
  BOOST_TEST(holds(complaint({"frobnicate"}), "There are: check"));
  BOOST_TEST(holds(complaint({"check", "--formt", "json", "x"}), "Did you mean --format?"));
  BOOST_TEST(holds(complaint({"check", "--format", "jsn", "x"}), "Did you mean json?"));
  BOOST_TEST(holds(complaint({"check", "--fail-at", "spoil", "x"}), "Did you mean spoils?"));
  BOOST_TEST(holds(complaint({"measure", "--units", "imperial", "x"}), "metric|us"));
  BOOST_TEST(holds(complaint({"--format", "json", "check", "x"}), "after the command"));
  BOOST_TEST(holds(complaint({"check", "x", "--format"}), "--format needs a value"));
  BOOST_TEST(holds(complaint({"check"}), "PLAN is required"));
  BOOST_TEST(holds(complaint({}), "a command is missing"));
  BOOST_TEST(holds(complaint({"explain"}), "RULE or --all"));
  BOOST_TEST(holds(complaint({"explain", "a", "b"}), "one argument too many"));
  BOOST_TEST(holds(complaint({"measure", "--fail-at", "note", "x"}), "--fail-at"));
  BOOST_TEST(!holds(complaint({"che\x1b[31mck"}), "\x1b"));
  BOOST_TEST(!holds(complaint({"check", "--fo\x1b[31m", "x"}), "\x1b"));
}

BOOST_AUTO_TEST_CASE(an_unknown_rule_is_told_with_the_nearest) {
  BOOST_TEST(holds(complaint({"explain", "glas-shock"}), "Did you mean glass-shock?"));
  BOOST_TEST(holds(complaint({"explain", "zzzzzzzzzzzzzzz"}), "starter-plan explain --all"));
}

BOOST_AUTO_TEST_CASE(every_rule_of_the_catalogue_is_explained) {
  const Json all = Json::parse(run({"explain", "--all", "--format", "json"}).out);
  const std::string list = run({"explain", "--all"}).out;
  BOOST_TEST(all.size() > 40u);
  for (const Json& rule : all) {
    const std::string id = rule.at("rule").get<std::string>();
    BOOST_TEST(holds(list, id));
    const Ran text = run({"explain", id});
    BOOST_TEST(text.code == 0);
    BOOST_TEST(holds(text.out, rule.at("title").get<std::string>()));
    for (const char* part : {"Looks at", "Why", "What to do", "For example", "Sources", "Lesson"})
      BOOST_TEST(holds(text.out, part), id << " lacks " << part);
    BOOST_TEST(Json::parse(run({"explain", "--format", "json", id}).out) == rule);
  }
}

BOOST_AUTO_TEST_CASE(bounds_and_sources_are_explained_in_the_units_asked_for) {
  const std::string metric = run({"explain", "extract-ratio"}).out;
  BOOST_TEST(holds(metric, "80–110 g/L"));
  BOOST_TEST(holds(metric, "50–135 g/L"));
  BOOST_TEST(holds(metric, "Common practice, no source"));
  BOOST_TEST(holds(metric, "Published: "));
  BOOST_TEST(holds(run({"explain", "--units", "us", "extract-ratio"}).out, "oz/gal"));
}

BOOST_AUTO_TEST_CASE(measures_are_told_with_range_and_making) {
  const Ran text = run({"measure", plan_file("harvest-amber")});
  BOOST_TEST(text.code == 0);
  BOOST_TEST(holds(text.out, "finished wort, cold"));
  BOOST_TEST(holds(text.out, "What would narrow the ranges"));
  const Json json =
      Json::parse(run({"measure", "--format", "json", plan_file("harvest-amber")}).out);
  std::vector<std::string> keys;
  for (const auto& [key, unused] : json.items()) keys.push_back(key);
  const std::vector<std::string> wanted = {"plan", "title", "assumed", "measures"};
  BOOST_TEST(keys == wanted, boost::test_tools::per_element());
  const Json checked =
      Json::parse(run({"check", "--format", "json", plan_file("harvest-amber")}).out);
  BOOST_TEST(json.at("measures") == checked.at("measures"));
  BOOST_TEST(run({"measure", plan_file("bad/misspelt-field")}).code == 2);
  BOOST_TEST(run({"measure", plan_file("faulty/hot-jug")}).code == 0);
}

BOOST_AUTO_TEST_SUITE_END()
