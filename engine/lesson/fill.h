#pragma once

/// \file
/// A lesson's prose with its placeholders filled: no number that comes from a plan or from the
/// engine is typed in a lesson.
///
/// A placeholder stands in double braces on one line. PLAN is `plan` (with its faults) or `mended`;
/// RULE is an id; POINTER is a JSON pointer (RFC 6901) into that plan.
///
///     {{title}} {{summary}}              the lesson's own
///     {{lesson NAME}}                    the title of another lesson
///     {{PLAN: MEASURE}}                  a measure's likely value with its unit: "148 g/L"
///     {{PLAN: MEASURE | range}}          its range: "146–149 g/L"
///     {{PLAN: MEASURE | both}}           both: "148 g/L (146–149 g/L)"
///     {{PLAN: MEASURE | how}}            how it was computed
///     {{PLAN: MEASURE @ POINTER}}        of that stage: "/stages/0"; the first there is otherwise
///     {{PLAN: field POINTER}}            as the member wrote it; a day or time in words
///     {{PLAN: place POINTER}}            in words: "step 3, simmer"
///     {{PLAN: finding RULE WHAT}}        of its first finding: says, fix, margin, title or
///     severity
///     {{PLAN: finding RULE WHAT @ POINTER}}   of the finding that points there
///     {{PLAN: findings}}                 a list of all findings above note
///     {{PLAN: count}}                    how many those are, in words: "ten"
///     {{PLAN: verdict}}                  all findings in a sentence
///     {{rule RULE WHAT}}                 comfortable, hard, title, why, do, wrong or right
///     {{rule RULE comfortable for VALUE}}     bounds that differ by a fact; likewise `hard`
///     {{caution ID}}                     "**Title.** Text"
///     {{diff}}                           a list of what was changed from plan to mended
///     {{diagram}}                        the plan's process diagram (FillOptions::diagram)
///
/// A measure that a rule tells in per cent is in per cent here too. `{{PLAN: findings}}` and
/// `{{diff}}` are lists and stand on a line of their own.

#include <string>
#include <variant>
#include <vector>

#include "lesson/lesson.h"
#include "quantity/write.h"

namespace starter {

struct FillOptions {
  UnitSystem units = UnitSystem::metric;
  /// CommonMark that stands for the diagram: an image, or whatever the page is made with. Empty:
  /// the command that draws it.
  std::string diagram;
};

/// The filled CommonMark, or every placeholder that cannot be filled.
using FilledLesson = std::variant<std::string, std::vector<LessonFault>>;

/// Judges both plans, which takes a moment. Whatever comes from a plan is escaped for CommonMark.
FilledLesson filled_lesson(const Lesson& lesson, const FillOptions& options = {});

/// The same for one of lessons(), of which a test holds that all can be filled.
/// \throws std::runtime_error what cannot be
std::string told_lesson(const Lesson& lesson, const FillOptions& options = {});

}  // namespace starter
