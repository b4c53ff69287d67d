#pragma once

/// \file
/// What a review keeps of one plan: enough for its lists, its counts and its plots.

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "output/json.h"
#include "plan/read.h"
#include "quantity/write.h"
#include "rules/judge.h"

namespace starter {

struct ReviewFinding {
  std::string rule;  ///< id
  Severity severity = Severity::note;
  Certainty certainty = Certainty::certain;
  std::string where;      ///< JSON pointer
  bool accepted = false;  ///< by a mentor
  bool counts = true;     ///< an accepted one does not, unless it is a danger
};

/// A number that a range rule looks at, whether it speaks or not.
struct ReviewNumber {
  std::string rule;
  double value = 0;  ///< in the unit of the rule's measure
  int level = 0;     ///< 0 comfortable, ±1 outside comfortable, ±2 outside hard; negative below
};

struct ReviewRow {
  std::string plan;   ///< the file, below the folder under review; any bytes
  std::string sheet;  ///< the page's file in the folder of sheets
  std::string title;
  std::string member;
  std::string beer;      ///< "23 L of ale at 1.060 SG"
  std::string brew_day;  ///< ISO 8601; empty when the plan has none
  std::string verdict;
  std::vector<ReviewFinding> findings;  ///< worst first
  std::vector<ReviewNumber> numbers;
  std::vector<PlanError> errors;  ///< not empty: the plan cannot be used

  bool usable() const { return errors.empty(); }
  /// Of those that count.
  int count(Severity severity) const;
  int accepted() const;
  /// How many are to mend: what counts and is worse than a note.
  int to_mend() const;
  /// The worst that is to mend.
  std::optional<Severity> worst() const;
};

/// Without the names of its files.
ReviewRow review_row(const Judgement& judgement, std::span<const Rule> rules, UnitSystem units);
ReviewRow review_row(std::vector<PlanError> errors);

Json row_json(const ReviewRow& row);
/// \return nothing when the document is not what row_json() writes
std::optional<ReviewRow> row_from_json(const Json& document);

}  // namespace starter
