#include "command/dialogue.h"

#include <unistd.h>

#include <iostream>

#include "command/terminal.h"
#include "output/plan_parts.h"

namespace starter {
namespace {

void tell_question(const Question& question, const Look& look) {
  Page page(look);
  std::string usual = question.usual.empty() ? "" : std::string(question.usual);
  page.paragraph({{std::string(question.asks), Ink::strong},
                  {" (" + std::string(question.example) + ")", Ink::faint}});
  complain(std::move(page).text());
  complain(usual.empty() ? "> " : "[" + usual + "] > ");
}

void tell_wrong(const PlanError& error, const Look& look) {
  Page page(look);
  page.paragraph({{sentence(error.says), Ink::weakens}}, 2);
  if (!error.write.empty()) page.item({"Write", Ink::good}, {{error.write}}, 2, 8);
  complain(std::move(page).text());
}

PlanError nothing_answered(const Question& question) {
  return {"", 0, "this is needed, and nothing is usual enough to be taken for it",
          std::string(question.example)};
}

std::string trimmed(const std::string& text) {
  constexpr const char* space = " \t\r";
  const auto from = text.find_first_not_of(space);
  if (from == std::string::npos) return "";
  return text.substr(from, text.find_last_not_of(space) - from + 1);
}

Asked ask(const Question& question, Answers& answers, bool again, const Look& look) {
  for (;;) {
    tell_question(question, look);
    const auto line = next_line();
    if (!again) complain("\n");
    if (!line) return Asked::stopped;
    const std::string text = trimmed(*line);
    std::optional<PlanError> wrong;
    if (!text.empty())
      wrong = wrong_answer(question, text);
    else if (question.needed)
      wrong = nothing_answered(question);
    if (!wrong) {
      answers[std::string(question.name)] = text;
      return Asked::answered;
    }
    tell_wrong(*wrong, look);
    if (!again) return Asked::wrong;
  }
}

}  // namespace

Asked ask_questions(Answers& answers, bool again, const Look& look) {
  for (const Question& question : questions()) {
    if (answers.count(question.name) > 0 || !applies(question, answers)) continue;
    const Asked end = ask(question, answers, again, look);
    if (end != Asked::answered) return end;
  }
  return Asked::answered;
}

std::optional<std::string> next_line() {
  constexpr std::size_t longest = 4000;
  std::string line;
  char c = 0;
  bool any = false;
  while (std::cin.get(c)) {
    any = true;
    if (c == '\n') return line;
    if (line.size() < longest) line += c;
  }
  return any ? std::optional(line) : std::nullopt;
}

bool can_ask() {
  return isatty(STDIN_FILENO) != 0 && isatty(STDERR_FILENO) != 0;
}

}  // namespace starter
