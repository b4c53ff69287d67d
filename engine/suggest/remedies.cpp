#include "suggest/remedies.h"

#include <algorithm>
#include <cmath>

#include "measures/workings.h"
#include "plan/pointer.h"
#include "suggest/sizing.h"

namespace starter {
namespace {

using nlohmann::ordered_json;

std::size_t at(int i) {
  return static_cast<std::size_t>(i);
}

ordered_json add(const std::string& path, ordered_json value) {
  return {{"op", "add"}, {"path", path}, {"value", std::move(value)}};
}

// --- all that is not clean in a stage, cleaned in one step ------------------------------------

std::string listed(const std::vector<std::string>& items) {
  std::string out;
  for (std::size_t i = 0; i < items.size(); ++i)
    out += (i == 0 ? "“" : i + 1 == items.size() ? " and “" : ", “") + items[i] + "”";
  return out;
}

/// \param from_first whether the first use, not the one told, is where the cleaning goes.
std::optional<Way> sanitise_together(const Plan& plan, int stage) {
  if (!plan.wrote("/steps")) return std::nullopt;
  const Process process = unfold(plan);
  std::vector<std::string> items;
  std::optional<int> first;
  for (const Touch& touch : process.touches) {
    if (touch.assumed || touch.cleaned_by || touch.last_touch) continue;
    if (plan.steps[at(touch.step)].stage != stage) continue;
    if (std::none_of(items.begin(), items.end(),
                     [&](const std::string& had) { return same_item(had, touch.item); }))
      items.push_back(touch.item);
    if (!first || touch.step < *first) first = touch.step;
  }
  if (items.size() < 2 || !first) return std::nullopt;
  Way way;
  // One that the plan has already, when it stands early enough; else a new one.
  for (int i : steps_of(plan, Do::sanitise, stage))
    if (process.precedes(i, *first)) {
      const Step& step = plan.steps[at(i)];
      ordered_json all = step.items;
      for (const std::string& item : items) all.push_back(item);
      way.patch.push_back(add(step.path + "/items", all));
      way.says = "sanitise " + listed(items) + " in the step that sanitises";
      return way;
    }
  ordered_json step = {{"do", std::string(spelling(Do::sanitise))}};
  if (plan.stages.size() > 1) step["stage"] = stage + 1;
  step["items"] = items;
  way.patch.push_back(add("/steps/" + std::to_string(*first), step));
  way.says = "sanitise " + listed(items) + " in one step before " + plan.steps[at(*first)].verb;
  return way;
}

// --- whole days earlier -----------------------------------------------------------------------

std::optional<Way> days_earlier(const Plan& plan) {
  if (!plan.start) return std::nullopt;
  const Workings w = work_out(plan, unfold(plan), Draw{});
  if (!w.times.slack || w.times.slack->hours() >= 0) return std::nullopt;
  const double days = std::ceil(-w.times.slack->days() - 1e-9);
  constexpr double most_days = 60;
  if (days > most_days) return std::nullopt;
  const LocalTime start = *plan.start - Duration::days(days);
  Way way;
  way.asks = Asks::time;
  way.kind = "start";
  way.says = "start at the same hour, but on " + spoken(start);
  way.patch.push_back(add("/start", iso(start)));
  return way;
}

// --- another vessel of the member's -----------------------------------------------------------

/// Puts `now` where `old` stands in the steps of one stage.
void rename_in_steps(const Plan& plan, int stage, const std::string& old, const std::string& now,
                     ordered_json& patch) {
  const int next = stage + 1;
  for (const Step& step : plan.steps) {
    if (step.path.empty()) continue;
    const bool own = step.stage == stage;
    const bool poured = step.stage == next && step.from == old && step.does == Do::pitch;
    if (own && step.in == old) patch.push_back(add(step.path + "/in", now));
    if ((own || poured) && step.from == old) patch.push_back(add(step.path + "/from", now));
    if (own && step.into == old) patch.push_back(add(step.path + "/to", now));
    if (!own || std::find(step.items.begin(), step.items.end(), old) == step.items.end()) continue;
    ordered_json items = step.items;
    for (ordered_json& item : items)
      if (item == old) item = now;
    patch.push_back(add(step.path + "/items", items));
  }
}

void other_vessels(const Plan& plan, int stage, UnitSystem units, std::vector<Way>& ways) {
  if (stage < 0 || !plan.wrote("/vessels")) return;
  const std::string& old = plan.stages[at(stage)].vessel;
  for (const auto& [name, vessel] : plan.vessels) {
    const bool used = std::any_of(plan.stages.begin(), plan.stages.end(),
                                  [&, &taken = name](const Stage& s) { return s.vessel == taken; });
    if (name == old || used || !may_grow(vessel) ||
        vessel.capacity <= plan.vessels.at(old).capacity)
      continue;
    Way way;
    way.says = "grow in your “" + name + "” of " + write(vessel.capacity, units) + ", not in “" +
               old + "”";
    way.patch.push_back(add("/stages/" + std::to_string(stage) + "/vessel", name));
    rename_in_steps(plan, stage, old, name, way.patch);
    ways.push_back(std::move(way));
  }
}

bool is_one_of(const std::string& id, std::initializer_list<std::string_view> ids) {
  return std::find(ids.begin(), ids.end(), id) != ids.end();
}

}  // namespace

std::vector<Way> remedies(const Plan& plan, std::span<const Rule>, const Verdict& verdict,
                          UnitSystem units) {
  std::vector<Way> ways;
  const auto take = [&ways](std::optional<Way> way) {
    if (way) ways.push_back(std::move(*way));
  };
  const std::string& id = verdict.rule->id;
  if (verdict.rule->kind == RuleKind::contact) take(sanitise_together(plan, verdict.stage));
  if (verdict.rule->measure == "slack") take(days_earlier(plan));
  if (is_one_of(id, {"growth-headroom", "boil-headroom", "cells-enough"}))
    other_vessels(plan,
                  verdict.stage >= 0 ? verdict.stage : static_cast<int>(plan.stages.size()) - 1,
                  units, ways);
  if (is_one_of(id, {"cells-enough", "growth-headroom", "inoculation"})) take(step_up(plan, units));
  return ways;
}

}  // namespace starter
