#include <algorithm>
#include <map>
#include <string>

#include "plan/fields.h"
#include "plan/parts.h"
#include "plan/pointer.h"
#include "plan/shape.h"
#include "plan/stage_of_step.h"
#include "quantity/words.h"
#include "quantity/write.h"

namespace starter {
namespace {

/// Steps whose "for" is a matter of hours; of the others it is minutes. Only used to guess the unit
/// that a bare number lacks.
bool lasts_hours(std::optional<Do> does) {
  switch (does.value_or(Do::rest)) {
    case Do::agitate:
    case Do::rest:
    case Do::crash:
    case Do::store:
    case Do::warm:
    case Do::krausen_pitch:
      return true;
    default:
      return false;
  }
}

void read_to(const Fields& fields, const VesselNames& vessels, Step& step, Report& report) {
  if (step.does == Do::move) {
    step.into = fields.name("to");
    if (step.into) vessels.check(*step.into, fields.where("to"), fields.find("to")->at, report);
    return;
  }
  if (step.does) {
    step.to = fields.quantity("to", a_temperature);
    return;
  }
  // What an unknown step means by "to" cannot be told: a temperature if it reads as one.
  const auto text = fields.name("to");
  if (!text) return;
  if (const auto warmth = read_temperature(*text); warmth && a_temperature.fits(*warmth))
    step.to = *warmth;
  else
    step.into = text;
}

/// The stage that the step says, as an index; nothing when it says none that exists.
std::optional<int> read_stage_number(const Fields& fields, std::size_t stages) {
  // Stages that could not be read have been reported; how many there are is not known then.
  const int last = static_cast<int>(stages == 0 ? most_stages : stages);
  const Node* node = fields.find("stage");
  if (node != nullptr && node->kind == Node::Kind::number &&
      !(node->number >= 1 && node->number <= last)) {
    fields.wrong("stage",
                 "there is no stage " + short_number(*node) + "; " +
                     (last == 1 ? "the plan has one, stage 1"
                                : "stages are counted from 1 to " + std::to_string(last)),
                 std::to_string(node->number < 1 ? 1 : last));
    return std::nullopt;
  }
  const auto number = fields.whole_number("stage", 1, last);
  if (!number) return std::nullopt;
  return *number - 1;
}

Step read_step(const Fields& fields, const VesselNames& vessels, Report& report) {
  Step step;
  fields.ask_for("do", "what is done in this step", R"("do": "boil")");
  step.verb = fields.name("do").value_or("");
  step.does = from_spelling<Do>(step.verb);
  step.id = fields.name("id").value_or("");
  step.in = fields.name("in");
  if (step.in) vessels.check(*step.in, fields.where("in"), fields.find("in")->at, report);
  step.from = fields.name("from");
  read_to(fields, vessels, step, report);
  step.with = fields.names("with").value_or(std::vector<std::string>{});
  step.items = fields.names("items").value_or(std::vector<std::string>{});
  step.lasts = fields.quantity("for", lasts_hours(step.does) ? a_duration : a_short_duration);
  step.at = fields.quantity("at", a_temperature);
  step.heat = fields.word<HeatSource>("heat");
  step.sealed = fields.yes_or_no("sealed").value_or(false);
  step.after = fields.names("after");
  step.during = fields.name("during");
  step.bath = fields.quantity("bath", a_volume);
  step.bath_depth = fields.quantity("bath_depth", a_length);
  step.ice = fields.quantity("ice", a_mass);
  step.ice_from = fields.quantity("ice_from", a_temperature);
  step.swirl = fields.yes_or_no("swirl").value_or(false);
  step.water = fields.quantity("water", a_temperature);
  return step;
}

}  // namespace

void read_steps(const Node* node, const VesselNames& vessels, std::vector<Stage>& stages,
                std::vector<Step>& steps, std::vector<Assumption>& assumed, Report& report) {
  if (node == nullptr) return;
  if (node->items.size() > most_steps) {
    report.add("/steps", node->at,
               "there are " + std::to_string(node->items.size()) + " steps; at most " +
                   std::to_string(most_steps) + " are read",
               "keep those the plan needs");
    return;
  }
  StageOfStep walk(stages.size());
  std::map<std::string, std::string> path_of_id;
  std::size_t named = 0;
  for (std::size_t i = 0; i < node->items.size(); ++i) {
    const Node& item = node->items[i];
    const std::string where = pointer_to("/steps", i);
    if (item.kind != Node::Kind::object) {
      report.add(where, item.at, described(item) + " stands here; wanted is a step in braces",
                 item.kind == Node::Kind::text ? "{\"do\": " + starter::quoted(item.text) + "}"
                                               : R"({"do": "boil"})");
      continue;
    }
    const Fields fields(&item, where, shape::step, report);
    Step step = read_step(fields, vessels, report);
    step.path = where;
    if (!step.id.empty())
      if (const auto [first, fresh] = path_of_id.emplace(step.id, where); !fresh)
        fields.wrong(
            "id", "the step at " + first->second + " has the same id, so `after` could mean either",
            starter::quoted(step.id + " again"));
    named += step.items.size() + step.with.size();
    if (named > most_items) {
      report.add(where, item.at,
                 "up to here more than " + std::to_string(most_items) +
                     " items are named; that many are read",
                 "keep those the plan needs");
      return;
    }
    const auto said = read_stage_number(fields, stages.size());
    step.stage = said.value_or(walk.unless_said(step.does));
    if (!fields.has("stage") && walk.begins_next(step.does))
      assumed.push_back({fields.where("stage"), std::to_string(step.stage + 1),
                         "This step comes after the pitch of stage " + std::to_string(step.stage) +
                             ", so it is taken to begin stage " + std::to_string(step.stage + 1) +
                             "."});
    walk.walk(step.does, step.stage);
    if (step.does == Do::boil && !fields.has("for")) {
      step.lasts = Duration::minutes(12);
      assumed.push_back({fields.where("for"), "12 min",
                         "How long it boils is not stated, so the usual 12 min are taken."});
    }
    const auto boil_off = fields.quantity("boil_off", a_boil_off);
    if (boil_off && static_cast<std::size_t>(step.stage) < stages.size())
      stages[static_cast<std::size_t>(step.stage)].boil_off = boil_off;
    steps.push_back(std::move(step));
  }
}

}  // namespace starter
