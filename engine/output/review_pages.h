#pragma once

/// \file
/// The pages of a review of a club's plans, and its machine form. A sheet a plan is sheet_view.h's.

#include <span>
#include <string>
#include <vector>

#include "output/review_row.h"
#include "output/review_tally.h"
#include "quantity/write.h"

namespace starter {

struct ReviewPage {
  std::string file;  ///< "index.html"
  std::string text;
};

struct Review {
  std::span<const ReviewRow> rows;  ///< in the order of their files
  std::span<const Rule> rules;      ///< what they were judged by
  UnitSystem units = UnitSystem::metric;
  std::string folder;         ///< what was reviewed, as it was named
  std::string program;        ///< "starter-plan 0.1.0"
  std::string name = folder;  ///< the folder's own name, for pages
  std::string club = "";      ///< whose practice judged; empty for the usual one
};

/// The list of plans once for every column it can be sorted by, index.html by severity, and
/// common.html, what goes wrong most often. No script: the heads of the columns are links.
std::vector<ReviewPage> review_pages(const Review& review, const ReviewTally& tally);

/// review.json; review.schema.json documents it.
Json review_json(const Review& review, const ReviewTally& tally);
std::string review_schema();

}  // namespace starter
