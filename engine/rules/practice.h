#pragma once

/// \file
/// A club's practice: what it changes of the rule catalogue, what it supplies where plans are
/// silent, and rules of its own. practice.schema.json documents the file.
///
/// Rules that can tell of danger are kept safe: a club may make them stricter (tighter bounds, a
/// worse severity), but not switch them off, widen their bounds, lower their severities or replace
/// their texts.

#include <span>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "plan/read.h"
#include "rules/rule_file.h"

namespace starter {

/// A rule of the catalogue that the club does not use.
struct SwitchedOff {
  std::string rule;
  std::string title;
  std::string because;
};

/// Judgements point at its rules, so it outlives them.
struct Practice {
  std::string club;  ///< empty where no practice file is used
  Defaults defaults;
  std::vector<SwitchedOff> off;
  std::span<const Rule> catalogue;
  std::vector<Rule> changed;  ///< all rules, by id, where a practice file is used

  /// What plans are judged by.
  std::span<const Rule> rules() const { return club.empty() ? catalogue : changed; }
  /// nullptr where there is none, or the club has switched it off.
  const Rule* find(std::string_view id) const;
  const SwitchedOff* find_off(std::string_view id) const;
};

/// The practice of a club that changes nothing.
Practice usual_practice(std::span<const Rule> catalogue);

/// What a practice file may name.
struct PracticeBase {
  std::span<const Rule> catalogue;
  std::span<const Caution> cautions;
};

using PracticeResult = std::variant<Practice, std::vector<PlanError>>;

/// Reads a practice file. All errors are reported at once, in the order of the file. Never throws
/// for any bytes whatever. `base.catalogue` must outlive what is returned.
PracticeResult read_practice(std::string_view bytes, const PracticeBase& base);

/// The practice file as a JSON Schema, draft 2020-12; agrees with read_practice on which documents
/// pass as far as a schema can say it.
std::string practice_schema();

/// Whether the rule has a severity of danger anywhere.
bool can_endanger(const Rule& rule);

}  // namespace starter
