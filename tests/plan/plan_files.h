#pragma once

// The plans that the tests read, and how they are read.

#include <boost/test/unit_test.hpp>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <variant>
#include <vector>

#include "plan/read.h"

inline std::filesystem::path plans_folder() {
  return std::filesystem::path(STARTER_PLAN_SOURCE_DIR) / "tests" / "plans";
}

inline std::string file_bytes(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  BOOST_REQUIRE_MESSAGE(file.good(), "cannot open " << path);
  return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

/// \param name below tests/plans: "good/short.plan.json".
inline std::string bytes_of(const std::string& name) {
  return file_bytes(plans_folder() / name);
}

inline std::string example() {
  return bytes_of("harvest-amber.plan.json");
}

/// The plans of a folder, by the names that `bytes_of` takes.
inline std::vector<std::string> plans_in(const std::string& folder) {
  std::vector<std::string> names;
  for (const auto& entry : std::filesystem::directory_iterator(plans_folder() / folder))
    names.push_back(folder + "/" + entry.path().filename().string());
  return names;
}

/// The errors of a plan that must not be usable.
inline std::vector<starter::PlanError> errors_of(const std::string& bytes) {
  const auto result = starter::read_plan(bytes);
  const auto* errors = std::get_if<std::vector<starter::PlanError>>(&result);
  BOOST_REQUIRE_MESSAGE(errors != nullptr, "the plan was read");
  BOOST_TEST(!errors->empty());
  return *errors;
}

/// The plan in bytes that must be usable.
inline starter::Plan plan_in(const std::string& bytes, const starter::Defaults& defaults = {}) {
  auto result = starter::read_plan(bytes, defaults);
  if (const auto* errors = std::get_if<std::vector<starter::PlanError>>(&result))
    for (const auto& error : *errors)
      BOOST_ERROR(error.where << " line " << error.line << ": " << error.says);
  BOOST_REQUIRE(std::holds_alternative<starter::Plan>(result));
  return std::get<starter::Plan>(std::move(result));
}

/// `text` with its first `from` replaced.
inline std::string with(std::string text, const std::string& from, const std::string& to) {
  const auto at = text.find(from);
  BOOST_REQUIRE_MESSAGE(at != std::string::npos, from << " is not there");
  return text.replace(at, from.size(), to);
}

/// A short plan: only what is asked for.
inline std::string short_plan() {
  return bytes_of("good/short.plan.json");
}

/// How a plan without steps reads: `short_plan` with these members more.
inline std::string short_plan_with(const std::string& members) {
  return with(short_plan(), "{\"plan\": 1,", "{\"plan\": 1, " + members + ",");
}

/// The value assumed at `where`; "" when nothing is.
inline std::string assumed_at(const starter::Plan& plan, const std::string& where) {
  std::string value;
  int found = 0;
  for (const auto& assumption : plan.assumed) {
    BOOST_TEST(!assumption.says.empty());
    if (assumption.where != where) continue;
    value = assumption.value;
    ++found;
  }
  BOOST_TEST(found <= 1, where << " is listed " << found << " times");
  return value;
}
