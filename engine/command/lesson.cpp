#include <poll.h>
#include <unistd.h>

#include <cerrno>
#include <memory>
#include <stdexcept>

#include "command/commands.h"
#include "command/prose.h"
#include "command/refuse.h"
#include "lesson/lessons_json.h"
#include "lesson/quiz.h"
#include "output/handout_view.h"
#include "output/plan_parts.h"
#include "quantity/words.h"
#include "rules/catalogue.h"

namespace starter {
namespace {

struct LessonCommand {
  std::string name;
  std::string answers;
  bool answered = false;  ///< --answers was given, perhaps empty
  bool reveal = false;
  Told told;
};

constexpr const char* picture = "starter-plan draw shows the steps of a plan as a picture.";
constexpr std::size_t most_typed = 4096;
constexpr int wait_for_pipe = 3000;  ///< milliseconds, for answers that another program writes
constexpr int most_tries = 3;

// --- what is told -----------------------------------------------------------------------------

std::string list_text(const Look& look) {
  Page page(look);
  page.ruled("Lessons");
  for (const Lesson& lesson : lessons()) {
    std::string teaches;
    for (const std::string& rule : lesson.teaches) teaches += (teaches.empty() ? "" : ", ") + rule;
    page.blank();
    page.item({lesson.name.substr(0, 2), Ink::strong}, {{lesson.title, Ink::strong}}, 0, 4);
    page.paragraph(lesson.summary, 4);
    page.paragraph({{"Teaches: " + teaches, Ink::faint}}, 4);
  }
  page.blank();
  page.paragraph("To take one as an exercise: starter-plan lesson 3");
  return std::move(page).text();
}

/// The lesson's prose, filled.
std::string filled(const Lesson& lesson, UnitSystem units) {
  FillOptions how;
  how.units = units;
  how.diagram = picture;
  return told_lesson(lesson, how);
}

/// The plan as a member hands it in: what it says, and nothing of what comes of it.
void plan_text(Page& page, const Judgement& j) {
  constexpr std::size_t name_room = 10;
  page.blank();
  page.ruled("The plan");
  plan_head(page, j.plan);
  for (const auto& [name, value] : plan_facts(j, page.look().units))
    page.item({name, Ink::faint}, {{value}}, 2, name_room);
  page.blank();
  int number = 0;
  for (const std::string& words : steps_to_judge(j, page.look().units))
    page.item(std::to_string(++number) + ".", words, 2, 4);
}

void choices_text(Page& page, std::span<const Choice> choices) {
  page.blank();
  page.ruled("Which of these will the check find?");
  for (std::size_t i = 0; i < choices.size(); ++i)
    page.item({std::to_string(i + 1) + ".", Ink::strong},
              {{choices[i].rule->title}, {" · " + choices[i].rule->id, Ink::faint}}, 2, 4);
}

std::string exercise_text(const Lesson& lesson, const Judgement& j, std::span<const Choice> choices,
                          const Look& look) {
  Page page(look);
  page.ruled(lesson.title);
  plan_text(page, j);
  choices_text(page, choices);
  return std::move(page).text();
}

void marked(Page& page, const char* sign, Ink ink, const Rule& rule, const std::string& says) {
  page.item({sign, ink}, {{rule.title, Ink::strong}, {" · " + rule.id, Ink::faint}}, 2, 2);
  if (!says.empty()) page.paragraph(says, 4);
}

std::string score_text(const Score& score, const Judgement& j, const Look& look) {
  Page page(look);
  page.blank();
  page.ruled("Your answers");
  page.paragraph({{score_in_words(score), Ink::strong}});
  page.blank();
  for (const Rule* rule : score.right) marked(page, "✓", Ink::good, *rule, what_is_found(*rule, j));
  for (const Rule* rule : score.missed)
    marked(page, "○", Ink::weakens, *rule, "Missed. " + what_is_found(*rule, j));
  for (const Rule* rule : score.wrong) {
    const std::string why = why_silent(*rule, j, look.units);
    marked(page, "✗", Ink::spoils, *rule,
           "The check finds none of it." + (why.empty() ? "" : " " + why));
  }
  return std::move(page).text();
}

/// All of the lesson. After the exercise its title stands there already.
std::string reveal_text(const Lesson& lesson, bool after_exercise, const Look& look) {
  Page page(look);
  page.blank();
  std::string text = filled(lesson, look.units);
  if (after_exercise) {
    page.ruled("The lesson");
    text = without_title(std::move(text));
  }
  prose_text(page, text);
  return std::move(page).text();
}

// --- what is typed ----------------------------------------------------------------------------

/// A line of standard input without its end, or nothing when no more comes: at its end, or when a
/// pipe stays silent. A person at a terminal is waited for.
std::optional<std::string> typed_line() {
  std::string line;
  const int patience = isatty(STDIN_FILENO) ? -1 : wait_for_pipe;
  while (line.size() < most_typed) {
    pollfd wait = {STDIN_FILENO, POLLIN, 0};
    const int ready = poll(&wait, 1, patience);
    if (ready < 0 && errno == EINTR) continue;
    if (ready <= 0) break;
    char c = 0;
    const ssize_t got = read(STDIN_FILENO, &c, 1);
    if (got < 0 && errno == EINTR) continue;
    if (got <= 0) break;
    if (c == '\n') return line;
    line += c;
  }
  return line.empty() ? std::nullopt : std::optional(line);
}

/// Asks at a terminal until the answers can be read, a few times; reads a pipe once. Nothing when
/// nobody answers. \throws std::invalid_argument what is wrong with answers from a pipe
std::optional<std::vector<const Rule*>> asked(std::span<const Choice> choices, Output& out,
                                              const Look& look) {
  const bool person = isatty(STDIN_FILENO) != 0;
  for (int i = 0; i < most_tries; ++i) {
    if (person) {
      Page page(look);
      page.blank();
      page.paragraph("Type numbers or ids, with commas between. Enter alone shows the answers.");
      if (!out.write(std::move(page).text() + "> ")) return std::nullopt;
    }
    const auto line = typed_line();
    if (!line) return std::nullopt;
    auto answers = read_answers(*line, choices);
    if (auto* rules = std::get_if<std::vector<const Rule*>>(&answers)) return *rules;
    const std::string says = std::get<AnswerProblem>(answers).says;
    if (!person) throw std::invalid_argument(says);
    Page page(look);
    page.paragraph({{says, Ink::spoils}});
    out.write(std::move(page).text());
  }
  return std::vector<const Rule*>();
}

// --- the command ------------------------------------------------------------------------------

Exit unknown_lesson(const std::string& typed) {
  std::vector<std::string> names;
  for (const Lesson& lesson : lessons())
    for (const std::string& name : {lesson.name, lesson.name.substr(3)}) names.push_back(name);
  const auto nearest =
      nearest_word(typed, std::vector<std::string_view>(names.begin(), names.end()));
  return refuse("there is no lesson " + starter::quoted(typed) + "." +
                (nearest ? " Did you mean " + *nearest + "?" : "") +
                " For all lessons: starter-plan lesson");
}

Exit take(const LessonCommand& c, const Lesson& lesson, Output& out) {
  const Look look = look_of(Stream::out, c.told.units);
  PlanResult read = read_plan(lesson.plan);
  const Judgement judgement = judge(std::get<Plan>(std::move(read)), catalogue(),
                                    JudgeOptions::findings_only(c.told.units));
  const std::vector<Choice> choices = choices_of(lesson, judgement);
  std::optional<std::vector<const Rule*>> answers;
  if (c.answered) {
    auto typed = read_answers(c.answers, choices);
    if (const auto* problem = std::get_if<AnswerProblem>(&typed)) return refuse(problem->says);
    answers = std::get<std::vector<const Rule*>>(std::move(typed));
    if (answers->empty())
      return refuse("--answers names no rule. Write numbers or ids: starter-plan lesson " +
                    lesson.name.substr(0, 2) + " --answers 1,2. To see the answers: --reveal");
  } else if (!c.reveal) {
    if (!out.write(exercise_text(lesson, judgement, choices, look))) return Exit::sound;
    try {
      answers = asked(choices, out, look);
    } catch (const std::invalid_argument& problem) {
      return refuse(problem.what());
    }
    if (!answers) {
      Page page(look);
      page.blank();
      page.paragraph("To answer: starter-plan lesson " + lesson.name.substr(0, 2) +
                     " --answers 1,2. To see the answers: --reveal instead.");
      out.write(std::move(page).text());
      return Exit::sound;
    }
  }
  if (answers && !answers->empty())
    out.write(score_text(score_of(*answers, choices), judgement, look));
  out.write(reveal_text(lesson, !c.answered && !c.reveal, look));
  return Exit::sound;
}

Exit tell(const LessonCommand& c, Output& out) {
  if (c.name.empty()) {
    if (c.answered || c.reveal) return refuse("name the lesson: starter-plan lesson 3 --reveal");
    out.write(c.told.format == Format::json ? json_text(lessons_json())
                                            : list_text(look_of(Stream::out, c.told.units)));
    return Exit::sound;
  }
  const Lesson* lesson = find_lesson(c.name);
  if (!lesson) return unknown_lesson(c.name);
  if (c.told.format == Format::text) return take(c, *lesson, out);
  if (c.answered || c.reveal)
    return refuse("--format json tells all of a lesson; leave out --answers and --reveal.");
  out.write(json_text(lesson_json(*lesson, c.told.units)));
  return Exit::sound;
}

}  // namespace

void add_lesson(CLI::App& program, Chosen& chosen) {
  CLI::App* command = program.add_subcommand(
      "lesson", "The lessons, as exercises: find what is wrong with a plan, then read why");
  auto c = std::make_shared<LessonCommand>();
  command->add_option("NN", c->name, "The lesson's number or name; none lists all")
      ->option_text(" ");
  auto* answers =
      command
          ->add_option("--answers", c->answers,
                       "Your answers, numbers or ids of rules with commas; tells how well they fit")
          ->option_text("A,B");
  command->add_flag("--reveal", c->reveal, "Show what the check finds, and why")->excludes(answers);
  add_told(*command, c->told);
  command->footer(
      "Without --answers and --reveal it shows the plan and asks; answers may also come through a\n"
      "pipe. With --format json it tells all of a lesson, for a page that is made from it.\n"
      "Ends with 0, or 2 when there is no such lesson or answer.\n\n"
      "Examples:\n"
      "  starter-plan lesson\n"
      "  starter-plan lesson 3\n"
      "  starter-plan lesson 3 --answers extract-ratio,boil-time\n"
      "  starter-plan lesson 3 --reveal");
  command->callback([c, answers, &chosen] {
    c->answered = answers->count() > 0;
    chosen = [c](Output& out) { return tell(*c, out); };
  });
}

}  // namespace starter
