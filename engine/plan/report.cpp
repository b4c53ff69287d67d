#include "plan/report.h"

#include <utility>

#include "quantity/sorted.h"

namespace starter {

void Report::add(std::string where, Position at, std::string says, std::string write) {
  if (found_.size() >= most_told) {
    ++untold_;
    return;
  }
  found_.push_back({{std::move(where), at.line, std::move(says), std::move(write)}, at.offset});
}

std::vector<PlanError> Report::in_file_order() const {
  auto sorted = found_;
  sort_short(sorted, [](const Found& a, const Found& b) { return a.offset < b.offset; });
  std::vector<PlanError> errors;
  errors.reserve(sorted.size() + 1);
  for (auto& found : sorted) errors.push_back(std::move(found.error));
  if (untold_ > 0)
    errors.push_back({"", 0, "there are " + std::to_string(untold_) + " more errors", ""});
  return errors;
}

}  // namespace starter
