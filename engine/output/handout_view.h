#pragma once

/// \file
/// A plan as a sheet to print: sheet_view() and what paper adds to it, which is shopping and
/// cleaning lists, days, places for readings, every number with its making, and a glossary.

#include <string>
#include <utility>
#include <vector>

#include "output/json.h"
#include "quantity/write.h"
#include "rules/judge.h"

namespace starter {

enum class Paper;  // output/layout.h
struct Inset;

/// How much of the plan and its answers a sheet shows.
enum class SheetKind {
  full,      ///< all of it
  exercise,  ///< the plan, and lines where the findings go: for readers who look for them
  workshop,  ///< its steps, and lines where everything else goes: for a plan of one's own
};

struct HandoutOptions {
  SheetKind kind = SheetKind::full;
  UnitSystem units = UnitSystem::metric;
  Paper paper{};             ///< A4 unless said
  bool large = false;        ///< large print
  bool answers = false;      ///< a full sheet that goes with an exercise or a workshop, and says so
  std::string lesson;        ///< "Lesson 3"; empty for none
  std::string lesson_title;  ///< "How much extract"
  std::string prose;         ///< of the lesson, as markup of our own making; empty for none
  std::vector<std::string> svgs;  ///< the picture, page by page, as inline_svg() makes it, each
                                  ///< with ids of its own; empty for none
  bool picture_lies = false;      ///< the pages of the picture lie
};

/// What the plan says of itself, for people: beer, brew day, yeast, each stage, the place.
std::vector<std::pair<std::string, std::string>> plan_facts(const Judgement& judgement,
                                                            UnitSystem units);

/// What a workshop's sheet is called, and its picture, in the place of the plan's title.
inline constexpr const char* workshop_title = "A starter of my own";

/// The room that a sheet leaves for its picture.
Inset picture_room(Paper paper, bool large);

/// The data of pages/handout.mustache.
Json handout_view(const Judgement& judgement, const HandoutOptions& options);

/// The sheet, a page that stands alone: it points at nothing outside.
std::string handout_page(const Judgement& judgement, const HandoutOptions& options);

}  // namespace starter
