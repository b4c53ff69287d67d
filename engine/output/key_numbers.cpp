#include "output/key_numbers.h"

#include <fmt/format.h>

#include <cmath>

#include "rules/telling.h"
#include "science/extract.h"

namespace starter {
namespace {

/// The measures of one part of a plan, written for people.
class Numbers {
 public:
  Numbers(const Judgement& j, int stage, UnitSystem units)
      : measures_(j.measures), stage_(stage), units_(units) {}

  const Measure* find(std::string_view name) const { return find_measure(measures_, name, stage_); }
  std::string value(std::string_view name) const {
    const Measure* m = find(name);
    return m ? write_value(m->value, m->unit, units_) : "";
  }
  std::string range(std::string_view name) const {
    const Measure* m = find(name);
    return m ? value_text(*m, units_) : "";
  }

 private:
  std::span<const Measure> measures_;
  int stage_;
  UnitSystem units_;
};

class Rows {
 public:
  /// A row is left out when there is nothing to say.
  void add(const char* name, const std::string& text) {
    if (!text.empty()) rows_.emplace_back(name, text);
  }
  std::vector<std::pair<std::string, std::string>> take() { return std::move(rows_); }

 private:
  std::vector<std::pair<std::string, std::string>> rows_;
};

std::string wort(const Numbers& n, UnitSystem units) {
  const Measure* gravity = n.find("wort_gravity");
  if (!gravity) return n.range("wort_volume");
  return fmt::format("{} at {} ({})", n.range("wort_volume"),
                     write(science::sg(Plato::degrees(gravity->value)), units),
                     n.value("wort_gravity"));
}

/// From about 500 m up, water boils a degree and a half cooler than at the sea, and a minute of
/// boiling does over a third less: then the height is worth a word.
std::string boil(const Numbers& n, Altitude altitude, UnitSystem units) {
  if (!n.find("boil_time")) return "";
  std::string text = fmt::format("{} at {}", n.value("boil_time"), n.value("boil_temperature"));
  if (altitude >= Altitude::metres(500))
    text += fmt::format(", {}; {} up, wort boils cooler", n.value("boil_lethality"),
                        write(altitude, units));
  return text;
}

std::string chill(const Numbers& n) {
  if (!n.find("chill_target")) return "";
  if (n.find("chill_time"))
    return fmt::format("{} to {}", n.range("chill_time"), n.value("chill_target"));
  return fmt::format("never reaches {}; the bath gets it to {}", n.value("chill_target"),
                     n.value("bath_equilibrium"));
}

std::string growth(const Numbers& n) {
  if (!n.find("growth_time_needed")) return n.value("growth_time");
  return fmt::format("{} planned, {} needed", n.value("growth_time"),
                     n.range("growth_time_needed"));
}

std::string cold(const Numbers& n) {
  if (!n.find("crash_time")) return "";
  if (!n.find("crash_time_needed")) return n.range("crash_time");
  return fmt::format("{} cold, {} needed", n.range("crash_time"), n.range("crash_time_needed"));
}

std::string needed(const Numbers& n, const Plan& plan, UnitSystem units) {
  const auto& keep = plan.beer.keep_cells;
  return n.range("cells_needed") + (keep ? ", " + write(*keep, units) + " of them to keep" : "");
}

std::string coverage(const Numbers& n) {
  const Measure* m = n.find("cells_coverage");
  if (!m) return "";
  const auto percent = [](double ratio) { return write_number(std::round(100 * ratio), 6); };
  std::string text = percent(m->value) + " % of the need";
  if (!m->certain() && percent(m->low) != percent(m->high))
    text += fmt::format(" ({}–{} %)", percent(m->low), percent(m->high));
  return text;
}

std::string cells(const Numbers& n) {
  return n.find("cells_at_pitch") ? n.range("cells_at_pitch") + ", " + coverage(n) : "";
}

std::string spare(Duration slack, UnitSystem units) {
  if (slack == Duration::hours(0)) return "just in time";
  return slack > Duration::hours(0) ? write(slack, units) + " to spare"
                                    : write(slack * -1.0, units) + " too late";
}

/// "50 billion, which is 27 mL (21–38 mL) of the loosened slurry"
std::string kept(const Numbers& n, bool decanted) {
  if (!n.find("cells_kept")) return "";
  if (n.find("cells_kept")->value <= 0)
    return n.range("cells_kept") + ": the beer needs all there is";
  return fmt::format("{}, which is {} of {}", n.range("cells_kept"), n.range("slurry_kept"),
                     decanted ? "the loosened slurry" : "the starter");
}

void calendar(Rows& rows, const Schedule& times, UnitSystem units) {
  if (times.slack) {
    rows.add("Begin", spoken(*times.origin));
    rows.add("Ready",
             fmt::format("{}, {}", spoken(*times.due - *times.slack), spare(*times.slack, units)));
    rows.add("Yeast due", spoken(*times.due));
  } else if (times.latest_start && times.due) {
    rows.add("Begin", spoken(*times.latest_start) + " at the latest");
    rows.add("Yeast due", spoken(*times.due));
  } else if (times.origin) {
    rows.add("Begin", spoken(*times.origin));
    Duration last;
    for (const StepTime& step : times.times) last = std::max(last, step.end);
    rows.add("Ready", spoken(*times.origin + last));
  }
}

}  // namespace

std::vector<KeyNumbers> key_numbers(const Judgement& j, UnitSystem units) {
  std::vector<KeyNumbers> tables;
  const int stages = static_cast<int>(j.plan.stages.size());
  for (int stage = 0; stage < stages; ++stage) {
    const Numbers n(j, stage, units);
    Rows rows;
    rows.add("Wort", wort(n, units));
    rows.add("Boil", boil(n, j.plan.place.altitude, units));
    rows.add("Chill", chill(n));
    rows.add("Growth", growth(n));
    if (stages > 1) rows.add("Cells after it", n.range("cells_after_stage"));
    tables.push_back({stages > 1 ? "Stage " + std::to_string(stage + 1) : "", rows.take()});
  }
  const Numbers n(j, -1, units);
  Rows rows;
  rows.add("Cold rest", cold(n));
  rows.add("Cells needed", needed(n, j.plan, units));
  rows.add("Cells it gets", cells(n));
  rows.add("To keep", kept(n, j.workings.stages.back().decanted));
  calendar(rows, j.workings.times, units);
  if (stages > 1)
    tables.push_back({"For the beer", rows.take()});
  else
    for (auto& row : rows.take()) tables.front().rows.push_back(std::move(row));
  return tables;
}

}  // namespace starter
