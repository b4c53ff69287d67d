// What was changed from one plan to another.

#include "lesson/difference.h"

#include <boost/test/unit_test.hpp>
#include <string>
#include <vector>

#include "../plan_of.h"

using namespace starter;

namespace {

/// The changes an RFC 6902 patch makes to the shipped example, each as "what: before > after", with
/// a sign for its kind.
std::vector<std::string> changes(const std::string& patch) {
  std::vector<std::string> lines;
  for (const PlanChange& c : changes_between(harvest_amber(), harvest_amber(patch))) {
    const char* sign = c.kind == PlanChange::Kind::changed  ? "~"
                       : c.kind == PlanChange::Kind::moved  ? "^"
                       : c.kind == PlanChange::Kind::put_in ? "+"
                                                            : "-";
    lines.push_back(sign + c.what + ": " + c.before + " > " + c.after);
  }
  return lines;
}

using Lines = std::vector<std::string>;

}  // namespace

BOOST_AUTO_TEST_SUITE(difference)

BOOST_AUTO_TEST_CASE(equal_plans_have_none) {
  BOOST_TEST(changes("[]") == Lines{});
}

BOOST_AUTO_TEST_CASE(values) {
  BOOST_TEST(changes(R"([{"op": "replace", "path": "/beer/volume", "value": "25 L"}])") ==
             Lines{"~the beer, volume: 20 L > 25 L"});
  BOOST_TEST(changes(R"([{"op": "replace", "path": "/stages/0/water", "value": "2 L"}])") ==
             Lines{"~the water: 1.15 L > 2 L"});
  BOOST_TEST(changes(R"([{"op": "replace", "path": "/stages/0/extract/mass", "value": "9 g"}])") ==
             Lines{"~the extract, mass: 110 g > 9 g"});
  BOOST_TEST(changes(R"([{"op": "replace", "path": "/vessels/flask/capacity", "value": "3 L"}])") ==
             Lines{"~the vessel “flask”, capacity: 2 L > 3 L"});
  BOOST_TEST(changes(R"([{"op": "remove", "path": "/start"}])") ==
             Lines{"-the start: 2027-03-16T18:00 > "});
  BOOST_TEST(changes(R"([{"op": "add", "path": "/stages/0/boil_off", "value": "0.1 L"}])") ==
             Lines{"+what boils off:  > 0.1 L"});
  BOOST_TEST(changes(R"([{"op": "replace", "path": "/yeast/packs", "value": 2}])") ==
             Lines{"~the yeast, packs: 1 > 2"});
}

BOOST_AUTO_TEST_CASE(steps) {
  BOOST_TEST(changes(R"([{"op": "replace", "path": "/steps/4/to", "value": "33 °C"}])") ==
             Lines{"~step 5, chill, to: 21 °C > 33 °C"});
  BOOST_TEST(changes(R"([{"op": "replace", "path": "/steps/2/do", "value": "simmer"}])") ==
             Lines{"~step 3, boil, do: boil > simmer"});
  BOOST_TEST(changes(R"([{"op": "remove", "path": "/steps/10"}])") ==
             Lines{"-old step 11, decant:  > "});
  BOOST_TEST(changes(R"([{"op": "add", "path": "/steps/2",
                          "value": {"do": "add", "items": ["stir bar", "nutrient"]}}])") ==
             Lines{"+new step 3, add:  > items: stir bar, nutrient"});
  BOOST_TEST(changes(R"([{"op": "remove", "path": "/steps/4/swirl"}])") ==
             Lines{"-step 5, chill, swirl: yes > "});
}

BOOST_AUTO_TEST_CASE(moved_steps_are_told_once) {
  BOOST_TEST(changes(R"([{"op": "move", "from": "/steps/7", "path": "/steps/11"}])") ==
             Lines{"^pitch: old step 8 > new step 12"});
  BOOST_TEST(changes(R"([{"op": "move", "from": "/steps/11", "path": "/steps/10"}])") ==
             Lines{"^decant: old step 11 > new step 12"});
  // Moved and changed.
  BOOST_TEST(
      changes(R"([{"op": "replace", "path": "/steps/2/for", "value": "1 min"},
                         {"op": "move", "from": "/steps/2", "path": "/steps/5"}])") ==
      (Lines{"^boil: old step 3 > new step 6", "~step 3 (now step 6), boil, for: 12 min > 1 min"}));
}

// Every number says whose it is, so that none can be looked up in the wrong plan.
BOOST_AUTO_TEST_CASE(a_step_put_in_moves_no_other) {
  BOOST_TEST(changes(R"([{"op": "replace", "path": "/steps/9/for", "value": "40 h"},
                         {"op": "add", "path": "/steps/0", "value": {"do": "rest"}}])") ==
             (Lines{"~step 10 (now step 11), crash, for: 36 h > 40 h", "+new step 1, rest:  > "}));
}

BOOST_AUTO_TEST_CASE(stages_put_in_are_told_whole) {
  const auto lines = changes(R"([{"op": "copy", "from": "/stages/0", "path": "/stages/1"},
                                 {"op": "remove", "path": "/steps"}])");
  BOOST_REQUIRE(lines.size() == 2u);
  BOOST_TEST(lines[0].find("~the stages: ") == 0u);
  BOOST_TEST(lines[1].find("-the steps: ") == 0u);
}

BOOST_AUTO_TEST_SUITE_END()
