// `starter-plan handout` as a person or a script runs it. check_sheets.py looks at the PDFs.

#include <boost/test/unit_test.hpp>
#include <chrono>
#include <filesystem>
#include <set>

#include "child.h"
#include "command/other_program.h"
#include "command/pdf.h"

namespace {

namespace fs = std::filesystem;

std::set<std::string> files_in(const std::string& folder) {
  std::set<std::string> names;
  for (const auto& entry : fs::directory_iterator(folder))
    names.insert(entry.path().filename().string());
  return names;
}

using Names = std::set<std::string>;

BOOST_AUTO_TEST_SUITE(handout)

BOOST_AUTO_TEST_CASE(a_page_is_written_and_named) {
  const std::string folder = in_scratch("one/more");
  const Ran ran = run({"handout", plan_file("faulty/rich-wort"), "--html", "-o", folder});
  BOOST_TEST(ran.code == 0);  // findings are no failure of a sheet
  BOOST_TEST(ran.error == "");
  BOOST_TEST(ran.out == folder + "/rich-wort.html\n");
  BOOST_TEST((files_in(folder) == Names{"rich-wort.html"}));
  const std::string page = bytes_of(folder + "/rich-wort.html");
  BOOST_TEST(holds(page, "<svg"));
  BOOST_TEST(holds(page, "Step by step"));
}

BOOST_AUTO_TEST_CASE(plans_of_one_name_become_files_of_their_own) {
  const std::string bytes = bytes_of(plan_file("harvest-amber"));
  fs::create_directories(in_scratch("a"));
  fs::create_directories(in_scratch("b"));
  const std::string a = written_file("a/same.plan.json", bytes);
  const std::string b = written_file("b/same.plan.json", bytes_of(plan_file("faulty/rich-wort")));
  const std::string folder = in_scratch("same");
  BOOST_TEST(run({"handout", "--html", a, b, "-o", folder}).code == 0);
  BOOST_TEST((files_in(folder) == Names{"same.html", "same-2.html"}));
  BOOST_TEST(bytes_of(folder + "/same.html") != bytes_of(folder + "/same-2.html"));
}

BOOST_AUTO_TEST_CASE(a_blank_sheet_comes_with_its_answers) {
  const std::string folder = in_scratch("blank");
  const Ran ran = run({"handout", "--blank", "--html", plan_file("harvest-amber"), "-o", folder});
  BOOST_TEST(ran.code == 0);
  BOOST_TEST((files_in(folder) == Names{"harvest-amber-answers.html", "harvest-amber-blank.html"}));
  BOOST_TEST(!holds(bytes_of(folder + "/harvest-amber-blank.html"), "110 g"));
  BOOST_TEST(holds(bytes_of(folder + "/harvest-amber-answers.html"), "110 g"));
}

BOOST_AUTO_TEST_CASE(a_lesson_comes_as_exercise_and_answers) {
  const std::string folder = in_scratch("lesson");
  const Ran ran = run({"handout", "--lesson", "3", "--html", "-o", folder});
  BOOST_TEST(ran.code == 0);
  const auto names = files_in(folder);
  BOOST_REQUIRE(names.size() == 2u);
  BOOST_TEST((names == Names{"03-how-much-extract.html", "03-how-much-extract-answers.html"}));
  const std::string exercise = bytes_of(folder + "/03-how-much-extract.html");
  const std::string answers = bytes_of(folder + "/03-how-much-extract-answers.html");
  BOOST_TEST(holds(exercise, "What would you mend?"));
  BOOST_TEST(!holds(exercise, "stresses yeast"));
  BOOST_TEST(holds(answers, "stresses yeast"));
  BOOST_TEST(holds(answers, "Check yourself"));
}

BOOST_AUTO_TEST_CASE(a_sheet_is_replaced_whole) {
  const std::string folder = in_scratch("again");
  const auto make = [&] {
    return run({"handout", "--html", plan_file("harvest-amber"), "-o", folder}).code;
  };
  BOOST_TEST(make() == 0);
  const std::string first = bytes_of(folder + "/harvest-amber.html");
  BOOST_TEST(make() == 0);
  BOOST_TEST(bytes_of(folder + "/harvest-amber.html") == first);
  BOOST_TEST((files_in(folder) == Names{"harvest-amber.html"}));
}

BOOST_AUTO_TEST_CASE(a_plan_that_cannot_be_used_does_not_keep_others_from_paper) {
  const std::string folder = in_scratch("mixed");
  const Ran ran = run(
      {"handout", "--html", plan_file("bad/no-beer"), plan_file("harvest-amber"), "-o", folder});
  BOOST_TEST(ran.code == 2);
  BOOST_TEST(holds(ran.error, "beer"));
  BOOST_TEST((files_in(folder) == Names{"harvest-amber.html"}));
}

BOOST_AUTO_TEST_CASE(standard_input_is_a_plan_too) {
  const std::string folder = in_scratch("from-input");
  Setting setting;
  setting.input = bytes_of(plan_file("harvest-amber"));
  BOOST_TEST(run({"handout", "--html", "-", "-o", folder}, setting).code == 0);
  BOOST_TEST((files_in(folder) == Names{"plan.html"}));
}

BOOST_AUTO_TEST_CASE(a_reader_that_goes_takes_no_sheet_away) {
  const std::string folder = in_scratch("gone");
  Setting setting;
  setting.reader_gone = true;
  BOOST_TEST(run({"handout", "--html", plan_file("harvest-amber"), "-o", folder}, setting).code ==
             0);
  BOOST_TEST((files_in(folder) == Names{"harvest-amber.html"}));
}

BOOST_AUTO_TEST_CASE(what_cannot_be_written_ends_with_2) {
  const std::string folder = in_scratch("taken");
  fs::create_directories(folder + "/harvest-amber.html");
  const Ran ran = run({"handout", "--html", plan_file("harvest-amber"), "-o", folder});
  BOOST_TEST(ran.code == 2);
  BOOST_TEST(holds(ran.error, "was not written"));
  BOOST_TEST(holds(ran.error, "folder"));
}

BOOST_AUTO_TEST_CASE(what_makes_no_sense_is_refused) {
  const std::string plan = plan_file("harvest-amber");
  const std::string file = written_file("file", "");
  const std::string folder = in_scratch("refused");
  struct Case {
    std::vector<std::string> arguments;
    std::string word;
  };
  for (const Case& c : {Case{{"-o", folder}, "--lesson"}, Case{{plan}, "-o"},
                        Case{{plan, "--lesson", "3", "-o", folder}, "not both"},
                        Case{{"--lesson", "99", "-o", folder}, "99"},
                        Case{{"--lesson", "3", "--blank", "-o", folder}, "--blank"},
                        Case{{plan, "--html", "--pdf", "-o", folder}, "--"},
                        Case{{plan, "--paper", "a5", "-o", folder}, "letter"},
                        Case{{plan, "--html", "-o", file}, "folder"}, Case{{plan, "-o", ""}, "-o"},
                        Case{{"-", "-", "-o", folder}, "once"}}) {
    std::vector<std::string> all = {"handout"};
    all.insert(all.end(), c.arguments.begin(), c.arguments.end());
    const Ran ran = run(all);
    BOOST_TEST(ran.code == 2, c.word);
    BOOST_TEST(holds(ran.error, c.word), ran.error);
    BOOST_TEST(!fs::exists(folder));
  }
}

BOOST_AUTO_TEST_SUITE_END()

BOOST_AUTO_TEST_SUITE(other_program)

using starter::ProgramLimits;
using starter::ProgramRun;
using starter::run_program;

BOOST_AUTO_TEST_CASE(what_goes_in_comes_out_however_much_it_is) {
  const std::string bytes(3'000'000, 'x');
  const ProgramRun ran = run_program({"/bin/cat"}, {}, bytes);
  BOOST_TEST((ran.end == ProgramRun::End::exited));
  BOOST_TEST(ran.code == 0);
  BOOST_TEST((ran.out == bytes));
}

BOOST_AUTO_TEST_CASE(no_shell_reads_the_words) {
  const ProgramRun ran = run_program({"/bin/echo", "$HOME; `id` > x | y"}, {"HOME=/nowhere"}, "");
  BOOST_TEST(ran.out == "$HOME; `id` > x | y\n");
}

BOOST_AUTO_TEST_CASE(it_gets_the_environment_it_is_given_and_no_other) {
  BOOST_TEST(run_program({"/usr/bin/env"}, {"ONLY=this"}, "").out == "ONLY=this\n");
}

BOOST_AUTO_TEST_CASE(a_slow_one_is_ended_with_what_it_started) {
  ProgramLimits limits;
  limits.time = std::chrono::milliseconds(300);
  const auto begin = std::chrono::steady_clock::now();
  const ProgramRun ran =
      run_program({"/bin/sh", "-c", "/bin/sleep 30 & /bin/sleep 30"}, {}, "", limits);
  BOOST_TEST((ran.end == ProgramRun::End::too_slow));
  const std::chrono::duration<double> took = std::chrono::steady_clock::now() - begin;
  BOOST_TEST(took.count() < 10);
}

BOOST_AUTO_TEST_CASE(one_that_answers_too_much_is_ended) {
  ProgramLimits limits;
  limits.most_out = 100'000;
  const ProgramRun ran = run_program({"/usr/bin/yes"}, {}, "", limits);
  BOOST_TEST((ran.end == ProgramRun::End::too_much));
}

BOOST_AUTO_TEST_CASE(a_pdf_that_takes_too_long_is_given_up) {
  const auto made = starter::pdf_of("<p>Much to do", std::chrono::milliseconds(1));
  BOOST_REQUIRE(std::holds_alternative<starter::PdfProblem>(made));
  BOOST_TEST(holds(std::get<starter::PdfProblem>(made).says, "took more than 1 s"));
}

BOOST_AUTO_TEST_CASE(how_it_ended_is_told) {
  const ProgramRun failed = run_program({"/bin/sh", "-c", "echo no >&2; exit 7"}, {}, "unread");
  BOOST_TEST((failed.end == ProgramRun::End::exited));
  BOOST_TEST(failed.code == 7);
  BOOST_TEST(failed.error == "no\n");
  const ProgramRun killed = run_program({"/bin/sh", "-c", "kill -9 $$"}, {}, "");
  BOOST_TEST((killed.end == ProgramRun::End::killed));
  BOOST_TEST(killed.code == 9);
  BOOST_TEST((run_program({"/none"}, {}, "").end == ProgramRun::End::not_started));
  BOOST_TEST((run_program({}, {}, "").end == ProgramRun::End::not_started));
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
