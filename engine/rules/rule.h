#pragma once

/// \file
/// A rule as its file in catalogue/ has it. rule.schema.json documents the file.

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "plan/words.h"

namespace starter {

/// How bad: a note teaches; `weakens` works, but worse; `spoils` makes the starter or the beer
/// likely to fail; `danger` can hurt a person.
enum class Severity { note, weakens, spoils, danger };
std::string_view spelling(Severity severity);
std::optional<Severity> severity_from(std::string_view text);

enum class RuleKind { range, order, contact, present, consistent };
std::string_view spelling(RuleKind kind);

struct Bounds {
  std::optional<double> low;
  std::optional<double> high;

  bool any() const { return low || high; }
  bool hold(double value) const { return !(low && value < *low) && !(high && value > *high); }
};

struct RuleBounds {
  Bounds comfortable;
  Bounds hard;
};

struct RuleSource {
  std::string label;  ///< published, practice or memory
  std::string text;
};

/// One way to mend: turn a knob until the rule is comfortable, or make an edit of a known kind.
struct FixSpec {
  std::string change;  ///< a knob's name; or empty
  std::string put;     ///< an edit's name; or empty
  std::string says;
};

/// What a club's practice file says of a rule.
struct ClubWord {
  std::string club;
  std::string because;               ///< the club's reason; may be empty for a rule of its own
  bool own = false;                  ///< the rule is the club's, not the catalogue's
  std::vector<std::string> changes;  ///< in words, metric: "comfortable 85–105 g/L, not 80–110 g/L"
};

struct Rule {
  std::string id;
  std::string title;
  RuleKind kind = RuleKind::range;
  std::string why;
  std::string advice;  ///< what to do, in words
  std::vector<RuleSource> sources;
  std::vector<std::string> cautions;
  std::map<std::string, std::vector<std::string>> when;  ///< fact → values under which it speaks
  std::vector<std::string> yields_to;
  std::string lesson;
  std::string wrong, right;  ///< an example each way
  std::string objection;     ///< what it says of another rule's fix: "the flask does not hold that"
  std::vector<FixSpec> fixes;
  std::optional<ClubWord> club;  ///< nothing where the rule is the catalogue's as it stands

  // range
  std::string measure;
  RuleBounds bounds;
  std::string by_fact;  ///< bounds differ by this fact; empty when they do not
  std::map<std::string, RuleBounds> by_value;
  Severity outside_comfortable = Severity::weakens;
  Severity outside_hard = Severity::spoils;
  std::string low, high;       ///< messages below and above
  bool told_as_share = false;  ///< the measure is a ratio that people read more easily in %

  // order, contact
  Do first = Do::weigh, then = Do::weigh;
  std::optional<Do> until;
  std::vector<std::string> items;
  Severity severity = Severity::spoils;
  std::map<std::string, std::string> says;  ///< message by state or value; "" when there is one

  // present
  std::string fact;
  std::vector<std::string> fine;
  std::map<std::string, Severity> others;
  std::optional<Severity> otherwise;

  // consistent
  std::string measures[2];
  bool relative = false;
  double comfortable_gap = 0;
  std::optional<double> hard_gap;
};

}  // namespace starter
