#pragma once

/// \file
/// A page a plan, and what a review keeps of the plan.

#include <memory>
#include <string>
#include <vector>

#include "command/diagram.h"
#include "command/judged.h"
#include "output/review_row.h"

namespace starter {

struct Sheet {
  ReviewRow row;     ///< without the names of its files
  std::string page;  ///< HTML
};

/// Makes sheets one after the other. Graphviz starts with the first picture.
class SheetMaker {
 public:
  /// \param practice outlives the maker
  SheetMaker(const Practice& practice, UnitSystem units) : practice_(practice), units_(units) {}

  /// `name`: the plan's file, as the reader knows it.
  Sheet make(const std::string& name, PlanInputs inputs);

 private:
  Json view_of(const Judgement& judgement, const std::string& name);

  const Practice& practice_;
  UnitSystem units_;
  std::unique_ptr<DiagramMaker> maker_;
};

/// The sheet of a plan that cannot be used.
Sheet unusable_sheet(const std::string& name, std::vector<PlanError> errors);

/// A file name for every sheet, safe anywhere, told by the plan's own name, each another.
std::vector<std::string> sheet_names(const std::vector<std::string>& plans);

}  // namespace starter
