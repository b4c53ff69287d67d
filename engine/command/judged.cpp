#include "command/judged.h"

#include "command/acceptance_file.h"
#include "command/files.h"
#include "rules/acceptance.h"

namespace starter {

JudgedFile judge_plan(const std::string& name, Plan plan, const Practice& practice,
                      const JudgeOptions& options) {
  AcceptanceFile kept = read_acceptance_file(name);
  if (!kept.errors.empty()) return Unusable{kept.name, std::move(kept.errors)};
  Judgement judgement = judge(std::move(plan), practice.rules(), options);
  apply_acceptances(judgement, kept.records);
  return judgement;
}

JudgedFile judge_file(const std::string& name, const Practice& practice,
                      const JudgeOptions& options) {
  FileResult file = read_file(name);
  if (auto* error = std::get_if<PlanError>(&file)) return Unusable{name, {std::move(*error)}};
  PlanResult plan = read_plan(std::get<std::string>(file), practice.defaults);
  if (auto* errors = std::get_if<std::vector<PlanError>>(&plan))
    return Unusable{name, std::move(*errors)};
  return judge_plan(name, std::get<Plan>(std::move(plan)), practice, options);
}

Exit tell_judged(
    const std::vector<std::string>& names, const Told& told, Output& out, const Practice& practice,
    const JudgeOptions& options,
    const std::function<Saying(const std::string& name, const Judgement&, const Look&)>& say) {
  const auto judged = [&](const std::string& name, Plan plan, const Look& look) {
    JudgedFile result = judge_plan(name, std::move(plan), practice, options);
    if (auto* judgement = std::get_if<Judgement>(&result)) return say(name, *judgement, look);
    Saying saying;
    saying.ends = Exit::unusable;
    saying.unusable_file = std::get<Unusable>(result).file;
    saying.errors = std::move(std::get<Unusable>(result).errors);
    return saying;
  };
  return tell_plans(names, told, out, judged, practice.defaults);
}

}  // namespace starter
