#pragma once

/// \file
/// What a rule finds in a plan.

#include <optional>
#include <string>
#include <vector>

#include "measures/measures.h"
#include "rules/accepted.h"
#include "rules/rule.h"

namespace starter {

/// How sure: `certain` when the whole range breaks the rule, `likely` when the likely value does,
/// `possible` when only an end of the range does (then it is told as a note).
enum class Certainty { certain, likely, possible };
std::string_view spelling(Certainty certainty);

struct Fix {
  std::string says;
  std::string patch;  ///< JSON Patch (RFC 6902) as text; empty where only the words help
};

struct Finding {
  const Rule* rule = nullptr;
  Severity severity = Severity::note;
  Certainty certainty = Certainty::certain;
  std::string where;  ///< JSON pointer
  int stage = -1;
  int step = -1;     ///< index of the step it is about, for sorting; −1 for none
  std::string item;  ///< what it is about at its place, where there can be several: an item that
                     ///< touches wort, a step that is missing; else empty
  std::string says;
  std::string margin;  ///< "152 g/L; comfortable 80–110 g/L"; empty for rules without numbers
  std::string narrow;  ///< which input would make it surer, and how; empty when certain
  std::string narrow_where;  ///< JSON pointer of the field to fill in for it; empty when none would
  std::string narrow_patch;  ///< JSON Patch that fills it in with what is taken now; may be empty
  std::vector<Measure> numbers;
  std::optional<Fix> fix;
  std::vector<Reading> read;           ///< what the rule looked at to find this
  std::optional<Acceptance> accepted;  ///< a mentor's word that it may stand
  std::optional<Reopened> reopened;    ///< such a word that no longer holds

  /// Whether it counts for verdicts and exit codes: unless accepted, and a danger always.
  bool counts() const { return !accepted || accepted->counts; }
};

}  // namespace starter
