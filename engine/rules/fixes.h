#pragma once

/// \file
/// Working out how to mend what a rule found.
///
/// A knob is turned until the rule is comfortable, by measuring the plan again and again (Illinois
/// variant of the false-position method; published: M. Dowell and P. Jarratt, "A modified regula
/// falsi method for computing the root of an equation", BIT 11, 1971). Then the whole changed plan
/// is judged, so that a fix that would only move the trouble is told as such.

#include <functional>
#include <nlohmann/json.hpp>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "rules/finding.h"
#include "rules/judge.h"
#include "rules/knobs.h"
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

/// One way to mend what a rule found.
struct Way {
  std::string says;         ///< "use 85 g of extract with this water, not 180 g"
  std::string objection;    ///< what it would cause or make worse, in words; empty when nothing
  bool only_worse = false;  ///< the objection is to nothing new
  nlohmann::ordered_json patch = nlohmann::ordered_json::array();  ///< RFC 6902; empty: words only
  Asks asks = Asks::nothing;
  std::string kind;    ///< equal for ways that differ by a number only
  bool yours = false;  ///< only the member can make it so, or say so: told, with an empty `patch`
  std::string then;    ///< what to do once it is so; may be empty
  /// `says` anew for a plan in which the old value may be another; empty where it cannot differ.
  std::function<std::string(const Plan&)> retell;
};

/// Every way that the rule's fixes know and that can be written as a patch, also those that would
/// cause something else: each knob turned to each aim, each edit. In the order of the rule's fixes.
/// A way that is the member's own is among them, with an empty patch.
std::vector<Way> ways_to_mend(const Trouble& trouble);

/// Whether a patch brings a vessel that the plan does not have.
bool brings_a_vessel(const nlohmann::ordered_json& patch);

/// The plan that a document is, read by the one door that changed plans come in by; nothing when it
/// cannot be used. `defaults` supply what it leaves out.
std::optional<Plan> plan_of_document(const nlohmann::ordered_json& document,
                                     const Defaults& defaults);

/// The plan with a patch applied to the document it came from, read anew; nothing when the patch
/// does not fit or leaves a plan that cannot be used.
std::optional<Plan> patched_plan(const Plan& plan, const nlohmann::ordered_json& patch);

}  // namespace starter
