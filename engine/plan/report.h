#pragma once

/// \file
/// Where the readers of a plan leave what they find wrong, so that all of it is told at once.

#include <cstddef>
#include <string>
#include <vector>

#include "plan/read.h"

namespace starter {

/// A place in the bytes of the plan.
struct Position {
  int line = 0;            ///< counted from 1; 0 when there is no line to point at
  std::size_t offset = 0;  ///< bytes from the start of the file
};

class Report {
 public:
  /// A file can hold more mistakes than anyone will read; past this many the rest is counted only.
  static constexpr std::size_t most_told = 1000;

  void add(std::string where, Position at, std::string says, std::string write);
  bool empty() const { return found_.empty(); }

  /// What was found, in the order of the file.
  std::vector<PlanError> in_file_order() const;

 private:
  struct Found {
    PlanError error;
    std::size_t offset;
  };
  std::vector<Found> found_;
  std::size_t untold_ = 0;
};

}  // namespace starter
