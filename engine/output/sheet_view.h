#pragma once

/// \file
/// What a page shows of one plan, as the data that the templates in pages/ are filled with: who and
/// what, the verdict, findings with their numbers, key numbers, steps with their times and
/// cautions, what was assumed, the picture. All texts are written here, none in a template.

#include <optional>
#include <span>
#include <string>

#include "output/json.h"
#include "plan/read.h"
#include "quantity/write.h"
#include "rules/judge.h"

namespace starter {

struct SheetViewOptions {
  UnitSystem units = UnitSystem::metric;
  std::string id;          ///< before every id on the page, where it holds several plans: "p2-"
  std::string file;        ///< the plan's file, as the reader knows it; may be empty
  std::string about;       ///< the picture in words
  std::string svg;         ///< the picture, as inline_svg() makes it; empty for none
  bool by_number = false;  ///< steps as the plan numbers them, for pages without the clock
};

/// The parts are named in sheet_view.cpp, beside what fills them; pages/part-*.mustache show them.
Json sheet_view(const Judgement& judgement, const SheetViewOptions& options);

/// The same for a plan that cannot be used: its errors, with their lines and what to write.
Json errors_view(const std::string& file, std::span<const PlanError> errors);

/// The plan's title, or words for a plan that has none.
std::string title_in_words(const Plan& plan);

/// "23 L of ale at 1.060 SG"
std::string beer_in_words(const Beer& beer, UnitSystem units);

/// How a severity is told: {"name": "danger", "sign": "▲", "word": "DANGER"}. The name is that of
/// the JSON contract; style sheets know it as a class.
Json severity_view(Severity severity);
/// The same for the worst of several, or for none: {"name": "sound", "sign": "✓", "word": "good"}.
Json severity_view(std::optional<Severity> severity);

}  // namespace starter
