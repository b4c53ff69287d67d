#include "command/options.h"

#include <array>
#include <string_view>

#include "output/characters.h"
#include "quantity/words.h"

namespace starter {
namespace {

/// An option that takes one of a few words, told with the nearest when it is another.
template <class Value, std::size_t size>
void add_word(CLI::App& command, const char* name, Value& value,
              const std::array<std::pair<std::string_view, Value>, size>& words, std::string help) {
  std::string list;
  std::string shown;
  for (const auto& [word, unused] : words) {
    list += (list.empty() ? "" : "|") + std::string(word);
    if (unused == value) shown = word;
  }
  help += " (" + shown + ")";
  const auto take = [words, name, list, &value](const std::string& typed) {
    std::vector<std::string_view> known;
    for (const auto& [word, meant] : words) {
      if (word == typed) {
        value = meant;
        return;
      }
      known.push_back(word);
    }
    const auto nearest = nearest_word(typed, known);
    throw CLI::ValidationError(name, starter::quoted(typed) + " is not one of " + list + "." +
                                         (nearest ? " Did you mean " + *nearest + "?" : ""));
  };
  command.add_option_function<std::string>(name, take, help)
      ->option_text(list)
      ->multi_option_policy(CLI::MultiOptionPolicy::TakeLast);
}

constexpr const char* format_help = "How to tell it";

void add_units(CLI::App& command, UnitSystem& units) {
  add_word<UnitSystem, 2>(command, "--units", units,
                          {{{"metric", UnitSystem::metric}, {"us", UnitSystem::us}}},
                          "Units of the texts; numbers in JSON are always metric");
}

}  // namespace

void add_told(CLI::App& command, Told& told) {
  add_word<Format, 2>(command, "--format", told.format,
                      {{{"text", Format::text}, {"json", Format::json}}}, format_help);
  add_units(command, told.units);
}

void add_told_with_sarif(CLI::App& command, Told& told) {
  add_word<Format, 3>(command, "--format", told.format,
                      {{{"text", Format::text}, {"json", Format::json}, {"sarif", Format::sarif}}},
                      format_help);
  add_units(command, told.units);
}

void add_plans(CLI::App& command, std::vector<std::string>& plans) {
  command.add_option("PLAN", plans, "Plan files; - is standard input")
      ->required()
      ->option_text("...");
}

void add_fail_at(CLI::App& command, Severity& least) {
  add_word<Severity, 4>(command, "--fail-at", least,
                        {{{"note", Severity::note},
                          {"weakens", Severity::weakens},
                          {"spoils", Severity::spoils},
                          {"danger", Severity::danger}}},
                        "The mildest finding that makes the program end with 1");
}

}  // namespace starter
