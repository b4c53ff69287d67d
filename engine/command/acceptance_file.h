#pragma once

/// \file
/// The file beside a plan that keeps what a mentor accepted.

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "plan/read.h"
#include "rules/accepted.h"

namespace starter {

struct AcceptanceFile {
  std::string name;
  std::string bytes;                      ///< empty when there is no such file
  std::vector<AcceptanceRecord> records;  ///< none when there is no such file
  std::vector<PlanError> errors;          ///< why it cannot be used
};
AcceptanceFile read_acceptance_file(const std::string& plan);

/// Writes all records, or takes the file away when there are none. \return why it could not be, as
/// the end of a sentence; nothing when it was
std::optional<std::string> write_acceptance_file(const std::string& plan,
                                                 std::span<const AcceptanceRecord> records);

}  // namespace starter
