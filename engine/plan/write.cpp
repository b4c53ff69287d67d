#include "plan/write.h"

#include <span>
#include <vector>

#include "plan/json.h"
#include "plan/layout.h"
#include "plan/pointer.h"
#include "plan/read.h"
#include "plan/stage_of_step.h"
#include "quantity/read.h"
#include "quantity/write.h"

namespace starter {
namespace {

/// A quantity's number in one unit.
struct InUnit {
  double number;
  const char* unit;
};

/// The text that reads back as exactly `value`: in the first unit that can say it in a few digits,
/// else in the one that needs the fewest.
/// \param units best first; the first must be able to say every value with all its digits.
template <class Q>
std::string readable(const Q& value, Read<Q> (*read)(std::string_view),
                     const std::vector<InUnit>& units) {
  const auto says = [](const InUnit& in, int digits) {
    return write_number(in.number, digits) + ' ' + in.unit;
  };
  const auto says_it = [&](const std::string& text) {
    const auto back = read(text);
    return back && *back == value;
  };
  constexpr int few_digits = 4;
  for (const auto& in : units)
    if (const auto text = says(in, few_digits); says_it(text)) return text;
  constexpr int all_digits = 17;
  for (int digits = few_digits + 1; digits < all_digits; ++digits)
    for (const auto& in : units)
      if (const auto text = says(in, digits); says_it(text)) return text;
  return says(units.front(), all_digits);
}

std::string exact(Mass m) {
  const InUnit g{m.grams(), "g"}, kg{m.kilograms(), "kg"};
  const InUnit oz{m.ounces(), "oz"}, lb{m.pounds(), "lb"};
  return m.grams() < 1000 ? readable(m, &read_mass, {g, kg, oz, lb})
                          : readable(m, &read_mass, {kg, g, lb, oz});
}

std::string exact(Volume v) {
  const InUnit litres{v.litres(), "L"}, mL{v.millilitres(), "mL"};
  const InUnit gal{v.us_gallons(), "gal"}, qt{v.us_quarts(), "qt"};
  const InUnit fl_oz{v.us_fluid_ounces(), "fl oz"};
  if (v.litres() < 0.5) return readable(v, &read_volume, {mL, litres, fl_oz, qt, gal});
  return v.us_gallons() < 1 ? readable(v, &read_volume, {litres, mL, qt, fl_oz, gal})
                            : readable(v, &read_volume, {litres, mL, gal, qt, fl_oz});
}

std::string exact(Temperature t) {
  return readable(t, &read_temperature, {{t.celsius(), "°C"}, {t.fahrenheit(), "°F"}});
}

std::string exact(Duration d) {
  const InUnit h{d.hours(), "h"}, min{d.minutes(), "min"}, days{d.days(), "d"}, s{d.seconds(), "s"};
  return d.hours() > 0 && d.hours() < 2 ? readable(d, &read_duration, {min, h, s, days})
                                        : readable(d, &read_duration, {h, days, min, s});
}

std::string exact(Length l) {
  const InUnit m{l.metres(), "m"}, cm{l.centimetres(), "cm"}, mm{l.millimetres(), "mm"};
  const InUnit ft{l.feet(), "ft"}, in{l.inches(), "in"};
  return l.metres() < 1 && l.metres() > -1 ? readable(l, &read_length, {cm, mm, m, in, ft})
                                           : readable(l, &read_length, {m, cm, mm, ft, in});
}

std::string exact(CellCount n) {
  const InUnit billion{n.billion(), "billion"}, million{n.billion() * 1000, "million"};
  return n.billion() < 1 ? readable(n, &read_cell_count, {million, billion})
                         : readable(n, &read_cell_count, {billion, million});
}

std::string exact(CellDensity d) {
  const InUnit million{d.million_per_mL(), "million/mL"};
  const InUnit billion{d.billion_per_mL(), "billion/mL"};
  return d.billion_per_mL() < 1 ? readable(d, &read_cell_density, {million, billion})
                                : readable(d, &read_cell_density, {billion, million});
}

std::string exact(Share s) {
  return readable(s, &read_share, {{s.percent(), "%"}});
}

std::string exact(Gravity g) {
  if (g.scale == Gravity::Scale::plato) return readable(g, &read_gravity, {{g.value, "°P"}});
  const std::string usual = write(g, UnitSystem::metric);  // always three decimals
  const auto back = read_gravity(usual);
  return back && *back == g ? usual : readable(g, &read_gravity, {{g.value, "SG"}});
}

std::string day_or_time(LocalTime t) {
  constexpr std::int64_t minutes_a_day = 24 * 60;
  return t.minutes() % minutes_a_day == 0 ? iso_day(t) : iso(t);
}

/// Collects the members of one object.
class Object {
 public:
  Object(const Plan& plan, std::string where) : plan_(plan), where_(std::move(where)) {}

  template <class Word>
  void word(const char* name, Word value) {
    if (is_wanted(name)) json_[name] = std::string(spelling(value));
  }
  template <class Q>
  void quantity(const char* name, const Q& value) {
    if (is_wanted(name)) json_[name] = exact(value);
  }
  template <class Q>
  void quantity(const char* name, const std::optional<Q>& value) {
    if (value) quantity(name, *value);
  }
  void text(const char* name, const std::optional<std::string>& value) {
    if (value && (!value->empty() || plan_.wrote(where(name))) && is_wanted(name))
      json_[name] = *value;
  }
  void texts(const char* name, const std::vector<std::string>& values) {
    if (!values.empty() || plan_.wrote(where(name))) list(name, values);
  }
  /// As texts, and an empty list too: where that says something, as "after" nothing does.
  void list(const char* name, const std::vector<std::string>& values) {
    if (values.size() == 1)
      json_[name] = values.front();
    else
      json_[name] = values;
  }
  void number(const char* name, const std::optional<int>& value) {
    if (value && is_wanted(name)) json_[name] = *value;
  }
  void flag(const char* name, bool value) {
    if (value || plan_.wrote(where(name))) json_[name] = value;
  }
  void time(const char* name, const std::optional<LocalTime>& value) {
    if (value && is_wanted(name)) json_[name] = iso(*value);
  }
  void day_alone(const char* name, LocalTime value) { json_[name] = iso_day(value); }
  void day(const char* name, const std::optional<LocalTime>& value) {
    if (value && is_wanted(name)) json_[name] = day_or_time(*value);
  }
  /// Left out when empty, unless it must be there.
  void part(const char* name, Json value) {
    if (!value.empty()) json_[name] = std::move(value);
  }

  std::string where(const char* name) const { return pointer_to(where_, name); }
  bool is_assumed(const char* name) const {
    const std::string place = where(name);
    for (const auto& assumption : plan_.assumed)
      if (assumption.where == place) return true;
    return false;
  }
  bool is_wanted(const char* name) const { return plan_.wrote(where(name)) || !is_assumed(name); }
  Json take() { return std::move(json_); }

 private:
  const Plan& plan_;
  std::string where_;
  Json json_ = Json::object();
};

Json place_of(const Plan& plan) {
  Object place(plan, "/place");
  place.quantity("altitude", plan.place.altitude);
  place.quantity("tap_water", plan.place.tap_water);
  place.quantity("room", plan.place.room);
  place.quantity("fridge", plan.place.fridge);
  return place.take();
}

Json beer_of(const Plan& plan) {
  const Beer& held = plan.beer;
  Object beer(plan, "/beer");
  beer.word("kind", held.kind);
  beer.quantity("volume", held.volume);
  beer.quantity("gravity", held.gravity);
  if (beer.is_assumed("brew_day"))  // its clock time is; the member wrote the day
    beer.day_alone("brew_day", *held.brew_day);
  else
    beer.time("brew_day", held.brew_day);
  beer.time("yeast_due", held.yeast_due);
  beer.quantity("ferment_at", held.ferment_at);
  beer.quantity("keep_cells", held.keep_cells);
  return beer.take();
}

Json yeast_of(const Plan& plan) {
  const Yeast& held = plan.yeast;
  Object yeast(plan, "/yeast");
  yeast.word("form", held.form);
  if (held.form != YeastForm::slurry || plan.wrote("/yeast/packs"))
    yeast.number("packs", held.packs);
  if (held.cells_per_pack > CellCount{}) yeast.quantity("cells_per_pack", held.cells_per_pack);
  yeast.day("packaged", held.packaged);
  yeast.quantity("pack_mass", held.pack_mass);
  yeast.day("best_before", held.best_before);
  yeast.quantity("slurry_volume", held.slurry_volume);
  yeast.quantity("slurry_density", held.slurry_density);
  yeast.quantity("viability", held.viability);
  yeast.number("cells_counted", held.cells_counted);
  yeast.quantity("measured_cells", held.measured_cells);
  yeast.quantity("out_of_fridge", held.out_of_fridge);
  yeast.word("flocculation", held.flocculation);
  return yeast.take();
}

Json vessels_of(const Plan& plan) {
  Json vessels = Json::object();
  for (const auto& [name, held] : plan.vessels) {
    Object vessel(plan, pointer_to("/vessels", name));
    vessel.word("kind", held.kind);
    vessel.quantity("capacity", held.capacity);
    vessel.word("material", held.material);
    vessel.quantity("opening", held.opening);
    vessel.quantity("depth", held.depth);
    vessel.quantity("diameter", held.diameter);
    vessel.quantity("empty_mass", held.empty_mass);
    vessel.flag("coil_allowed", held.coil_allowed);
    vessels[name] = vessel.take();
  }
  return vessels;
}

Json extract_of(const Plan& plan, const Stage& held, const std::string& where) {
  Object extract(plan, where);
  extract.word("kind", held.extract_kind);
  if (held.extract_kind != ExtractKind::wort) extract.quantity("mass", held.extract_mass);
  extract.quantity("solids", held.extract_solids);
  return extract.take();
}

Json measured_of(const Plan& plan, const Readings& held, const std::string& where) {
  Object measured(plan, where);
  measured.quantity("volume", held.volume);
  measured.quantity("volume_at", held.volume_at);
  measured.quantity("gravity", held.gravity);
  measured.quantity("gravity_at", held.gravity_at);
  measured.quantity("chill_time", held.chill_time);
  measured.quantity("growth_time", held.growth_time);
  measured.quantity("cells", held.cells);
  measured.number("cells_counted", held.cells_counted);
  measured.quantity("settling_time", held.settling_time);
  measured.quantity("cells_kept", held.cells_kept);
  return measured.take();
}

/// The boil step of a stage that states the boil-off, if one does.
const Step* step_with_boil_off(const Plan& plan, int stage) {
  for (const auto& step : plan.steps)
    if (step.stage == stage && plan.wrote(pointer_to(step.path, "boil_off"))) return &step;
  return nullptr;
}

Json stage_of(const Plan& plan, std::size_t index) {
  const Stage& held = plan.stages[index];
  const std::string where = pointer_to("/stages", index);
  Object stage(plan, where);
  stage.part("extract", extract_of(plan, held, stage.where("extract")));
  stage.quantity("water", held.water);
  stage.quantity("gravity", held.gravity);
  stage.quantity("wort_volume", held.wort_volume);
  if (step_with_boil_off(plan, static_cast<int>(index)) == nullptr)
    stage.quantity("boil_off", held.boil_off);
  stage.text("vessel", held.vessel);
  stage.word("agitation", held.agitation);
  stage.quantity("temperature", held.temperature);
  stage.quantity("duration", held.duration);
  stage.part("measured", measured_of(plan, held.measured, stage.where("measured")));
  return stage.take();
}

Json step_of(const Plan& plan, const Step& held, bool says_stage) {
  Object step(plan, held.path);
  step.text("do", held.verb);
  step.text("id", held.id);
  if (says_stage) step.number("stage", held.stage + 1);
  step.text("in", held.in);
  step.text("from", held.from);
  step.texts("with", held.with);
  step.texts("items", held.items);
  if (held.heat) step.word("heat", *held.heat);
  step.quantity("bath", held.bath);
  step.quantity("bath_depth", held.bath_depth);
  step.quantity("water", held.water);
  step.quantity("ice", held.ice);
  step.quantity("ice_from", held.ice_from);
  step.flag("swirl", held.swirl);
  if (held.into)
    step.text("to", held.into);
  else
    step.quantity("to", held.to);
  step.quantity("at", held.at);
  step.quantity("for", held.lasts);
  step.flag("sealed", held.sealed);
  if (step_with_boil_off(plan, held.stage) == &held)
    step.quantity("boil_off", plan.stages[static_cast<std::size_t>(held.stage)].boil_off);
  step.text("during", held.during);
  if (held.after) step.list("after", *held.after);
  return step.take();
}

Json stages_of(const Plan& plan) {
  Json stages = Json::array();
  for (std::size_t i = 0; i < plan.stages.size(); ++i) stages.push_back(stage_of(plan, i));
  return stages;
}

Json steps_of(const Plan& plan) {
  Json steps = Json::array();
  StageOfStep walk(plan.stages.size());
  for (const auto& step : plan.steps) {
    const bool differs = step.stage != walk.unless_said(step.does);
    const bool said = !step.path.empty() && plan.wrote(pointer_to(step.path, "stage"));
    steps.push_back(step_of(plan, step, differs || said));
    walk.walk(step.does, step.stage);
  }
  return steps;
}

}  // namespace

std::string write_plan(const Plan& plan) {
  Object whole(plan, "");
  whole.number("plan", 1);
  whole.text("title", plan.title);
  whole.text("member", plan.member);
  whole.time("start", plan.start);
  whole.part("place", place_of(plan));
  whole.part("beer", beer_of(plan));
  whole.part("yeast", yeast_of(plan));
  // These may be assumed though written, as empty.
  if (!whole.is_assumed("vessels")) whole.part("vessels", vessels_of(plan));
  whole.part("stages", stages_of(plan));
  if (!whole.is_assumed("steps")) whole.part("steps", steps_of(plan));
  return lay_out(whole.take());
}

}  // namespace starter
