// Places in messages, and what every text of every finding must be like.

#include "rules/message.h"

#include <boost/test/unit_test.hpp>
#include <cctype>

#include "rules/case_files.h"
#include "rules/catalogue.h"

using namespace starter;

BOOST_AUTO_TEST_SUITE(messages)

namespace {

std::optional<std::string> shout(std::string_view place) {
  if (place == "nothing") return std::nullopt;
  return "<" + std::string(place) + ">";
}

bool has_word(const std::string& text, const std::string& word) {
  for (std::size_t at = text.find(word); at != std::string::npos; at = text.find(word, at + 1)) {
    const auto letter = [&](std::size_t i) {
      return i < text.size() && std::isalpha(static_cast<unsigned char>(text[i])) != 0;
    };
    if (!(at > 0 && letter(at - 1)) && !letter(at + word.size())) return true;
  }
  return false;
}

std::size_t characters(const std::string& text) {
  std::size_t count = 0;
  for (const char c : text) count += (static_cast<unsigned char>(c) & 0xC0) != 0x80;
  return count;
}

void check_words(const std::string& text) {
  BOOST_TEST_CONTEXT(text) {
    BOOST_TEST(text.find('{') == std::string::npos);
    BOOST_TEST(text.find('}') == std::string::npos);
    BOOST_TEST(text.find("—") == std::string::npos);
    BOOST_TEST(text.find("  ") == std::string::npos);
    BOOST_TEST(text.find("then then") == std::string::npos);
    BOOST_TEST(text.find("..") == std::string::npos);
    for (const char* word : {"nan", "inf", "null", "1 packs"}) BOOST_TEST(!has_word(text, word));
  }
}

void check_sentence(const std::string& text) {
  check_words(text);
  BOOST_TEST_CONTEXT(text) {
    BOOST_REQUIRE(!text.empty());
    BOOST_TEST((text.front() >= 'A' && text.front() <= 'Z'));
    BOOST_TEST(text.back() == '.');
    BOOST_TEST(characters(text) < 400U);
  }
}

void check_texts(const Judgement& judgement) {
  for (const Finding& f : judgement.findings) {
    BOOST_TEST_CONTEXT(f.rule->id) {
      check_sentence(f.says);
      if (f.fix) check_sentence(f.fix->says);
      check_words(f.margin);
      check_words(f.narrow);
      BOOST_TEST(!f.where.empty());
      BOOST_TEST(!f.rule->why.empty());
      BOOST_TEST(!f.rule->advice.empty());
      BOOST_TEST(!f.rule->sources.empty());
      BOOST_TEST(!f.rule->lesson.empty());
      const bool number = f.rule->kind == RuleKind::range || f.rule->kind == RuleKind::consistent;
      BOOST_TEST(f.margin.empty() != number);
      BOOST_TEST((!number || !f.numbers.empty()));
      for (const Measure& m : f.numbers) BOOST_TEST((m.low <= m.value && m.value <= m.high));
      // An unsure number says what would make it surer.
      if (f.rule->kind == RuleKind::range && f.certainty != Certainty::certain)
        BOOST_TEST(!f.narrow.empty());
      if (f.certainty == Certainty::certain) BOOST_TEST(f.narrow.empty());
    }
  }
}

}  // namespace

BOOST_AUTO_TEST_CASE(places_are_filled) {
  BOOST_TEST(fill_places("", shout).empty());
  BOOST_TEST(fill_places("no place", shout) == "no place");
  BOOST_TEST(fill_places("{a}", shout) == "<a>");
  BOOST_TEST(fill_places("{a}{b} and {a.range}.", shout) == "<a><b> and <a.range>.");
  BOOST_TEST(fill_places("x {nothing} y", shout) == "x — y");
  BOOST_TEST(fill_places("{}", shout) == "<>");
}

BOOST_AUTO_TEST_CASE(lone_braces_are_left_as_they_are) {
  BOOST_TEST(fill_places("a { b", shout) == "a { b");
  BOOST_TEST(fill_places("a } b {c}", shout) == "a } b <c>");
  BOOST_TEST(fill_places("{a} {", shout) == "<a> {");
}

BOOST_AUTO_TEST_CASE(what_is_filled_in_is_not_filled_again) {
  BOOST_TEST(fill_places("{a} {b}", [](std::string_view place) -> std::optional<std::string> {
               return place == "a" ? "{b}" : "x";
             }) == "{b} x");
}

BOOST_AUTO_TEST_CASE(places_are_listed_in_order) {
  BOOST_TEST(places_in("").empty());
  BOOST_TEST(places_in("{b} then {a}, {b}") == (std::vector<std::string>{"b", "a", "b"}),
             boost::test_tools::per_element());
  BOOST_TEST(places_in("{open").empty());
}

BOOST_AUTO_TEST_CASE(every_text_of_every_case_reads_whole) {
  int texts = 0;
  for (const JudgedCase& one : judged_cases()) {
    BOOST_TEST_CONTEXT(one.of.name()) check_texts(one.judgement);
    texts += static_cast<int>(one.judgement.findings.size());
  }
  BOOST_TEST(texts > 300);
}

BOOST_AUTO_TEST_CASE(in_us_units_too) {
  JudgeOptions options;
  options.units = UnitSystem::us;
  std::string last;
  for (const RuleCase& one : all_cases()) {
    // The first case of each rule shows its words.
    if (one.plan.is_null() || !one.breaks || one.rule == last) continue;
    last = one.rule;
    BOOST_TEST_CONTEXT(one.name()) {
      const Judgement judgement = judge(plan_from(one.plan), catalogue(), options);
      check_texts(judgement);
      for (const Finding& f : judgement.findings) {
        // A hydrometer is marked for one temperature, whatever the units.
        const bool hydrometer = f.rule->id == "measured-gravity";
        BOOST_TEST((hydrometer || f.says.find("°C") == std::string::npos), f.says);
        BOOST_TEST(!has_word(f.says, "kg"), f.says);
      }
    }
  }
}

BOOST_AUTO_TEST_CASE(texts_of_the_catalogue_read_whole) {
  for (const Rule& rule : catalogue()) {
    BOOST_TEST_CONTEXT(rule.id) {
      for (const std::string& text : {rule.why, rule.advice}) check_words(text);
      check_words(rule.objection);
      // "… – but then OBJECTION"
      BOOST_TEST(!has_word(rule.objection, "then"));
      // A rule that can speak of another's fix says it in its own words.
      const bool order = rule.kind == RuleKind::order || rule.kind == RuleKind::contact;
      if (order && rule.severity >= Severity::weakens) BOOST_TEST(!rule.objection.empty());
      if (rule.kind == RuleKind::range) BOOST_TEST(!rule.objection.empty());
    }
  }
}

BOOST_AUTO_TEST_SUITE_END()
