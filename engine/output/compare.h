#pragma once

/// \file
/// Two plans side by side: a plan before and after a change, or those of two members.
///
/// Findings are matched by rule and place. A place is followed from plan to plan: steps that do the
/// same in the same stage belong together, in the order that leaves most of them together, so that
/// a step put in or moved does not make everything after it look new.

#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <vector>

#include "output/calendar.h"
#include "rules/judge.h"

namespace starter {

/// What became of a finding on the way from the first plan to the second.
enum class FindingChange { gone, fresh, worse, milder, same };
/// "gone", "new", "worse", "milder", "same"
std::string_view spelling(FindingChange change);

struct ComparedFinding {
  FindingChange change = FindingChange::same;
  const Finding* first = nullptr;   ///< nullptr for one that is new
  const Finding* second = nullptr;  ///< nullptr for one that is gone
};

struct ComparedMeasure {
  const Measure* first = nullptr;
  const Measure* second = nullptr;
  bool differs = false;  ///< as it prints; or only one of the plans has it
  bool beyond = false;   ///< both ranges lie apart: the difference is larger than they are
};

/// One thing that the plans say differently.
struct ComparedField {
  enum class How { changed, added, removed, moved };
  How how = How::changed;
  std::string first_where;  ///< JSON pointer; empty for what is added
  std::string second_where;
  std::string place;                     ///< in words, by the second plan where it has the field
  nlohmann::ordered_json first, second;  ///< as written; null where the plan does not say it
  std::string first_assumed;             ///< what club practice supplies in its place; or empty
  std::string second_assumed;
};
std::string_view spelling(ComparedField::How how);

/// Holds pointers into both judgements, which must outlive it.
struct Comparison {
  const Judgement& first;
  const Judgement& second;
  std::vector<ComparedFinding> findings;  ///< new and worse first, worst severity first; then the
                                          ///< others; those that stayed the same last
  std::vector<ComparedMeasure> measures;  ///< in the order of the register
  std::vector<ComparedField> fields;      ///< in the order of the plan's parts
  Calendar first_calendar;
  Calendar second_calendar;

  long count(FindingChange change) const;
};

/// \param units of the calendar's words
Comparison compare_plans(const Judgement& first, const Judgement& second, UnitSystem units);

/// For every step of `first` the step of `second` that it belongs to.
std::vector<std::optional<int>> steps_that_match(const Plan& first, const Plan& second);

/// "The second is better: 3 findings gone, 1 milder." The same in text and JSON.
std::string comparison_in_words(const Comparison& comparison);

/// A written value for people: lists joined, objects field by field, days and times as people
/// say them; texts as they are.
std::string written_in_words(const nlohmann::ordered_json& value);

}  // namespace starter
