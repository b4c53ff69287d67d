#include "output/cautions_of.h"

#include <algorithm>
#include <climits>

#include "output/places.h"
#include "output/step_words.h"
#include "quantity/sorted.h"

namespace starter {
namespace {

/// A step of a plan, with what decides which dangers it brings.
struct Doing {
  Do what;
  const Step& step;
  const Stage& stage;
  bool in_glass;
  bool keeps;  ///< live yeast is kept back for another batch
};

bool stirred(const Doing& d) {
  return d.stage.agitation == Agitation::stir_plate;
}
bool hot_step(Do what) {
  return what == Do::boil || what == Do::heat;
}
bool hot(const Doing& d) {
  return hot_step(d.what);
}
bool handles_hot(const Doing& d) {
  return hot(d) || d.what == Do::chill;
}

/// Which step calls for which caution (common practice, no source).
struct Need {
  const char* caution;
  bool (*by)(const Doing&);
};
constexpr Need needs[] = {
    {"allergen",
     [](const Doing& d) {
       return d.what == Do::weigh && d.stage.extract_kind != ExtractKind::table_sugar;
     }},
    {"heat", handles_hot},
    {"boil_over", hot},
    {"gas", [](const Doing& d) { return hot(d) && d.step.heat == HeatSource::gas; }},
    {"glass", [](const Doing& d) { return d.in_glass && (handles_hot(d) || d.what == Do::move); }},
    {"chemicals", [](const Doing& d) { return d.what == Do::sanitise; }},
    {"alcohol", [](const Doing& d) { return d.what == Do::sanitise; }},
    {"pressure",
     [](const Doing& d) {
       return d.what == Do::pitch || d.what == Do::agitate || d.what == Do::krausen_pitch ||
              d.keeps;
     }},
    {"magnet", [](const Doing& d) { return d.what == Do::agitate && stirred(d); }},
    {"electricity", [](const Doing& d) { return d.what == Do::agitate && stirred(d); }},
    {"storage", [](const Doing& d) { return d.what == Do::store; }},
};

bool is_glass(const Plan& plan, const std::string& vessel) {
  const auto found = plan.vessels.find(vessel);
  if (found == plan.vessels.end()) return false;
  return found->second.material == Material::borosilicate_glass ||
         found->second.material == Material::soda_lime_glass;
}

bool in_glass(const Judgement& j, int index) {
  const Step& step = j.plan.steps[static_cast<std::size_t>(index)];
  if (hot_step(*step.does) && step.in) return is_glass(j.plan, *step.in);
  return is_glass(j.plan, vessel_at(j.plan, j.process, index)) ||
         (step.into && is_glass(j.plan, *step.into));
}

NeededCaution& needed(std::vector<NeededCaution>& all, const std::string& id) {
  const Caution* caution = find_caution(id);
  const auto found = std::find_if(
      all.begin(), all.end(), [caution](const NeededCaution& n) { return n.caution == caution; });
  if (found != all.end()) return *found;
  all.push_back({caution, {}, {}});
  return all.back();
}

int first_step_of(const NeededCaution& n) {
  return n.steps.empty() ? INT_MAX : *n.steps.begin();
}

}  // namespace

std::vector<NeededCaution> cautions_of(const Judgement& j) {
  std::vector<NeededCaution> all;
  for (std::size_t i = 0; i < j.plan.steps.size(); ++i) {
    const Step& step = j.plan.steps[i];
    if (!step.does) continue;
    const int index = static_cast<int>(i);
    const Doing doing{*step.does, step, j.plan.stages[static_cast<std::size_t>(step.stage)],
                      in_glass(j, index), !keep_in_words(j, index, UnitSystem::metric).empty()};
    for (const Need& need : needs)
      if (need.by(doing)) needed(all, need.caution).steps.insert(index);
  }
  for (const Finding& f : j.findings)
    for (const std::string& id : f.rule->cautions) {
      if (!find_caution(id)) continue;
      NeededCaution& n = needed(all, id);
      const auto step = f.step >= 0 ? std::optional(f.step) : step_at(j.plan, f.where);
      if (step)
        n.steps.insert(*step);
      else
        n.rules.insert(f.rule->id);
    }
  sort_short(all, [](const NeededCaution& a, const NeededCaution& b) {
    return first_step_of(a) < first_step_of(b);
  });
  return all;
}

}  // namespace starter
