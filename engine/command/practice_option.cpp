#include "command/practice_option.h"

#include "command/files.h"
#include "command/terminal.h"
#include "output/text.h"
#include "rules/catalogue.h"

namespace starter {

void add_practice(CLI::App& command, PracticeOption& option) {
  command
      .add_option("--practice", option.file,
                  "A club’s practice file: its bounds, defaults and own rules")
      ->option_text("FILE")
      ->check([](const std::string& name) {
        if (name.empty()) return "the name of the file is empty";
        return name == "-" ? "a practice file is not read from standard input; name the file" : "";
      });
}

std::optional<Practice> load_practice(const PracticeOption& option) {
  if (option.file.empty()) return usual_practice(catalogue());
  const FileResult file = read_file(option.file, "practice file");
  std::vector<PlanError> errors;
  if (const auto* error = std::get_if<PlanError>(&file)) {
    errors.push_back(*error);
  } else {
    PracticeResult read = read_practice(std::get<std::string>(file), {catalogue(), cautions()});
    if (auto* practice = std::get_if<Practice>(&read)) return std::move(*practice);
    errors = std::get<std::vector<PlanError>>(std::move(read));
  }
  complain(errors_text(option.file, errors, look_of(Stream::error, UnitSystem::metric)));
  return std::nullopt;
}

}  // namespace starter
