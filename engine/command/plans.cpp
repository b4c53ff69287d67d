#include "command/plans.h"

#include <algorithm>

#include "command/files.h"
#include "output/sarif.h"

namespace starter {
namespace {

void count(Tally& tally, Exit end) {
  switch (end) {
    case Exit::sound:
      ++tally.sound;
      break;
    case Exit::findings:
      ++tally.to_mend;
      break;
    case Exit::unusable:
      ++tally.unusable;
      break;
  }
}

}  // namespace

PlanResult plan_named(const std::string& name, bool input_is_used, const Defaults& defaults) {
  if (name == "-" && input_is_used)
    return std::vector<PlanError>{{"", 0, "standard input can be read once only", ""}};
  FileResult file = read_file(name);
  if (auto* error = std::get_if<PlanError>(&file)) return std::vector<PlanError>{*error};
  return read_plan(std::get<std::string>(file), defaults);
}

Exit tell_plans(const std::vector<std::string>& names, const Told& told, Output& out,
                const std::function<Saying(const std::string&, Plan, const Look&)>& say,
                const Defaults& defaults) {
  const bool as_sarif = told.format == Format::sarif;
  const bool as_json = told.format == Format::json || as_sarif;
  const Look look = look_of(Stream::out, told.units);
  std::vector<Json> documents;
  Tally tally;
  Exit worst = Exit::sound;
  bool input_is_used = false;
  bool first_text = true;
  for (const std::string& name : names) {
    PlanResult result = plan_named(name, input_is_used, defaults);
    input_is_used |= name == "-";
    Exit end = Exit::unusable;
    std::string saying_text;
    const auto tell_errors = [&](const std::string& file, std::vector<PlanError> errors) {
      if (as_sarif)
        documents.push_back(sarif_results(file, errors));
      else if (as_json)
        documents.push_back(errors_json(name, in_file(name, file, std::move(errors))));
      else
        complain(errors_text(spoken_name(file), errors, look_of(Stream::error, told.units)));
    };
    if (auto* errors = std::get_if<std::vector<PlanError>>(&result)) {
      tell_errors(name, std::move(*errors));
    } else {
      Saying saying = say(name, std::get<Plan>(std::move(result)), look);
      end = saying.ends;
      if (!saying.errors.empty()) {
        tell_errors(saying.unusable_file, std::move(saying.errors));
      } else if (as_json) {
        documents.push_back(std::move(saying.json));
      } else {
        if (names.size() > 1)
          saying.text =
              (first_text ? "" : "\n") + plan_divider(spoken_name(name), look) + saying.text;
        first_text = false;
        saying_text = std::move(saying.text);
      }
    }
    count(tally, end);
    worst = std::max(worst, end);
    if (!saying_text.empty() && !out.write(saying_text)) return worst;
  }
  if (as_json)
    out.write(json_text(as_sarif ? sarif_log(documents, STARTER_PLAN_VERSION)
                                 : one_or_all(std::move(documents))));
  else if (names.size() > 1)
    out.write(tally_text(tally, look));
  return worst;
}

}  // namespace starter
