#include "command/judged.h"

#include <utility>

#include "rules/acceptance.h"

namespace starter {

namespace {

JudgedFile judged(Plan plan, AcceptanceFile kept, const Practice& practice,
                  const JudgeOptions& options) {
  if (!kept.errors.empty()) return Unusable{kept.name, std::move(kept.errors)};
  Judgement judgement = judge(std::move(plan), practice.rules(), options);
  apply_acceptances(judgement, kept.records);
  return judgement;
}

}  // namespace

PlanInputs read_inputs(const std::string& name) {
  return {name, read_file(name), read_acceptance_file(name)};
}

std::vector<std::string_view> bytes_of(const PlanInputs& inputs) {
  std::vector<std::string_view> all;
  if (const auto* error = std::get_if<PlanError>(&inputs.plan))
    all = {"", error->says};
  else
    all = {"read", std::get<std::string>(inputs.plan)};
  all.push_back(inputs.kept.bytes);
  for (const PlanError& error : inputs.kept.errors) all.push_back(error.says);
  return all;
}

JudgedFile judge_inputs(PlanInputs inputs, const Practice& practice, const JudgeOptions& options) {
  if (auto* error = std::get_if<PlanError>(&inputs.plan))
    return Unusable{inputs.name, {std::move(*error)}};
  PlanResult plan = read_plan(std::get<std::string>(inputs.plan), practice.defaults);
  if (auto* errors = std::get_if<std::vector<PlanError>>(&plan))
    return Unusable{inputs.name, std::move(*errors)};
  return judged(std::get<Plan>(std::move(plan)), std::move(inputs.kept), practice, options);
}

JudgedFile judge_plan(const std::string& name, Plan plan, const Practice& practice,
                      const JudgeOptions& options) {
  return judged(std::move(plan), read_acceptance_file(name), practice, options);
}

JudgedFile judge_file(const std::string& name, const Practice& practice,
                      const JudgeOptions& options) {
  return judge_inputs(read_inputs(name), practice, options);
}

Exit tell_judged(
    const std::vector<std::string>& names, const Told& told, Output& out, const Practice& practice,
    const JudgeOptions& options,
    const std::function<Saying(const std::string& name, const Judgement&, const Look&)>& say) {
  const auto told_of = [&](const std::string& name, Plan plan, const Look& look) {
    JudgedFile result = judge_plan(name, std::move(plan), practice, options);
    if (auto* judgement = std::get_if<Judgement>(&result)) return say(name, *judgement, look);
    Saying saying;
    saying.ends = Exit::unusable;
    saying.unusable_file = std::get<Unusable>(result).file;
    saying.errors = std::move(std::get<Unusable>(result).errors);
    return saying;
  };
  return tell_plans(names, told, out, told_of, practice.defaults);
}

}  // namespace starter
