#include <memory>

#include "command/commands.h"
#include "command/plans.h"
#include "output/sarif.h"
#include "rules/catalogue.h"
#include "rules/judge.h"

namespace starter {
namespace {

struct CheckOptions {
  std::vector<std::string> plans;
  Told told;
  Severity fail_at = Severity::weakens;
};

Exit check(const CheckOptions& options, Output& out) {
  return tell_plans(options.plans, options.told, out,
                    [&options](const std::string& name, Plan plan, const Look& look) {
                      JudgeOptions how;
                      how.units = options.told.units;
                      const Judgement judgement = judge(std::move(plan), catalogue(), how);
                      Saying saying;
                      const auto found = worst(judgement.findings);
                      saying.ends =
                          found && *found >= options.fail_at ? Exit::findings : Exit::sound;
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
  command->footer(
      "Ends with 0 when nothing is found at or above --fail-at, 1 when something is,\n"
      "2 when a plan cannot be used.\n\n"
      "Examples:\n"
      "  starter-plan check harvest-amber.plan.json\n"
      "  starter-plan check --units us --fail-at spoils *.plan.json\n"
      "  starter-plan check --format json - < harvest-amber.plan.json\n"
      "  starter-plan check --format sarif *.plan.json > findings.sarif");
  command->callback(
      [options, &chosen] { chosen = [options](Output& out) { return check(*options, out); }; });
}

}  // namespace starter
