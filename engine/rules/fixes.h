#pragma once

/// \file
/// Working out how to mend what a rule found.
///
/// A knob is turned until the rule is comfortable, by measuring the plan again and again (Illinois
/// variant of the false-position method; published: M. Dowell and P. Jarratt, "A modified regula
/// falsi method for computing the root of an equation", BIT 11, 1971). Then the whole changed plan
/// is judged, so that a fix that would only move the trouble is told as such.

#include <functional>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "rules/finding.h"
#include "rules/judge.h"
#include "rules/message.h"

namespace starter {

bool known_edit(std::string_view name);
std::vector<std::string_view> edit_names();

/// What a fix is worked out from.
struct Trouble {
  const Plan& plan;
  const Process& process;
  std::span<const Rule> rules;
  const std::vector<Verdict>& verdicts;  ///< of the plan as it is
  const Rule& rule;
  int stage = -1;  ///< of the finding; −1 for the plan's
  std::function<std::optional<double>(const Plan&)> number;  ///< what the rule looks at; or empty
  Bounds wanted;                                             ///< where that number is comfortable
  const Fact* fact = nullptr;                                ///< present rules
  const Touch* touch = nullptr;                              ///< contact rules
  const Reversal* reversal = nullptr;                        ///< order rules
  FillPlace places;                                          ///< places of the rule's own message
  UnitSystem units = UnitSystem::metric;
};

/// The fix, in words and as a JSON Patch; nothing when the rule has none that applies.
std::optional<Fix> work_out_fix(const Trouble& trouble);

}  // namespace starter
