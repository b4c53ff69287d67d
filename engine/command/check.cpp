#include <memory>

#include "command/commands.h"
#include "command/judged.h"
#include "command/practice_option.h"
#include "output/sarif.h"

namespace starter {
namespace {

struct CheckOptions {
  std::vector<std::string> plans;
  Told told;
  Severity fail_at = Severity::weakens;
  PracticeOption practice;
};

Exit check(const CheckOptions& options, Output& out) {
  const auto practice = load_practice(options.practice);
  if (!practice) return Exit::unusable;
  JudgeOptions how;
  how.units = options.told.units;
  return tell_judged(
      options.plans, options.told, out, *practice, how,
      [&options](const std::string& name, const Judgement& judgement, const Look& look) {
        Saying saying;
        const auto found = worst(judgement.findings);
        saying.ends = found && *found >= options.fail_at ? Exit::findings : Exit::sound;
        if (options.told.format == Format::json)
          saying.json = check_json(name, judgement);
        else if (options.told.format == Format::sarif)
          saying.json = sarif_results(name, judgement);
        else
          saying.text = check_text(judgement, look);
        return saying;
      });
}

}  // namespace

void add_check(CLI::App& program, Chosen& chosen) {
  CLI::App* command = program.add_subcommand("check", "Judge plans: what to mend, why and how");
  auto options = std::make_shared<CheckOptions>();
  add_plans(*command, options->plans);
  add_told_with_sarif(*command, options->told);
  add_fail_at(*command, options->fail_at);
  add_practice(*command, options->practice);
  command->footer(
      "Ends with 0 when nothing is found at or above --fail-at, 1 when something is,\n"
      "2 when a plan cannot be used. Findings that a mentor accepted are shown and do not\n"
      "count, but for dangers (see starter-plan accept).\n\n"
      "Examples:\n"
      "  starter-plan check harvest-amber.plan.json\n"
      "  starter-plan check --units us --fail-at spoils *.plan.json\n"
      "  starter-plan check --practice lantern-lane.practice.json harvest-amber.plan.json\n"
      "  starter-plan check --format json - < harvest-amber.plan.json\n"
      "  starter-plan check --format sarif *.plan.json > findings.sarif");
  command->callback(
      [options, &chosen] { chosen = [options](Output& out) { return check(*options, out); }; });
}

}  // namespace starter
