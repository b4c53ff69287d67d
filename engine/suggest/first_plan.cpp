#include "suggest/first_plan.h"

#include <algorithm>
#include <utility>

#include "plan/read.h"
#include "plan/shape.h"
#include "suggest/sizing.h"
#include "suggest/suggest.h"

namespace starter {
namespace {

using nlohmann::ordered_json;

void set_agitation(ordered_json& document, Agitation agitation) {
  for (ordered_json& stage : document["stages"]) stage["agitation"] = spelling(agitation);
}

void set_heat(ordered_json& document, HeatSource heat) {
  if (!document.contains("steps")) return;
  for (ordered_json& step : document["steps"])
    if (step.value("do", "") == spelling(Do::boil) || step.value("do", "") == spelling(Do::heat))
      step["heat"] = spelling(heat);
}

bool takes_this_heat(const ordered_json& vessel, HeatSource heat) {
  const bool glass = vessel.value("kind", "") == spelling(VesselKind::conical_flask);
  return !glass || (heat != HeatSource::electric_coil && heat != HeatSource::induction);
}

/// The usual process boils in a borosilicate flask, which a bare coil may break and induction does
/// not heat. Taken for ordinary glass, it is filled from the pot, cold; then it is itself again.
class Unheated {
 public:
  Unheated(ordered_json& document, HeatSource heat) {
    if (!document.contains("vessels")) return;
    for (auto& [name, vessel] : document["vessels"].items()) {
      if (takes_this_heat(vessel, heat)) continue;
      was_.emplace_back(name, vessel.contains("material") ? vessel["material"] : ordered_json());
      vessel["material"] = spelling(Material::soda_lime_glass);
    }
  }
  void undo(ordered_json& document) const {
    for (const auto& [name, material] : was_) {
      if (material.is_null())
        document["vessels"][name].erase("material");
      else
        document["vessels"][name]["material"] = material;
    }
  }

 private:
  std::vector<std::pair<std::string, ordered_json>> was_;
};

bool is_clean(const Judgement& j) {
  const auto found = worst(j.findings);
  return !found || *found < Severity::weakens;
}

std::optional<Judgement> judged(const ordered_json& document, const Practice& practice,
                                UnitSystem units) {
  PlanResult read = read_plan(document.dump(), practice.defaults);
  auto* plan = std::get_if<Plan>(&read);
  if (plan == nullptr) return std::nullopt;
  return judge(std::move(*plan), practice.rules(), JudgeOptions::findings_only(units));
}

/// The same, its parts in the order they are best written.
ordered_json in_order(const ordered_json& document) {
  ordered_json sorted = ordered_json::object();
  for (const std::string_view part : shape::plan)
    if (document.contains(std::string(part)))
      sorted[std::string(part)] = document[std::string(part)];
  return sorted;
}

std::vector<std::string> not_in(const ordered_json& had, const ordered_json& has) {
  std::vector<std::string> names;
  if (!has.contains("vessels")) return names;
  for (const auto& [name, unused] : has["vessels"].items())
    if (!had.contains("vessels") || !had["vessels"].contains(name)) names.push_back(name);
  return names;
}

}  // namespace

std::optional<FirstPlan> first_plan(const ordered_json& document, const Habits& habits,
                                    const Practice& practice, UnitSystem units) {
  ordered_json whole = document;
  const Unheated unheated(whole, habits.heat);
  const auto sized = size_stages(whole, practice.rules(), units, practice.defaults);
  if (!sized) return std::nullopt;
  whole = whole.patch(sized->patch);
  set_agitation(whole, habits.agitation);

  SuggestOptions how;
  how.units = units;
  how.defaults = practice.defaults;
  auto filled = suggest(whole.dump(), practice.rules(), how);
  if (!filled) return std::nullopt;
  whole = filled->document;
  unheated.undo(whole);
  set_heat(whole, habits.heat);
  auto judgement = judged(whole, practice, units);
  if (judgement && !is_clean(*judgement) && whole != filled->document) {
    // What the member's own heat brings with it is mended like anything else.
    if (auto mended = suggest(whole.dump(), practice.rules(), how)) {
      whole = std::move(mended->document);
      judgement = judged(whole, practice, units);
    }
  }
  if (judgement) judgement = judged(in_order(whole), practice, units);
  if (!judgement) return std::nullopt;
  return FirstPlan{in_order(whole), std::move(*judgement), not_in(document, whole)};
}

}  // namespace starter
