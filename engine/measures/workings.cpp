#include "measures/workings.h"

#include <algorithm>
#include <cmath>

#include "science/atmosphere.h"
#include "science/boiling.h"
#include "science/chill.h"
#include "science/demand.h"
#include "science/dilution.h"
#include "science/films.h"
#include "science/glass.h"
#include "science/growth.h"
#include "science/headroom.h"
#include "science/heat.h"
#include "science/kinetics.h"
#include "science/lethality.h"
#include "science/newton_cooling.h"
#include "science/settling.h"
#include "science/slurry.h"
#include "science/supply.h"
#include "science/vessel_shape.h"
#include "science/water.h"

namespace starter {
namespace {

using namespace literals;

std::size_t at(int i) {
  return static_cast<std::size_t>(i);
}

// --- from the plan's words to the science's ---------------------------------------------------

const science::VesselMaterial& thermal(Material m) {
  switch (m) {
    case Material::borosilicate_glass:
      return science::borosilicate_vessel;
    case Material::soda_lime_glass:
      return science::soda_lime_vessel;
    case Material::stainless_steel:
      return science::stainless_vessel;
    case Material::aluminium:
      return science::aluminium_vessel;
    case Material::plastic:
      return science::plastic_vessel;
  }
  return science::plastic_vessel;
}

science::Shape shape(VesselKind kind) {
  switch (kind) {
    case VesselKind::conical_flask:
      return science::Shape::cone;
    case VesselKind::jug:
    case VesselKind::bottle:
    case VesselKind::jar:
      return science::Shape::tall_cylinder;
    case VesselKind::pot:
    case VesselKind::tub:
    case VesselKind::sink:
      return science::Shape::squat_cylinder;
  }
  return science::Shape::squat_cylinder;
}

science::Outline outline_of(const Vessel& v) {
  return science::outline(shape(v.kind), v.capacity, v.diameter, v.depth);
}

Mass empty_mass_of(const Vessel& v) {
  return v.empty_mass.value_or(
      science::empty_mass(v.capacity, thermal(v.material).empty_kilograms_per_litre.likely));
}

science::Clumping clumping(Flocculation f) {
  switch (f) {
    case Flocculation::low:
      return science::Clumping::low;
    case Flocculation::medium:
      return science::Clumping::medium;
    case Flocculation::high:
      return science::Clumping::high;
  }
  return science::Clumping::medium;
}

science::Aeration aeration(Agitation a) {
  switch (a) {
    case Agitation::stir_plate:
      return science::Aeration::stirred;
    case Agitation::shaken:
      return science::Aeration::shaken;
    case Agitation::none:
      return science::Aeration::still;
  }
  return science::Aeration::still;
}

Share solids_of(const Stage& stage, const Draw& draw) {
  if (stage.extract_solids) return *stage.extract_solids;
  const auto& span = stage.extract_kind == ExtractKind::light_liquid_malt
                         ? science::liquid_malt_solids
                     : stage.extract_kind == ExtractKind::table_sugar ? science::sugar_solids
                                                                      : science::dry_malt_solids;
  return Share::ratio(draw.value(Unknown::extract_solids, span));
}

double pitching_rate(BeerKind kind) {
  switch (kind) {
    case BeerKind::ale:
      return science::ale_pitching_rate.likely;
    case BeerKind::lager:
      return science::lager_pitching_rate.likely;
    case BeerKind::hybrid:
      return science::hybrid_pitching_rate.likely;
  }
  return science::textbook_pitching_rate;
}

bool narrow_mouthed(VesselKind kind) {
  return kind == VesselKind::conical_flask || kind == VesselKind::jug || kind == VesselKind::bottle;
}

// --- one stage, up to the pitch ---------------------------------------------------------------

void make_wort(const Plan& plan, const Process& process, int stage, const Draw& draw,
               StageWorking& x) {
  const Stage& planned = plan.stages[at(stage)];
  if (planned.extract_kind == ExtractKind::wort)
    x.before_boil = science::wort_of(planned.water, science::plato(*planned.gravity));
  else
    x.before_boil =
        science::dissolve(planned.extract_mass, solids_of(planned, draw), planned.water);
  x.boil_step = first_step(plan, Do::boil, stage);
  x.boil_vessel = planned.vessel;
  x.wort = x.before_boil;
  if (x.boil_step) {
    x.boil_vessel = boiled_in(plan, process, *x.boil_step);
    for (int boil : steps_of(plan, Do::boil, stage))
      x.boil_time += plan.steps[at(boil)].lasts.value_or(Duration());
    const Vessel& vessel = plan.vessels.at(x.boil_vessel);
    const auto& rate =
        narrow_mouthed(vessel.kind) ? science::boil_off_covered_flask : science::boil_off_open_pot;
    const Volume lost = planned.boil_off.value_or(
        BoilOffRate::litres_per_hour(draw.value(Unknown::boil_off, rate)) * x.boil_time);
    x.wort = science::boil_down(x.before_boil, lost);
    const Volume before = science::volume(x.before_boil);
    if (before > Volume()) x.boiled_off = Share::ratio(std::min(1.0, lost / before));
    x.boil_fill = science::fill(before, vessel.capacity);
    x.boils_at = science::boiling_point(
        plan.place.altitude, science::plato(x.wort),
        Pressure::kilopascals(draw.value(Unknown::weather, science::weather_kPa)));
    x.pasteurisation_units = science::pasteurisation_units(x.boils_at, x.boil_time);
    const HeatCapacity total =
        science::heat_capacity(x.before_boil, 60_degC) +
        science::heat_capacity(thermal(vessel.material), empty_mass_of(vessel));
    x.heating_time = science::time_to_boil(total, x.boils_at - plan.place.tap_water,
                                           draw.value(Unknown::hob_power, science::hob_kilowatts));
  }
  x.volume = science::volume(x.wort);
  x.gravity = science::plato(x.wort);
}

/// Glass that is moved into or chilled: the hardest step of temperature it takes.
void note_glass(const Plan& plan, const Process& process, int stage, StageWorking& x) {
  auto meet = [&](const std::string& name, Temperature glass, Temperature met, int step) {
    const auto found = plan.vessels.find(name);
    if (found == plan.vessels.end()) return;
    const Material material = found->second.material;
    if (material != Material::borosilicate_glass && material != Material::soda_lime_glass) return;
    const auto shock = science::thermal_shock(glass, met);
    if (!x.glass || shock.step > x.glass->step)
      x.glass = GlassMeeting{name, material, shock.step, step, shock.cooling};
  };
  const auto chilled = first_step(plan, Do::chill, stage);
  if (!x.boil_step) return;
  for (int move : steps_of(plan, Do::move, stage)) {
    const auto& into = plan.steps[at(move)].into;
    if (!into || !process.precedes(*x.boil_step, move)) continue;
    if (chilled && process.precedes(*chilled, move)) continue;
    meet(*into, plan.place.room, x.boils_at, move);
  }
  if (x.chill)
    meet(vessel_at(plan, process, x.chill->step), x.boils_at, x.chill->bath_starts, x.chill->step);
}

/// A bath the plan does not measure out: filled to the height of the wort, as practice has it,
/// but never past three quarters of the tub.
Volume usual_bath(const Plan& plan, const Step& step, const science::Outline& vessel,
                  Length wort_depth, Length wall) {
  const auto tub = step.in ? plan.vessels.find(*step.in) : plan.vessels.end();
  if (tub == plan.vessels.end()) return Volume::litres(8);
  const Volume level = science::volume_to(outline_of(tub->second), wort_depth) -
                       science::displaced(vessel, wort_depth, wall);
  return std::clamp(level, tub->second.capacity * 0.1, tub->second.capacity * 0.75);
}

void chill_wort(const Plan& plan, const Process& process, int stage, const Draw& draw,
                StageWorking& x) {
  const auto chilled = first_step(plan, Do::chill, stage);
  if (!chilled) return;
  const Step& step = plan.steps[at(*chilled)];
  const Vessel& vessel = plan.vessels.at(vessel_at(plan, process, *chilled));
  const auto& material = thermal(vessel.material);
  const auto vessel_outline = outline_of(vessel);
  const science::Wetted wetted = science::wetted(vessel_outline, x.volume);

  ChillWorking c;
  c.step = *chilled;
  c.target = step.to.value_or(plan.stages[at(stage)].temperature);
  c.starts_at = x.boil_step ? x.boils_at : plan.place.tap_water;
  c.bath_starts = step.water.value_or(plan.place.tap_water);
  // A plan without steps of its own gets the usual bath of a tub half full, and the ice it needs.
  const bool own_step = !step.path.empty();
  c.bath = step.bath.value_or(
      own_step ? usual_bath(plan, step, vessel_outline, wetted.depth, material.wall)
               : std::max(10_L, x.volume * 5));
  c.ice = step.ice.value_or(Mass());
  c.ice_from = step.ice_from.value_or(std::max(c.target, 40_degC));
  const Temperature halfway = c.target + (c.starts_at - c.target) * 0.5;
  c.wort_and_vessel = science::heat_capacity(x.wort, halfway) +
                      science::heat_capacity(material, empty_mass_of(vessel));
  if (!own_step)
    c.ice = science::ice_needed({c.wort_and_vessel, c.starts_at},
                                {science::bath_heat_capacity(c.bath, c.bath_starts), c.bath_starts},
                                c.target, 4_K);
  const double swirl = step.swirl || !own_step ? science::swirl_gain.likely : 1.0;
  c.conductance = science::conductance(wetted, material.wall, material.conductivity_W_per_mK,
                                       halfway, c.bath_starts + 5_K, swirl) *
                  draw.value(Unknown::chill_film, science::conductance_spread);

  const science::Chilled result =
      science::chill({c.wort_and_vessel, c.starts_at, c.bath, c.bath_starts, c.ice, c.ice_from,
                      c.conductance, c.target});
  c.reaches = result.lowest;
  c.time = result.time;
  if (const auto& read = plan.stages[at(stage)].measured.chill_time) c.time = read;
  if (c.target > 0_degC)
    c.ice_needed = science::ice_needed(
        {c.wort_and_vessel, c.starts_at},
        {science::bath_heat_capacity(c.bath, c.bath_starts), c.bath_starts}, c.target);
  if (step.in) {
    const auto tub = plan.vessels.find(*step.in);
    if (tub != plan.vessels.end()) {
      const Length water = step.bath_depth.value_or(wetted.depth);
      const Volume displaced = science::displaced(vessel_outline, water, material.wall);
      c.bath_fill = science::bath_fill(c.bath, c.ice, displaced, tub->second.capacity);
      c.floats = step.bath_depth &&
                 science::floats(science::mass(x.wort) + empty_mass_of(vessel), displaced);
    }
  }
  x.chill = c;
}

Duration cold_litre(const Draw& draw) {
  return Duration::hours(
      draw.value(Unknown::cold_time_constant, science::litre_time_constant_hours));
}
Duration time_constant(Volume v, const Draw& draw) {
  return science::time_constant(v, cold_litre(draw).hours());
}

// --- how long steps take ----------------------------------------------------------------------

/// Minutes of handwork a step takes when the plan does not say. Common practice, no source.
Duration usual_time(Do what) {
  switch (what) {
    case Do::weigh:
    case Do::dissolve:
    case Do::decant:
    case Do::pitch_to_beer:
    case Do::krausen_pitch:
      return 10_min;
    case Do::move:
    case Do::sanitise:
    case Do::pitch:
      return 5_min;
    case Do::check_temperature:
      return 3_min;
    case Do::add:
      return 2_min;
    case Do::cover:
      return 1_min;
    default:
      return Duration();
  }
}

Temperature cold_place(const Plan& plan, const Step& step) {
  return step.at.value_or(plan.place.fridge);
}

/// The cold rest a stage needs, cooling down included.
Duration whole_cold_rest(const Plan& plan, int stage, const StageWorking& x, Temperature cold,
                         const Draw& draw, Duration* needed) {
  const Stage& planned = plan.stages[at(stage)];
  const Duration cooling = science::newton_time_to_within(planned.temperature, cold, 1_K,
                                                          time_constant(x.grown_volume, draw));
  if (planned.measured.settling_time) {
    *needed = std::max(Duration(), *planned.measured.settling_time - cooling);
    return cooling;
  }
  const Length depth = science::depth_of(outline_of(plan.vessel_of(planned)), x.grown_volume);
  *needed = science::crash_time_needed(clumping(plan.yeast.flocculation), depth, cold,
                                       draw.value(Unknown::clumping, science::clump_spread));
  return cooling;
}

/// Settled slurry left after decanting, with enough beer to swirl it loose. Common practice.
constexpr Volume slurry_left = 150_mL;

/// Warming a decanted slurry from the fridge to within a degree or to its target.
Duration warming_time(const Plan& plan, const Step& step, const Draw& draw) {
  const Duration tau = time_constant(slurry_left, draw);
  const Temperature target = step.to.value_or(plan.place.room);
  TemperatureDifference left = plan.place.room - target;
  if (left < 1_K) left = 1_K;
  return science::newton_time_to_within(plan.place.fridge, plan.place.room, left, tau);
}

StepDurations durations_of(const Plan& plan, const Process& process, const Workings& w,
                           const Draw& draw) {
  StepDurations d;
  d.lasts.assign(plan.steps.size(), Duration());
  d.then_waits.assign(plan.steps.size(), Duration());
  std::vector<std::optional<int>> grows;
  grows.reserve(plan.stages.size());
  for (int stage = 0; stage < static_cast<int>(plan.stages.size()); ++stage)
    grows.push_back(growth_step(plan, process, stage));
  for (int i = 0; i < static_cast<int>(plan.steps.size()); ++i) {
    const Step& step = plan.steps[at(i)];
    const Stage& stage = plan.stages[at(step.stage)];
    const StageWorking& x = w.stages[at(step.stage)];
    Duration& lasts = d.lasts[at(i)];
    if (!step.does) {
      lasts = step.lasts.value_or(Duration());
      continue;
    }
    lasts = step.lasts.value_or(usual_time(*step.does));
    switch (*step.does) {
      case Do::heat:
        if (!step.lasts) lasts = x.heating_time;
        break;
      case Do::boil:
        if (!first_step(plan, Do::heat, step.stage)) lasts += x.heating_time;
        break;
      case Do::chill:
        if (!step.lasts && x.chill && x.chill->time) lasts = *x.chill->time;
        if (!step.lasts && x.chill && !x.chill->time) lasts = 1_h;
        break;
      case Do::agitate:
      case Do::rest:
        // The stage governs how long its growth lasts.
        if (i == grows[at(step.stage)]) lasts = stage.duration;
        break;
      case Do::pitch:
        if (!grows[at(step.stage)]) d.then_waits[at(i)] = stage.duration;
        break;
      case Do::crash:
        if (!step.lasts) {
          Duration needed;
          lasts = whole_cold_rest(plan, step.stage, x, cold_place(plan, step), draw, &needed);
          lasts += needed;
        }
        break;
      case Do::warm:
        if (!step.lasts) lasts = warming_time(plan, step, draw);
        break;
      default:
        break;
    }
  }
  return d;
}

// --- the yeast --------------------------------------------------------------------------------

void age_yeast(const Plan& plan, const Draw& draw, Workings& w) {
  const Yeast& y = plan.yeast;
  w.pack_age = plan.defaults().pack_age;
  if (y.packaged && w.times.origin) {
    const auto pitch = first_step(plan, Do::pitch, 0);
    const Duration until = pitch ? w.times.times[at(*pitch)].start : Duration();
    w.pack_age = (*w.times.origin + until) - *y.packaged;
    w.pack_age_known = true;
  }
  const double reading = draw.value(Unknown::viability, science::decline_reading);
  if (y.viability) {
    // A count: two standard errors either way.
    const Share error = science::standard_error(*y.viability, y.cells_counted.value_or(300));
    w.viability = Share::ratio(std::clamp(
        y.viability->ratio() + 2 * draw.place(Unknown::viability) * error.ratio(), 0.0, 1.0));
  } else if (y.form == YeastForm::dry) {
    w.viability = Share::ratio(1);
  } else if (y.form == YeastForm::slurry) {
    w.viability = science::slurry_viability(w.pack_age, reading);
  } else {
    w.viability = science::viability(w.pack_age, reading);
  }
  CellCount all;
  if (y.measured_cells) {
    // A count of N cells has a relative standard error of 1/√N; two of them either way.
    const double error = 1 / std::sqrt(static_cast<double>(y.cells_counted.value_or(300)));
    all = *y.measured_cells * y.packs * (1 + 2 * draw.place(Unknown::pack_contents) * error);
    w.cells_available = all * w.viability.ratio();
    return;
  }
  switch (y.form) {
    case YeastForm::liquid:
      all = y.cells_per_pack * y.packs * draw.value(Unknown::pack_contents, science::pack_contents);
      break;
    case YeastForm::dry:
      all = plan.wrote("/yeast/cells_per_pack")
                ? y.cells_per_pack * y.packs *
                      draw.value(Unknown::pack_contents, science::pack_contents)
                : science::dry_yeast(y.pack_mass.value_or(Mass()) * y.packs,
                                     draw.value(Unknown::pack_contents, science::dry_yeast_cells));
      break;
    case YeastForm::slurry: {
      const double per_mL = y.slurry_density
                                ? y.slurry_density->billion_per_mL()
                                : draw.value(Unknown::slurry_density, science::slurry_cells_per_mL);
      // A count of the slurry itself already leaves out what is not yeast.
      const double not_yeast =
          y.slurry_density ? 0 : draw.value(Unknown::slurry_not_yeast, science::slurry_not_yeast);
      all = science::slurry_cells(y.slurry_volume.value_or(Volume()), per_mL,
                                  Share::ratio(not_yeast));
      break;
    }
  }
  w.cells_available = all * w.viability.ratio();
}

/// Volumes do not depend on the yeast: they come before the times.
void set_volumes(const Plan& plan, Workings& w) {
  Volume carried;
  for (int stage = 0; stage < static_cast<int>(plan.stages.size()); ++stage) {
    StageWorking& x = w.stages[at(stage)];
    x.decanted = decants(plan, stage);
    x.grown_volume = x.volume + carried;
    x.growth_fill = science::fill(x.grown_volume, plan.vessel_of(plan.stages[at(stage)]).capacity);
    carried = x.decanted ? std::min(slurry_left, x.grown_volume) : x.grown_volume;
  }
  w.starter_volume = w.stages.back().grown_volume;
  w.into_beer = carried;
}

void grow(const Plan& plan, const Draw& draw, Workings& w) {
  CellCount living = w.cells_available;
  for (int stage = 0; stage < static_cast<int>(plan.stages.size()); ++stage) {
    const Stage& planned = plan.stages[at(stage)];
    StageWorking& x = w.stages[at(stage)];
    x.living_pitched = living;
    x.inoculation = science::inoculation(living, x.volume);
    const Mass dry = science::dry_malt_equivalent(x.wort) * x.volume;
    x.all_new = science::new_cells(aeration(planned.agitation), living, dry,
                                   draw.value(Unknown::growth_yield, science::growth_yield),
                                   draw.value(Unknown::shaken_weight, science::shaken_weight));
    const auto course =
        science::growth_course(x.inoculation, x.gravity, planned.temperature, planned.duration,
                               draw.value(Unknown::growth_pace, science::growth_pace));
    x.growth_needed = planned.measured.growth_time.value_or(course.needed);
    x.grown = course.grown;
    x.expected_after = science::cells_after_stage(living, x.all_new, x.grown);
    x.living_after = planned.measured.cells.value_or(x.expected_after);
    x.handed_on = x.living_after;
    if (x.decanted && planned.measured.cells_kept)
      x.handed_on = *planned.measured.cells_kept;
    else if (x.decanted)
      x.handed_on =
          x.living_after * draw.value(Unknown::kept_by_decanting,
                                      science::decanting_keeps(clumping(plan.yeast.flocculation)));
    living = x.handed_on;
  }
}

// --- the end of the plan ----------------------------------------------------------------------

std::optional<int> handover_step(const Plan& plan) {
  for (int stage = static_cast<int>(plan.stages.size()) - 1; stage >= 0; --stage)
    for (Do what : {Do::pitch_to_beer, Do::krausen_pitch})
      if (const auto step = first_step(plan, what, stage)) return step;
  return std::nullopt;
}

void finish(const Plan& plan, const Draw& draw, Workings& w) {
  const int last = static_cast<int>(plan.stages.size()) - 1;
  const StageWorking& x = w.stages.back();
  const auto crash = last_step(plan, Do::crash, last);
  const auto warm = last_step(plan, Do::warm, last);
  const auto handover = handover_step(plan);
  const auto& times = w.times.times;

  Temperature slurry = plan.stages.back().temperature;
  if (crash) {
    const Step& step = plan.steps[at(*crash)];
    const Temperature cold = cold_place(plan, step);
    Duration needed;
    const Duration cooling = whole_cold_rest(plan, last, x, cold, draw, &needed);
    const StepTime& rest = times[at(*crash)];
    const Duration planned = step.lasts.value_or(rest.end - rest.start);
    w.cold_time = std::max(Duration(), planned - cooling);
    w.crash_needed = needed;
    slurry = cold;
    if (handover && times[at(*handover)].start > rest.start)
      w.slurry_age = times[at(*handover)].start - rest.start;
  }
  if (warm && handover) {
    slurry = plan.steps[at(*warm)].to.value_or(plan.place.room);
    if (times[at(*handover)].start > times[at(*warm)].start)
      w.warm_wait = times[at(*handover)].start - times[at(*warm)].start;
  }
  if (handover) w.slurry_gap = science::slurry_gap(slurry, plan.beer.ferment_at);

  w.cells_at_pitch = x.handed_on;
  if (w.slurry_age)
    // Fresh slurry is counted as all alive; what age takes is relative to that.
    w.cells_at_pitch = x.handed_on * (science::slurry_viability(*w.slurry_age, 0) /
                                      science::slurry_viability(Duration(), 0));

  if (plan.beer.keep_cells && w.cells_at_pitch > CellCount()) {
    w.cells_kept = std::clamp(w.cells_at_pitch - w.beer_needs, CellCount(), *plan.beer.keep_cells);
    w.slurry_kept = w.into_beer * (w.cells_kept / w.cells_at_pitch);
  }

  const Plato beer = science::plato(plan.beer.gravity);
  w.beer_gravity_shift = science::original_gravity_equivalent(
                             plan.beer.volume, beer, w.into_beer - w.slurry_kept, x.gravity) -
                         beer;
}

}  // namespace

Temperature chilled_to(const ChillWorking& chill) {
  return std::min(chill.starts_at, std::max(chill.target, chill.reaches));
}

bool decants(const Plan& plan, int stage) {
  return first_step(plan, Do::decant, stage).has_value();
}

Workings work_out(const Plan& plan, const Process& process, const Draw& draw) {
  Workings w;
  w.stages.resize(plan.stages.size());
  for (int stage = 0; stage < static_cast<int>(plan.stages.size()); ++stage) {
    StageWorking& x = w.stages[at(stage)];
    make_wort(plan, process, stage, draw, x);
    chill_wort(plan, process, stage, draw, x);
    note_glass(plan, process, stage, x);
  }
  set_volumes(plan, w);
  w.durations = durations_of(plan, process, w, draw);
  w.times = schedule(plan, process, w.durations);
  age_yeast(plan, draw, w);

  for (int stage = 0; stage < static_cast<int>(plan.stages.size()); ++stage) {
    StageWorking& x = w.stages[at(stage)];
    const auto pitch = first_step(plan, Do::pitch, stage);
    if (!pitch) continue;
    const auto boil = last_step(plan, Do::boil, stage);
    const bool chilled = x.chill && process.precedes(x.chill->step, *pitch);
    // Wort stored before it is chilled, or never chilled, waits from the end of the boil.
    bool stored_hot = false;
    for (int store : steps_of(plan, Do::store, stage))
      stored_hot |= boil && process.precedes(*boil, store) && process.precedes(store, *pitch) &&
                    !(chilled && process.precedes(x.chill->step, store));
    if (!stored_hot && !chilled) continue;
    const int from = stored_hot ? *boil : x.chill->step;
    const Duration wait = w.times.times[at(*pitch)].start - w.times.times[at(from)].end;
    if (wait < Duration()) continue;
    x.wort_wait = wait;
    if (!chilled) continue;
    x.pitch_temperature =
        science::newton(chilled_to(*x.chill), plan.place.room, wait, time_constant(x.volume, draw));
    if (stage == 0 && plan.yeast.form != YeastForm::dry) {
      const Temperature pack =
          science::newton(plan.place.fridge, plan.place.room, plan.yeast.out_of_fridge,
                          time_constant(slurry_left, draw));
      x.pack_gap = science::slurry_gap(pack, *x.pitch_temperature);
    }
  }

  grow(plan, draw, w);
  w.beer_needs = science::cells_needed(pitching_rate(plan.beer.kind), plan.beer.volume,
                                       science::plato(plan.beer.gravity));
  w.cells_needed = w.beer_needs + plan.beer.keep_cells.value_or(CellCount());
  finish(plan, draw, w);
  return w;
}

}  // namespace starter
