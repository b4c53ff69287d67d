#include <memory>
#include <string_view>

#include "command/commands.h"
#include "output/explain_text.h"
#include "output/json.h"
#include "quantity/words.h"
#include "rules/catalogue.h"

namespace starter {
namespace {

struct ExplainOptions {
  std::string rule;
  bool all = false;
  Told told;
};

Exit unknown_rule(const std::string& typed) {
  std::vector<std::string_view> ids;
  for (const Rule& rule : catalogue()) ids.push_back(rule.id);
  const auto nearest = nearest_word(typed, ids);
  complain("starter-plan: there is no rule " + starter::quoted(typed) + "." +
           (nearest ? " Did you mean " + *nearest + "?" : "") +
           "\nFor all rules: starter-plan explain --all\n");
  return Exit::unusable;
}

Exit explain(const ExplainOptions& options, Output& out) {
  const bool as_json = options.told.format == Format::json;
  const Look look = look_of(Stream::out, options.told.units);
  if (options.all) {
    Json all = Json::array();
    if (as_json)
      for (const Rule& rule : catalogue()) all.push_back(explain_json(rule));
    out.write(as_json ? json_text(all) : catalogue_text(catalogue(), look));
    return Exit::sound;
  }
  const Rule* rule = find_rule(options.rule);
  if (!rule) return unknown_rule(options.rule);
  out.write(as_json ? json_text(explain_json(*rule)) : explain_text(*rule, look));
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
  command->footer(
      "Ends with 0, or 2 when there is no such rule.\n\n"
      "Examples:\n"
      "  starter-plan explain extract-ratio\n"
      "  starter-plan explain --units us glass-shock\n"
      "  starter-plan explain --all");
  command->callback([options, &chosen] {
    if (options->rule.empty() && !options->all) throw CLI::RequiredError("RULE or --all");
    chosen = [options](Output& out) { return explain(*options, out); };
  });
}

}  // namespace starter
