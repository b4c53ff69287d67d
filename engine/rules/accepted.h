#pragma once

/// \file
/// What is kept of a finding that a mentor accepts: who, why, when, and what the rule read.

#include <string>
#include <vector>

namespace starter {

/// One thing that a rule read when it spoke.
struct Reading {
  std::string what;   ///< "extract_ratio, stage 1"; no two of a finding are the same
  std::string value;  ///< exact, the same on every build: "188.679 g/L, 162.2 to 251.6"
  std::string says;   ///< the value for people: "189 g/L (162–252 g/L)"; often the value itself

  bool operator==(const Reading&) const = default;
};

/// How a finding stands that a mentor accepted.
struct Acceptance {
  std::string by;
  std::string because;
  std::string on;       ///< ISO 8601 day as the member gave it; empty when none was given
  bool counts = false;  ///< a danger is acknowledged only: it still counts
  /// JSON pointer that its record keeps: where the finding stood then, since steps move.
  std::string where = {};
};

/// Something that the rule read and that is not what it was.
struct ReadingChange {
  std::string what;
  std::string was;  ///< for people; empty where it was not read then
  std::string is;   ///< empty where it is not read now
};

/// An acceptance that no longer holds, since what the rule read has changed.
struct Reopened {
  Acceptance was;
  std::vector<ReadingChange> changes;
};

/// An acceptance as the file beside the plan keeps it.
struct AcceptanceRecord {
  std::string rule;   ///< id
  std::string where;  ///< JSON pointer the finding stood at
  std::string by;
  std::string because;
  std::string on;           ///< ISO 8601 day, or empty
  std::string fingerprint;  ///< of `read` and the rule
  std::vector<Reading> read;
};

}  // namespace starter
