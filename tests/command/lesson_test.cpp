// `starter-plan lesson` as a person or a script runs it.

#include <boost/test/unit_test.hpp>
#include <nlohmann/json.hpp>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include "child.h"
#include "command/prose.h"

namespace {

Ran with_input(const std::string& input, std::vector<std::string> arguments = {"lesson", "3"}) {
  Setting setting;
  setting.input = input;
  return run(arguments, setting);
}

BOOST_AUTO_TEST_SUITE(lesson)

BOOST_AUTO_TEST_CASE(all_are_listed) {
  const Ran ran = run({"lesson"});
  BOOST_TEST(ran.code == 0);
  BOOST_TEST(holds(ran.out, "03  How much extract"));
  BOOST_TEST(holds(ran.out, "Teaches: extract-kind, extract-ratio"));
  BOOST_TEST(!holds(ran.out, "\x1b"));
  const auto list = nlohmann::json::parse(run({"lesson", "--format", "json"}).out);
  BOOST_REQUIRE(list.size() >= 3u);
  BOOST_TEST(list[2]["number"] == "03");
  BOOST_TEST(list[2]["title"] == "How much extract");
}

BOOST_AUTO_TEST_CASE(an_exercise_without_answers_says_how_to_answer) {
  const Ran ran = with_input("");
  BOOST_TEST(ran.code == 0);
  BOOST_TEST(holds(ran.out, "The plan"));
  BOOST_TEST(holds(ran.out, "table sugar"));
  BOOST_TEST(holds(ran.out, "extract-ratio"));
  BOOST_TEST(holds(ran.out, "--answers"));
  BOOST_TEST(!holds(ran.out, "stresses"));
  BOOST_TEST(!holds(ran.out, "Your answers"));
}

BOOST_AUTO_TEST_CASE(answers_are_scored_and_explained) {
  const Ran right = run({"lesson", "3", "--answers", "extract-kind,extract-ratio"});
  BOOST_TEST(right.code == 0);
  BOOST_TEST(holds(right.out, "You found 2 of 2. All right!"));
  BOOST_TEST(holds(right.out, "Check yourself"));
  const Ran wrong = run({"lesson", "how-much-extract", "--answers", "extract-ratio,boil-time"});
  BOOST_TEST(wrong.code == 0);
  BOOST_TEST(holds(wrong.out, "You found 1 of 2, and named 1 that is not there."));
  BOOST_TEST(holds(wrong.out, "Missed."));
}

BOOST_AUTO_TEST_CASE(answers_may_come_through_a_pipe) {
  const Ran ran = with_input("extract-ratio, extract-kind\nmore\n");
  BOOST_TEST(ran.code == 0);
  BOOST_TEST(holds(ran.out, "The plan"));
  BOOST_TEST(holds(ran.out, "All right!"));
  BOOST_TEST(holds(with_input("extract-ratio").out, "You found 1 of 2"));
  const Ran bad = with_input("extrct-ratio\n");
  BOOST_TEST(bad.code == 2);
  BOOST_TEST(holds(bad.error, "extract-ratio"));
  BOOST_TEST(with_input(std::string(100'000, 'x')).code == 2);
}

BOOST_AUTO_TEST_CASE(an_empty_line_and_reveal_show_the_answers) {
  BOOST_TEST(holds(with_input("\n").out, "Check yourself"));
  const Ran ran = run({"lesson", "3", "--reveal"});
  BOOST_TEST(ran.code == 0);
  BOOST_TEST(holds(ran.out, "Check yourself"));
  BOOST_TEST(!holds(ran.out, "Your answers"));
}

BOOST_AUTO_TEST_CASE(every_lesson_can_be_taken) {
  const auto list = nlohmann::json::parse(run({"lesson", "--format", "json"}).out);
  for (const auto& entry : list) {
    const Ran ran = with_input("", {"lesson", entry["number"]});
    BOOST_TEST(ran.code == 0, entry["name"]);
    BOOST_TEST(ran.error == "");
  }
}

BOOST_AUTO_TEST_CASE(one_is_told_whole_for_a_page) {
  const Ran ran = run({"lesson", "3", "--format", "json"});
  BOOST_REQUIRE(ran.code == 0);
  const auto told = nlohmann::json::parse(ran.out);
  BOOST_TEST(told["title"] == "How much extract");
  const std::string text = told["text"];
  BOOST_TEST(!holds(text, "# How much extract"));
  BOOST_TEST(holds(text, "](picture)"));
  BOOST_TEST(holds(text, "\n## Answers\n"));
  std::set<std::string> speak;
  for (const auto& choice : told["choices"]) {
    if (!choice["speaks"]) continue;
    speak.insert(choice["rule"].get<std::string>());
    BOOST_TEST(choice["says"] != "");
  }
  BOOST_TEST((speak == std::set<std::string>{"extract-kind", "extract-ratio"}));
  for (const char* plan : {"plan", "mended"})
    BOOST_TEST(nlohmann::json::parse(told[plan].get<std::string>())["plan"] == 1);
  const auto us =
      nlohmann::json::parse(run({"lesson", "3", "--format", "json", "--units", "us"}).out);
  BOOST_TEST(us["steps"] != told["steps"]);
  BOOST_TEST(us["plan"] == told["plan"]);
}

/// The lines of `text` between the first that begins with `from` and the next that begins with
/// `to`; an empty `from` is the beginning, an empty `to` the end.
std::vector<std::string> lines_between(const std::string& text, const std::string& from,
                                       const std::string& to) {
  std::vector<std::string> lines;
  std::istringstream in(text);
  bool begun = from.empty();
  for (std::string line; std::getline(in, line);) {
    if (begun && !to.empty() && line.starts_with(to)) break;
    if (begun) lines.push_back(line);
    begun = begun || line.starts_with(from);
  }
  return lines;
}

std::size_t count_of(const std::string& text, const std::string& part) {
  std::size_t count = 0;
  for (auto at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++count;
  return count;
}

BOOST_AUTO_TEST_CASE(before_the_question_only_title_and_plan_are_shown) {
  const auto list = nlohmann::json::parse(run({"lesson", "--format", "json"}).out);
  BOOST_REQUIRE(!list.empty());
  for (const auto& entry : list) {
    const std::string name = entry["name"];
    const std::string shown = with_input("", {"lesson", name}).out;
    BOOST_TEST(shown.starts_with("── " + entry["title"].get<std::string>() + " "), name);
    for (const std::string& line : lines_between(shown, "── ", "── The plan"))
      BOOST_TEST(line == "", name);
    // Nothing of the lesson's own words, a line of them at a time.
    const auto told = lines_between(run({"lesson", name, "--reveal"}).out, "── ", "");
    BOOST_REQUIRE(told.size() > 20u);
    for (const std::string& line : told)
      if (line.size() > 40) BOOST_TEST(!holds(shown, line), name << ": " << line);
  }
}

BOOST_AUTO_TEST_CASE(after_the_question_the_lesson_is_told_once) {
  for (const char* answers : {"1\n", "\n"}) {
    const std::string all = with_input(answers).out;
    BOOST_TEST(count_of(all, "── How much extract ") == 1u);
    BOOST_TEST(count_of(all, "What goes wrong") == 1u);
    BOOST_TEST(count_of(all, "more food") == 1u);
    BOOST_TEST(count_of(all, "── The lesson ") == 1u);
    BOOST_TEST(all.find("── The plan ") < all.find("What goes wrong"));
  }
  const std::string revealed = run({"lesson", "3", "--reveal"}).out;
  BOOST_TEST(count_of(revealed, "── How much extract ") == 1u);
  BOOST_TEST(count_of(revealed, "── The lesson ") == 0u);
}

BOOST_AUTO_TEST_CASE(what_makes_no_sense_is_refused) {
  struct Case {
    std::vector<std::string> arguments;
    std::string word;
  };
  for (const Case& c : {Case{{"lesson", "99"}, "no lesson"},
                        Case{{"lesson", "how-much-extrakt"}, "how-much-extract"},
                        Case{{"lesson", "3", "--answers", "77"}, "from 1 to"},
                        Case{{"lesson", "3", "--answers", "glas-shock"}, "glass-shock"},
                        Case{{"lesson", "3", "--answers", ""}, "names no rule"},
                        Case{{"lesson", "3", "--answers", " , "}, "names no rule"},
                        Case{{"lesson", "3", "--answers", "1", "--reveal"}, "--"},
                        Case{{"lesson", "--reveal"}, "name the lesson"},
                        Case{{"lesson", "99", "--format", "json"}, "no lesson"},
                        Case{{"lesson", "3", "--format", "json", "--reveal"}, "--reveal"}}) {
    const Ran ran = run(c.arguments);
    BOOST_TEST(ran.code == 2);
    BOOST_TEST(holds(ran.error, c.word), ran.error);
    BOOST_TEST(ran.out == "");
  }
}

BOOST_AUTO_TEST_CASE(colour_is_for_terminals_that_want_it) {
  Setting terminal;
  terminal.terminal = 60;
  terminal.environment = {"TERM=xterm"};
  const Ran coloured = run({"lesson", "3", "--answers", "1"}, terminal);
  BOOST_TEST(holds(coloured.out, "\x1b["));
  terminal.environment.push_back("NO_COLOR=1");
  const Ran plain = run({"lesson", "3", "--answers", "1"}, terminal);
  BOOST_TEST(!holds(plain.out, "\x1b"));
}

BOOST_AUTO_TEST_SUITE_END()

BOOST_AUTO_TEST_SUITE(prose)

std::string on_terminal(const std::string& text, std::size_t width = 40) {
  starter::Look look;
  look.width = width;
  starter::Page page(look);
  starter::prose_text(page, text);
  return std::move(page).text();
}

BOOST_AUTO_TEST_CASE(raw_html_is_text) {
  const std::string evil = "<script>alert(1)</script>\n\na <b onclick=x>b</b> <!-- c -->\n";
  const std::string markup = starter::prose_markup(evil);
  BOOST_TEST(!holds(markup, "<script"));
  BOOST_TEST(!holds(markup, "<b"));
  BOOST_TEST(!holds(markup, "<!--"));
  BOOST_TEST(holds(on_terminal(evil), "<script>alert(1)</script>"));
}

BOOST_AUTO_TEST_CASE(markup_is_what_commonmark_says) {
  BOOST_TEST(starter::prose_markup("## A *b*\n\n- c\n- d\n") ==
             "<h2>A <em>b</em></h2>\n<ul>\n<li>c</li>\n<li>d</li>\n</ul>\n");
}

BOOST_AUTO_TEST_CASE(a_terminal_gets_paragraphs_lists_and_quotations) {
  BOOST_TEST(
      on_terminal("# Title\n\nOne *two*\nthree.\n\n- a\n- b\n  1. c\n  2. d\n\n> quoted\n") ==
      "── Title ───────────────────────────────\n"
      "\nOne two three.\n"
      "\n–  a\n–  b\n   1. c\n   2. d\n"
      "\n  quoted\n");
  BOOST_TEST(on_terminal("&amp; \\* `x`") == "& * x\n");
  BOOST_TEST(on_terminal("") == "");
}

BOOST_AUTO_TEST_CASE(no_bytes_upset_it) {
  using namespace std::string_literals;
  const std::string bytes = "\x1b[2J\xff\xfe\0 ![a](b) [c](javascript:d) ```\n***___"s;
  BOOST_TEST(!holds(on_terminal(bytes), "\x1b"));
  BOOST_TEST(!on_terminal(std::string(2000, '>') + "x").empty());
  BOOST_TEST(!on_terminal(std::string(500, '-') + " a\n" + std::string(300, '*')).empty());
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
