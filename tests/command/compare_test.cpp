// `compare`, run as a person or a script would.

#include <boost/test/unit_test.hpp>
#include <nlohmann/json.hpp>

#include "child.h"

using Json = nlohmann::ordered_json;

namespace {

const std::string sound = plan_file("harvest-amber");
const std::string faulty = plan_file("faulty/many-at-once");
const std::string unusable = plan_file("bad/misspelt-field");

}  // namespace

BOOST_AUTO_TEST_SUITE(compare)

BOOST_AUTO_TEST_CASE(the_second_plan_decides_how_it_ends) {
  BOOST_TEST(run({"compare", faulty, sound}).code == 0);
  BOOST_TEST(run({"compare", sound, faulty}).code == 1);
  BOOST_TEST(run({"compare", sound, sound}).code == 0);
  BOOST_TEST(run({"compare", faulty, faulty}).code == 1);
  for (const auto& pair : {std::pair(unusable, sound), {sound, unusable}, {unusable, unusable}})
    BOOST_TEST(run({"compare", pair.first, pair.second}).code == 2);
  BOOST_TEST(run({"compare", sound}).code == 2);
  BOOST_TEST(run({"compare", sound, sound, sound}).code == 2);
}

BOOST_AUTO_TEST_CASE(what_cannot_be_used_is_told_of_both) {
  const Ran text = run({"compare", unusable, plan_file("bad/no-beer")});
  BOOST_TEST(text.out == "");
  BOOST_TEST(holds(text.error, "volme"));
  BOOST_TEST(holds(text.error, "no-beer"));
  const Ran ran = run({"compare", "--format", "json", unusable, sound});
  BOOST_TEST(ran.code == 2);
  BOOST_TEST(ran.error == "");
  const Json told = Json::parse(ran.out);
  BOOST_TEST(told.at("unusable").size() == 1u);
  BOOST_TEST(told.at("unusable").at(0).at("plan") == unusable);
}

BOOST_AUTO_TEST_CASE(text_says_what_became_of_every_finding) {
  const std::string text = run({"compare", faulty, sound}).out;
  for (const char* part :
       {"First ", "Second ", "The second is better, and good to go.", "── Findings", "gone",
        "── Calendar", "── What the plans say differently", "── Numbers"})
    BOOST_TEST(holds(text, part), part);
  const Json plan = Json::parse(run({"check", "--format", "json", faulty}).out);
  for (const Json& f : plan.at("findings"))
    if (f.at("severity") != "note") BOOST_TEST(holds(text, f.at("title").get<std::string>()));
}

BOOST_AUTO_TEST_CASE(units_change_texts_and_not_numbers) {
  const std::string text = run({"compare", "--units", "us", "--all", faulty, sound}).out;
  BOOST_TEST(holds(text, "°F"));
  BOOST_TEST(!holds(text, "g/L"));
  const auto measures = [](const char* units) {
    return Json::parse(run({"compare", "--format", "json", "--units", units, faulty, sound}).out)
        .at("measures");
  };
  BOOST_TEST(measures("us") == measures("metric"));
}

BOOST_AUTO_TEST_CASE(standard_input_is_one_of_them) {
  const Setting given{.input = bytes_of(sound)};
  BOOST_TEST(run({"compare", faulty, "-"}, given).code == 0);
  BOOST_TEST(run({"compare", "-", faulty}, given).code == 1);
  const Ran twice = run({"compare", "-", "-"}, given);
  BOOST_TEST(twice.code == 2);
  BOOST_TEST(holds(twice.error, "can be read once only"));
}

BOOST_AUTO_TEST_CASE(a_full_disk_is_told) {
  BOOST_TEST(run({"compare", faulty, sound}, {.out_file = "/dev/full"}).code == 2);
}

BOOST_AUTO_TEST_SUITE_END()
