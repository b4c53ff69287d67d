#include "command/acceptance_file.h"

#include <filesystem>
#include <system_error>

#include "command/files.h"
#include "command/write_file.h"
#include "rules/acceptance.h"

namespace starter {

AcceptanceFile read_acceptance_file(const std::string& plan) {
  AcceptanceFile file;
  file.name = acceptance_file_name(plan);
  std::error_code problem;
  const auto status = std::filesystem::symlink_status(file.name, problem);
  if (file.name.empty() || status.type() == std::filesystem::file_type::not_found ||
      status.type() == std::filesystem::file_type::none)
    return file;
  FileResult bytes = read_file(file.name, "file of acceptances");
  if (const auto* error = std::get_if<PlanError>(&bytes)) {
    file.errors.push_back(*error);
    return file;
  }
  file.bytes = std::get<std::string>(std::move(bytes));
  AcceptancesResult read = read_acceptances(file.bytes);
  if (auto* errors = std::get_if<std::vector<PlanError>>(&read))
    file.errors = std::move(*errors);
  else
    file.records = std::get<std::vector<AcceptanceRecord>>(std::move(read));
  return file;
}

std::optional<std::string> write_acceptance_file(const std::string& plan,
                                                 std::span<const AcceptanceRecord> records) {
  const std::string name = acceptance_file_name(plan);
  if (!records.empty()) return write_file(name, write_acceptances(records));
  std::error_code problem;
  std::filesystem::remove(name, problem);
  if (problem) return problem.message();
  return std::nullopt;
}

}  // namespace starter
