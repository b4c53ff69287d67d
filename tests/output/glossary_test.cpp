// The list of terms, and that sheets explain the terms they use.

#include "output/glossary.h"

#include <algorithm>
#include <filesystem>
#include <set>

#include "output/handout_view.h"
#include "plan_text.h"
#include "quantity/words.h"
#include "support.h"

using namespace starter;

namespace {

std::vector<std::string> plan_files() {
  std::vector<std::string> files;
  const std::string root = STARTER_PLAN_SOURCE_DIR;
  for (const char* folder :
       {"/tests/plans", "/tests/plans/good", "/tests/plans/faulty", "/lessons/plans"})
    for (const auto& entry : std::filesystem::directory_iterator(root + folder))
      if (entry.path().string().ends_with(".plan.json")) files.push_back(entry.path().string());
  std::sort(files.begin(), files.end());
  return files;
}

void gather(const Json& view, std::string& into) {
  if (view.is_string()) into += view.get<std::string>() + "\n";
  if (!view.is_structured()) return;
  for (const auto& [key, inner] : view.items())
    if (key != "glossary" && key != "markup") gather(inner, into);
}

struct Shown {
  std::string file;
  std::string text;
  std::set<std::string> explained;
};

Shown shown_of(const std::string& name, const Judgement& j) {
  const Json view = handout_view(j, {});
  Shown shown{name, "", {}};
  gather(view, shown.text);
  for (const Json& term : view["glossary"]) shown.explained.insert(term["term"]);
  return shown;
}

/// Every plan's sheet, and that of one that pitches its starter whole.
const std::vector<Shown>& sheets() {
  static const std::vector<Shown> all = [] {
    std::vector<Shown> shown;
    for (const std::string& file : plan_files()) {
      std::ifstream stream(file);
      std::ostringstream bytes;
      bytes << stream.rdbuf();
      JudgeOptions quick;
      quick.fixes = false;
      shown.push_back(shown_of(file, judge(plan_from(bytes.str()), catalogue(), quick)));
    }
    PlanText whole;
    whole.steps = R"({"do": "boil", "in": "flask", "heat": "gas"}, {"do": "pitch", "from": "pack"},
      {"do": "krausen pitch"})";
    shown.push_back(shown_of("pitched whole", whole.judged()));
    return shown;
  }();
  return all;
}

bool has_word(const std::string& text, const std::string& word) {
  const auto letter = [](char c) { return std::isalnum(static_cast<unsigned char>(c)) != 0; };
  for (std::size_t at = text.find(word); at != std::string::npos; at = text.find(word, at + 1)) {
    const bool begins = at == 0 || !letter(text[at - 1]);
    const std::size_t end = at + word.size();
    if (begins && (end == text.size() || !letter(text[end]))) return true;
  }
  return false;
}

BOOST_AUTO_TEST_SUITE(terms)

BOOST_AUTO_TEST_CASE(the_list_is_whole) {
  std::set<std::string> forms;
  std::string last;
  for (const Term& term : glossary()) {
    BOOST_TEST((lower_ascii(last) < lower_ascii(term.term)), term.term);
    last = term.term;
    BOOST_TEST(term.says.ends_with("."));
    BOOST_TEST(
        (std::set<std::string>{"published", "practice", "memory"}.count(term.source.label) == 1));
    BOOST_TEST((term.source.label == "practice" || !term.source.text.empty()), term.term);
    BOOST_TEST(forms.insert(lower_ascii(term.term)).second, term.term);
    for (const std::string& other : term.also)
      BOOST_TEST(forms.insert(lower_ascii(other)).second, other);
  }
}

BOOST_AUTO_TEST_CASE(a_term_is_a_whole_word_and_the_longer_one_is_meant) {
  const auto names = [](std::string_view text) {
    std::vector<std::string> found;
    for (const Term* term : terms_in(text)) found.push_back(term->term);
    return found;
  };
  BOOST_TEST(names("The Wort").size() == 1u);
  BOOST_TEST(names("worthy, aleatory, pitcher").empty());
  BOOST_TEST((names("on a stir plate") == std::vector<std::string>{"stir plate"}));
  BOOST_TEST((names("light dry malt") == std::vector<std::string>{"dry malt extract"}));
  BOOST_TEST((names("12.5 °P") == std::vector<std::string>{"Plato"}));
  BOOST_TEST(names("").empty());
}

BOOST_AUTO_TEST_CASE(every_term_is_used_by_a_sheet) {
  std::set<std::string> used;
  for (const Shown& sheet : sheets()) used.insert(sheet.explained.begin(), sheet.explained.end());
  for (const Term& term : glossary()) BOOST_TEST(used.count(term.term) == 1u, term.term);
}

BOOST_AUTO_TEST_CASE(a_sheet_explains_no_term_that_it_does_not_use) {
  for (const Shown& sheet : sheets()) {
    std::set<std::string> used;
    for (const Term* term : with_their_own_terms(terms_in(sheet.text))) used.insert(term->term);
    BOOST_TEST((used == sheet.explained), sheet.file);
  }
}

// A list of the trade's words made apart from the glossary: what a newcomer would ask about.
BOOST_AUTO_TEST_CASE(every_trade_word_of_a_sheet_is_explained) {
  const std::vector<std::string> trade = {
      "agitate",     "airlock",   "ale",          "boil-off",  "borosilicate", "bumping",
      "cells",       "conical",   "crash",        "decant",    "decanted",     "extract",
      "fermented",   "flask",     "flocculation", "gravity",   "growth",       "hydrometer",
      "inoculation", "krausen",   "lager",        "malt",      "pack",         "pasteurisation",
      "pitch",       "pitched",   "PU",           "rehydrate", "sanitise",     "sanitised",
      "slurry",      "soda-lime", "stage",        "starter",   "stir bar",     "stir plate",
      "viability",   "wort"};
  for (const Shown& sheet : sheets())
    for (const std::string& word : trade) {
      if (!has_word(sheet.text, word)) continue;
      const bool explained =
          std::any_of(glossary().begin(), glossary().end(), [&](const Term& term) {
            if (sheet.explained.count(term.term) == 0) return false;
            if (has_word(lower_ascii(term.term), lower_ascii(word))) return true;
            return std::any_of(term.also.begin(), term.also.end(), [&](const std::string& form) {
              return has_word(lower_ascii(form), lower_ascii(word));
            });
          });
      BOOST_TEST(explained, sheet.file << " says " << word);
    }
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
