#pragma once

/// \file
/// The stable machine form of what the engine says. check.schema.json documents that of `check`.
///
/// Numbers are metric and rounded to six significant digits, whatever the units of the texts.

#include <span>
#include <string>
#include <vector>

#include "plan/json.h"
#include "plan/read.h"
#include "rules/judge.h"
#include "rules/practice.h"

namespace starter {

/// Whether the plan's measures are told too, besides those that a finding speaks of.
enum class Measures { all, of_findings };

/// `name` is the plan's file as the caller calls it.
Json check_json(const std::string& name, const Judgement& judgement,
                Measures measures = Measures::all);
Json measures_json(const std::string& name, const Plan& plan, std::span<const Measure> measures);
Json errors_json(const std::string& name, std::span<const PlanError> errors);

/// The errors of a file beside the plan, told as the plan's: the file is named in each.
std::vector<PlanError> in_file(const std::string& plan, const std::string& file,
                               std::vector<PlanError> errors);

/// \param off where a club has switched it off.
Json explain_json(const Rule& rule, const SwitchedOff* off = nullptr);

/// What a plan says nothing of and club practice supplied; cautions that it calls for.
Json assumed_json(const Plan& plan);
Json cautions_json(const Judgement& judgement);

/// The only one, or all in an array.
Json one_or_all(std::vector<Json> documents);

/// Indented text with a last new line. Bytes that are no UTF-8 (a file's name may have them) become
/// U+FFFD; control characters are escaped, those past ASCII too, so that a terminal stays calm.
std::string json_text(const Json& document);

}  // namespace starter
