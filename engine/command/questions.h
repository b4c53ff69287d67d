#pragma once

/// \file
/// What a newcomer is asked for a first plan: one table for the questions, the options and the
/// fields of the plan they fill.
///
/// An answer is judged by the reader of plans itself: it is put into a plan and read, so a question
/// says the same of "20 litre" as `check` would.

#include <map>
#include <nlohmann/json.hpp>
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "plan/read.h"

namespace starter {

/// Answers by the name of their question.
using Answers = std::map<std::string, std::string, std::less<>>;

struct Question {
  std::string_view name;     ///< "brew-day"; its option is "--brew-day"
  std::string_view where;    ///< the field of the plan that it fills
  std::string_view asks;     ///< for people
  std::string_view example;  ///< what can be written
  std::string_view usual;    ///< taken when nothing is answered; empty where there is none
  bool needed = false;       ///< without an answer, and without a usual one, there is no plan
  /// Whether it is asked after these answers; nullptr: always.
  bool (*applies)(const Answers&) = nullptr;
  bool own = false;  ///< of the member's kitchen: another plan of theirs can answer it
};

std::span<const Question> questions();

/// Whether the question is asked after these answers.
bool applies(const Question& question, const Answers& answers);

/// What is wrong with an answer; nothing when it can stand.
std::optional<PlanError> wrong_answer(const Question& question, const std::string& text);

/// The answer, else what is usual; nothing where there is neither.
std::optional<std::string> answer_to(const Question& question, const Answers& answers);

/// Puts an answer that can stand into a plan's JSON.
void put_answer(const Question& question, const std::string& text, nlohmann::ordered_json& plan);

}  // namespace starter
