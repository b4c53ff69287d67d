#include <algorithm>
#include <memory>

#include "command/commands.h"
#include "command/handout_maker.h"
#include "command/judged.h"
#include "command/plan_names.h"
#include "command/practice_option.h"
#include "command/prose.h"
#include "command/refuse.h"
#include "command/word_option.h"
#include "lesson/quiz.h"
#include "output/layout.h"
#include "quantity/words.h"
#include "rules/catalogue.h"
#include "rules/judge.h"

namespace starter {
namespace {

struct HandoutCommand {
  std::vector<std::string> plans;
  std::string lesson;
  std::string folder;
  bool blank = false;
  bool only_html = false, only_pdf = false;
  HandoutOptions sheet;
  PracticeOption practice;
};

/// What is wrong with the arguments taken together; empty when nothing is.
std::string wrong_choice(const HandoutCommand& c) {
  if (c.plans.empty() && c.lesson.empty()) return "name a plan to make a sheet of, or --lesson NN.";
  if (!c.plans.empty() && !c.lesson.empty())
    return "a lesson has a plan of its own; name a plan or --lesson, not both.";
  if (!c.lesson.empty() && c.blank)
    return "a lesson's sheet has lines to fill in as it is; leave out --blank.";
  if (!c.lesson.empty() && !c.practice.file.empty())
    return "a lesson is judged by the usual practice; leave out --practice.";
  if (c.folder.empty()) return "-o needs the name of a folder.";
  if (std::count(c.plans.begin(), c.plans.end(), "-") > 1)
    return "standard input can be read once only.";
  return "";
}

/// The files of one plan: its sheet, or a blank one and its answers.
Exit sheets_of(const std::string& stem, const Judgement& judgement, const HandoutCommand& c,
               HandoutMaker& maker) {
  HandoutOptions sheet = c.sheet;
  if (!c.blank) return maker.make(stem, judgement, sheet);
  sheet.answers = true;
  const Exit answers = maker.make(stem + "-answers", judgement, sheet);
  sheet.answers = false;
  sheet.kind = SheetKind::workshop;
  return std::max(answers, maker.make(stem + "-blank", judgement, sheet));
}

/// The prose of a lesson, without its title, as markup.
std::string prose_of(const Lesson& lesson, UnitSystem units) {
  FillOptions how;
  how.units = units;
  how.diagram = "The end of this sheet shows the steps as a picture.";
  return prose_markup(without_title(told_lesson(lesson, how)));
}

/// The exercise: the lesson's title and its plan. The answers: all of the lesson, and what the
/// check says.
Exit lesson_sheets(const Lesson& lesson, const HandoutCommand& c, HandoutMaker& maker) {
  JudgeOptions how;
  how.units = c.sheet.units;
  const Judgement judgement = judge(std::get<Plan>(read_plan(lesson.plan)), catalogue(), how);
  HandoutOptions sheet = c.sheet;
  sheet.lesson = "Lesson " + std::to_string(std::stoi(lesson.name.substr(0, 2)));
  sheet.lesson_title = lesson.title;
  sheet.kind = SheetKind::exercise;
  const Exit exercise = maker.make(lesson.name, judgement, sheet);
  sheet.kind = SheetKind::full;
  sheet.answers = true;
  sheet.prose = prose_of(lesson, c.sheet.units);
  return std::max(exercise, maker.make(lesson.name + "-answers", judgement, sheet));
}

Exit handout(const HandoutCommand& c, Output& out) {
  const std::string wrong = wrong_choice(c);
  if (!wrong.empty()) return refuse(wrong);
  const Lesson* lesson = c.lesson.empty() ? nullptr : find_lesson(c.lesson);
  if (!c.lesson.empty() && !lesson)
    return refuse("there is no lesson " + starter::quoted(c.lesson) +
                  ". For all lessons: starter-plan lesson");
  HandoutMaker maker(c.folder, {!c.only_pdf, !c.only_html}, out);
  if (!maker.ready()) return Exit::unusable;
  if (lesson) return lesson_sheets(*lesson, c, maker);
  const auto practice = load_practice(c.practice);
  if (!practice) return Exit::unusable;
  StemsOnce stems;
  Told told;
  told.units = c.sheet.units;
  JudgeOptions how;
  how.units = c.sheet.units;
  Exit worst = Exit::sound;
  for (const std::string& name : c.plans) {
    const std::string stem = stems.of(name);
    const auto make = [&](const std::string&, const Judgement& judgement, const Look&) {
      Saying saying;
      saying.ends = sheets_of(stem, judgement, c, maker);
      return saying;
    };
    worst = std::max(worst, tell_judged({name}, told, out, *practice, how, make));
  }
  return worst;
}

}  // namespace

void add_handout(CLI::App& program, Chosen& chosen) {
  CLI::App* command = program.add_subcommand(
      "handout", "Sheets to print: what to have and clean, steps to tick off, numbers, findings");
  auto c = std::make_shared<HandoutCommand>();
  command->add_option("PLAN", c->plans, "Plan files; - is standard input")->option_text("...");
  command->add_option("-o,--output", c->folder, "The folder for the sheets; made if need be")
      ->required()
      ->option_text("DIR");
  add_word(*command, "--paper", c->sheet.paper, {{"a4", Paper::a4}, {"letter", Paper::letter}},
           "The paper to print on");
  command->add_flag("--large", c->sheet.large, "Large print");
  command->add_flag("--blank", c->blank,
                    "For a workshop: a sheet to fill in, and one with the plan's answers");
  command
      ->add_option("--lesson", c->lesson,
                   "A lesson's exercise instead of a plan, and its answers on a sheet of their own")
      ->option_text("NN");
  auto* html = command->add_flag("--html", c->only_html, "Only the page, no PDF");
  command->add_flag("--pdf", c->only_pdf, "Only the PDF, no page")->excludes(html);
  add_units(*command, c->sheet.units);
  add_practice(*command, c->practice);
  command->footer(
      "Each plan becomes NAME.html, a page that stands alone, and NAME.pdf, made from it by\n"
      "weasyprint (a Debian package). What is there of that name is replaced.\n"
      "Ends with 0 when all is written, 2 when something cannot be used or written.\n\n"
      "Examples:\n"
      "  starter-plan handout harvest-amber.plan.json -o sheets\n"
      "  starter-plan handout --large --paper letter --units us *.plan.json -o sheets\n"
      "  starter-plan handout --blank harvest-amber.plan.json -o workshop\n"
      "  starter-plan handout --lesson 3 -o workshop");
  command->callback([c, &chosen] { chosen = [c](Output& out) { return handout(*c, out); }; });
}

}  // namespace starter
