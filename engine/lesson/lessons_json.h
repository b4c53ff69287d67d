#pragma once

/// \file
/// The stable machine form of the list of lessons, which lessons.schema.json documents, and of one
/// lesson, which lesson.schema.json does.

#include "lesson/lesson.h"
#include "output/json.h"
#include "quantity/write.h"

namespace starter {

/// [{"number", "name", "title", "summary", "teaches": [ids of rules]}], in teaching order. What the
/// check finds in their plans is left for the reader to find.
Json lessons_json();

/// What the picture of the plan is called in "text": `![…](picture)` stands where it belongs.
inline constexpr const char* lesson_picture = "picture";

/// One of lessons(), all of it: that of the list, its prose as CommonMark, its plans, and the
/// exercise with its answers.
Json lesson_json(const Lesson& lesson, UnitSystem units);

}  // namespace starter
