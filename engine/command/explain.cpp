#include <memory>

#include "command/commands.h"
#include "command/practice_option.h"
#include "command/rule_name.h"
#include "output/explain_text.h"
#include "output/json.h"
#include "rules/catalogue.h"

namespace starter {
namespace {

struct ExplainOptions {
  std::string rule;
  bool all = false;
  Told told;
  PracticeOption practice;
};

Json all_json(const Practice& practice) {
  Json all = Json::array();
  for (const Rule& rule : practice.rules()) all.push_back(explain_json(rule));
  for (const SwitchedOff& off : practice.off)
    all.push_back(explain_json(*find_rule(off.rule), &off));
  return all;
}

Exit explain(const ExplainOptions& options, Output& out) {
  const auto practice = load_practice(options.practice);
  if (!practice) return Exit::unusable;
  const bool as_json = options.told.format == Format::json;
  const Look look = look_of(Stream::out, options.told.units);
  if (options.all) {
    out.write(as_json ? json_text(all_json(*practice)) : catalogue_text(*practice, look));
    return Exit::sound;
  }
  const SwitchedOff* off = practice->find_off(options.rule);
  const Rule* rule = off ? find_rule(options.rule) : practice->find(options.rule);
  if (!rule) {
    complain("starter-plan: " + no_such_rule(*practice, options.rule) +
             "\nFor all rules: starter-plan explain --all\n");
    return Exit::unusable;
  }
  out.write(as_json ? json_text(explain_json(*rule, off)) : explain_text(*rule, look, off));
  return Exit::sound;
}

}  // namespace

void add_explain(CLI::App& program, Chosen& chosen) {
  CLI::App* command = program.add_subcommand(
      "explain", "A rule: its reason, bounds, source, and how to mend what it finds");
  auto options = std::make_shared<ExplainOptions>();
  auto* rule = command->add_option("RULE", options->rule, "The rule's id, as check tells it")
                   ->option_text(" ");
  command->add_flag("--all", options->all, "List all rules")->excludes(rule);
  add_told(*command, options->told);
  add_practice(*command, options->practice);
  command->footer(
      "Ends with 0, or 2 when there is no such rule.\n\n"
      "Examples:\n"
      "  starter-plan explain extract-ratio\n"
      "  starter-plan explain --units us glass-shock\n"
      "  starter-plan explain extract-ratio --practice lantern-lane.practice.json\n"
      "  starter-plan explain --all");
  command->callback([options, &chosen] {
    if (options->rule.empty() && !options->all) throw CLI::RequiredError("RULE or --all");
    chosen = [options](Output& out) { return explain(*options, out); };
  });
}

}  // namespace starter
