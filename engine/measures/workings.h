#pragma once

/// \file
/// A plan carried through the science, once, for one draw of the unknowns.
///
/// Every number here is a plain value: ranges come from carrying the plan through several draws
/// (measures.h). A field is empty where the plan has no such thing (no chill step: no chill time).

#include <optional>
#include <string>
#include <vector>

#include "measures/unknowns.h"
#include "plan/model.h"
#include "process/process.h"
#include "process/schedule.h"
#include "science/extract.h"

namespace starter {

/// A glass vessel meets something much hotter or colder.
struct GlassMeeting {
  std::string vessel;
  Material material = Material::borosilicate_glass;
  TemperatureDifference step;
  int at_step = 0;
  bool cooling = false;  ///< the glass is the hotter: the dangerous way
};

/// How one stage chills.
struct ChillWorking {
  int step = 0;
  Temperature target;
  Temperature starts_at;
  Volume bath;
  Temperature bath_starts;
  Mass ice;
  Temperature ice_from;
  Conductance conductance;
  HeatCapacity wort_and_vessel;
  Temperature reaches;             ///< what bath and ice can reach
  std::optional<Duration> time;    ///< to the target; empty when it is never reached
  std::optional<Mass> ice_needed;  ///< to reach the target; empty when no ice can
  std::optional<Share> bath_fill;  ///< empty when the step names no vessel for the bath
  bool floats = false;
};

/// Where the chilling stops: at the target, or at what bath and ice can reach, or before it begins
/// where the wort is cooler already.
Temperature chilled_to(const ChillWorking& chill);

struct StageWorking {
  science::Wort before_boil;
  science::Wort wort;  ///< finished, cold
  Volume volume;       ///< of `wort` at 20 °C
  Plato gravity;
  std::string boil_vessel;
  std::optional<int> boil_step;
  Duration boil_time;
  Duration heating_time;
  Temperature boils_at;
  double pasteurisation_units = 0;
  Share boiled_off;  ///< of the volume before the boil
  Share boil_fill;
  Volume grown_volume;  ///< wort plus what the stage before leaves in the vessel
  Share growth_fill;
  std::optional<GlassMeeting> glass;  ///< the hardest meeting of the stage
  std::optional<ChillWorking> chill;
  std::optional<Temperature> pitch_temperature;
  std::optional<TemperatureDifference> pack_gap;
  std::optional<Duration> wort_wait;
  CellCount living_pitched;
  CellDensity inoculation;
  CellCount all_new;         ///< when the stage is given all the time it needs
  Share grown;               ///< of them there at the end of the planned time
  CellCount expected_after;  ///< living at the end of growth, as computed
  CellCount living_after;    ///< the same, or the member's own count where there is one
  CellCount handed_on;       ///< of these, what the next stage or the beer gets
  Duration growth_needed;
  bool decanted = false;
};

struct Workings {
  std::vector<StageWorking> stages;
  StepDurations durations;
  Schedule times;
  Duration pack_age;  ///< at the first pitch; club practice when the plan cannot tell
  bool pack_age_known = false;
  Share viability;
  CellCount cells_available;
  CellCount beer_needs;      ///< by the pitching rate
  CellCount cells_needed;    ///< for the beer and to keep
  CellCount cells_at_pitch;  ///< there when the beer gets its yeast, those to keep among them
  CellCount cells_kept;   ///< what is left to keep of `Beer::keep_cells` once the beer has enough
  Volume slurry_kept;     ///< the part of `into_beer` that holds them
  Volume starter_volume;  ///< of the last stage, all of it
  Volume into_beer;       ///< what of it goes into the beer, yeast included
  std::optional<Duration> cold_time;  ///< hours of the cold rest within 1 K of its place
  std::optional<Duration> crash_needed;
  std::optional<TemperatureDifference> slurry_gap;
  std::optional<Duration> slurry_age;
  std::optional<Duration> warm_wait;
  Plato beer_gravity_shift;
};

/// Carries the plan through the science.
Workings work_out(const Plan& plan, const Process& process, const Draw& draw);

/// Whether the beer of a stage is poured off before its yeast goes on.
bool decants(const Plan& plan, int stage);

}  // namespace starter
