#pragma once

/// \file
/// Findings as SARIF 2.1.0 (OASIS, Static Analysis Results Interchange Format), which editors and
/// code-review tools show beside the lines of a plan file.

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "output/json.h"
#include "plan/read.h"
#include "rules/judge.h"

namespace starter {

/// The results of one plan. Danger and what spoils are errors, what weakens is a warning. `name` is
/// the plan's file as the caller calls it; it becomes a URI reference.
Json sarif_results(const std::string& name, const Judgement& judgement);

/// Those of a plan that cannot be used: errors of the rule `unusable-plan`.
Json sarif_results(const std::string& name, std::span<const PlanError> errors);

/// The log of one run over all plans, with every rule that a result names.
Json sarif_log(std::span<const Json> results, std::string_view version);

}  // namespace starter
