#pragma once

/// \file
/// Options that take one of a few words.

#include <CLI/CLI.hpp>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <vector>

#include "output/characters.h"
#include "quantity/words.h"

namespace starter {

/// The option sets `target` to what the word means; another word is told with the nearest. Help
/// shows the word that `target` has now. `target` must outlive the parsing.
template <class Target>
void add_word(CLI::App& command, const char* name, Target& target,
              const std::vector<std::pair<std::string_view, std::type_identity_t<Target>>>& words,
              std::string help) {
  std::string list;
  for (const auto& [word, meaning] : words) {
    list += (list.empty() ? "" : "|") + std::string(word);
    if (target == meaning) help += " (" + std::string(word) + ")";
  }
  const auto take = [words, name, list, &target](const std::string& typed) {
    std::vector<std::string_view> known;
    for (const auto& [word, meaning] : words) {
      if (word == typed) {
        target = meaning;
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

}  // namespace starter
