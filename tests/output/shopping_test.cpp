// What to have at hand, what must be clean, and what to write down.

#include "output/shopping.h"

#include <algorithm>

#include "output/readings.h"
#include "plan_text.h"
#include "process/process.h"
#include "support.h"

using namespace starter;

namespace {

const Needed* needed(const std::vector<Needed>& list, const std::string& what) {
  const auto found =
      std::find_if(list.begin(), list.end(), [&](const Needed& n) { return n.what == what; });
  return found == list.end() ? nullptr : &*found;
}

const Needed& need(const std::vector<Needed>& list, const std::string& what) {
  const Needed* found = needed(list, what);
  BOOST_REQUIRE_MESSAGE(found != nullptr, "not on the list: " << what);
  return *found;
}

const ToClean& thing(const std::vector<ToClean>& list, const std::string& what, int stage = 0) {
  const auto found = std::find_if(list.begin(), list.end(), [&](const ToClean& t) {
    return t.what == what && t.stage == stage;
  });
  BOOST_REQUIRE_MESSAGE(found != list.end(), "not on the list: " << what);
  return *found;
}

BOOST_AUTO_TEST_SUITE(shopping)

BOOST_AUTO_TEST_CASE(a_plan_asks_for_what_it_uses) {
  const auto list = shopping_list(judged("harvest-amber"), UnitSystem::metric);
  BOOST_TEST(need(list, "light dry malt extract").amount == "110 g");
  BOOST_TEST((need(list, "light dry malt extract").shelf == Needed::Shelf::ingredient));
  BOOST_TEST(need(list, "liquid yeast").amount == "1 pack");
  BOOST_TEST(holds(need(list, "liquid yeast").note, "100 billion cells"));
  BOOST_TEST(need(list, "water for the wort").amount == "1.15 L");
  BOOST_TEST(need(list, "sanitiser").amount == "by its label");
  BOOST_TEST(need(list, "cleaner").amount == "by its label");
  BOOST_TEST(need(list, "foil").amount == "1 piece");
  BOOST_TEST(!need(list, "thermometer").assumed);
  BOOST_TEST(need(list, "scales").assumed);
  BOOST_TEST(needed(list, "pack") == nullptr);  // it is the yeast
}

BOOST_AUTO_TEST_CASE(amounts_are_summed_over_stages_and_told_apart) {
  std::ifstream file(STARTER_PLAN_SOURCE_DIR "/lessons/plans/stepped-lager.plan.json");
  std::ostringstream all;
  all << file.rdbuf();
  const Judgement j = judge(plan_from(all.str()), catalogue());
  const auto list = shopping_list(j, UnitSystem::metric);
  const Needed& extract = need(list, "light dry malt extract");
  BOOST_TEST(extract.amount == "360 g");
  BOOST_TEST(extract.note == "100 g for stage 1, 260 g for stage 2");
  BOOST_TEST(need(list, "water for the wort").amount == "3.9 L");
  const Needed& ice = need(list, "ice");
  BOOST_TEST(ice.amount == "4 kg");
  BOOST_TEST(ice.note == "1 kg in step 6, 3 kg in step 17; goes in when the wort is at 38 °C");
  BOOST_TEST(need(list, "foil").amount == "2 pieces");
  BOOST_TEST(need(shopping_list(j, UnitSystem::us), "light dry malt extract").amount == "12.7 oz");
}

BOOST_AUTO_TEST_CASE(shelves_come_in_order_and_nothing_is_there_twice) {
  for (const char* name : {"harvest-amber", "faulty/many-at-once", "faulty/hot-jug", "good/dry",
                           "good/slurry", "good/step-up", "good/ready-wort", "good/short"}) {
    const auto list = shopping_list(judged(name), UnitSystem::metric);
    BOOST_TEST(std::is_sorted(list.begin(), list.end(),
                              [](const Needed& a, const Needed& b) { return a.shelf < b.shelf; }));
    need(list, "hydrometer");  // whatever vessels a plan has
    for (const Needed& n : list) {
      BOOST_TEST(!n.what.empty());
      BOOST_TEST(
          std::count_if(list.begin(), list.end(),
                        [&](const Needed& other) { return same_item(other.what, n.what); }) == 1,
          name << ": " << n.what);
    }
  }
}

BOOST_AUTO_TEST_CASE(what_meets_boiled_wort_is_cleaned_by_boil_steam_or_sanitiser) {
  const auto list = cleaning_list(judged("harvest-amber"));
  BOOST_TEST((thing(list, "flask").how == ToClean::How::boiled));
  BOOST_TEST((thing(list, "thermometer").how == ToClean::How::sanitised));
  BOOST_TEST(clean_in_words(thing(list, "thermometer")) == "sanitised in step 6");
  // Foil laid over the boil is steamed; what nothing cleans is told as such.
  PlanText with_foil;
  with_foil.steps = R"({"do": "boil", "in": "flask", "heat": "gas", "for": "12 min"},
    {"do": "cover", "with": "foil", "during": "boil"}, {"do": "chill", "in": "tub", "bath": "12 L"},
    {"do": "cover", "with": "foil"}, {"do": "check temperature", "with": "thermometer"},
    {"do": "pitch", "from": "pack"}, {"do": "sanitise", "items": ["thermometer"]})";
  const auto foil = cleaning_list(with_foil.judged());
  BOOST_TEST((thing(foil, "foil").how == ToClean::How::steamed));
  BOOST_TEST((thing(foil, "thermometer").how == ToClean::How::late));
  BOOST_TEST((thing(foil, "pack").how == ToClean::How::never));
  BOOST_TEST(holds(clean_in_words(thing(foil, "thermometer")), "only step 7"));
  // What drops into boiling wort is a danger, told as such, and no question of dirt.
  PlanText dropped;
  dropped.steps = R"({"do": "boil", "in": "flask", "heat": "gas", "for": "12 min"},
    {"do": "add", "items": ["stir bar"]}, {"do": "chill", "in": "tub", "bath": "12 L"},
    {"do": "add", "items": ["spoon"]}, {"do": "pitch", "from": "pack"})";
  const auto hot = cleaning_list(dropped.judged());
  BOOST_TEST((thing(hot, "stir bar").how == ToClean::How::hot));
  BOOST_TEST(holds(clean_in_words(thing(hot, "stir bar")), "once it goes in before the boil"));
  BOOST_TEST((thing(hot, "spoon").how == ToClean::How::never));
}

BOOST_AUTO_TEST_CASE(the_list_agrees_with_the_rule) {
  for (const char* name : {"harvest-amber", "faulty/many-at-once", "faulty/bar-never-clean",
                           "faulty/hot-jug", "faulty/decant-last"}) {
    const Judgement j = judged(name);
    const auto list = cleaning_list(j);
    const bool unclean = std::any_of(list.begin(), list.end(), [](const ToClean& t) {
      return t.how == ToClean::How::late || t.how == ToClean::How::never;
    });
    const bool found = std::any_of(j.findings.begin(), j.findings.end(),
                                   [](const Finding& f) { return f.rule->id == "clean-contact"; });
    BOOST_TEST(unclean == found, name);
  }
}

BOOST_AUTO_TEST_CASE(a_step_has_places_for_what_is_read_at_it) {
  const Judgement j = judged("harvest-amber");
  const auto weigh = reading_places(j, 0, UnitSystem::metric);
  BOOST_REQUIRE(weigh.size() == 1u);
  BOOST_TEST(weigh[0].planned == "110 g");
  BOOST_TEST(weigh[0].unit == "g");
  BOOST_TEST(reading_places(j, 0, UnitSystem::us)[0].unit == "oz");
  int gravities = 0;
  for (std::size_t i = 0; i < j.plan.steps.size(); ++i) {
    const auto places = reading_places(j, static_cast<int>(i), UnitSystem::metric);
    BOOST_TEST(!places.empty());
    for (const ReadingPlace& place : places) gravities += place.what == "gravity";
  }
  BOOST_TEST(gravities == 1);
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
