#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>

#include "child.h"

using Json = nlohmann::ordered_json;

namespace {

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) lines.push_back(line);
  return lines;
}

/// Columns of a line of our own texts, whose characters are all one column wide.
std::size_t width(const std::string& line) {
  std::size_t count = 0;
  for (const char c : line) count += (static_cast<unsigned char>(c) & 0xC0) != 0x80;
  return count;
}

std::size_t widest(const std::string& text) {
  std::size_t most = 0;
  for (const std::string& line : lines_of(text)) most = std::max(most, width(line));
  return most;
}

Json json_of(const std::vector<std::string>& arguments, int code) {
  std::vector<std::string> all = {"check", "--format", "json"};
  all.insert(all.end(), arguments.begin(), arguments.end());
  const Ran ran = run(all);
  BOOST_TEST(ran.code == code);
  BOOST_TEST(ran.error == "");
  return Json::parse(ran.out);
}

/// Whether a finding of that rule and severity is there.
bool finds(const Json& plan, const std::string& rule, const std::string& severity) {
  for (const Json& f : plan.at("findings"))
    if (f.at("rule") == rule && f.at("severity") == severity) return true;
  return false;
}

int fail_at(const char* severity, const std::string& plan) {
  return run({"check", "--fail-at", severity, plan_file(plan)}).code;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(check)

BOOST_AUTO_TEST_CASE(a_sound_plan_has_notes_at_most) {
  const Json plan = json_of({plan_file("harvest-amber")}, 0);
  for (const Json& f : plan.at("findings"))
    BOOST_TEST(f.at("severity") == "note", f.at("rule") << ": " << f.at("says"));
}

BOOST_AUTO_TEST_CASE(faults_are_found_by_name_and_severity) {
  const struct {
    const char *plan, *rule, *severity;
  } cases[] = {
      {"faulty/rich-wort", "extract-ratio", "spoils"},
      {"faulty/warm-bath", "chill-reach", "spoils"},
      {"faulty/hot-jug", "glass-shock", "danger"},
      {"faulty/decant-last", "decant-before-pitch", "spoils"},
      {"faulty/bar-never-clean", "clean-contact", "spoils"},
      {"faulty/too-small", "cells-enough", "spoils"},
      {"faulty/too-late", "ready-by-brew-day", "spoils"},
  };
  for (const auto& c : cases)
    BOOST_TEST(finds(json_of({plan_file(c.plan)}, 1), c.rule, c.severity),
               c.plan << " lacks " << c.rule);
}

BOOST_AUTO_TEST_CASE(height_alone_is_no_fault) {
  const Json plan = json_of({plan_file("faulty/high-up")}, 0);
  for (const Json& m : plan.at("measures"))
    if (m.at("name") == "boil_temperature") BOOST_TEST(m.at("value").get<double>() < 93);
}

BOOST_AUTO_TEST_CASE(fail_at_sets_the_mildest_finding_that_fails) {
  BOOST_TEST(fail_at("note", "harvest-amber") == 1);  // it has notes
  BOOST_TEST(fail_at("weakens", "harvest-amber") == 0);
  BOOST_TEST(fail_at("note", "faulty/warm-bath") == 1);
  BOOST_TEST(fail_at("weakens", "faulty/warm-bath") == 1);
  BOOST_TEST(fail_at("spoils", "faulty/warm-bath") == 1);
  BOOST_TEST(fail_at("danger", "faulty/warm-bath") == 0);
  BOOST_TEST(fail_at("danger", "faulty/hot-jug") == 1);
}

BOOST_AUTO_TEST_CASE(the_worst_end_of_several_plans_wins_and_all_are_told) {
  const std::string sound = plan_file("harvest-amber"), faulty = plan_file("faulty/rich-wort");
  const std::string unusable = plan_file("bad/misspelt-field");
  BOOST_TEST(run({"check", sound, sound}).code == 0);
  BOOST_TEST(run({"check", faulty, sound}).code == 1);
  const Ran mixed = run({"check", unusable, faulty, sound});
  BOOST_TEST(mixed.code == 2);
  BOOST_TEST(holds(mixed.error, "volme"));
  BOOST_TEST(holds(mixed.out, "Strong start for a plum porter"));
  BOOST_TEST(holds(mixed.out, "Starter for the harvest amber"));
  BOOST_TEST(holds(mixed.out, "3 plans: 1 good to go, 1 to mend, 1 that cannot be used yet."));
  const Json all = json_of({unusable, faulty, sound}, 2);
  BOOST_REQUIRE(all.is_array());
  BOOST_TEST(all.size() == 3u);
  BOOST_TEST(all[0].contains("errors"));
  BOOST_TEST(all[2].at("title") == "Starter for the harvest amber");
}

BOOST_AUTO_TEST_CASE(json_keeps_the_order_of_keys_and_the_verdict_of_the_text) {
  const Json plan = json_of({plan_file("faulty/many-at-once")}, 1);
  std::vector<std::string> keys, of_finding;
  for (const auto& [key, unused] : plan.items()) keys.push_back(key);
  for (const auto& [key, unused] : plan.at("findings").at(0).items()) of_finding.push_back(key);
  const std::vector<std::string> wanted = {
      "plan",     "title",    "verdict",  "assumed",
      "findings", "measures", "cautions", "unused_acceptances"};
  BOOST_TEST(keys == wanted, boost::test_tools::per_element());
  const std::vector<std::string> first = {"rule",    "severity", "certainty", "where",
                                          "says",    "why",      "numbers",   "fix",
                                          "sources", "lesson",   "accepted"};
  BOOST_REQUIRE(of_finding.size() >= first.size());
  of_finding.resize(first.size());
  BOOST_TEST(of_finding == first, boost::test_tools::per_element());

  const Ran text = run({"check", plan_file("faulty/many-at-once")}, {.terminal = 100});
  std::string flowed;
  for (const std::string& line : lines_of(text.out)) flowed += line + ' ';
  BOOST_TEST(holds(flowed, plan.at("verdict").get<std::string>()));
}

BOOST_AUTO_TEST_CASE(every_finding_is_in_the_text_with_what_helps) {
  const Json plan = json_of({plan_file("faulty/many-at-once")}, 1);
  const std::string text = run({"check", plan_file("faulty/many-at-once")}).out;
  for (const Json& f : plan.at("findings")) {
    BOOST_TEST(holds(text, f.at("rule").get<std::string>()));
    BOOST_TEST(holds(text, f.at("title").get<std::string>()));
  }
  for (const Json& c : plan.at("cautions"))
    BOOST_TEST(holds(text, c.at("title").get<std::string>()));
  for (const char* part : {"▲ DANGER", "■ SPOILS", "◆ WEAKENS", "○ note", "Scale", "Fix", "Why",
                           "starter-plan explain glass-shock", "── Key numbers", "── Take care"})
    BOOST_TEST(holds(text, part));
}

BOOST_AUTO_TEST_CASE(units_change_texts_and_not_numbers) {
  const std::string plan = plan_file("faulty/rich-wort");
  const std::string text = run({"check", "--units", "us", plan}).out;
  BOOST_TEST(holds(text, "oz/gal"));
  BOOST_TEST(holds(text, "°F"));
  BOOST_TEST(!holds(text, "g/L"));
  BOOST_TEST(json_of({"--units", "us", plan}, 1).at("measures") ==
             json_of({plan}, 1).at("measures"));
}

BOOST_AUTO_TEST_CASE(what_was_assumed_is_told) {
  const std::string text = run({"check", plan_file("good/short")}).out;
  BOOST_TEST(holds(text, "Taken from club practice"));
  BOOST_TEST(holds(text, "No altitude is given"));
  BOOST_TEST(!holds(run({"check", plan_file("harvest-amber")}).out, "Taken from club practice"));
}

BOOST_AUTO_TEST_CASE(standard_input_is_a_plan_once) {
  std::ifstream file(plan_file("harvest-amber"));
  std::ostringstream bytes;
  bytes << file.rdbuf();
  const Setting given{.input = bytes.str()};
  BOOST_TEST(run({"check", "-"}, given).code == 0);
  const Ran twice = run({"check", "-", "-"}, given);
  BOOST_TEST(twice.code == 2);
  BOOST_TEST(holds(twice.error, "can be read once only"));
  BOOST_TEST(Json::parse(run({"check", "--format", "json", "-"}, given).out).at("plan") == "-");
}

// --- the terminal -----------------------------------------------------------------------------

BOOST_AUTO_TEST_CASE(colour_is_for_terminals_that_want_it) {
  const std::string plan = plan_file("faulty/hot-jug");
  const auto coloured = [&](Setting setting) {
    return holds(run({"check", plan}, setting).out, "\x1b[");
  };
  BOOST_TEST(coloured({.environment = {"TERM=xterm"}, .terminal = 80}));
  BOOST_TEST(!coloured({.environment = {"TERM=xterm"}}));
  BOOST_TEST(!coloured({.environment = {"TERM=xterm", "NO_COLOR=1"}, .terminal = 80}));
  BOOST_TEST(coloured({.environment = {"TERM=xterm", "NO_COLOR="}, .terminal = 80}));
  BOOST_TEST(!coloured({.environment = {"TERM=dumb"}, .terminal = 80}));
  BOOST_TEST(!coloured({.terminal = 80}));
}

BOOST_AUTO_TEST_CASE(lines_fit_the_terminal) {
  const std::string plan = plan_file("faulty/many-at-once");
  BOOST_TEST(widest(run({"check", plan}).out) <= 80u);
  for (const unsigned columns : {30u, 40u, 60u, 80u, 100u}) {
    const Setting terminal{.terminal = static_cast<unsigned short>(columns)};
    BOOST_TEST(widest(run({"check", plan}, terminal).out) <= columns);
  }
  const std::size_t wide = widest(run({"check", plan}, {.terminal = 200}).out);
  BOOST_TEST(wide <= 100u);
  BOOST_TEST(wide > 80u);
  BOOST_TEST(run({"check", plan}, {.terminal = 1}).code == 1);
  BOOST_TEST(run({"check", plan}, {.terminal = 0}).code == 1);
}

/// A plan with this title, as JSON writes it, and this word for its only step.
std::string plan_titled(const std::string& title, const std::string& step) {
  return written_file("titled.plan.json", R"({"plan": 1, "title": ")" + title +
                                              R"(", "member": "A\nB",
          "beer": {"volume": "20 L", "gravity": "1.050 SG"}, "yeast": {"form": "liquid"},
          "stages": [{"extract": {"kind": "light dry malt", "mass": "110 g"}, "water": "1.2 L"}],
          "steps": [{"do": ")" + step + R"("}]})");
}

/// Nothing but characters that print, and new lines.
bool is_calm(const std::string& text) {
  const bool ascii = std::all_of(text.begin(), text.end(), [](char c) {
    return c == '\n' || (static_cast<unsigned char>(c) >= 0x20 && c != 0x7F);
  });
  return ascii && !holds(text, "\u009b") && !holds(text, "\u009c");
}

BOOST_AUTO_TEST_CASE(control_characters_never_reach_the_terminal) {
  const std::string plan =
      plan_titled(R"(Evil \u001b[2J\u001b]0;owned\u0007 \u007f)", R"(\u001b[5mboil)");
  for (const char* command : {"check", "measure"}) {
    const Ran text = run({command, plan});
    BOOST_TEST(text.code == 2);
    BOOST_TEST(holds(text.error, "/title"));
    BOOST_TEST(is_calm(text.error));
    BOOST_TEST(is_calm(run({command, "--format", "json", plan}).out));
  }
}

BOOST_AUTO_TEST_CASE(odd_titles_are_shown_as_they_are_and_steer_nothing) {
  const std::string plan = plan_titled(
      R"(Odd\r\nbeer \u202egnp.exe \u05d0\u05dc\u05d4 e\u0301\u0323 \ud83c\udf7a\ud83c\udffd )" +
          std::string(120, 'x'),
      R"(stir\nbriskly)");
  for (const char* command : {"check", "measure"}) {
    const Ran text = run({command, plan});
    BOOST_TEST(text.code < 2);
    BOOST_TEST(is_calm(text.out));
    BOOST_TEST(!holds(text.out, "\u202e"));
    for (const char* part : {"Odd beer", "אלה", "e\u0301\u0323", "🍺🏽", "· A B"})
      BOOST_TEST(holds(text.out, part), part);
    BOOST_TEST(widest(text.out) <= 84u);  // marks and wide letters are counted one each here
    const std::string json = run({command, "--format", "json", plan}).out;
    BOOST_TEST(is_calm(json));
    BOOST_TEST(holds(Json::parse(json).at("title").get<std::string>(), "Odd\r\nbeer \u202e"));
  }
}

BOOST_AUTO_TEST_CASE(output_that_cannot_be_written_is_told) {
  for (const char* command : {"check", "measure"})
    for (const char* format : {"text", "json"}) {
      const Ran full =
          run({command, "--format", format, plan_file("harvest-amber")}, {.out_file = "/dev/full"});
      BOOST_TEST(full.code == 2);
      BOOST_TEST(holds(full.error, "could not be written"));
    }
  BOOST_TEST(run({"--help"}, {.out_file = "/dev/full"}).code == 2);
  BOOST_TEST(run({"explain", "--all"}, {.out_file = "/dev/full"}).code == 2);
  BOOST_TEST(run({"check", plan_file("harvest-amber")}, {.out_closed = true}).code == 2);
}

BOOST_AUTO_TEST_CASE(a_reader_that_has_seen_enough_is_no_failure) {
  const Ran gone = run({"check", plan_file("harvest-amber")}, {.reader_gone = true});
  BOOST_TEST(gone.code == 0);
  BOOST_TEST(gone.error == "");
  BOOST_TEST(run({"explain", "--all"}, {.reader_gone = true}).code == 0);
}

BOOST_AUTO_TEST_CASE(the_height_is_told_where_it_matters) {
  BOOST_TEST(holds(run({"check", plan_file("faulty/high-up")}).out,
                   "12 min at 91.8 °C, 450,000 PU; 2500 m up, wort boils cooler"));
  BOOST_TEST(!holds(run({"check", plan_file("harvest-amber")}).out, " up, wort boils cooler"));
}

BOOST_AUTO_TEST_CASE(sarif_places_every_finding_on_its_line) {
  const std::string decant_last = plan_file("faulty/decant-last");
  const std::string broken =
      written_file("a b#1.plan.json", "{\n  \"plan\": 1,\n  \"beer\": 7\n}\n");
  const Ran ran = run({"check", "--format", "sarif", decant_last, broken});
  BOOST_TEST(ran.code == 2);
  const Json log = Json::parse(ran.out);
  BOOST_TEST(log.at("version") == "2.1.0");
  const Json& only = log.at("runs").at(0);
  const Json& rules = only.at("tool").at("driver").at("rules");
  int decants = 0, unusable = 0;
  for (const Json& result : only.at("results")) {
    const std::string rule = result.at("ruleId");
    BOOST_TEST(rules.at(result.at("ruleIndex").get<std::size_t>()).at("id") == rule);
    BOOST_TEST(!result.at("message").at("text").get<std::string>().empty());
    const Json& place = result.at("locations").at(0);
    const Json& physical = place.at("physicalLocation");
    if (rule == "decant-before-pitch") {
      ++decants;
      BOOST_TEST(result.at("level") == "error");
      const int line = physical.at("region").at("startLine");
      std::ifstream file(decant_last);
      std::string text;
      for (int i = 0; i < line; ++i) std::getline(file, text);
      BOOST_TEST(holds(text, "decant"), text);
    }
    if (rule == "unusable-plan") {
      ++unusable;
      BOOST_TEST(result.at("level") == "error");
      BOOST_TEST(holds(physical.at("artifactLocation").at("uri"), "/a%20b%231.plan.json"));
    }
  }
  BOOST_TEST(decants == 1);
  BOOST_TEST(unusable > 0);
  // A sound plan gives a log without errors, and only `check` has findings to tell.
  const Ran sound = run({"check", "--format", "sarif", plan_file("harvest-amber")});
  BOOST_TEST(sound.code == 0);
  const Json calm = Json::parse(sound.out);
  for (const Json& result : calm.at("runs").at(0).at("results"))
    BOOST_TEST(result.at("level") == "note");
  BOOST_TEST(run({"measure", "--format", "sarif", plan_file("harvest-amber")}).code == 2);
}

BOOST_AUTO_TEST_CASE(what_would_make_it_surer_is_told_in_every_form) {
  const std::string plan = STARTER_PLAN_SOURCE_DIR "/lessons/plans/newcomer.plan.json";
  const Json told = json_of({plan}, 1);
  const Json log = Json::parse(run({"check", "--format", "sarif", plan}).out);
  const std::string text = run({"check", plan}, {.terminal = 100}).out;
  std::string flowed;
  for (const std::string& line : lines_of(text)) {
    const auto from = line.find_first_not_of(' ');
    if (from != std::string::npos) flowed += line.substr(from) + ' ';
  }
  std::size_t uncertain = 0, i = 0;
  for (const Json& f : told.at("findings")) {
    const Json& result = log.at("runs").at(0).at("results").at(i++);
    const bool certain = f.at("certainty") == "certain";
    const std::string narrow = f.at("narrow");
    BOOST_TEST(certain == narrow.empty());
    BOOST_TEST(certain == f.at("narrow_where").is_null());
    BOOST_TEST(certain == f.at("narrow_patch").empty());
    BOOST_TEST(certain == !result.contains("relatedLocations"));
    if (certain) continue;
    ++uncertain;
    BOOST_TEST(holds(flowed, narrow), narrow);
    BOOST_TEST(holds(result.at("message").at("text").get<std::string>(), narrow));
    const Json& related = result.at("relatedLocations").at(0);
    BOOST_TEST(related.at("logicalLocations").at(0).at("fullyQualifiedName") ==
               f.at("narrow_where"));
  }
  BOOST_TEST(uncertain >= 2u);
}

BOOST_AUTO_TEST_CASE(a_pack_from_the_future_has_no_age) {
  std::ifstream file(plan_file("harvest-amber"), std::ios::binary);
  Json plan = Json::parse(file);
  plan["yeast"]["packaged"] = "2028-02-20";
  const std::string name = written_file("future.plan.json", plan.dump());
  const Ran text = run({"measure", name});
  BOOST_TEST(text.code == 0);
  BOOST_TEST(holds(text.out, "Wrong   Your yeast is dated 2028-02-20"), text.out);
  BOOST_TEST(!holds(text.out, "age of the yeast"), text.out);
  const Json numbers = Json::parse(run({"measure", "--format", "json", name}).out);
  BOOST_TEST(!holds(numbers.dump(), "pack_age"));
  BOOST_TEST(finds(json_of({name}, 1), "pack-date", "weakens"));
  BOOST_TEST(!holds(run({"measure", plan_file("harvest-amber")}).out, "Wrong "));
}

BOOST_AUTO_TEST_SUITE_END()
