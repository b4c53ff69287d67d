#pragma once

/// \file
/// A lesson: a plan with faults, the same plan mended, what the check must find, and the prose that
/// teaches it. Each is a folder of lessons/, embedded at build:
///
///     NN-name/lesson.md      CommonMark with placeholders (lesson/fill.h)
///     NN-name/plan.json      the plan with its faults
///     NN-name/mended.json    the same plan, mended with as few changes as possible
///     NN-name/expected.json  title, summary, every finding above note, and the rules it teaches

#include <map>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "rules/rule.h"

namespace starter {

/// A finding that the plan of a lesson must give.
struct ExpectedFinding {
  std::string rule;  ///< id
  Severity severity = Severity::weakens;
  std::string where;  ///< JSON pointer into plan.json
};

struct Lesson {
  std::string name;     ///< of its folder: "03-how-much-extract"; its number is the teaching order
  std::string title;    ///< "How much extract"
  std::string summary;  ///< one line
  std::vector<ExpectedFinding> findings;
  std::vector<std::string> teaches;  ///< ids of rules, those of `findings` among them
  std::string text;                  ///< lesson.md as written, placeholders and all
  std::string plan;                  ///< bytes of plan.json
  std::string mended;                ///< bytes of mended.json
};

/// The bytes of a lesson's folder.
struct LessonFiles {
  std::string name;
  std::string text, plan, mended, expected;
};

/// A mistake in a lesson.
struct LessonFault {
  std::string file;  ///< "03-how-much-extract/lesson.md"
  int line = 0;      ///< counted from 1; 0 when there is no line to point at
  std::string says;
};

struct LessonReading {
  Lesson lesson;
  std::vector<LessonFault> faults;  ///< empty when the lesson can be used
};

/// Reads a lesson and names what is wrong with it: unknown or missing members of expected.json,
/// rules that are not in the catalogue, a rule found but not taught, plans that cannot be read.
/// Whether the plans give the findings is for a test to say. Never throws, whatever the bytes.
LessonReading read_lesson(LessonFiles files);

/// All lessons, in teaching order.
std::span<const Lesson> lessons();

/// By the folder's name, by the name without its number, or by the number: "03-how-much-extract",
/// "how-much-extract", "03", "3"; nullptr when there is none.
const Lesson* find_lesson(std::string_view name);

/// Rules that no lesson teaches: id → why not.
const std::map<std::string, std::string>& not_taught();

}  // namespace starter
