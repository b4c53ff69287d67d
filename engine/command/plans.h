#pragma once

/// \file
/// Carrying several plans through a command, each told even when another cannot be used.

#include <functional>
#include <string>
#include <vector>

#include "command/options.h"
#include "output/json.h"
#include "output/text.h"
#include "plan/model.h"

namespace starter {

/// What a command says of one usable plan.
struct Saying {
  std::string text;  ///< filled when the format is text
  Json json;         ///< filled when the format is JSON; for SARIF, the plan's results
  Exit ends = Exit::sound;
  std::vector<PlanError> errors;  ///< why nothing can be said: of a file that the plan needs,
  std::string unusable_file;      ///< this one
};

/// The plan in that file, or in standard input for "-", which can be read once only.
PlanResult plan_named(const std::string& name, bool input_is_used, const Defaults& defaults = {});

/// Reads every plan and tells what `say` makes of it; what cannot be used is told on standard
/// error, or in its place in the JSON. \return the worst end.
/// \param defaults what club practice supplies where plans are silent.
Exit tell_plans(const std::vector<std::string>& names, const Told& told, Output& out,
                const std::function<Saying(const std::string& name, Plan, const Look&)>& say,
                const Defaults& defaults = {});

}  // namespace starter
