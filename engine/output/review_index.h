#pragma once

/// \file
/// The list of a review's plans, sorted by each of its columns.

#include <vector>

#include "output/review_pages.h"

namespace starter {

/// A page for every column; that by severity, worst first, is index.html.
std::vector<ReviewPage> index_pages(const Review& review, const ReviewTally& tally);

/// How the plans stand, as a bar and its legend: sound, by worst severity, unusable.
Json standing_view(const ReviewTally& tally);

/// "12 of 40 plans (30 %)"
std::string share_in_words(int part, int whole, const char* what);

/// "1 plan", "2 plans"
std::string counted(int count, const char* one, const char* more);

}  // namespace starter
