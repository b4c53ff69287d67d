#include "measures/measures.h"

#include <algorithm>
#include <cmath>

#include "quantity/sorted.h"
#include "quantity/write.h"

namespace starter {
namespace {

constexpr int digits = 6;

std::string place_of(Of of, int stage) {
  switch (of) {
    case Of::stage:
      return "/stages/" + std::to_string(stage);
    case Of::yeast:
      return "/yeast";
    case Of::beer:
      return "/beer";
    case Of::plan:
      return "";
  }
  return "";
}

/// Workings at the draws that differ from the likely one in a single unknown.
struct Moved {
  Unknown unknown;
  Workings low;
  Workings high;
};

/// \param likely as it was when the plan was worked out with it.
std::vector<Moved> move_each(const Plan& plan, const Process& process, const Draw& likely) {
  std::vector<Moved> all;
  for (std::size_t i = 0; i < unknown_count; ++i) {
    const auto u = static_cast<Unknown>(i);
    if (!likely.asked(u)) continue;  // a plan of dry yeast has no slurry to be thick or thin
    Draw low, high;
    low.set(u, -1);
    high.set(u, 1);
    all.push_back({u, work_out(plan, process, low), work_out(plan, process, high)});
  }
  return all;
}

/// The spread is found around the value as computed and only then kept inside the measure's ends:
/// a shortfall that is none by a small margin may yet be one at the other end.
void widen(Measure& measure, const MeasureKind& kind, const Case& likely,
           const std::vector<Moved>& moved) {
  const double middle = kind.value(likely, measure.stage).value_or(measure.value);
  double up = 0, down = 0;
  std::vector<std::pair<double, Unknown>> movements;
  for (const Moved& m : moved) {
    const auto at_low = kind.value({likely.plan, likely.process, m.low}, measure.stage);
    const auto at_high = kind.value({likely.plan, likely.process, m.high}, measure.stage);
    const double a = at_low.value_or(middle) - middle;
    const double b = at_high.value_or(middle) - middle;
    const double rise = std::max({a, b, 0.0});
    const double fall = std::max({-a, -b, 0.0});
    up += rise * rise;
    down += fall * fall;
    if (rise + fall > 0) movements.emplace_back(rise + fall, m.unknown);
  }
  sort_short(movements, [](const auto& a, const auto& b) { return a.first > b.first; });
  for (const auto& movement : movements) measure.movers.push_back(movement.second);
  if (!movements.empty()) measure.widest = movements.front().second;
  measure.low = std::clamp(middle - std::sqrt(down), kind.least, kind.most);
  measure.high = std::clamp(middle + std::sqrt(up), kind.least, kind.most);
}

/// All measures at one draw, as computed.
std::vector<Measure> unrounded(const Case& c) {
  std::vector<Measure> all;
  auto add = [&](const MeasureKind& kind, int stage) {
    const auto value = kind.value(c, stage);
    if (!value || !std::isfinite(*value)) return;
    Measure made;
    made.name = kind.name;
    made.unit = kind.unit;
    made.stage = stage;
    made.of = place_of(kind.of, stage);
    made.where = kind.where ? kind.where(c, stage) : made.of;
    made.value = made.low = made.high = std::clamp(*value, kind.least, kind.most);
    all.push_back(std::move(made));
  };
  for (int stage = 0; stage < static_cast<int>(c.plan.stages.size()); ++stage)
    for (const MeasureKind& kind : measure_kinds())
      if (kind.of == Of::stage) add(kind, stage);
  for (const MeasureKind& kind : measure_kinds())
    if (kind.of != Of::stage) add(kind, -1);
  return all;
}

void round(Measure& m) {
  m.value = round_to_digits(m.value, digits);
  m.low = round_to_digits(m.low, digits);
  m.high = round_to_digits(m.high, digits);
  if (!m.certain()) return;
  m.widest.reset();
  m.movers.clear();
}

}  // namespace

std::vector<Measure> likely_measures(const Case& c) {
  std::vector<Measure> all = unrounded(c);
  for (Measure& m : all) round(m);
  return all;
}

std::vector<Measure> measure(const Plan& plan, const Process& process) {
  const Draw draw;
  const Workings likely = work_out(plan, process, draw);
  const std::vector<Moved> moved = move_each(plan, process, draw);
  const Case c{plan, process, likely};
  std::vector<Measure> all = unrounded(c);
  for (Measure& m : all) {
    const MeasureKind& kind = *find_measure_kind(m.name);
    widen(m, kind, c, moved);
    round(m);
    m.how = kind.how(c, m.stage);
  }
  return all;
}

std::optional<double> likely_value(const MeasureKind& kind, const Plan& plan,
                                   const Process& process, int stage) {
  const Workings likely = work_out(plan, process, Draw{});
  const auto value = kind.value({plan, process, likely}, stage);
  if (!value || !std::isfinite(*value)) return std::nullopt;
  return round_to_digits(std::clamp(*value, kind.least, kind.most), digits);
}

const Measure* find_measure(std::span<const Measure> measures, std::string_view name, int stage) {
  const Measure* of_plan = nullptr;
  for (const Measure& m : measures) {
    if (m.name != name) continue;
    if (m.stage == stage) return &m;
    if (m.stage < 0) of_plan = &m;
  }
  return of_plan;
}

const MeasureKind* find_measure_kind(std::string_view name) {
  for (const MeasureKind& kind : measure_kinds())
    if (kind.name == name) return &kind;
  return nullptr;
}

}  // namespace starter
