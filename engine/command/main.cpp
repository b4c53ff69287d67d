/// \file
/// The program: finds the command, runs it, and tells what it was given wrongly.

#include <CLI/CLI.hpp>
#include <algorithm>
#include <csignal>
#include <exception>
#include <string>
#include <string_view>
#include <vector>

#include "command/commands.h"
#include "output/characters.h"
#include "quantity/words.h"

namespace starter {
namespace {

/// The command that was chosen, or the program when none was.
const CLI::App& chosen_part(const CLI::App& program) {
  const auto chosen = program.get_subcommands();
  return chosen.empty() ? program : *chosen.front();
}

/// The words that could have been meant where `part` reads its arguments.
std::vector<std::string> known_words(const CLI::App& part, bool options) {
  std::vector<std::string> words;
  if (options) {
    for (const CLI::Option* option : part.get_options())
      for (const std::string& name : option->get_lnames()) words.push_back("--" + name);
  } else {
    for (const CLI::App* command : part.get_subcommands({})) words.push_back(command->get_name());
  }
  return words;
}

std::string list_of(const std::vector<std::string>& words) {
  std::string out;
  for (const std::string& word : words) out += (out.empty() ? "" : ", ") + word;
  return out;
}

/// What was typed that nothing here answers to, with the nearest that would.
std::string not_understood(const CLI::App& part, const std::string& typed) {
  const bool option = typed.size() > 1 && typed[0] == '-';
  const bool program = part.get_parent() == nullptr;
  const auto words = known_words(part, option);
  const std::string name = typed.substr(0, typed.find('='));
  const auto nearest =
      nearest_word(name, std::vector<std::string_view>(words.begin(), words.end()));
  if (option && std::find(words.begin(), words.end(), name) != words.end())
    return "options stand after the command: starter-plan " + part.get_name() + " " + name + " …";
  if (!option && !program) return starter::quoted(typed) + " is one argument too many.";
  std::string says =
      "there is no " + std::string(option ? "option " : "command ") + starter::quoted(name);
  if (!program) says += " for " + part.get_name();
  says += ".";
  if (nearest)
    says += " Did you mean " + *nearest + "?";
  else if (!words.empty())
    says += " There are: " + list_of(words) + ".";
  return says;
}

std::string what_is_wrong(const CLI::App& program, const CLI::ParseError& error) {
  const CLI::App& part = chosen_part(program);
  const auto extra = program.remaining(true);
  if (!extra.empty()) return not_understood(part, extra.front());
  if (part.get_parent() == nullptr)
    return "a command is missing: " + list_of(known_words(part, false)) + ".";
  const std::string says = error.what();
  if (dynamic_cast<const CLI::ArgumentMismatch*>(&error) != nullptr)
    return visible(says.substr(0, says.find(':'))) + " needs a value.";
  return visible(says) + (says.empty() || says.back() == '.' || says.back() == '?' ? "" : ".");
}

Exit usage_error(const CLI::App& program, const CLI::ParseError& error) {
  const CLI::App& part = chosen_part(program);
  const std::string path =
      part.get_parent() ? "starter-plan " + part.get_name() : std::string("starter-plan");
  complain("starter-plan: " + what_is_wrong(program, error) + "\nFor help: " + path + " --help\n");
  return Exit::unusable;
}

void set_up(CLI::App& program) {
  program.set_version_flag("--version", "starter-plan " STARTER_PLAN_VERSION,
                           "Show which version this is");
  program.require_subcommand(1);
  program.set_help_flag("-h,--help", "Show this help");
  const auto look = program.get_formatter();
  look->column_width(26);
  look->label("SUBCOMMAND", "COMMAND");
  program.footer(
      "Examples:\n"
      "  starter-plan check harvest-amber.plan.json\n"
      "  starter-plan explain glass-shock\n"
      "  starter-plan COMMAND --help");
}

/// The arguments as CLI11 wants them, last first. It would take "[a,b]" for a list of two, and no
/// option of ours takes a list, so such a file name is spelled in a way that it leaves alone.
std::vector<std::string> for_parsing(int count, char** arguments) {
  std::vector<std::string> reversed;
  for (int i = count - 1; i > 0; --i) {
    const std::string argument = arguments[i];
    const bool looks_like_a_list =
        argument.size() > 1 && argument.front() == '[' && argument.back() == ']';
    reversed.push_back(looks_like_a_list ? "./" + argument : argument);
  }
  return reversed;
}

Exit run(int count, char** arguments) {
  CLI::App program{"Reads a yeast-starter plan, works out its numbers, and says what to mend.",
                   "starter-plan"};
  set_up(program);
  Chosen chosen;
  add_check(program, chosen);
  add_explain(program, chosen);
  add_measure(program, chosen);
  add_schedule(program, chosen);
  add_suggest(program, chosen);
  add_draw(program, chosen);
  add_accept(program, chosen);
  add_compare(program, chosen);
  add_new(program, chosen);
  add_review(program, chosen);
  add_handout(program, chosen);
  add_lesson(program, chosen);
  add_site(program, chosen);
  for (CLI::App* command : program.get_subcommands({})) command->group("Commands");
  Output out;
  Exit end = Exit::sound;
  try {
    program.parse(for_parsing(count, arguments));
    end = chosen(out);
  } catch (const CLI::CallForHelp&) {
    const CLI::App& part = chosen_part(program);
    out.write(part.help(part.get_parent() ? "starter-plan" : ""));
  } catch (const CLI::CallForAllHelp&) {
    out.write(program.help("", CLI::AppFormatMode::All));
  } catch (const CLI::CallForVersion& version) {
    out.write(std::string(version.what()) + "\n");
  } catch (const CLI::ParseError& error) {
    return usage_error(program, error);
  }
  return out.failed() ? Exit::unusable : end;
}

}  // namespace
}  // namespace starter

int main(int count, char** arguments) {
  // A reader that closes the pipe is met as a failed write, not as a signal that kills.
  std::signal(SIGPIPE, SIG_IGN);
  try {
    return static_cast<int>(starter::run(count, arguments));
  } catch (const std::bad_alloc&) {
    starter::complain("starter-plan: not enough memory.\n");
  } catch (const std::exception& problem) {
    starter::complain("starter-plan: " + starter::visible(problem.what()) + "\n");
  }
  return static_cast<int>(starter::Exit::unusable);
}
