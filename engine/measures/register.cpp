// The table of measures. Keep rows in the order they are shown: a stage from weighing to cold, then
// the yeast, the beer, the end of the plan.

#include <fmt/format.h>

#include <cmath>

#include "measures/measures.h"
#include "quantity/write.h"
#include "science/headroom.h"
#include "science/lethality.h"
#include "science/supply.h"
#include "science/water.h"

namespace starter {
namespace {

using Value = std::optional<double>;
constexpr auto metric = UnitSystem::metric;

const StageWorking& of(const Case& c, int stage) {
  return c.workings.stages[static_cast<std::size_t>(stage)];
}
const Stage& planned(const Case& c, int stage) {
  return c.plan.stages[static_cast<std::size_t>(stage)];
}
int last_stage(const Case& c) {
  return static_cast<int>(c.plan.stages.size()) - 1;
}

std::string stage_at(int stage, const char* rest) {
  return "/stages/" + std::to_string(stage) + rest;
}
/// The step's own place; in a plan without steps, the list of them.
std::string step_at(const Case& c, std::optional<int> step, const std::string& otherwise) {
  if (!step) return otherwise;
  const std::string& path = c.plan.steps[static_cast<std::size_t>(*step)].path;
  return path.empty() ? "/steps" : path;
}
std::string step_of(const Case& c, Do what, int stage) {
  return step_at(c, first_step(c.plan, what, stage), stage_at(stage, ""));
}

template <class Q>
std::string w(const Q& quantity) {
  return write(quantity, metric);
}
std::string degP(Plato p) {
  return w(p);
}

Volume boiled_away(const StageWorking& x) {
  return (x.before_boil.water - x.wort.water) / science::water_density_20C;
}

// --- wort -------------------------------------------------------------------------------------

Value extract_mass(const Case& c, int s) {
  if (planned(c, s).extract_kind == ExtractKind::wort) return std::nullopt;
  return planned(c, s).extract_mass.grams();
}
std::string extract_mass_how(const Case&, int) {
  return "as written in the plan";
}
std::string at_extract(const Case&, int s) {
  return stage_at(s, "/extract");
}

Value wort_volume(const Case& c, int s) {
  return of(c, s).volume.litres();
}
std::string wort_volume_how(const Case& c, int s) {
  const StageWorking& x = of(c, s);
  const std::string from =
      planned(c, s).extract_kind == ExtractKind::wort
          ? w(planned(c, s).water) + " of ready wort"
          : fmt::format("{} water and {} dissolved extract make {}", w(planned(c, s).water),
                        w(x.before_boil.extract), w(science::volume(x.before_boil)));
  return fmt::format("{}; {} boil off, which leaves {} cold", from, w(boiled_away(x)), w(x.volume));
}

Value wort_gravity(const Case& c, int s) {
  return of(c, s).gravity.degrees();
}
std::string wort_gravity_how(const Case& c, int s) {
  const StageWorking& x = of(c, s);
  return fmt::format("{} extract in {} of wort, {}", w(x.wort.extract), w(science::mass(x.wort)),
                     w(science::sg(x.gravity)) + " SG");
}

Value extract_ratio(const Case& c, int s) {
  return science::dry_malt_equivalent(of(c, s).wort).grams_per_litre();
}
std::string extract_ratio_how(const Case& c, int s) {
  const StageWorking& x = of(c, s);
  return fmt::format("{} extract, as dry malt extract {}, in {} finished wort", w(x.wort.extract),
                     w(science::dry_malt_equivalent(x.wort) * x.volume), w(x.volume));
}

Value stated_volume(const Case& c, int s) {
  const auto& stated = planned(c, s).wort_volume;
  return stated ? Value(stated->litres()) : std::nullopt;
}
Value stated_gravity(const Case& c, int s) {
  const Stage& stage = planned(c, s);
  if (!stage.gravity || stage.extract_kind == ExtractKind::wort) return std::nullopt;
  return science::plato(*stage.gravity).degrees();
}
std::string as_stated(const Case&, int) {
  return "as stated in the plan";
}

Value measured_volume(const Case& c, int s) {
  const Readings& read = planned(c, s).measured;
  if (!read.volume) return std::nullopt;
  const Temperature at = read.volume_at.value_or(Temperature::celsius(20));
  return read.volume->litres() / science::expansion(at);
}
std::string measured_volume_how(const Case& c, int s) {
  const Readings& read = planned(c, s).measured;
  return fmt::format("{} as read at {}, brought to 20 °C", w(*read.volume),
                     w(read.volume_at.value_or(Temperature::celsius(20))));
}
Value measured_gravity(const Case& c, int s) {
  const Readings& read = planned(c, s).measured;
  if (!read.gravity) return std::nullopt;
  if (read.gravity->scale == Gravity::Scale::plato && !read.gravity_at) return read.gravity->value;
  const Temperature at = read.gravity_at.value_or(Temperature::celsius(20));
  return science::plato(science::hydrometer_at_20C(science::sg(*read.gravity), at)).degrees();
}
std::string measured_gravity_how(const Case& c, int s) {
  const Readings& read = planned(c, s).measured;
  const Temperature at = read.gravity_at.value_or(Temperature::celsius(20));
  return fmt::format(
      "{} as read at {}, corrected to 20 °C{}", w(*read.gravity), w(at),
      science::hydrometer_trusted(at) ? "" : "; above 40 °C the correction cannot be trusted");
}
Value measured_cells(const Case& c, int s) {
  const auto& cells = planned(c, s).measured.cells;
  return cells ? Value(cells->billion()) : std::nullopt;
}
/// A count of N cells is a Poisson number: its relative standard error is 1/√N (any textbook of
/// statistics). Counting at least 300 cells is practice.
Value count_error(const Case& c, int s) {
  const Readings& read = planned(c, s).measured;
  if (!read.cells) return std::nullopt;
  return 100 / std::sqrt(static_cast<double>(read.cells_counted.value_or(300)));
}
std::string count_error_how(const Case& c, int s) {
  const auto& counted = planned(c, s).measured.cells_counted;
  return fmt::format("one standard error, 1/√N for {} cells looked at{}", counted.value_or(300),
                     counted ? "" : " (assumed)");
}
std::string at_measured(const Case&, int s) {
  return stage_at(s, "/measured");
}
std::string at_wort_volume(const Case&, int s) {
  return stage_at(s, "/wort_volume");
}
std::string at_gravity(const Case&, int s) {
  return stage_at(s, "/gravity");
}

// --- boil -------------------------------------------------------------------------------------

bool boils(const Case& c, int s) {
  return of(c, s).boil_step.has_value();
}
std::string at_boil(const Case& c, int s) {
  return step_of(c, Do::boil, s);
}

Value boil_time(const Case& c, int s) {
  return boils(c, s) ? Value(of(c, s).boil_time.minutes()) : std::nullopt;
}
std::string boil_time_how(const Case&, int) {
  return "minutes at a full boil, as planned; heating up is not counted";
}
Value boil_temperature(const Case& c, int s) {
  return boils(c, s) ? Value(of(c, s).boils_at.celsius()) : std::nullopt;
}
std::string boil_temperature_how(const Case& c, int s) {
  return fmt::format(
      "air pressure at {} by the standard atmosphere, the temperature at which water boils there, "
      "and what {} of extract adds",
      w(c.plan.place.altitude), degP(of(c, s).gravity));
}
Value boil_lethality(const Case& c, int s) {
  return boils(c, s) ? Value(of(c, s).pasteurisation_units) : std::nullopt;
}
std::string boil_lethality_how(const Case& c, int s) {
  const StageWorking& x = of(c, s);
  return fmt::format(
      "{} min × 1.393^({} − 60 °C); F₀ is {} min, so spores live: a boil is not sterilising",
      write_number(x.boil_time.minutes()), w(x.boils_at),
      write_number(science::f0(x.boils_at, x.boil_time), 2));
}
Value boil_off(const Case& c, int s) {
  return boils(c, s) ? Value(of(c, s).boiled_off.percent()) : std::nullopt;
}
std::string boil_off_how(const Case& c, int s) {
  const StageWorking& x = of(c, s);
  return fmt::format("{} of {} leave as steam in {}{}", w(boiled_away(x)),
                     w(science::volume(x.before_boil)), w(x.boil_time),
                     planned(c, s).boil_off ? ", as you state" : ", by the kind of vessel");
}
Value boil_fill(const Case& c, int s) {
  return boils(c, s) ? Value(of(c, s).boil_fill.ratio()) : std::nullopt;
}
std::string boil_fill_how(const Case& c, int s) {
  const StageWorking& x = of(c, s);
  return fmt::format("{} before the boil over the {} of “{}”; hot it stands 4 % higher",
                     w(science::volume(x.before_boil)),
                     w(c.plan.vessels.at(x.boil_vessel).capacity), x.boil_vessel);
}
std::string at_boil_vessel(const Case& c, int s) {
  return at_boil(c, s);
}

Value growth_fill(const Case& c, int s) {
  return of(c, s).growth_fill.ratio();
}
std::string growth_fill_how(const Case& c, int s) {
  return fmt::format("{} growing over the {} of “{}”", w(of(c, s).grown_volume),
                     w(c.plan.vessel_of(planned(c, s)).capacity), planned(c, s).vessel);
}
std::string at_vessel(const Case&, int s) {
  return stage_at(s, "/vessel");
}

Value glass_shock(const Case& c, int s) {
  return of(c, s).glass ? Value(of(c, s).glass->step.kelvins()) : std::nullopt;
}
std::string glass_shock_how(const Case& c, int s) {
  const GlassMeeting& g = *of(c, s).glass;
  return fmt::format("“{}”, {}, {} at step {}", g.vessel, spelling(g.material),
                     g.cooling ? "hot, meets cold water" : "cold, meets hot wort", g.at_step + 1);
}
std::string at_glass(const Case& c, int s) {
  return of(c, s).glass ? step_at(c, of(c, s).glass->at_step, stage_at(s, "")) : stage_at(s, "");
}

// --- chill ------------------------------------------------------------------------------------

const ChillWorking* chill(const Case& c, int s) {
  return of(c, s).chill ? &*of(c, s).chill : nullptr;
}
std::string at_chill(const Case& c, int s) {
  return step_of(c, Do::chill, s);
}

Value chill_target(const Case& c, int s) {
  return chill(c, s) ? Value(chill(c, s)->target.celsius()) : std::nullopt;
}
std::string chill_target_how(const Case&, int) {
  return "where the chilling is meant to stop";
}
Value bath_equilibrium(const Case& c, int s) {
  return chill(c, s) ? Value(chill(c, s)->reaches.celsius()) : std::nullopt;
}
std::string bath_equilibrium_how(const Case& c, int s) {
  const ChillWorking& x = *chill(c, s);
  return fmt::format("{} kJ/K of wort and vessel from {} against {} of water at {}{}",
                     write_number(x.wort_and_vessel.kilojoules_per_kelvin()), w(x.starts_at),
                     w(x.bath), w(x.bath_starts),
                     x.ice > Mass::grams(0) ? " and " + w(x.ice) + " of ice" : "");
}
Value chill_gap(const Case& c, int s) {
  const ChillWorking* x = chill(c, s);
  return x ? Value((x->reaches - x->target).kelvins()) : std::nullopt;
}
std::string chill_gap_how(const Case& c, int s) {
  const ChillWorking& x = *chill(c, s);
  return fmt::format("{} that bath and ice can reach, less the {} wanted", w(x.reaches),
                     w(x.target));
}
Value chill_time(const Case& c, int s) {
  const ChillWorking* x = chill(c, s);
  return x && x->time ? Value(x->time->minutes()) : std::nullopt;
}
std::string chill_time_how(const Case& c, int s) {
  const ChillWorking& x = *chill(c, s);
  if (planned(c, s).measured.chill_time) return "as you timed it";
  return fmt::format("two bodies exchanging {} W/K from {} to {}{}",
                     write_number(x.conductance.watts_per_kelvin(), 2), w(x.starts_at), w(x.target),
                     x.ice > Mass::grams(0) ? "; ice goes in at " + w(x.ice_from) : "");
}
Value ice_needed(const Case& c, int s) {
  const ChillWorking* x = chill(c, s);
  return x && x->ice_needed ? Value(x->ice_needed->kilograms()) : std::nullopt;
}
std::string ice_needed_how(const Case& c, int s) {
  const ChillWorking& x = *chill(c, s);
  return fmt::format(
      "the heat above {} in wort, vessel and bath, over 333.5 kJ/kg of melting and the warming of "
      "the melt",
      w(x.target));
}
Value ice_wort_temperature(const Case& c, int s) {
  const ChillWorking* x = chill(c, s);
  return x && x->ice > Mass::grams(0) ? Value(x->ice_from.celsius()) : std::nullopt;
}
std::string ice_wort_temperature_how(const Case&, int) {
  return "temperature of the wort when the ice goes in";
}
Value bath_fill(const Case& c, int s) {
  const ChillWorking* x = chill(c, s);
  return x && x->bath_fill ? Value(x->bath_fill->ratio()) : std::nullopt;
}
std::string bath_fill_how(const Case& c, int s) {
  const ChillWorking& x = *chill(c, s);
  return fmt::format(
      "{} of water, {} of ice and what the vessel displaces, over the tub's capacity", w(x.bath),
      w(x.ice));
}

// --- yeast meets wort -------------------------------------------------------------------------

std::string at_pitch(const Case& c, int s) {
  return step_of(c, Do::pitch, s);
}

Value pitch_temperature(const Case& c, int s) {
  const auto& t = of(c, s).pitch_temperature;
  return t ? Value(t->celsius()) : std::nullopt;
}
std::string pitch_temperature_how(const Case& c, int s) {
  const StageWorking& x = of(c, s);
  return fmt::format("where the chilling ends, {}{}", w(chilled_to(*x.chill)),
                     x.wort_wait ? ", and " + w(*x.wort_wait) + " of waiting in the room" : "");
}
Value pack_gap(const Case& c, int s) {
  const auto& gap = of(c, s).pack_gap;
  return gap ? Value(gap->kelvins()) : std::nullopt;
}
std::string pack_gap_how(const Case& c, int) {
  return fmt::format("the pack after {} out of the {} fridge, against the wort",
                     w(c.plan.yeast.out_of_fridge), w(c.plan.place.fridge));
}
std::string at_out_of_fridge(const Case&, int) {
  return "/yeast/out_of_fridge";
}
Value wort_wait(const Case& c, int s) {
  const auto& wait = of(c, s).wort_wait;
  return wait ? Value(wait->hours()) : std::nullopt;
}
std::string wort_wait_how(const Case&, int) {
  return "from the end of chilling, or of the boil where it is stored, to the yeast";
}

Value inoculation_rate(const Case& c, int s) {
  return of(c, s).inoculation.million_per_mL();
}
std::string inoculation_rate_how(const Case& c, int s) {
  return fmt::format("{} living cells in {}", w(of(c, s).living_pitched), w(of(c, s).volume));
}

// --- growth -----------------------------------------------------------------------------------

Value cells_grown(const Case& c, int s) {
  return of(c, s).all_new.billion() * of(c, s).grown.ratio();
}
std::string cells_grown_how(const Case& c, int s) {
  const StageWorking& x = of(c, s);
  return fmt::format(
      "{} living cells on {} of dry extract, {}: {} new in full time, {} of them in {}",
      w(x.living_pitched), w(science::dry_malt_equivalent(x.wort) * x.volume),
      planned(c, s).agitation == Agitation::none ? std::string_view("left still")
                                                 : spelling(planned(c, s).agitation),
      w(x.all_new), w(x.grown), w(planned(c, s).duration));
}
Value cells_after_stage(const Case& c, int s) {
  return of(c, s).expected_after.billion();
}
std::string cells_after_stage_how(const Case& c, int s) {
  return fmt::format("{} pitched and {} new", w(of(c, s).living_pitched),
                     w(of(c, s).all_new * of(c, s).grown.ratio()));
}
Value stage_step(const Case& c, int s) {
  if (s == 0) return std::nullopt;
  return of(c, s).grown_volume / of(c, s - 1).grown_volume;
}
std::string stage_step_how(const Case& c, int s) {
  return fmt::format("{} with the yeast in it, after {}", w(of(c, s).grown_volume),
                     w(of(c, s - 1).grown_volume));
}
Value growth_time(const Case& c, int s) {
  return planned(c, s).duration.hours();
}
std::string growth_time_how(const Case&, int) {
  return "as planned";
}
Value growth_time_needed(const Case& c, int s) {
  return of(c, s).growth_needed.hours();
}
std::string growth_time_needed_how(const Case& c, int s) {
  const StageWorking& x = of(c, s);
  if (planned(c, s).measured.growth_time) return "as you timed it";
  return fmt::format("until 95 % of the new cells are there, at {}, {} and {}",
                     w(planned(c, s).temperature), w(x.inoculation), degP(x.gravity));
}
Value growth_time_ratio(const Case& c, int s) {
  const Duration needed = of(c, s).growth_needed;
  if (needed <= Duration::hours(0)) return std::nullopt;
  return planned(c, s).duration / needed;
}
std::string growth_time_ratio_how(const Case& c, int s) {
  return fmt::format("{} planned over {} needed", w(planned(c, s).duration),
                     w(of(c, s).growth_needed));
}
std::string at_duration(const Case&, int s) {
  return stage_at(s, "/duration");
}
Value growth_temperature(const Case& c, int s) {
  return planned(c, s).temperature.celsius();
}
std::string growth_temperature_how(const Case&, int) {
  return "of the growing starter";
}
std::string at_temperature(const Case&, int s) {
  return stage_at(s, "/temperature");
}

// --- yeast ------------------------------------------------------------------------------------

Value pack_age(const Case& c, int) {
  if (c.plan.yeast.form == YeastForm::dry || !c.workings.pack_age_known) return std::nullopt;
  // A date after the pitch gives no age; the rule on that date says so.
  if (c.workings.pack_age < Duration()) return std::nullopt;
  return c.workings.pack_age.days();
}
std::string pack_age_how(const Case& c, int) {
  return fmt::format("from {} to the hour the yeast is pitched",
                     spoken_day(*c.plan.yeast.packaged));
}
std::string at_packaged(const Case&, int) {
  return "/yeast/packaged";
}
Value viability(const Case& c, int) {
  if (c.plan.yeast.form == YeastForm::dry) return std::nullopt;
  return c.workings.viability.percent();
}
std::string viability_how(const Case& c, int) {
  if (c.plan.yeast.viability) {
    const Share p = *c.plan.yeast.viability;
    const int counted = c.plan.yeast.cells_counted.value_or(300);
    return fmt::format("your count: {} of {} cells, ± two standard errors √(p(1−p)/N) of {}", w(p),
                       counted, w(science::standard_error(p, counted)));
  }
  if (c.workings.pack_age < Duration())
    return fmt::format("not known: the yeast is dated {}, after it goes in; fresh yeast is taken",
                       iso_day(*c.plan.yeast.packaged));
  return fmt::format(
      "{} old{}; “{} a month” read as a straight line at the low end, as a decay at the high",
      w(c.workings.pack_age), c.workings.pack_age_known ? "" : " (assumed)",
      c.plan.yeast.form == YeastForm::slurry ? "two fifths" : "a fifth");
}
std::string at_viability(const Case& c, int) {
  return c.plan.yeast.viability ? "/yeast/viability" : "/yeast/packaged";
}
Value cells_available(const Case& c, int) {
  return c.workings.cells_available.billion();
}
std::string cells_available_how(const Case& c, int) {
  const Yeast& y = c.plan.yeast;
  if (y.measured_cells)
    return fmt::format("{} × {} as you counted, {} alive", y.packs, w(*y.measured_cells),
                       w(c.workings.viability));
  switch (y.form) {
    case YeastForm::dry:
      if (c.plan.wrote("/yeast/cells_per_pack")) break;
      return fmt::format("{} × {} of dry yeast at 5–20 billion cells a gram", y.packs,
                         w(y.pack_mass.value_or(Mass::grams(0))));
    case YeastForm::slurry:
      return fmt::format("{} of slurry, {} alive", w(y.slurry_volume.value_or(Volume())),
                         w(c.workings.viability));
    case YeastForm::liquid:
      break;
  }
  return fmt::format("{} × {}, {} alive", y.packs, w(y.cells_per_pack), w(c.workings.viability));
}

// --- beer and the end of the plan -------------------------------------------------------------

Value cells_needed(const Case& c, int) {
  return c.workings.cells_needed.billion();
}
std::string cells_needed_how(const Case& c, int) {
  const char* rate = c.plan.beer.kind == BeerKind::lager    ? "1.5"
                     : c.plan.beer.kind == BeerKind::hybrid ? "1"
                                                            : "0.75";
  return fmt::format("{} million per mL and °P × {} × {}{}", rate, w(c.plan.beer.volume),
                     degP(science::plato(c.plan.beer.gravity)),
                     c.plan.beer.keep_cells
                         ? fmt::format(" is {} for the beer, and {} to keep",
                                       w(c.workings.beer_needs), w(*c.plan.beer.keep_cells))
                         : "");
}
Value cells_kept(const Case& c, int) {
  return c.plan.beer.keep_cells ? Value(c.workings.cells_kept.billion()) : std::nullopt;
}
std::string cells_kept_how(const Case& c, int) {
  return fmt::format(
      "the beer comes first: {} at pitching less the {} it wants, at most the {} asked",
      w(c.workings.cells_at_pitch), w(c.workings.beer_needs), w(*c.plan.beer.keep_cells));
}
Value slurry_kept(const Case& c, int) {
  return c.plan.beer.keep_cells ? Value(c.workings.slurry_kept.litres()) : std::nullopt;
}
std::string slurry_kept_how(const Case& c, int) {
  return fmt::format("the share of {} in {} that {} are", w(c.workings.cells_at_pitch),
                     w(c.workings.into_beer), w(c.workings.cells_kept));
}
std::string at_keep_cells(const Case&, int) {
  return "/beer/keep_cells";
}
Value cells_at_pitch(const Case& c, int) {
  return c.workings.cells_at_pitch.billion();
}
std::string cells_at_pitch_how(const Case& c, int) {
  const StageWorking& x = of(c, last_stage(c));
  const bool counted = x.decanted && planned(c, last_stage(c)).measured.cells_kept;
  return fmt::format("{}{}{}{}", w(counted ? x.handed_on : x.living_after),
                     counted ? " in the slurry, as you counted" : " at the end of growth",
                     x.decanted && !counted ? ", less what leaves with the beer poured off" : "",
                     c.workings.slurry_age ? " and what dies in the cold" : "");
}
Value cells_missing(const Case& c, int) {
  // Below nothing is kept out by the row's `least`, after the range is found.
  return c.workings.cells_needed.billion() - c.workings.cells_at_pitch.billion();
}
std::string cells_missing_how(const Case&, int) {
  return "cells needed less cells at pitching";
}
Value cells_coverage(const Case& c, int) {
  if (c.workings.cells_needed <= CellCount::billion(0)) return std::nullopt;
  return c.workings.cells_at_pitch / c.workings.cells_needed;
}
std::string cells_coverage_how(const Case& c, int) {
  return fmt::format("{} at pitching over {} needed", w(c.workings.cells_at_pitch),
                     w(c.workings.cells_needed));
}
std::string at_last_stage(const Case& c, int) {
  return stage_at(last_stage(c), "");
}

std::string at_crash(const Case& c, int) {
  return step_at(c, last_step(c.plan, Do::crash, last_stage(c)), "/steps");
}
Value crash_time(const Case& c, int) {
  return c.workings.cold_time ? Value(c.workings.cold_time->hours()) : std::nullopt;
}
std::string crash_time_how(const Case& c, int) {
  return fmt::format("the cold rest, less the hours {} takes to come within 1 K of the fridge",
                     w(c.workings.starter_volume));
}
Value crash_time_needed(const Case& c, int) {
  return c.workings.crash_needed ? Value(c.workings.crash_needed->hours()) : std::nullopt;
}
std::string crash_time_needed_how(const Case& c, int) {
  if (const auto& read = planned(c, last_stage(c)).measured.settling_time)
    return fmt::format("clear after {} in the cold, as you saw, less the hours of cooling",
                       w(*read));
  return fmt::format("clumps of a yeast of {} flocculation falling through {} by Stokes' law",
                     spelling(c.plan.yeast.flocculation), w(c.workings.starter_volume));
}
Value crash_time_ratio(const Case& c, int) {
  const auto& w_ = c.workings;
  if (!w_.cold_time || !w_.crash_needed || *w_.crash_needed <= Duration::hours(0))
    return std::nullopt;
  return *w_.cold_time / *w_.crash_needed;
}
std::string crash_time_ratio_how(const Case& c, int) {
  return fmt::format("{} cold over {} needed", w(*c.workings.cold_time),
                     w(*c.workings.crash_needed));
}
Value starter_share(const Case& c, int) {
  return 100 * (c.workings.starter_volume / c.plan.beer.volume);
}
std::string starter_share_how(const Case& c, int) {
  return fmt::format("{} of starter over {} of beer", w(c.workings.starter_volume),
                     w(c.plan.beer.volume));
}
Value beer_gravity_shift(const Case& c, int) {
  return c.workings.beer_gravity_shift.degrees();
}
std::string beer_gravity_shift_how(const Case& c, int) {
  return fmt::format("{} of starter mixed into the beer, its extract counted as brewed",
                     w(c.workings.into_beer));
}
std::string at_handover(const Case& c, int) {
  for (Do what : {Do::pitch_to_beer, Do::krausen_pitch})
    for (int s = last_stage(c); s >= 0; --s)
      if (const auto step = first_step(c.plan, what, s)) return step_at(c, step, "/steps");
  return "/steps";
}
Value slurry_gap(const Case& c, int) {
  return c.workings.slurry_gap ? Value(c.workings.slurry_gap->kelvins()) : std::nullopt;
}
std::string slurry_gap_how(const Case& c, int) {
  return fmt::format("slurry at pitching against beer at {}", w(c.plan.beer.ferment_at));
}
Value slurry_age(const Case& c, int) {
  return c.workings.slurry_age ? Value(c.workings.slurry_age->days()) : std::nullopt;
}
std::string slurry_age_how(const Case&, int) {
  return "from the start of the cold rest to the beer";
}
Value warm_wait(const Case& c, int) {
  return c.workings.warm_wait ? Value(c.workings.warm_wait->hours()) : std::nullopt;
}
std::string warm_wait_how(const Case&, int) {
  return "from the start of warming to the beer";
}
std::string at_warm(const Case& c, int) {
  return step_at(c, last_step(c.plan, Do::warm, last_stage(c)), "/steps");
}
Value slack(const Case& c, int) {
  const auto& s = c.workings.times.slack;
  return s ? Value(s->hours()) : std::nullopt;
}
std::string slack_how(const Case& c, int) {
  return fmt::format("begun {}, ready {}, due {}", spoken(*c.workings.times.origin),
                     spoken(*c.workings.times.due - *c.workings.times.slack),
                     spoken(*c.workings.times.due));
}
std::string at_brew_day(const Case&, int) {
  return "/beer/brew_day";
}

constexpr double no_end = 1e15;

const MeasureKind kinds[] = {
    {"extract_mass", "g", "extract", Of::stage, 0, no_end, extract_mass, extract_mass_how,
     at_extract},
    {"wort_volume", "L", "finished wort, cold", Of::stage, 0, no_end, wort_volume, wort_volume_how,
     nullptr},
    {"wort_gravity", "°P", "strength of the wort", Of::stage, 0, 100, wort_gravity,
     wort_gravity_how, at_extract},
    {"extract_ratio", "g/L", "dry extract a litre", Of::stage, 0, no_end, extract_ratio,
     extract_ratio_how, at_extract},
    {"stated_volume", "L", "wort volume you state", Of::stage, 0, no_end, stated_volume, as_stated,
     at_wort_volume},
    {"stated_gravity", "°P", "strength you state", Of::stage, -10, 100, stated_gravity, as_stated,
     at_gravity},
    {"boil_time", "min", "full boil", Of::stage, 0, no_end, boil_time, boil_time_how, at_boil},
    {"boil_temperature", "°C", "wort boils at", Of::stage, 0, 200, boil_temperature,
     boil_temperature_how, at_boil},
    {"boil_lethality", "PU", "pasteurisation units of the boil", Of::stage, 0, no_end,
     boil_lethality, boil_lethality_how, at_boil},
    {"boil_off", "%", "share that boils off", Of::stage, 0, 100, boil_off, boil_off_how, at_boil},
    {"boil_fill", "ratio", "filling at the boil", Of::stage, 0, no_end, boil_fill, boil_fill_how,
     at_boil_vessel},
    {"glass_shock", "K", "sudden change in the glass", Of::stage, 0, no_end, glass_shock,
     glass_shock_how, at_glass},
    {"chill_target", "°C", "chilled to", Of::stage, -273.15, 200, chill_target, chill_target_how,
     at_chill},
    {"bath_equilibrium", "°C", "bath and ice can reach", Of::stage, 0, 200, bath_equilibrium,
     bath_equilibrium_how, at_chill},
    {"chill_gap", "K", "short of the target by", Of::stage, -400, 400, chill_gap, chill_gap_how,
     at_chill},
    {"chill_time", "min", "chilling takes", Of::stage, 0, 1e6, chill_time, chill_time_how,
     at_chill},
    {"ice_needed", "kg", "ice for the target", Of::stage, 0, no_end, ice_needed, ice_needed_how,
     at_chill},
    {"ice_wort_temperature", "°C", "wort when the ice goes in", Of::stage, -273.15, 200,
     ice_wort_temperature, ice_wort_temperature_how, at_chill},
    {"bath_fill", "ratio", "filling of the tub", Of::stage, 0, no_end, bath_fill, bath_fill_how,
     at_chill},
    {"wort_wait", "h", "boiled wort waits", Of::stage, 0, no_end, wort_wait, wort_wait_how,
     at_pitch},
    {"pitch_temperature", "°C", "wort when the yeast goes in", Of::stage, -273.15, 200,
     pitch_temperature, pitch_temperature_how, at_pitch},
    {"pack_gap", "K", "pack against wort", Of::stage, 0, 400, pack_gap, pack_gap_how,
     at_out_of_fridge},
    {"inoculation_rate", "million/mL", "living cells at the start", Of::stage, 0, no_end,
     inoculation_rate, inoculation_rate_how, nullptr},
    {"growth_fill", "ratio", "filling while growing", Of::stage, 0, no_end, growth_fill,
     growth_fill_how, at_vessel},
    {"growth_temperature", "°C", "grows at", Of::stage, -273.15, 200, growth_temperature,
     growth_temperature_how, at_temperature},
    {"growth_time", "h", "growth planned", Of::stage, 0, no_end, growth_time, growth_time_how,
     at_duration},
    {"growth_time_needed", "h", "growth needed", Of::stage, 0, no_end, growth_time_needed,
     growth_time_needed_how, at_duration},
    {"growth_time_ratio", "ratio", "growth planned over needed", Of::stage, 0, no_end,
     growth_time_ratio, growth_time_ratio_how, at_duration},
    {"cells_grown", "billion", "new cells", Of::stage, 0, no_end, cells_grown, cells_grown_how,
     nullptr},
    {"cells_after_stage", "billion", "living cells after growth", Of::stage, 0, no_end,
     cells_after_stage, cells_after_stage_how, nullptr},
    {"stage_step", "ratio", "volume over the stage before", Of::stage, 0, no_end, stage_step,
     stage_step_how, nullptr},
    {"measured_volume", "L", "volume you measured", Of::stage, 0, no_end, measured_volume,
     measured_volume_how, at_measured},
    {"measured_gravity", "°P", "strength you measured", Of::stage, -10, 100, measured_gravity,
     measured_gravity_how, at_measured},
    {"measured_cells", "billion", "cells you counted", Of::stage, 0, no_end, measured_cells,
     as_stated, at_measured},
    {"count_error", "%", "standard error of the count", Of::stage, 0, 100, count_error,
     count_error_how, at_measured},
    {"pack_age", "d", "age of the yeast when pitched", Of::yeast, -no_end, no_end, pack_age,
     pack_age_how, at_packaged},
    {"viability", "%", "living share", Of::yeast, 0, 100, viability, viability_how, at_viability},
    {"cells_available", "billion", "living cells to start with", Of::yeast, 0, no_end,
     cells_available, cells_available_how, nullptr},
    {"cells_needed", "billion", "cells needed", Of::beer, 0, no_end, cells_needed, cells_needed_how,
     nullptr},
    {"cells_at_pitch", "billion", "cells it gets", Of::beer, 0, no_end, cells_at_pitch,
     cells_at_pitch_how, at_last_stage},
    {"cells_missing", "billion", "cells missing", Of::beer, 0, no_end, cells_missing,
     cells_missing_how, at_last_stage},
    {"cells_coverage", "ratio", "cells it gets over needed", Of::beer, 0, no_end, cells_coverage,
     cells_coverage_how, at_last_stage},
    {"cells_kept", "billion", "cells left to keep", Of::beer, 0, no_end, cells_kept, cells_kept_how,
     at_keep_cells},
    {"slurry_kept", "L", "slurry to keep back", Of::beer, 0, no_end, slurry_kept, slurry_kept_how,
     at_keep_cells},
    {"crash_time", "h", "cold and at rest", Of::plan, 0, no_end, crash_time, crash_time_how,
     at_crash},
    {"crash_time_needed", "h", "cold rest needed", Of::plan, 0, no_end, crash_time_needed,
     crash_time_needed_how, at_crash},
    {"crash_time_ratio", "ratio", "cold rest over needed", Of::plan, 0, no_end, crash_time_ratio,
     crash_time_ratio_how, at_crash},
    {"starter_share", "%", "starter over batch", Of::plan, 0, no_end, starter_share,
     starter_share_how, at_handover},
    {"beer_gravity_shift", "°P", "beer's strength shifts by", Of::plan, -100, 100,
     beer_gravity_shift, beer_gravity_shift_how, at_handover},
    {"slurry_gap", "K", "slurry against beer", Of::plan, 0, 400, slurry_gap, slurry_gap_how,
     at_handover},
    {"slurry_age", "d", "slurry kept cold", Of::plan, 0, no_end, slurry_age, slurry_age_how,
     at_crash},
    {"warm_wait", "h", "slurry stands warm", Of::plan, 0, no_end, warm_wait, warm_wait_how,
     at_warm},
    {"slack", "h", "time to spare", Of::plan, -no_end, no_end, slack, slack_how, at_brew_day},
};

}  // namespace

std::span<const MeasureKind> measure_kinds() {
  return kinds;
}

}  // namespace starter
