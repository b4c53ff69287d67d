// Lessons as exercises.

#include "lesson/quiz.h"

#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <set>

#include "rules/catalogue.h"

using namespace starter;

namespace {

Judgement judged(const Lesson& lesson) {
  JudgeOptions quick;
  quick.fixes = false;
  auto read = read_plan(lesson.plan);
  BOOST_REQUIRE_MESSAGE(std::holds_alternative<Plan>(read), lesson.name);
  return judge(std::get<Plan>(std::move(read)), catalogue(), quick);
}

std::vector<Choice> some_choices() {
  return {{find_rule("boil-time"), true},
          {find_rule("extract-ratio"), false},
          {find_rule("glass-shock"), true}};
}

std::vector<const Rule*> answers(const std::string& typed) {
  const auto choices = some_choices();
  auto read = read_answers(typed, choices);
  BOOST_REQUIRE_MESSAGE(std::holds_alternative<std::vector<const Rule*>>(read), typed);
  return std::get<std::vector<const Rule*>>(std::move(read));
}

BOOST_AUTO_TEST_SUITE(quiz)

BOOST_AUTO_TEST_CASE(choices_hold_all_that_speaks_and_plausible_others) {
  BOOST_REQUIRE(!lessons().empty());
  for (const Lesson& lesson : lessons()) {
    const Judgement j = judged(lesson);
    const auto choices = choices_of(lesson, j);
    std::set<std::string> speak, found, all;
    for (const Choice& c : choices) {
      BOOST_REQUIRE(c.rule != nullptr);
      BOOST_TEST(all.insert(c.rule->id).second, lesson.name);
      if (c.speaks) speak.insert(c.rule->id);
    }
    std::set<std::string> any;
    for (const Finding& f : j.findings) {
      any.insert(f.rule->id);
      if (f.severity > Severity::note) found.insert(f.rule->id);
    }
    BOOST_TEST((speak == found), lesson.name);
    const auto others = choices.size() - speak.size();
    BOOST_TEST(others >= 4u, lesson.name);
    for (const Choice& c : choices)
      if (!c.speaks) BOOST_TEST(any.count(c.rule->id) == 0u, lesson.name << " " << c.rule->id);
    BOOST_TEST(std::is_sorted(choices.begin(), choices.end(), [](const Choice& a, const Choice& b) {
      return a.rule->title < b.rule->title;
    }));
  }
}

BOOST_AUTO_TEST_CASE(answers_are_numbers_or_ids) {
  BOOST_TEST((answers("1, 3") ==
              std::vector<const Rule*>{find_rule("boil-time"), find_rule("glass-shock")}));
  BOOST_TEST((answers("glass-shock 2") ==
              std::vector<const Rule*>{find_rule("glass-shock"), find_rule("extract-ratio")}));
  BOOST_TEST(answers("1,1,BOIL-TIME").size() == 1u);
  BOOST_TEST(answers("chill-time").size() == 1u);  // any rule of the catalogue
  BOOST_TEST(answers("").empty());
  BOOST_TEST(answers(" ,;\t").empty());
}

BOOST_AUTO_TEST_CASE(what_is_no_answer_is_told) {
  const auto choices = some_choices();
  const auto says = [&](const std::string& typed) {
    const auto read = read_answers(typed, choices);
    BOOST_REQUIRE_MESSAGE(std::holds_alternative<AnswerProblem>(read), typed);
    return std::get<AnswerProblem>(read).says;
  };
  BOOST_TEST(says("0").find("1 to 3") != std::string::npos);
  BOOST_TEST(says("4").find("1 to 3") != std::string::npos);
  BOOST_TEST(says("glas-shock").find("glass-shock") != std::string::npos);
  BOOST_TEST(says(std::string(5000, '9')).size() < 200u);
  BOOST_TEST(says("\x1b[31m\xff").find('\x1b') == std::string::npos);
}

BOOST_AUTO_TEST_CASE(a_score_counts_right_missed_and_wrong) {
  const auto choices = some_choices();
  const auto score = [&](const std::string& typed) { return score_of(answers(typed), choices); };
  BOOST_TEST(score_in_words(score("1,3")) == "You found 2 of 2. All right!");
  BOOST_TEST(score_in_words(score("1,2")) == "You found 1 of 2, and named 1 that is not there.");
  BOOST_TEST(score_in_words(score("")) == "You found 0 of 2.");
  const Score s = score("1,2");
  BOOST_TEST((s.missed == std::vector<const Rule*>{find_rule("glass-shock")}));
  BOOST_TEST((s.wrong == std::vector<const Rule*>{find_rule("extract-ratio")}));
}

BOOST_AUTO_TEST_CASE(a_number_that_is_fine_tells_why_its_rule_is_silent) {
  const Lesson* lesson = find_lesson("3");
  BOOST_REQUIRE(lesson != nullptr);
  const Judgement j = judged(*lesson);
  const std::string why = why_silent(*find_rule("growth-headroom"), j, UnitSystem::metric);
  BOOST_TEST(why.find("comfortable: at most") != std::string::npos, why);
  BOOST_TEST(why_silent(*find_rule("clean-contact"), j, UnitSystem::metric) == "");
}

BOOST_AUTO_TEST_CASE(a_title_is_taken_off_once) {
  BOOST_TEST(without_title("# A\n\nB\n\n# C\n") == "B\n\n# C\n");
  BOOST_TEST(without_title("B\n") == "B\n");
  BOOST_TEST(without_title("# A") == "");
  BOOST_TEST(without_title("") == "");
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
