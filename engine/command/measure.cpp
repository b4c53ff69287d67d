#include <memory>

#include "command/commands.h"
#include "command/plans.h"
#include "command/practice_option.h"
#include "measures/measures.h"
#include "output/measures_text.h"

namespace starter {
namespace {

struct MeasureOptions {
  std::vector<std::string> plans;
  Told told;
  PracticeOption practice;
};

Exit measure_plans(const MeasureOptions& options, Output& out) {
  const auto practice = load_practice(options.practice);
  if (!practice) return Exit::unusable;
  return tell_plans(
      options.plans, options.told, out,
      [&options](const std::string& name, const Plan& plan, const Look& look) {
        const auto measures = measure(plan, unfold(plan));
        Saying saying;
        if (options.told.format == Format::json)
          saying.json = measures_json(name, plan, measures);
        else
          saying.text = measures_text(plan, measures, look);
        return saying;
      },
      practice->defaults);
}

}  // namespace

void add_measure(CLI::App& program, Chosen& chosen) {
  CLI::App* command =
      program.add_subcommand("measure", "Every number of plans, with its range and its making");
  auto options = std::make_shared<MeasureOptions>();
  add_plans(*command, options->plans);
  add_told(*command, options->told);
  add_practice(*command, options->practice);
  command->footer(
      "Ends with 0, or 2 when a plan cannot be used.\n\n"
      "Examples:\n"
      "  starter-plan measure harvest-amber.plan.json\n"
      "  starter-plan measure --units us harvest-amber.plan.json\n"
      "  starter-plan measure --format json harvest-amber.plan.json > numbers.json");
  command->callback([options, &chosen] {
    chosen = [options](Output& out) { return measure_plans(*options, out); };
  });
}

}  // namespace starter
