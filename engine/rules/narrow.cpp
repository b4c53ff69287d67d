#include "rules/narrow.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <set>
#include <string_view>
#include <utility>
#include <vector>

#include "plan/json.h"
#include "plan/limits.h"
#include "plan/pointer.h"
#include "quantity/write.h"

namespace starter {
namespace {

constexpr auto metric = UnitSystem::metric;

std::size_t at(int i) {
  return static_cast<std::size_t>(i);
}

/// A field that can be filled in, and the plan as it would then be.
struct Candidate {
  std::string says;
  std::string where;
  Json value;
  /// "40 mL", as the plan has it now, with what it is where the finding tells another number that
  /// could be taken for it: "482 billion just after pouring off"; empty where nothing is taken.
  std::string taken;
  std::function<void(Plan&)> fill;
};

/// A count of this many times as many cells halves its error.
constexpr int count_more = 4;
/// Cells that a count is taken to have looked at when the plan does not say (common practice).
constexpr int usual_count = 300;

class Candidates {
 public:
  Candidates(const Plan& plan, const Workings& workings) : plan_(plan), workings_(workings) {}

  /// The fields that say what this unknown is, every stage's own.
  std::vector<Candidate> for_unknown(Unknown u) {
    found_.clear();
    says_ = std::string(text_of(u).narrow);
    switch (u) {
      case Unknown::pack_contents:
        pack();
        break;
      case Unknown::viability:
        viability();
        break;
      case Unknown::slurry_density:
      case Unknown::slurry_not_yeast:
        slurry();
        break;
      case Unknown::weather:
        break;
      default:
        for (int s = 0; s < static_cast<int>(plan_.stages.size()); ++s) of_stage(u, s);
        break;
    }
    return std::move(found_);
  }

 private:
  const Stage& stage(int s) const { return plan_.stages[at(s)]; }
  const StageWorking& working(int s) const { return workings_.stages[at(s)]; }

  void of_stage(Unknown u, int s) {
    const Readings& read = stage(s).measured;
    switch (u) {
      case Unknown::extract_solids:
        solids(s);
        break;
      case Unknown::boil_off:
        boil_off(s);
        break;
      case Unknown::hob_power:
        heating(s);
        break;
      case Unknown::chill_film:
        if (!read.chill_time && working(s).chill && working(s).chill->time)
          reading(s, "chill_time", &Readings::chill_time, *working(s).chill->time);
        break;
      case Unknown::growth_yield:
      case Unknown::shaken_weight:
        if (!read.cells)
          reading(s, "cells", &Readings::cells, working(s).expected_after,
                  " at the end of the growth");
        break;
      case Unknown::growth_pace:
        if (!read.growth_time)
          reading(s, "growth_time", &Readings::growth_time, working(s).growth_needed);
        break;
      case Unknown::cold_time_constant:
      case Unknown::clumping:
        if (!read.settling_time && workings_.crash_needed && s + 1 == stages())
          reading(s, "settling_time", &Readings::settling_time, settling(),
                  " with the time it takes to get cold");
        break;
      case Unknown::kept_by_decanting:
        if (!read.cells_kept && working(s).decanted)
          reading(s, "cells_kept", &Readings::cells_kept, working(s).handed_on,
                  " just after pouring off");
        break;
      default:
        break;
    }
  }

  int stages() const { return static_cast<int>(plan_.stages.size()); }

  /// " of stage 2"; nothing where there is one stage only.
  std::string of_which(int s) const {
    return stages() == 1 ? "" : fmt::format(" of stage {}", s + 1);
  }

  void add(const std::string& says, std::string where, Json value, std::string taken,
           std::function<void(Plan&)> fill) {
    found_.push_back({says, std::move(where), std::move(value), std::move(taken), std::move(fill)});
  }

  template <class Q>
  void reading(int s, const char* name, std::optional<Q> Readings::*member, Q value,
               const char* of = "") {
    if (value <= Q()) return;
    const std::string text = write(value, metric);
    add(says_ + of_which(s), fmt::format("/stages/{}/measured/{}", s, name), text, text + of,
        [=](Plan& plan) { plan.stages[at(s)].measured.*member = value; });
  }

  void solids(int s) {
    const Stage& held = stage(s);
    const Mass dissolved = working(s).before_boil.extract;
    if (held.extract_solids || held.extract_kind == ExtractKind::wort ||
        held.extract_mass <= Mass())
      return;
    const Share share = Share::ratio(dissolved / held.extract_mass);
    const std::string text = write(share, metric);
    add(says_ + of_which(s), fmt::format("/stages/{}/extract/solids", s), text, text,
        [=](Plan& plan) { plan.stages[at(s)].extract_solids = share; });
  }

  void boil_off(int s) {
    const StageWorking& x = working(s);
    const Volume lost = x.boiled_off.ratio() * science::volume(x.before_boil);
    if (stage(s).boil_off || !x.boil_step || lost <= Volume()) return;
    const std::string text = write(lost, metric);
    add(says_ + of_which(s), fmt::format("/stages/{}/boil_off", s), text, text,
        [=](Plan& plan) { plan.stages[at(s)].boil_off = lost; });
  }

  /// The `for` of the stage's heat step, or a heat step before its boil.
  void heating(int s) {
    const StageWorking& x = working(s);
    if (!x.boil_step || plan_.steps[at(*x.boil_step)].path.empty()) return;
    const std::string text = write(x.heating_time, metric);
    const std::string says = says_ + of_which(s);
    if (const auto heat = first_step(plan_, Do::heat, s)) {
      const int i = *heat;
      if (plan_.steps[at(i)].lasts) return;
      add(says, plan_.steps[at(i)].path + "/for", text, text,
          [=, time = x.heating_time](Plan& plan) { plan.steps[at(i)].lasts = time; });
      return;
    }
    const int boil = *x.boil_step;
    // What waits for a step by its place in the file would wait for another after it is put in.
    if (boil > 0 && plan_.steps[at(boil)].after) return;
    Json step = {{"do", "heat"}, {"stage", s + 1}, {"for", text}};
    add(says, plan_.steps[at(boil)].path, std::move(step), text,
        [=, time = x.heating_time](Plan& plan) {
          Step heat;
          heat.does = Do::heat;
          heat.verb = std::string(spelling(Do::heat));
          heat.stage = s;
          heat.lasts = time;
          heat.path = plan.steps[at(boil)].path;
          plan.steps.insert(plan.steps.begin() + boil, heat);
        });
  }

  /// Cold hours until clear, cooling included.
  Duration settling() const {
    for (int i = static_cast<int>(plan_.steps.size()) - 1; i >= 0; --i)
      if (plan_.steps[at(i)].does == Do::crash && workings_.cold_time) {
        const StepTime& rest = workings_.times.times[at(i)];
        const Duration planned = plan_.steps[at(i)].lasts.value_or(rest.end - rest.start);
        return planned - *workings_.cold_time + *workings_.crash_needed;
      }
    return *workings_.crash_needed;
  }

  /// More cells to look at, where the count is there already.
  void longer_count() {
    const int now = plan_.yeast.cells_counted.value_or(usual_count);
    const int more = std::min(now * count_more, most_cells_counted);
    if (more <= now) return;
    add("count more cells, and write how many you looked at as the yeast’s `cells_counted`",
        "/yeast/cells_counted", more, std::to_string(now),
        [=](Plan& plan) { plan.yeast.cells_counted = more; });
  }

  void pack() {
    const Yeast& y = plan_.yeast;
    if (y.measured_cells) return longer_count();
    const double living = workings_.viability.ratio();
    if (living <= 0 || workings_.cells_available <= CellCount()) return;
    const CellCount one = workings_.cells_available * (1 / living / y.packs);
    const std::string text = write(one, metric);
    add(says_, "/yeast/measured_cells", text, text + ", living and dead, in a pack",
        [=](Plan& plan) { plan.yeast.measured_cells = one; });
  }

  void viability() {
    if (plan_.yeast.viability) return longer_count();
    const Share living = workings_.viability;
    if (living <= Share()) return;
    const std::string text = write(living, metric);
    add(says_, "/yeast/viability", text, text, [=](Plan& plan) { plan.yeast.viability = living; });
  }

  void slurry() {
    const Yeast& y = plan_.yeast;
    const double living = workings_.viability.ratio();
    if (y.slurry_density || !y.slurry_volume || *y.slurry_volume <= Volume() || living <= 0) return;
    const CellDensity density = CellDensity::million_per_mL(
        workings_.cells_available.billion() * 1000 / living / y.slurry_volume->millilitres());
    const std::string text = write(density, metric);
    add(says_, "/yeast/slurry_density", text, text,
        [=](Plan& plan) { plan.yeast.slurry_density = density; });
  }

  const Plan& plan_;
  const Workings& workings_;
  std::string says_;
  std::vector<Candidate> found_;
};

/// How wide the range of one measure is, found as measure() finds it, but of the unknowns alone
/// that move it: that is a fraction of the work.
double width_of(const Measure& of, const Plan& plan, const Process& process) {
  const MeasureKind& kind = *find_measure_kind(of.name);
  const auto value_at = [&](const Draw& draw) {
    const Workings workings = work_out(plan, process, draw);
    return kind.value({plan, process, workings}, of.stage);
  };
  const double middle = value_at(Draw{}).value_or(of.value);
  double up = 0, down = 0;
  for (const Unknown u : of.movers) {
    double rise = 0, fall = 0;
    for (const double end : {-1.0, 1.0}) {
      Draw draw;
      draw.set(u, end);
      const double moved = value_at(draw).value_or(middle) - middle;
      rise = std::max(rise, moved);
      fall = std::max(fall, -moved);
    }
    up += rise * rise;
    down += fall * fall;
  }
  return std::sqrt(up) + std::sqrt(down);
}

/// How wide the numbers that the rule looks at are, taken together.
double width_of(const Spoken& s, const Plan& plan, const Process& process) {
  double width = 0;
  for (const Measure* of : {s.measure, s.against})
    if (of != nullptr) width += width_of(*of, plan, process);
  return width;
}

/// At most this many fields are tried; a plan has more stages than matter.
constexpr std::size_t most_tried = 4;

std::vector<Candidate> worth_trying(const Spoken& s, const Plan& plan, const Workings& workings) {
  Candidates candidates(plan, workings);
  std::vector<Candidate> all;
  std::set<std::string> seen;
  for (const Measure* of : {s.measure, s.against}) {
    if (of == nullptr) continue;
    for (const Unknown u : of->movers)
      for (Candidate& c : candidates.for_unknown(u))
        if (all.size() < most_tried && seen.insert(c.where).second) all.push_back(std::move(c));
  }
  return all;
}

std::optional<Candidate> best_for_number(const Spoken& s, const Plan& plan, const Process& process,
                                         const Workings& workings) {
  std::optional<Candidate> best;
  double narrowest = width_of(s, plan, process);
  for (Candidate& candidate : worth_trying(s, plan, workings)) {
    Plan filled = plan;
    candidate.fill(filled);
    const double width = width_of(s, filled, unfold(filled));
    if (width >= narrowest * 0.999) continue;  // what is gained by rounding is no gain
    narrowest = width;
    best = std::move(candidate);
  }
  return best;
}

/// The field that says what the plan leaves open.
std::optional<Candidate> field_for_fact(const Fact& fact, const Plan& plan) {
  const auto field = [](std::string says, std::string where, Json value) {
    return Candidate{std::move(says), std::move(where), std::move(value), "", {}};
  };
  if (fact.name == "agitation_stated")
    return field("write how it is moved as the stage’s `agitation`",
                 fmt::format("/stages/{}/agitation", fact.stage),
                 spelling(plan.stages[at(fact.stage)].agitation));
  if (fact.name == "boil_vessel_heat" && fact.step >= 0 && !plan.steps[at(fact.step)].path.empty())
    return field("write what heats it as the step’s `heat`",
                 plan.steps[at(fact.step)].path + "/heat", spelling(HeatSource::gas));
  if (fact.name == "extract_kind")
    return field("write what is weighed as the extract’s `kind`",
                 fmt::format("/stages/{}/extract/kind", fact.stage),
                 spelling(plan.stages[at(fact.stage)].extract_kind));
  return std::nullopt;
}

/// Days that stand for the one on the pack, which nobody but the member knows.
std::optional<Candidate> day_for_fact(const Fact& fact, const Plan& plan,
                                      const Workings& workings) {
  const auto day = [&](std::string says, std::string where, Duration later) {
    // Without a clock of the plan there is no day to count from; any shows how it is written.
    const LocalTime first = workings.times.origin.value_or(LocalTime::from_minutes(0));
    return Candidate{std::move(says), std::move(where), iso_day(first + later), "", {}};
  };
  if (fact.name == "weak_pack" && !plan.yeast.packaged)
    return day("write the day on the pack as the yeast’s `packaged`", "/yeast/packaged",
               workings.pack_age * -1.0);
  if (fact.name == "dry_grown")
    return day("write the date on the pack as the yeast’s `best_before`", "/yeast/best_before",
               Duration::days(180));
  return std::nullopt;
}

/// An item that practice supplies, or that was cleaned long before.
std::optional<Candidate> field_for_touch(const Spoken& s, const Plan& plan) {
  const Step& step = plan.steps[at(s.touch->step)];
  if (step.path.empty()) return std::nullopt;
  if (s.message == "stale")
    return Candidate{"sanitise it again and write that as a `sanitise` step before this one",
                     step.path,
                     {{"do", "sanitise"}, {"stage", step.stage + 1}, {"items", {s.touch->item}}},
                     "",
                     {}};
  std::vector<std::string> with = step.with;
  with.push_back(s.touch->item);
  return Candidate{
      "write what touches it as the step’s `with`, and what is sanitised in a "
      "`sanitise` step before",
      step.path + "/with",
      with,
      "",
      {}};
}

std::optional<Candidate> field_for(const Spoken& s, const Plan& plan, const Process& process,
                                   const Workings& workings) {
  if (s.measure != nullptr) return best_for_number(s, plan, process, workings);
  if (s.touch != nullptr) return field_for_touch(s, plan);
  if (s.fact == nullptr) return std::nullopt;
  if (auto field = field_for_fact(*s.fact, plan)) return field;
  if (auto day = day_for_fact(*s.fact, plan, workings)) return day;
  // How old the pack is, is known; how much of it lives is not.
  Candidates candidates(plan, workings);
  if (s.fact->name != "weak_pack") return std::nullopt;
  auto counted = candidates.for_unknown(Unknown::viability);
  return counted.empty() ? std::nullopt : std::optional(std::move(counted.front()));
}

/// The patch; where the object that the field belongs in isn't written, it is put in first.
std::string patch_for(const Candidate& c, const Plan& plan) {
  Json patch = Json::array();
  const std::string parent = c.where.substr(0, c.where.rfind('/'));
  const std::string_view ending = "/measured";
  const bool in_measured =
      parent.size() > ending.size() &&
      parent.compare(parent.size() - ending.size(), ending.size(), ending) == 0;
  if (in_measured && !plan.wrote(parent))
    patch.push_back(Json({{"op", "add"}, {"path", parent}, {"value", Json::object()}}));
  patch.push_back(Json({{"op", "add"}, {"path", c.where}, {"value", c.value}}));
  return patch.dump(-1, ' ', false, Json::error_handler_t::replace);
}

}  // namespace

std::optional<Narrowing> narrowing_of(const Spoken& spoken, const Plan& plan,
                                      const Process& process, const Workings& workings) {
  if (spoken.certainty == Certainty::certain) return std::nullopt;
  const auto found = field_for(spoken, plan, process, workings);
  if (!found) return std::nullopt;
  Narrowing narrowing;
  narrowing.says =
      found->says + (found->taken.empty() ? "" : " (now " + found->taken + " is taken)");
  narrowing.where = found->where;
  narrowing.patch = patch_for(*found, plan);
  return narrowing;
}

}  // namespace starter
