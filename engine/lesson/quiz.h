#pragma once

/// \file
/// A lesson as an exercise: what the reader may choose from, and how well they chose. Before that
/// only the lesson's title and its plan are shown: its summary and its story tell what is wrong.

#include <span>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "lesson/fill.h"
#include "lesson/lesson.h"
#include "rules/judge.h"

namespace starter {

/// The text without its first heading, which a page has in its own place.
std::string without_title(std::string text);

/// Each step of the plan in words, with what joins it: what the plan says, and nothing of what
/// comes of it.
std::vector<std::string> steps_to_judge(const Judgement& judgement, UnitSystem units);

/// A rule that the reader may expect to speak.
struct Choice {
  const Rule* rule = nullptr;
  bool speaks = false;  ///< of the lesson's plan, above a note
};

/// The rules that speak, and about as many that could but do not, by title. The same each time.
std::vector<Choice> choices_of(const Lesson& lesson, const Judgement& judgement);

/// What was typed: numbers counted from 1 in the list of choices, or ids of any rules of the
/// catalogue, with commas or spaces between; each rule once.
struct AnswerProblem {
  std::string says;  ///< a sentence
};
std::variant<std::vector<const Rule*>, AnswerProblem> read_answers(std::string_view typed,
                                                                   std::span<const Choice> choices);

struct Score {
  std::vector<const Rule*> right;   ///< answered, and speaks
  std::vector<const Rule*> missed;  ///< speaks, and not answered
  std::vector<const Rule*> wrong;   ///< answered, and does not speak above a note
};
Score score_of(std::span<const Rule* const> answers, std::span<const Choice> choices);

/// "You found 2 of 3, and named 1 that is not there."
std::string score_in_words(const Score& score);

/// What a rule that speaks says of the plan, of its first finding above a note; empty for others.
std::string what_is_found(const Rule& rule, const Judgement& judgement);

/// Why a rule that was answered does not speak, where its number tells it: "1.036 °P is within
/// 80–110 g/L."; empty for other rules.
std::string why_silent(const Rule& rule, const Judgement& judgement, UnitSystem units);

}  // namespace starter
