#pragma once

/// \file
/// From the name of a plan file to its judgement: the club's practice laid over the catalogue, and
/// what a mentor accepted, from the file beside the plan.

#include <functional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "command/acceptance_file.h"
#include "command/files.h"
#include "command/plans.h"
#include "rules/judge.h"
#include "rules/practice.h"

namespace starter {

/// A file that a judgement needs and that cannot be used: the plan, or the acceptances beside it.
struct Unusable {
  std::string file;
  std::vector<PlanError> errors;
};

using JudgedFile = std::variant<Judgement, Unusable>;

/// Everything beside the practice that decides what is said of one plan file, read once.
struct PlanInputs {
  std::string name;  ///< of the plan file
  FileResult plan;
  AcceptanceFile kept;
};
PlanInputs read_inputs(const std::string& name);

/// The bytes that were read, or why there are none, for telling whether anything has changed.
std::vector<std::string_view> bytes_of(const PlanInputs& inputs);

/// `practice` must outlive the judgement.
JudgedFile judge_inputs(PlanInputs inputs, const Practice& practice,
                        const JudgeOptions& options = {});

/// Reads, judges and applies acceptances. "-" is standard input, which has no acceptances.
/// `practice` must outlive the judgement.
JudgedFile judge_file(const std::string& name, const Practice& practice,
                      const JudgeOptions& options = {});

/// The same for a plan that was read from `name` already.
JudgedFile judge_plan(const std::string& name, Plan plan, const Practice& practice,
                      const JudgeOptions& options = {});

/// Judges every plan and tells what `say` makes of it, as tell_plans does. \return the worst end.
Exit tell_judged(
    const std::vector<std::string>& names, const Told& told, Output& out, const Practice& practice,
    const JudgeOptions& options,
    const std::function<Saying(const std::string& name, const Judgement&, const Look&)>& say);

}  // namespace starter
