#include "command/options.h"

#include "command/word_option.h"

namespace starter {
namespace {

constexpr const char* format_help = "How to tell it";

}  // namespace

void add_units(CLI::App& command, UnitSystem& units) {
  add_word(command, "--units", units, {{"metric", UnitSystem::metric}, {"us", UnitSystem::us}},
           "Units of the texts; numbers in JSON are always metric");
}

void add_told(CLI::App& command, Told& told) {
  add_word(command, "--format", told.format, {{"text", Format::text}, {"json", Format::json}},
           format_help);
  add_units(command, told.units);
}

void add_told_with_sarif(CLI::App& command, Told& told) {
  add_word(command, "--format", told.format,
           {{"text", Format::text}, {"json", Format::json}, {"sarif", Format::sarif}}, format_help);
  add_units(command, told.units);
}

void add_plans(CLI::App& command, std::vector<std::string>& plans) {
  command.add_option("PLAN", plans, "Plan files; - is standard input")
      ->required()
      ->option_text("...");
}

void add_fail_at(CLI::App& command, Severity& least) {
  add_word(command, "--fail-at", least,
           {{"note", Severity::note},
            {"weakens", Severity::weakens},
            {"spoils", Severity::spoils},
            {"danger", Severity::danger}},
           "The mildest finding that makes the program end with 1");
}

}  // namespace starter
