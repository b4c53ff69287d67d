#include "suggest/suggest.h"

#include <sys/stat.h>

#include <memory>
#include <utility>

#include "command/commands.h"
#include "command/judged.h"
#include "command/practice_option.h"
#include "command/refuse.h"
#include "command/write_file.h"
#include "output/json.h"
#include "output/plan_parts.h"
#include "output/suggest_json.h"
#include "output/suggest_text.h"
#include "output/text.h"
#include "plan/layout.h"

namespace starter {
namespace {

struct Options {
  std::string plan;
  Told told;
  PracticeOption practice;
  bool write = false;
  bool overwrite = false;
  bool patch = false;
};

Exit unusable(const Options& options, const std::string& file, const std::vector<PlanError>& errors,
              Output& out) {
  if (options.told.format == Format::json)
    out.write(json_text(errors_json(file, errors)));
  else
    complain(errors_text(spoken_name(file), errors, look_of(Stream::error, options.told.units)));
  return Exit::unusable;
}

/// "amber.plan.json" → "amber.mended.plan.json"
std::string mended_name(const std::string& plan) {
  for (const std::string_view end : {".plan.json", ".json"})
    if (plan.size() > end.size() && plan.compare(plan.size() - end.size(), end.size(), end) == 0 &&
        plan[plan.size() - end.size() - 1] != '/')
      return plan.substr(0, plan.size() - end.size()) + ".mended.plan.json";
  return plan + ".mended.plan.json";
}

bool is_there(const std::string& name) {
  struct stat seen {};
  return lstat(name.c_str(), &seen) == 0;
}

/// Why the mended plan must not be written; empty when it may.
std::string objection(const Options& options, const std::string& name) {
  if (same_file(options.plan, name)) return name + " is the plan itself, which is never changed.";
  if (is_there(name) && !options.overwrite)
    return name + " is there already; --overwrite replaces it.";
  return "";
}

Exit tell(const Options& options, Output& out) {
  if (options.overwrite && !options.write)
    return refuse("--overwrite says that a mended plan may be replaced; it goes with --write.");
  if (options.write && options.plan == "-")
    return refuse("--write saves beside the plan's file, and standard input is none; give a file.");
  const std::string name = mended_name(options.plan);
  // Told before the work, so that nobody reads a page and then finds nothing saved.
  if (options.write)
    if (const std::string says = objection(options, name); !says.empty()) return refuse(says);

  const auto practice = load_practice(options.practice);
  if (!practice) return Exit::unusable;
  PlanInputs inputs = read_inputs(options.plan);
  if (const auto* error = std::get_if<PlanError>(&inputs.plan))
    return unusable(options, options.plan, {*error}, out);
  if (!inputs.kept.errors.empty())
    return unusable(options, inputs.kept.name, inputs.kept.errors, out);
  const std::string& bytes = std::get<std::string>(inputs.plan);
  SuggestOptions how;
  how.units = options.told.units;
  how.defaults = practice->defaults;
  how.accepted = std::move(inputs.kept.records);
  const auto suggestion = suggest(bytes, practice->rules(), how);
  if (!suggestion) {
    const PlanResult read = read_plan(bytes, practice->defaults);
    std::vector<PlanError> errors;
    if (const auto* told = std::get_if<std::vector<PlanError>>(&read)) errors = *told;
    if (std::string says = too_big_for_one_starter(bytes, practice->rules(), practice->defaults,
                                                   options.told.units);
        !says.empty()) {
      if (const std::string dry = dry_needs_no_starter(bytes, practice->defaults); !dry.empty())
        says = dry + " As a starter, " + says;
      errors = {{"/stages", 0, std::move(says), ""}};
    }
    return unusable(options, options.plan, errors, out);
  }
  Exit end = suggestion->left.empty() ? Exit::sound : Exit::findings;
  std::string saved;
  if (options.write && !suggestion->changes.empty()) {
    if (const auto problem = write_file(name, lay_out(suggestion->document)))
      return refuse(name + " was not written: " + *problem + ".");
    saved = "The mended plan is in " + name + "; yours is as it was.";
    if (!suggestion->stands.empty())
      saved +=
          " A mentor’s word stands beside your plan only; beside the mended one it is given "
          "again, with starter-plan accept.";
  } else if (options.write) {
    saved = "There is nothing to change, so nothing was written.";
  }
  if (options.told.format == Format::json) {
    out.write(json_text(suggest_json(options.plan, *suggestion)));
    return end;
  }
  const Look look = look_of(Stream::out, options.told.units);
  std::string text = suggest_text(*suggestion, look, {options.patch});
  if (!saved.empty()) {
    Page page(look);
    page.blank();
    page.paragraph(saved);
    text += std::move(page).text();
  }
  out.write(text);
  return end;
}

}  // namespace

void add_suggest(CLI::App& program, Chosen& chosen) {
  CLI::App* command = program.add_subcommand(
      "suggest", "The smallest changes that clear the findings, or a size for a plan without one");
  auto options = std::make_shared<Options>();
  command->add_option("PLAN", options->plan, "The plan file; - is standard input")
      ->required()
      ->option_text(" ");
  command->add_flag("--write", options->write,
                    "Save the mended plan beside yours, as NAME.mended.plan.json");
  command->add_flag("--overwrite", options->overwrite,
                    "Let --write replace a mended plan that is there");
  command->add_flag("--patch", options->patch, "Also tell the changes as a JSON Patch (RFC 6902)");
  add_told(*command, options->told);
  add_practice(*command, options->practice);
  command->footer(
      "Ends with 0 when nothing that weakens the starter or worse is left after the changes,\n"
      "1 when something is, 2 when the plan cannot be used or the file not written.\n\n"
      "Examples:\n"
      "  starter-plan suggest harvest-amber.plan.json\n"
      "  starter-plan suggest harvest-amber.plan.json --write\n"
      "  starter-plan suggest --format json - < harvest-amber.plan.json");
  command->callback(
      [options, &chosen] { chosen = [options](Output& out) { return tell(*options, out); }; });
}

}  // namespace starter
