// Rule files: every kind of fault is named, and no bytes whatever bring the reader down.

#include "rules/rule_file.h"

#include <boost/test/unit_test.hpp>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <random>

#include "rules/case_files.h"
#include "rules/catalogue.h"

using namespace starter;
using nlohmann::json;

BOOST_AUTO_TEST_SUITE(rule_files)

namespace {

json sound_rule(const char* kind) {
  json rule = {{"id", "a-rule"},
               {"title", "A rule"},
               {"kind", kind},
               {"why", "Because."},
               {"do", "Do this."},
               {"sources", {{{"label", "practice"}, {"text", "Common practice, no source"}}}},
               {"lesson", "how-long"},
               {"example", {{"wrong", "this"}, {"right", "that"}}}};
  const std::string k = kind;
  if (k == "range") {
    rule["measure"] = "boil_time";
    rule["comfortable"] = {5, 20};
    rule["hard"] = {1, 45};
    rule["severity"] = {{"comfortable", "weakens"}, {"hard", "spoils"}};
    rule["low"] = "{value} of {comfortable}.";
    rule["high"] = "{value} of {comfortable}.";
    rule["fix"] = {{{"change", "boil_for"}, {"says", "boil for {new}, not {old}"}}};
  } else if (k == "order") {
    rule["first"] = "boil";
    rule["then"] = "chill";
    rule["severity"] = "spoils";
    rule["says"] = "{then} before {first}.";
  } else if (k == "contact") {
    rule["severity"] = "spoils";
    rule["says"] = {
        {"never", "{item} in {step}."}, {"late", "{cleaned}."}, {"stale", "{idle} before."}};
  } else if (k == "present") {
    rule["fact"] = "cover";
    rule["fine"] = {"covered"};
    rule["others"] = {{"left open", "spoils"}};
    rule["says"] = {{"left open", "In {step}, {word}."}};
  } else {
    rule["measures"] = {"measured_volume", "wort_volume"};
    rule["relative"] = true;
    rule["comfortable"] = 0.1;
    rule["hard"] = 0.2;
    rule["severity"] = {{"comfortable", "note"}, {"hard", "weakens"}};
    rule["says"] = "{measured_volume} against {wort_volume}.";
  }
  return rule;
}

std::string faults_of(const json& rule) {
  std::string all;
  for (const std::string& fault : read_rule(rule.dump()).faults) all += fault + "\n";
  return all;
}

/// Lays `change` (RFC 7396) on a sound rule; a null takes a member out.
json changed(const char* kind, const json& change) {
  json rule = sound_rule(kind);
  rule.merge_patch(change);
  return rule;
}

}  // namespace

BOOST_AUTO_TEST_CASE(sound_rules_have_no_fault) {
  for (const char* kind : {"range", "order", "contact", "present", "consistent"})
    BOOST_TEST(faults_of(sound_rule(kind)).empty(), kind << ": " << faults_of(sound_rule(kind)));
}

BOOST_AUTO_TEST_CASE(what_is_read_is_what_is_written) {
  const Rule range = read_rule(sound_rule("range").dump()).rule;
  BOOST_TEST(range.id == "a-rule");
  BOOST_TEST((range.kind == RuleKind::range));
  BOOST_TEST(range.advice == "Do this.");
  BOOST_TEST((range.bounds.comfortable.low == 5.0 && range.bounds.hard.high == 45.0));
  BOOST_TEST((range.outside_hard == Severity::spoils));
  BOOST_TEST(range.fixes.at(0).change == "boil_for");
  BOOST_TEST(!range.told_as_share);
  const Rule order = read_rule(sound_rule("order").dump()).rule;
  BOOST_TEST((order.first == Do::boil && order.then == Do::chill && !order.until));
  const Rule present = read_rule(sound_rule("present").dump()).rule;
  BOOST_TEST((present.others.at("left open") == Severity::spoils));
  const Rule consistent = read_rule(sound_rule("consistent").dump()).rule;
  BOOST_TEST((consistent.relative && consistent.hard_gap == 0.2));
  BOOST_TEST(consistent.measures[1] == "wort_volume");
}

BOOST_AUTO_TEST_CASE(every_fault_is_named) {
  struct Row {
    const char* kind;
    json change;
    const char* fault;
  };
  const Row rows[] = {
      {"range", {{"mesure", "boil_time"}}, "unknown member “mesure”"},
      {"range", {{"kind", "rnage"}}, "unknown kind “rnage”"},
      {"range", {{"id", nullptr}}, "“id” is missing"},
      {"range", {{"title", 5}}, "“title” is missing or is not a text"},
      {"range", {{"why", " \n"}}, "“why” is empty"},
      {"range", {{"do", ""}}, "“do” is empty"},
      {"range", {{"example", {{"wrong", ""}}}}, "“wrong” is empty"},
      {"range", {{"sources", nullptr}}, "“sources” is missing or empty"},
      {"range", {{"sources", json::array()}}, "“sources” is missing or empty"},
      {"range", {{"sources", {{{"label", "hearsay"}, {"text", "x"}}}}}, "label “hearsay”"},
      {"range", {{"sources", {{{"label", "practice"}, {"text", ""}}}}}, "“text” is empty"},
      {"range", {{"caution", "heat"}}, "“caution” is not a list"},
      {"range", {{"yields_to", {1}}}, "“yields_to” holds something that is not a text"},
      {"range", {{"measure", "boil_tiem"}}, "unknown measure “boil_tiem”"},
      {"range", {{"comfortable", {20, 5}}}, "“comfortable” has its ends the wrong way round"},
      {"range", {{"comfortable", {5, "20"}}}, "“comfortable” is not a pair"},
      {"range", {{"comfortable", 5}}, "“comfortable” is not a pair"},
      {"range", {{"comfortable", {1, 2, 3}}}, "“comfortable” is not a pair"},
      {"range", {{"hard", {6, 45}}}, "hard low end lies inside the comfortable"},
      {"range", {{"hard", {1, 19}}}, "hard high end lies inside the comfortable"},
      {"range", {{"comfortable", {nullptr, 20}}}, "hard low end lies inside the comfortable"},
      {"range", {{"comfortable", nullptr}, {"hard", nullptr}}, "needs a bound"},
      {"range", {{"severity", "weakens"}}, "“severity” does not name one for outside"},
      {"range", {{"severity", {{"hard", "awful"}}}}, "unknown severity “awful”"},
      {"range", {{"severity", {{"hard", nullptr}}}}, "“hard” is missing"},
      {"range", {{"low", nullptr}}, "“low” is missing"},
      {"range", {{"low", "Only {comfortable}."}}, "“low” does not say {value}"},
      {"range", {{"high", "Only {value}."}}, "“high” does not say {comfortable}"},
      {"range", {{"low", "{value} {comfortable} {wort}."}}, "unknown place {wort}"},
      {"range", {{"low", "{value} {comfortable} {item}."}}, "unknown place {item}"},
      {"range", {{"told_as", "pounds"}}, "“told_as” knows only “share”"},
      {"range", {{"when", {{"boil_stat", {"boiled"}}}}}, "unknown fact “boil_stat”"},
      {"range", {{"when", {{"boil_state", {"cooked"}}}}}, "never has the value “cooked”"},
      {"range", {{"by", {{"fact", "nothing"}, {"bounds", json::object()}}}}, "unknown fact"},
      {"range",
       {{"by", {{"fact", "boil_state"}, {"bounds", {{"cooked", {{"comfortable", {1, 2}}}}}}}}},
       "never has the value “cooked”"},
      {"range", {{"by", {{"fact", "boil_state"}}}}, "shape is not that of a rule"},
      {"range", {{"fix", {{{"change", "boil_fro"}, {"says", "x"}}}}}, "unknown knob “boil_fro”"},
      {"range", {{"fix", {{{"put", "unboil"}, {"says", "x"}}}}}, "unknown edit “unboil”"},
      {"range", {{"fix", {{{"says", "x"}}}}}, "either changes a knob or puts an edit"},
      {"range",
       {{"fix", {{{"change", "ice"}, {"put", "unseal"}, {"says", "x"}}}}},
       "either changes a knob or puts an edit"},
      {"range", {{"fix", {{{"change", "ice"}}}}}, "“says” is missing"},
      {"range", {{"fix", {{{"change", "ice"}, {"says", "{now}"}}}}}, "unknown place {now}"},
      {"range", {{"objection", ""}}, "“objection” is empty"},
      {"order", {{"first", "boill"}}, "no step is called “boill”"},
      {"order", {{"until", "later"}}, "no step is called “later”"},
      {"order", {{"severity", "bad"}}, "unknown severity “bad”"},
      {"order", {{"says", "{value}."}}, "unknown place {value}"},
      {"order", {{"fix", {{{"change", "ice"}, {"says", "x"}}}}}, "a rule with a number"},
      {"contact", {{"says", {{"stale", nullptr}}}}, "“stale” is missing"},
      {"contact", {{"says", {{"late", "{first}."}}}}, "unknown place {first}"},
      {"present", {{"fact", "lid"}}, "unknown fact “lid”"},
      {"present", {{"fine", {"ajar"}}}, "never has the value “ajar”"},
      {"present", {{"others", {{"ajar", "note"}}}}, "never has the value “ajar”"},
      {"present", {{"others", {{"left open", "sad"}}}}, "unknown severity “sad”"},
      {"present", {{"others", nullptr}}, "no value of the fact is ever told"},
      {"present", {{"says", nullptr}}, "nothing is said of “left open”"},
      {"present", {{"otherwise", "note"}}, "nothing is said otherwise"},
      {"present", {{"says", {{"left open", "{needs}."}}}}, "unknown place {needs}"},
      {"consistent", {{"measures", {"wort_volume"}}}, "“measures” does not name two"},
      {"consistent", {{"measures", {"wort_volume", "wort"}}}, "unknown measure “wort”"},
      {"consistent", {{"comfortable", "few"}}, "“comfortable” is not a number"},
      {"consistent", {{"hard", "many"}}, "“hard” is not a number"},
      {"consistent", {{"hard", 0.05}}, "hard gap lies inside"},
      {"consistent", {{"says", "{value}."}}, "unknown place {value}"},
      {"consistent", {{"relative", "yes"}}, "shape is not that of a rule"},
  };
  for (const Row& row : rows) {
    const std::string faults = faults_of(changed(row.kind, row.change));
    BOOST_CHECK_MESSAGE(faults.find(row.fault) != std::string::npos,
                        row.change << "\n  wanted: " << row.fault << "\n  got: " << faults);
  }
}

BOOST_AUTO_TEST_CASE(a_message_may_tell_how_far_beyond_in_place_of_the_value) {
  BOOST_TEST(faults_of(changed("range", {{"low", "{beyond} below {comfortable}."}})).empty());
}

BOOST_AUTO_TEST_CASE(several_faults_are_told_at_once) {
  const json rule = changed("range", {{"measure", "x"}, {"why", ""}, {"sources", nullptr}});
  BOOST_TEST(read_rule(rule.dump()).faults.size() == 3U);
}

BOOST_AUTO_TEST_CASE(what_is_no_json_object) {
  for (const char* bytes :
       {"", "{", "[]", "5", "null", "\"rule\"", "\xff\xfe", "{\"id\": \"\xc3\"}"})
    BOOST_TEST(read_rule(bytes).faults.size() == 1U);
  BOOST_TEST(!read_rule("{}").faults.empty());
}

BOOST_AUTO_TEST_CASE(cautions_are_checked_too) {
  BOOST_TEST(read_cautions("[]").faults.size() == 1U);
  BOOST_TEST(read_cautions("{\"heat\": 5}").faults.size() == 1U);
  BOOST_TEST(read_cautions("{\"heat\": {\"title\": \"Hot\"}}").faults.size() == 1U);
  BOOST_TEST(read_cautions("{\"heat\": {\"title\": \"Hot\", \"text\": \"\"}}").faults.size() == 1U);
  const auto file = read_cautions("{\"heat\": {\"title\": \"Hot\", \"text\": \"It burns.\"}}");
  BOOST_TEST(file.faults.empty());
  BOOST_REQUIRE(file.cautions.size() == 1U);
  BOOST_TEST(file.cautions[0].id == "heat");
}

BOOST_AUTO_TEST_CASE(words_of_severity_and_kind) {
  for (const char* word : {"note", "weakens", "spoils", "danger"})
    BOOST_TEST(spelling(severity_from(word).value()) == word);
  BOOST_TEST(!severity_from("Danger"));
  BOOST_TEST(!severity_from(""));
  BOOST_TEST(spelling(RuleKind::consistent) == "consistent");
}

namespace {

using Random = std::mt19937;

std::size_t pick(Random& random, std::size_t below) {
  return below == 0 ? 0 : random() % below;
}

void bend_bytes(Random& random, std::string& bytes) {
  const std::size_t at = pick(random, bytes.size());
  switch (pick(random, 4)) {
    case 0:
      bytes[at] = static_cast<char>(random() % 256);
      break;
    case 1:
      bytes.erase(at, 1 + pick(random, 20));
      break;
    case 2:
      bytes.insert(at, bytes.substr(pick(random, bytes.size()), 1 + pick(random, 40)));
      break;
    default:
      bytes.resize(at);
  }
}

/// Puts a value of another kind at a place chosen at random.
void bend_value(Random& random, json& value) {
  if (value.is_structured() && !value.empty() && pick(random, 4) != 0) {
    auto child = value.begin();
    std::advance(child, static_cast<std::ptrdiff_t>(pick(random, value.size())));
    bend_value(random, *child);
    return;
  }
  const json others[] = {nullptr,
                         true,
                         -1,
                         1e308,
                         "",
                         "{value",
                         "}{",
                         "{}",
                         "{",
                         json::array(),
                         json::object(),
                         json::array({1, "x", nullptr}),
                         {{"a", json::object()}}};
  value = others[pick(random, std::size(others))];
}

}  // namespace

BOOST_AUTO_TEST_CASE(bent_rules_are_refused_or_read_and_nothing_breaks) {
  Random random(20270316);
  int refused = 0, read = 0;
  for (const Rule& rule : catalogue()) {
    const std::string whole = file_text("engine/rules/catalogue/" + rule.id + ".json");
    for (int turn = 0; turn < 40; ++turn) {
      std::string bytes = whole;
      if (turn % 2 == 0) {
        for (std::size_t k = 0; k <= pick(random, 3); ++k)
          if (!bytes.empty()) bend_bytes(random, bytes);
      } else {
        json document = json::parse(whole);
        for (std::size_t k = 0; k <= pick(random, 2); ++k) bend_value(random, document);
        bytes = document.dump();
      }
      const RuleFile file = read_rule(bytes);
      ++(file.faults.empty() ? read : refused);
      for (const std::string& fault : file.faults) BOOST_TEST(!fault.empty());
    }
  }
  BOOST_TEST(refused > 1000);
  BOOST_TEST(read > 0);
}

BOOST_AUTO_TEST_CASE(bent_rules_that_are_read_can_be_judged_by) {
  Random random(41);
  nlohmann::ordered_json faulty = sound_example();
  faulty["stages"][0]["extract"]["mass"] = "180 g";
  faulty["steps"].erase(faulty["steps"].begin() + 4);
  const Plan plan = plan_from(faulty);
  int judged = 0;
  for (const Rule& rule : catalogue()) {
    for (int turn = 0; turn < 6; ++turn) {
      json document = json::parse(file_text("engine/rules/catalogue/" + rule.id + ".json"));
      bend_value(random, document);
      const RuleFile file = read_rule(document.dump());
      if (!file.faults.empty()) continue;
      (void)judge(plan, {&file.rule, 1});
      ++judged;
    }
  }
  BOOST_TEST(judged > 10);
}

BOOST_AUTO_TEST_SUITE_END()
