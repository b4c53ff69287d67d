// The register of facts: every value of every one is brought out, and says what it promises.

#include <boost/test/unit_test.hpp>
#include <map>
#include <set>

#include "many_plans.h"

using starter::Fact;

namespace {

const starter::FactKind* kind_of(const std::string& name) {
  for (const auto& kind : starter::fact_kinds())
    if (kind.name == name) return &kind;
  return nullptr;
}

template <class Check>
void for_each_fact(Check check) {
  for (const auto& [name, document] : many_plans()) {
    BOOST_TEST_CONTEXT(name) {
      const Likely one(plan_of(document));
      for (const Fact& fact : one.facts)
        BOOST_TEST_CONTEXT(fact.name << " is " << fact.value) check(fact, one.plan);
    }
  }
}

}  // namespace

BOOST_AUTO_TEST_SUITE(the_facts)

BOOST_AUTO_TEST_CASE(every_fact_and_every_value_is_brought_out) {
  std::map<std::string, std::set<std::string>> met;
  for_each_fact([&](const Fact& fact, const starter::Plan&) { met[fact.name].insert(fact.value); });
  std::set<std::string_view> names;
  for (const auto& kind : starter::fact_kinds()) {
    BOOST_TEST_INFO(kind.name);
    BOOST_TEST(names.insert(kind.name).second);
    BOOST_TEST_INFO(kind.name);
    BOOST_TEST(met.count(std::string(kind.name)) == 1U);
    for (const auto value : kind.values) {
      BOOST_TEST_INFO(kind.name << " is never " << value);
      BOOST_TEST(met[std::string(kind.name)].count(std::string(value)) == 1U);
    }
  }
  for (const auto& row : starter::spellings<starter::ExtractKind>()) {
    BOOST_TEST_INFO(row.text);
    BOOST_TEST(met["extract_kind"].count(std::string(row.text)) == 1U);
  }
  for (const char* step : {"boil", "chill", "pitch", "pitch to beer"})
    BOOST_TEST(met["missing_step"].count(step) == 1U);
  for (const char* has : {"ice_from", "ice", "agitate", "measured cells", "viability"}) {
    BOOST_TEST_INFO(has);
    BOOST_TEST(met["partner_missing"].count(has) == 1U);
  }
}

BOOST_AUTO_TEST_CASE(a_fact_is_one_of_its_values_and_carries_its_texts) {
  for_each_fact([](const Fact& fact, const starter::Plan& plan) {
    const auto* kind = kind_of(fact.name);
    BOOST_REQUIRE(kind != nullptr);
    BOOST_TEST(!fact.value.empty());
    if (!kind->values.empty())
      BOOST_TEST(
          (std::find(kind->values.begin(), kind->values.end(), fact.value) != kind->values.end()));
    for (const auto text : kind->about) {
      const auto found = fact.about.find(std::string(text));
      BOOST_TEST_INFO("about " << text);
      BOOST_REQUIRE(found != fact.about.end());
      // Only a name that is near to nothing may be empty.
      BOOST_TEST((text == "nearest" || !found->second.empty()));
    }
    BOOST_TEST((fact.where.empty() || fact.where[0] == '/'));
    BOOST_TEST(fact.stage < static_cast<int>(plan.stages.size()));
    BOOST_TEST(fact.step <= static_cast<int>(plan.steps.size()));
  });
}

BOOST_AUTO_TEST_CASE(the_shipped_example) {
  const Likely example = amber();
  const std::map<std::string, std::string> expected = {{"extract_kind", "light dry malt"},
                                                       {"strength_told_by", "extract"},
                                                       {"boil_state", "boiled"},
                                                       {"boil_vessel_heat", "glass on gas"},
                                                       {"glass_kind", "borosilicate glass"},
                                                       {"seal", "open"},
                                                       {"wort_storage", "covered and warm"},
                                                       {"cold_rest", "after growth"},
                                                       {"temperature_checked", "checked"},
                                                       {"agitation_stated", "stated"},
                                                       {"air_access", "stirred"},
                                                       {"cover", "covered"},
                                                       {"weak_pack", "strong"},
                                                       {"dry_grown", "not dry"},
                                                       {"pack_date", "before the pitch"},
                                                       {"decant_choice", "decanted"}};
  for (const auto& [name, value] : expected) {
    BOOST_TEST_INFO(name);
    BOOST_TEST(example.fact(name) == value);
  }
  for (const Fact& fact : example.facts) {
    BOOST_TEST_INFO(fact.name);
    BOOST_TEST(expected.count(fact.name) == 1U);
    BOOST_TEST(fact.sure);
  }
}

BOOST_AUTO_TEST_CASE(what_practice_supplies_is_not_sure) {
  auto sure = [](const Likely& one, const char* name) {
    return starter::find_fact(one.facts, name, 0)->sure;
  };
  BOOST_TEST(
      !sure(amber(R"([{"op": "remove", "path": "/stages/0/extract/kind"}])"), "extract_kind"));
  BOOST_TEST(!sure(amber(R"([{"op": "remove", "path": "/steps/2/heat"}])"), "boil_vessel_heat"));
  BOOST_TEST(!sure(amber(R"([{"op": "remove", "path": "/yeast/packaged"}])"), "weak_pack"));
  // Without a best-before day, or a day to hold it against, nobody can say whether it is past.
  BOOST_TEST(!sure(amber(set("/yeast", R"({"form": "dry"})")), "dry_grown"));
  BOOST_TEST(
      sure(amber(set("/yeast", R"({"form": "dry", "best_before": "2028-01-01"})")), "dry_grown"));
  BOOST_TEST(!sure(amber(R"([
    {"op": "add", "path": "/yeast", "value": {"form": "dry", "best_before": "2020-01-01"}},
    {"op": "remove", "path": "/beer/brew_day"}])"),
                   "dry_grown"));
}

BOOST_AUTO_TEST_CASE(heat_is_told_once_for_heating_and_boiling) {
  // Heat is said of the heating only, or of the boil only: both go by it.
  for (const char* steps : {R"([{"do": "heat", "heat": "gas"}, {"do": "boil"}])",
                            R"([{"do": "heat"}, {"do": "boil", "heat": "gas"}])"}) {
    const Likely one(plan_with_steps(steps));
    BOOST_TEST(one.fact("boil_vessel_heat") == "glass on gas");
  }
  const Likely pot(
      plan_with_steps(R"([{"do": "dissolve", "in": "pot"}, {"do": "boil", "heat": "induction"}])"));
  BOOST_TEST(pot.fact("boil_vessel_heat") == "fine");
  const Likely jug(plan_with_steps(R"([{"do": "boil", "in": "jug", "heat": "gas"}])"));
  BOOST_TEST(jug.fact("boil_vessel_heat") == "soda-lime on heat");
}

BOOST_AUTO_TEST_CASE(a_cover_that_was_replaced_no_longer_seals) {
  BOOST_TEST(amber(R"([
    {"op": "add", "path": "/steps/8", "value": {"do": "cover", "with": "stopper", "sealed": true}},
    {"op": "add", "path": "/steps/9", "value": {"do": "cover", "with": "foil"}}])")
                 .fact("seal") == "sealed over live yeast");
  BOOST_TEST(amber(R"([
    {"op": "add", "path": "/steps/5", "value": {"do": "cover", "with": "lid", "sealed": true}},
    {"op": "add", "path": "/steps/6", "value": {"do": "cover", "with": "foil"}}])")
                 .fact("seal") == "open");
}

BOOST_AUTO_TEST_CASE(a_stage_governs_its_step) {
  BOOST_TEST(amber_with("/steps/8/for", "4 h").fact("stage_governs") == "stage governs");
  BOOST_TEST(amber_with("/steps/8/for", "36 h").fact("stage_governs").empty());
  BOOST_TEST(amber(R"([{"op": "replace", "path": "/steps/8",
                        "value": {"do": "rest", "for": "12 h"}}])")
                 .fact("stage_governs") == "stage governs");
  // A rest of the wort before the yeast is in has nothing to do with growth.
  BOOST_TEST(amber(R"([
    {"op": "remove", "path": "/steps/8"},
    {"op": "add", "path": "/steps/5", "value": {"do": "rest", "for": "10 min"}}])")
                 .fact("stage_governs")
                 .empty());
}

BOOST_AUTO_TEST_SUITE_END()
