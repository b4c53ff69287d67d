#include "rules/knobs.h"

#include <algorithm>
#include <cmath>
#include <cstdint>

#include "process/process.h"

namespace starter {
namespace {

using Fields = std::vector<std::pair<std::string, nlohmann::ordered_json>>;
using Value = std::optional<double>;
constexpr auto metric = UnitSystem::metric;

std::size_t at(int i) {
  return static_cast<std::size_t>(i);
}
Stage& stage_of(Plan& plan, int s) {
  return plan.stages[at(s)];
}
const Stage& stage_of(const Plan& plan, int s) {
  return plan.stages[at(s)];
}
std::string stage_path(int s, const char* field) {
  return "/stages/" + std::to_string(s) + field;
}

std::optional<int> step_index(const Plan& plan, Do what, int s) {
  return first_step(plan, what, s);
}

/// A step's field; nothing when the member wrote no steps to change.
Fields step_field(const Plan& plan, Do what, int s, const char* field, std::string text) {
  const auto i = step_index(plan, what, s);
  if (!i || plan.steps[at(*i)].path.empty()) return {};
  return {{plan.steps[at(*i)].path + field, std::move(text)}};
}

template <auto Member>
Value step_value(const Plan& plan, Do what, int s) {
  const auto i = step_index(plan, what, s);
  if (!i) return std::nullopt;
  const auto& held = plan.steps[at(*i)].*Member;
  return held ? Value(held->base()) : std::nullopt;
}

Value step_temperature(const Plan& plan, Do what, int s, std::optional<Temperature> Step::*member) {
  const auto i = step_index(plan, what, s);
  if (!i) return std::nullopt;
  const auto& held = plan.steps[at(*i)].*member;
  return held ? Value(held->celsius()) : std::nullopt;
}

template <class Set>
void with_step(Plan& plan, Do what, int s, Set set) {
  if (const auto i = step_index(plan, what, s)) set(plan.steps[at(*i)]);
}

std::string boil_vessel(const Plan& plan, int s) {
  const auto i = step_index(plan, Do::boil, s);
  return i && plan.steps[at(*i)].in ? *plan.steps[at(*i)].in : stage_of(plan, s).vessel;
}
std::optional<std::string> tub(const Plan& plan, int s) {
  const auto i = step_index(plan, Do::chill, s);
  if (!i || !plan.steps[at(*i)].in || !plan.vessels.count(*plan.steps[at(*i)].in))
    return std::nullopt;
  return plan.steps[at(*i)].in;
}

std::string pointer_token(const std::string& name) {
  std::string out;
  for (char c : name) out += c == '~' ? std::string("~0") : c == '/' ? "~1" : std::string(1, c);
  return out;
}
Fields capacity_field(const Plan& plan, const std::string& vessel) {
  return {{"/vessels/" + pointer_token(vessel) + "/capacity",
           write(plan.vessels.at(vessel).capacity, metric)}};
}

// Grains: what scales, jugs, clocks and thermometers of a kitchen resolve.
double gram_grain(double g) {
  return g < 500 ? 1 : 5;
}
double litre_grain(double l) {
  return l < 2 ? 0.05 : l < 10 ? 0.1 : 0.5;
}
double capacity_grain(double l) {
  return l < 5 ? 1 : 5;
}
double one(double) {
  return 1;
}
double half(double) {
  return 0.5;
}
double bath_grain(double l) {
  return l < 10 ? 0.5 : 1;
}
double ice_grain(double) {
  return 0.1;
}
double growth_grain(double h) {
  return h < 24 ? 1 : 6;
}
double cold_grain(double h) {
  return h < 36 ? 1 : h < 72 ? 6 : 24;
}

std::string show_mass(double v, UnitSystem u) {
  return write(Mass::grams(v), u);
}
std::string show_ice(double v, UnitSystem u) {
  return write(Mass::kilograms(v), u);
}
std::string show_volume(double v, UnitSystem u) {
  return write(Volume::litres(v), u);
}
std::string show_temperature(double v, UnitSystem u) {
  return write(Temperature::celsius(v), u);
}
std::string show_hours(double v, UnitSystem u) {
  return write(Duration::hours(v), u);
}
std::string show_packs(double v, UnitSystem) {
  return write_number(v) + (v == 1 ? " pack" : " packs");
}
std::string show_shift(double v, UnitSystem u) {
  return write(Duration::hours(std::fabs(v)), u) + (v < 0 ? " earlier" : " later");
}
/// "on Wed 7 Apr 11:00 (33 h earlier)"
std::string show_moment(const std::optional<LocalTime>& moment, double v, UnitSystem u) {
  const std::string shift = show_shift(v, u);
  return moment ? "on " + spoken(*moment) + " (" + shift + ")" : shift;
}
std::string show_start(const Plan& turned, double v, UnitSystem u) {
  return show_moment(turned.start, v, u);
}
std::string show_brew_day(const Plan& turned, double v, UnitSystem u) {
  return show_moment(turned.beer.brew_day, v, u);
}

// --- what a kitchen at home holds, common practice, no source ---------------------------------

constexpr double largest_tub = 60;          ///< L, a large laundry tub
constexpr double most_ice = 10;             ///< kg, some bags from a shop
constexpr double least_bath = 2;            ///< L; less does not reach up to the wort
constexpr double most_grams_a_litre = 300;  ///< extract; more is a syrup

// --- extract and water ------------------------------------------------------------------------

Value get_extract(const Plan& p, int s) {
  if (stage_of(p, s).extract_kind == ExtractKind::wort) return std::nullopt;
  return stage_of(p, s).extract_mass.grams();
}
void set_extract(Plan& p, int s, double v) {
  stage_of(p, s).extract_mass = Mass::grams(v);
}
Fields extract_field(const Plan& p, int s) {
  return {{stage_path(s, "/extract/mass"), write(stage_of(p, s).extract_mass, metric)}};
}
Value get_water(const Plan& p, int s) {
  return stage_of(p, s).water.litres();
}
void set_water(Plan& p, int s, double v) {
  stage_of(p, s).water = Volume::litres(v);
}
Fields water_field(const Plan& p, int s) {
  return {{stage_path(s, "/water"), write(stage_of(p, s).water, metric)}};
}
/// Extract and water grow together, so the wort keeps its strength.
void set_size(Plan& p, int s, double v) {
  Stage& stage = stage_of(p, s);
  const double factor = v / stage.water.litres();
  stage.extract_mass = Mass::grams(std::round(stage.extract_mass.grams() * factor));
  stage.water = Volume::litres(v);
}
Fields size_fields(const Plan& p, int s) {
  Fields fields = extract_field(p, s);
  fields.push_back(water_field(p, s).front());
  return fields;
}

// --- boil and vessels -------------------------------------------------------------------------

Value get_boil(const Plan& p, int s) {
  const auto v = step_value<&Step::lasts>(p, Do::boil, s);
  return v ? Value(*v * 60) : std::nullopt;
}
void set_boil(Plan& p, int s, double v) {
  with_step(p, Do::boil, s, [&](Step& step) { step.lasts = Duration::minutes(v); });
}
Fields boil_field(const Plan& p, int s) {
  return step_field(p, Do::boil, s, "/for",
                    write(Duration::minutes(get_boil(p, s).value_or(0)), metric));
}
std::string show_minutes(double v, UnitSystem u) {
  return write(Duration::minutes(v), u);
}

Value get_boil_off(const Plan& p, int s) {
  const auto& lost = stage_of(p, s).boil_off;
  return lost ? Value(lost->litres()) : std::nullopt;
}
void set_boil_off(Plan& p, int s, double v) {
  stage_of(p, s).boil_off = Volume::litres(v);
}
/// A plan may state it with the stage or with the step that boils.
Fields boil_off_field(const Plan& p, int s) {
  const std::string text = write(stage_of(p, s).boil_off.value_or(Volume()), metric);
  const auto i = step_index(p, Do::boil, s);
  if (i && p.wrote(p.steps[at(*i)].path + "/boil_off"))
    return step_field(p, Do::boil, s, "/boil_off", text);
  return {{stage_path(s, "/boil_off"), text}};
}
double boil_off_grain(double) {
  return 0.01;
}

Value get_boil_capacity(const Plan& p, int s) {
  return p.vessels.at(boil_vessel(p, s)).capacity.litres();
}
void set_boil_capacity(Plan& p, int s, double v) {
  p.vessels.at(boil_vessel(p, s)).capacity = Volume::litres(v);
}
Fields boil_capacity_field(const Plan& p, int s) {
  return capacity_field(p, boil_vessel(p, s));
}
Value get_growth_capacity(const Plan& p, int s) {
  return p.vessel_of(stage_of(p, s)).capacity.litres();
}
void set_growth_capacity(Plan& p, int s, double v) {
  p.vessels.at(stage_of(p, s).vessel).capacity = Volume::litres(v);
}
Fields growth_capacity_field(const Plan& p, int s) {
  return capacity_field(p, stage_of(p, s).vessel);
}
Value get_tub(const Plan& p, int s) {
  const auto name = tub(p, s);
  return name ? Value(p.vessels.at(*name).capacity.litres()) : std::nullopt;
}
void set_tub(Plan& p, int s, double v) {
  if (const auto name = tub(p, s)) p.vessels.at(*name).capacity = Volume::litres(v);
}
Fields tub_field(const Plan& p, int s) {
  const auto name = tub(p, s);
  return name ? capacity_field(p, *name) : Fields{};
}

// --- chill ------------------------------------------------------------------------------------

Value get_ice(const Plan& p, int s) {
  if (!step_index(p, Do::chill, s)) return std::nullopt;
  return step_value<&Step::ice>(p, Do::chill, s).value_or(0) / 1000;
}
void set_ice(Plan& p, int s, double v) {
  with_step(p, Do::chill, s, [&](Step& step) { step.ice = Mass::kilograms(v); });
}
Fields ice_field(const Plan& p, int s) {
  Fields fields = step_field(p, Do::chill, s, "/ice",
                             write(Mass::kilograms(get_ice(p, s).value_or(0)), metric));
  const auto i = step_index(p, Do::chill, s);
  if (!fields.empty() && !p.steps[at(*i)].ice_from)
    fields.push_back({p.steps[at(*i)].path + "/ice_from", "40 °C"});
  return fields;
}
Value get_bath(const Plan& p, int s) {
  return step_value<&Step::bath>(p, Do::chill, s);
}
void set_bath(Plan& p, int s, double v) {
  with_step(p, Do::chill, s, [&](Step& step) { step.bath = Volume::litres(v); });
}
Fields bath_field(const Plan& p, int s) {
  return step_field(p, Do::chill, s, "/bath",
                    write(Volume::litres(get_bath(p, s).value_or(0)), metric));
}
Value get_chill_to(const Plan& p, int s) {
  return step_temperature(p, Do::chill, s, &Step::to);
}
void set_chill_to(Plan& p, int s, double v) {
  with_step(p, Do::chill, s, [&](Step& step) { step.to = Temperature::celsius(v); });
}
Fields chill_to_field(const Plan& p, int s) {
  return step_field(p, Do::chill, s, "/to",
                    write(Temperature::celsius(get_chill_to(p, s).value_or(20)), metric));
}
Value get_ice_from(const Plan& p, int s) {
  return step_temperature(p, Do::chill, s, &Step::ice_from);
}
void set_ice_from(Plan& p, int s, double v) {
  with_step(p, Do::chill, s, [&](Step& step) { step.ice_from = Temperature::celsius(v); });
}
Fields ice_from_field(const Plan& p, int s) {
  return step_field(p, Do::chill, s, "/ice_from",
                    write(Temperature::celsius(get_ice_from(p, s).value_or(40)), metric));
}

// --- yeast, growth, cold ----------------------------------------------------------------------

Value get_growth(const Plan& p, int s) {
  return stage_of(p, s).duration.hours();
}
void set_growth(Plan& p, int s, double v) {
  stage_of(p, s).duration = Duration::hours(v);
}
Fields growth_fields(const Plan& p, int s) {
  const std::string text = write(stage_of(p, s).duration, metric);
  Fields fields = {{stage_path(s, "/duration"), text}};
  // The step that stirs follows its stage, where it says how long.
  const auto i = step_index(p, Do::agitate, s);
  if (i && p.steps[at(*i)].lasts)
    for (auto& field : step_field(p, Do::agitate, s, "/for", text)) fields.push_back(field);
  return fields;
}
Value get_growth_temperature(const Plan& p, int s) {
  return stage_of(p, s).temperature.celsius();
}
void set_growth_temperature(Plan& p, int s, double v) {
  stage_of(p, s).temperature = Temperature::celsius(v);
}
Fields growth_temperature_field(const Plan& p, int s) {
  return {{stage_path(s, "/temperature"), write(stage_of(p, s).temperature, metric)}};
}
Value get_packs(const Plan& p, int) {
  return p.yeast.form == YeastForm::slurry ? std::nullopt : Value(p.yeast.packs);
}
void set_packs(Plan& p, int, double v) {
  p.yeast.packs = static_cast<int>(std::lround(v));
}
Fields packs_field(const Plan& p, int) {
  return {{"/yeast/packs", p.yeast.packs}};
}
Value get_out(const Plan& p, int) {
  return p.yeast.out_of_fridge.hours();
}
void set_out(Plan& p, int, double v) {
  p.yeast.out_of_fridge = Duration::hours(v);
}
Fields out_field(const Plan& p, int) {
  return {{"/yeast/out_of_fridge", write(p.yeast.out_of_fridge, metric)}};
}
Value get_start(const Plan& p, int) {
  return p.start ? Value(0) : std::nullopt;
}
void set_start(Plan& p, int, double v) {
  if (p.start) p.start = *p.start + Duration::hours(v);
}
Fields start_field(const Plan& p, int) {
  return p.start ? Fields{{"/start", iso(*p.start)}} : Fields{};
}
Value get_brew_day(const Plan& p, int) {
  return p.beer.brew_day ? Value(0) : std::nullopt;
}
void set_brew_day(Plan& p, int, double v) {
  if (p.beer.brew_day) p.beer.brew_day = *p.beer.brew_day + Duration::hours(v);
  if (p.beer.yeast_due) p.beer.yeast_due = *p.beer.yeast_due + Duration::hours(v);
}
Fields brew_day_field(const Plan& p, int) {
  Fields fields;
  if (p.beer.brew_day) fields.push_back({"/beer/brew_day", iso(*p.beer.brew_day)});
  if (p.beer.yeast_due) fields.push_back({"/beer/yeast_due", iso(*p.beer.yeast_due)});
  return fields;
}
Value get_crash(const Plan& p, int s) {
  return step_value<&Step::lasts>(p, Do::crash, s);
}
void set_crash(Plan& p, int s, double v) {
  with_step(p, Do::crash, s, [&](Step& step) { step.lasts = Duration::hours(v); });
}
Fields crash_field(const Plan& p, int s) {
  return step_field(p, Do::crash, s, "/for",
                    write(Duration::hours(get_crash(p, s).value_or(24)), metric));
}
Value get_warm_to(const Plan& p, int s) {
  return step_temperature(p, Do::warm, s, &Step::to);
}
void set_warm_to(Plan& p, int s, double v) {
  with_step(p, Do::warm, s, [&](Step& step) { step.to = Temperature::celsius(v); });
}
Fields warm_to_field(const Plan& p, int s) {
  return step_field(p, Do::warm, s, "/to",
                    write(Temperature::celsius(get_warm_to(p, s).value_or(18)), metric));
}

Value get_warm_for(const Plan& p, int s) {
  return step_value<&Step::lasts>(p, Do::warm, s);
}
void set_warm_for(Plan& p, int s, double v) {
  with_step(p, Do::warm, s, [&](Step& step) { step.lasts = Duration::hours(v); });
}
Fields warm_for_field(const Plan& p, int s) {
  return step_field(p, Do::warm, s, "/for",
                    write(Duration::hours(get_warm_for(p, s).value_or(2)), metric));
}

/// The moment that the age of a pack is counted to: when the plan begins, else brew day.
std::optional<LocalTime> age_counted_to(const Plan& p) {
  return p.start ? p.start : p.beer.brew_day;
}
Value get_pack_age(const Plan& p, int) {
  const auto now = age_counted_to(p);
  if (!now || !p.yeast.packaged || p.yeast.form == YeastForm::dry) return std::nullopt;
  return std::floor((*now - *p.yeast.packaged).days());
}
void set_pack_age(Plan& p, int, double v) {
  if (const auto now = age_counted_to(p)) {
    constexpr std::int64_t day = 24 * 60;
    const std::int64_t today = now->minutes() / day * day;
    p.yeast.packaged = LocalTime::from_minutes(today - static_cast<std::int64_t>(v) * day);
  }
}
Fields pack_age_field(const Plan& p, int) {
  return p.yeast.packaged ? Fields{{"/yeast/packaged", iso_day(*p.yeast.packaged)}} : Fields{};
}
double week(double days) {
  return days < 14 ? 1 : 7;
}
std::string show_days(double v, UnitSystem) {
  return write_number(v) + (v == 1 ? " day" : " days");
}

// How far a turn goes in this plan. What the member has already may be larger, and is kept.
double most_water(const Plan& p, int s) {
  return std::max(get_water(p, s).value_or(0), largest_grower(p).litres() * most_filled);
}
double most_extract(const Plan& p, int s) {
  return std::max(get_extract(p, s).value_or(0),
                  most_grams_a_litre * stage_of(p, s).water.litres());
}
double most_boil_capacity(const Plan& p, int s) {
  const Vessel& vessel = p.vessels.at(boil_vessel(p, s));
  return std::max(vessel.capacity.litres(),
                  vessel.kind == VesselKind::pot ? largest_pot : largest_flask);
}
double most_growth_capacity(const Plan& p, int s) {
  return std::max(get_growth_capacity(p, s).value_or(0), largest_flask);
}
double most_tub(const Plan& p, int s) {
  return std::max(get_tub(p, s).value_or(0), largest_tub);
}
double least_bath_of(const Plan& p, int s) {
  return std::min(get_bath(p, s).value_or(0), std::max(least_bath, stage_of(p, s).water.litres()));
}
double most_bath(const Plan& p, int s) {
  return std::max(get_bath(p, s).value_or(0), most_tub(p, s));
}
double most_ice_of(const Plan& p, int s) {
  return std::max(get_ice(p, s).value_or(0), most_ice);
}

// What a turn asks of the member.
Asks bigger_is_bought(double from, double to) {
  return to > from ? Asks::purchase : Asks::nothing;
}
Asks smaller_is_bought(double from, double to) {
  return to < from ? Asks::purchase : Asks::nothing;
}
Asks another_time(double, double) {
  return Asks::time;
}

const Knob table[] = {
    {"extract_mass", 1, 1e5, false, get_extract, set_extract, gram_grain, show_mass, extract_field,
     nullptr, "", nullptr, most_extract},
    {"water", 0.05, 1000, false, get_water, set_water, litre_grain, show_volume, water_field,
     nullptr, "", nullptr, most_water},
    {"stage_size", 0.1, 1000, false, get_water, set_size, litre_grain, show_volume, size_fields,
     nullptr, "", nullptr, most_water},
    {"boil_for", 1, 60, true, get_boil, set_boil, one, show_minutes, boil_field},
    {"boil_off", 0.01, 100, true, get_boil_off, set_boil_off, boil_off_grain, show_volume,
     boil_off_field, nullptr, "measure what is then lost and write it"},
    {"boil_vessel_capacity", 1, 100, true, get_boil_capacity, set_boil_capacity, capacity_grain,
     show_volume, boil_capacity_field, bigger_is_bought, "", nullptr, most_boil_capacity},
    {"growth_vessel_capacity", 1, 100, true, get_growth_capacity, set_growth_capacity,
     capacity_grain, show_volume, growth_capacity_field, bigger_is_bought, "", nullptr,
     most_growth_capacity},
    {"tub_capacity", 1, 200, true, get_tub, set_tub, capacity_grain, show_volume, tub_field,
     bigger_is_bought, "", nullptr, most_tub},
    {"ice", 0, 50, true, get_ice, set_ice, ice_grain, show_ice, ice_field, nullptr, "", nullptr,
     most_ice_of},
    {"bath", 0.5, 200, true, get_bath, set_bath, bath_grain, show_volume, bath_field, nullptr, "",
     least_bath_of, most_bath},
    {"chill_to", 4, 40, true, get_chill_to, set_chill_to, half, show_temperature, chill_to_field},
    {"ice_from", 5, 99, true, get_ice_from, set_ice_from, one, show_temperature, ice_from_field},
    {"growth_for", 1, 24 * 14, true, get_growth, set_growth, growth_grain, show_hours,
     growth_fields},
    {"growth_temperature", 4, 35, true, get_growth_temperature, set_growth_temperature, one,
     show_temperature, growth_temperature_field},
    {"packs", 1, 8, true, get_packs, set_packs, one, show_packs, packs_field, bigger_is_bought},
    {"out_of_fridge", 0, 24, true, get_out, set_out, half, show_hours, out_field},
    {"start", -24 * 60, 24 * 60, true, get_start, set_start, one, show_shift, start_field,
     another_time, "", nullptr, nullptr, show_start},
    {"brew_day", -24 * 60, 24 * 60, true, get_brew_day, set_brew_day, one, show_shift,
     brew_day_field, another_time, "", nullptr, nullptr, show_brew_day},
    {"crash_for", 1, 24 * 21, true, get_crash, set_crash, cold_grain, show_hours, crash_field},
    {"warm_to", 2, 35, true, get_warm_to, set_warm_to, one, show_temperature, warm_to_field},
    {"warm_for", 1, 24, true, get_warm_for, set_warm_for, one, show_hours, warm_for_field},
    {"pack_age", 3, 3650, true, get_pack_age, set_pack_age, week, show_days, pack_age_field,
     smaller_is_bought, "write its own date"},
};

}  // namespace

bool may_grow(const Vessel& vessel) {
  return vessel.kind != VesselKind::tub && vessel.kind != VesselKind::sink &&
         vessel.kind != VesselKind::pot;
}

Volume largest_grower(const Plan& plan) {
  Volume largest = Volume::litres(largest_flask);
  for (const auto& [name, vessel] : plan.vessels)
    if (may_grow(vessel)) largest = std::max(largest, vessel.capacity);
  return largest;
}

std::string_view spelling(Asks asks) {
  switch (asks) {
    case Asks::nothing:
      return "nothing";
    case Asks::time:
      return "time";
    case Asks::taste:
      return "taste";
    case Asks::purchase:
      return "purchase";
  }
  return "";
}

std::span<const Knob> knobs() {
  return table;
}

const Knob* find_knob(std::string_view name) {
  for (const Knob& knob : table)
    if (knob.name == name) return &knob;
  return nullptr;
}

}  // namespace starter
