#include "output/compare.h"

#include <memory>

#include "command/commands.h"
#include "command/files.h"
#include "command/judged.h"
#include "command/practice_option.h"
#include "output/compare_json.h"
#include "output/compare_text.h"

namespace starter {
namespace {

struct CompareOptions {
  std::string first;
  std::string second;
  Told told;
  bool all = false;
  PracticeOption practice;
};

/// Standard input can be read for one of the two only.
JudgedFile judged(const std::string& name, bool input_is_used, const Practice& practice,
                  const JudgeOptions& how) {
  PlanResult plan = plan_named(name, input_is_used, practice.defaults);
  if (auto* errors = std::get_if<std::vector<PlanError>>(&plan))
    return Unusable{name, std::move(*errors)};
  return judge_plan(name, std::get<Plan>(std::move(plan)), practice, how);
}

/// What keeps either plan, or both, from being used, told in full.
Exit refuse(const Told& told, const JudgedFile& first, const JudgedFile& second, Output& out) {
  std::vector<Json> documents;
  for (const JudgedFile* file : {&first, &second}) {
    const auto* bad = std::get_if<Unusable>(file);
    if (bad == nullptr) continue;
    if (told.format == Format::json)
      documents.push_back(errors_json(bad->file, bad->errors));
    else
      complain(
          errors_text(spoken_name(bad->file), bad->errors, look_of(Stream::error, told.units)));
  }
  if (told.format == Format::json) out.write(json_text(not_compared_json(std::move(documents))));
  return Exit::unusable;
}

Exit compare(const CompareOptions& options, Output& out) {
  const auto practice = load_practice(options.practice);
  if (!practice) return Exit::unusable;
  const JudgeOptions how = JudgeOptions::findings_only(options.told.units);
  const JudgedFile first = judged(options.first, false, *practice, how);
  const JudgedFile second = judged(options.second, options.first == "-", *practice, how);
  if (std::holds_alternative<Unusable>(first) || std::holds_alternative<Unusable>(second))
    return refuse(options.told, first, second, out);
  const auto& a = std::get<Judgement>(first);
  const auto& b = std::get<Judgement>(second);
  const Comparison comparison = compare_plans(a, b, options.told.units);
  if (options.told.format == Format::json)
    out.write(json_text(compare_json(comparison, options.first, options.second)));
  else
    out.write(compare_text(comparison, spoken_name(options.first), spoken_name(options.second),
                           options.all, look_of(Stream::out, options.told.units)));
  const auto left = worst(b.findings);
  return left && *left >= Severity::weakens ? Exit::findings : Exit::sound;
}

}  // namespace

void add_compare(CLI::App& program, Chosen& chosen) {
  CLI::App* command =
      program.add_subcommand("compare", "Two plans side by side: what is better, worse or changed");
  auto options = std::make_shared<CompareOptions>();
  command
      ->add_option("FIRST", options->first, "A plan, such as before a change; - is standard input")
      ->required()
      ->option_text(" ");
  command->add_option("SECOND", options->second, "The other plan, such as after it")
      ->required()
      ->option_text(" ");
  command->add_flag("--all", options->all,
                    "Tell also what is the same in both; JSON always has it");
  add_told(*command, options->told);
  add_practice(*command, options->practice);
  command->footer(
      "Ends with 0 when the second plan has nothing that weakens it or worse, 1 when it has,\n"
      "2 when a plan cannot be used.\n\n"
      "Examples:\n"
      "  starter-plan compare harvest-amber.plan.json harvest-amber-mended.plan.json\n"
      "  starter-plan compare --all --units us wren.plan.json tarn.plan.json");
  command->callback(
      [options, &chosen] { chosen = [options](Output& out) { return compare(*options, out); }; });
}

}  // namespace starter
