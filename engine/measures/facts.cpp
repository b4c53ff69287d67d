#include "measures/facts.h"

#include <algorithm>

#include "quantity/local_time.h"
#include "quantity/write.h"

namespace starter {
namespace {

using namespace literals;

/// Wort that stands no warmer than this is kept as food in a fridge is (common practice, no
/// source).
constexpr Temperature kept_cold = 5_degC;

std::size_t at(int i) {
  return static_cast<std::size_t>(i);
}

constexpr std::string_view strength_values[] = {"extract", "gravity"};
constexpr std::string_view boil_vessel_values[] = {
    "fine",         "soda-lime on heat",          "plastic on heat", "glass on bare coil",
    "glass on gas", "does not heat by induction", "heat not stated"};
constexpr std::string_view glass_values[] = {"borosilicate glass", "soda-lime glass"};
constexpr std::string_view boil_values[] = {"boiled", "never boiled"};
constexpr std::string_view seal_values[] = {"open", "sealed over the boil", "sealed while hot",
                                            "sealed over live yeast"};
constexpr std::string_view storage_values[] = {"none", "cold", "covered and warm",
                                               "sealed and warm"};
constexpr std::string_view cold_rest_values[] = {"after growth", "before growth"};
constexpr std::string_view checked_values[] = {"checked", "not checked"};
constexpr std::string_view weak_values[] = {"strong", "weak into full strength", "weak eased in"};
constexpr std::string_view dry_values[] = {"not dry", "dry in date", "dry past date"};
constexpr std::string_view pack_date_values[] = {"before the pitch", "after the pitch"};
constexpr std::string_view stated_values[] = {"stated", "not stated"};
constexpr std::string_view air_values[] = {"stirred", "shaken", "still", "sealed",
                                           "stirred under tight cover"};
constexpr std::string_view cover_values[] = {"covered", "left open"};
constexpr std::string_view decant_values[] = {"decanted", "large and pitched whole",
                                              "tiny and active, decanted",
                                              "small and pitched whole", "krausen pitch"};
constexpr std::string_view loop_values[] = {"loop"};
constexpr std::string_view unknown_values[] = {"unknown"};
constexpr std::string_view governs_values[] = {"stage governs"};
constexpr std::string_view floating_values[] = {"stands", "floats"};

constexpr std::string_view about_none[] = {"word"};
constexpr std::string_view about_vessel[] = {"word", "vessel", "with", "step"};
constexpr std::string_view about_step[] = {"word", "step"};
constexpr std::string_view about_step_item[] = {"word", "step", "item"};
constexpr std::string_view about_needs[] = {"word", "needs"};
constexpr std::string_view about_unknown[] = {"word", "step", "nearest", "field"};
constexpr std::string_view about_governs[] = {"word", "step", "with"};
constexpr std::string_view about_date[] = {"word", "with"};
constexpr std::string_view about_partner[] = {"word", "step", "needs"};

const FactKind kinds[] = {
    {"extract_kind", {}, about_none},
    {"strength_told_by", strength_values, about_none},
    {"boil_vessel_heat", boil_vessel_values, about_vessel},
    {"glass_kind", glass_values, about_vessel},
    {"boil_state", boil_values, about_none},
    {"seal", seal_values, about_step_item},
    {"wort_storage", storage_values, about_step},
    {"cold_rest", cold_rest_values, about_step},
    {"temperature_checked", checked_values, about_step},
    {"weak_pack", weak_values, about_none},
    {"dry_grown", dry_values, about_none},
    {"pack_date", pack_date_values, about_date},
    {"agitation_stated", stated_values, about_none},
    {"air_access", air_values, about_step_item},
    {"cover", cover_values, about_step},
    {"decant_choice", decant_values, about_step},
    {"flask_in_bath", floating_values, about_step},
    {"missing_step", {}, about_needs},
    {"step_loop", loop_values, about_none},
    {"step_unknown", unknown_values, about_unknown},
    {"stage_governs", governs_values, about_governs},
    {"partner_missing", {}, about_partner},
};

/// Collects facts of one case.
class Gatherer {
 public:
  explicit Gatherer(const Case& c) : c_(c) {}

  std::vector<Fact> all() {
    for (int stage = 0; stage < static_cast<int>(c_.plan.stages.size()); ++stage) {
      wort(stage);
      boil_vessel(stage);
      glass(stage);
      seal(stage);
      storage(stage);
      cold_rest(stage);
      checked(stage);
      air(stage);
      cover(stage);
      bath(stage);
      disagreements(stage);
    }
    yeast();
    decanting();
    graph();
    partners();
    return std::move(facts_);
  }

 private:
  const Stage& stage(int s) const { return c_.plan.stages[at(s)]; }
  const Step& step(int i) const { return c_.plan.steps[at(i)]; }
  const StageWorking& working(int s) const { return c_.workings.stages[at(s)]; }
  std::string path(int i) const { return step(i).path.empty() ? "/steps" : step(i).path; }
  std::string stage_path(int s, const char* rest = "") const {
    return "/stages/" + std::to_string(s) + rest;
  }
  std::string label(int i) const { return step_label(c_.plan, i); }

  Fact& add(std::string name, std::string value, std::string where, int s, int i = -1) {
    Fact fact;
    fact.name = std::move(name);
    fact.value = std::move(value);
    fact.where = std::move(where);
    fact.stage = s;
    fact.step = i;
    fact.about["word"] = fact.value;
    fact.about["step"] = i >= 0 ? label(i) : "the plan";
    facts_.push_back(std::move(fact));
    return facts_.back();
  }

  void wort(int s) {
    add("extract_kind", std::string(spelling(stage(s).extract_kind)), stage_path(s, "/extract"), s)
        .sure = c_.plan.wrote(stage_path(s, "/extract/kind"));
    // One cause is told once: strength is told as a gravity where the plan states one, where the
    // extract is liquid, or where boiling down alone carries the wort out of bounds.
    const Plato before = science::plato(working(s).before_boil);
    const Plato after = working(s).gravity;
    const bool boiled_into_it = before <= 10.2_degP && after > 10.2_degP;
    const bool by_gravity = stage(s).gravity ||
                            stage(s).extract_kind == ExtractKind::light_liquid_malt ||
                            stage(s).extract_kind == ExtractKind::wort || boiled_into_it;
    add("strength_told_by", by_gravity ? "gravity" : "extract", stage_path(s, "/extract"), s);
    add("boil_state", working(s).boil_step ? "boiled" : "never boiled", stage_path(s), s);
  }

  void boil_vessel(int s) {
    for (Do heating : {Do::heat, Do::boil}) {
      const auto i = first_step(c_.plan, heating, s);
      if (!i) continue;
      const Step& boil = step(*i);
      const std::string name = boiled_in(c_.plan, c_.process, *i);
      const Vessel& vessel = c_.plan.vessels.at(name);
      // Of heating and boiling the one without its own word on heat goes by the other's.
      auto heat = boil.heat;
      if (!heat)
        if (const auto other = first_step(c_.plan, heating == Do::boil ? Do::heat : Do::boil, s))
          heat = step(*other).heat;
      Fact& fact = add("boil_vessel_heat", state_of(vessel, heat), path(*i), s, *i);
      fact.about["vessel"] = name;
      fact.about["with"] = heat ? std::string(spelling(*heat)) : "heat";
      if (fact.value != "fine" || heating == Do::boil) {
        if (fact.value == "heat not stated") fact.sure = false;
        break;
      }
      facts_.pop_back();
    }
  }

  static std::string state_of(const Vessel& vessel, std::optional<HeatSource> heat) {
    const bool heated = !heat || *heat != HeatSource::none;
    if (heated && vessel.material == Material::soda_lime_glass) return "soda-lime on heat";
    if (heated && vessel.material == Material::plastic) return "plastic on heat";
    if (!heat) return "heat not stated";
    const bool glass = vessel.material == Material::borosilicate_glass;
    if (glass && *heat == HeatSource::electric_coil && !vessel.coil_allowed)
      return "glass on bare coil";
    if (*heat == HeatSource::induction && (glass || vessel.material == Material::aluminium))
      return "does not heat by induction";
    if (glass && *heat == HeatSource::gas) return "glass on gas";
    return "fine";
  }

  void glass(int s) {
    const auto& meeting = working(s).glass;
    if (!meeting) return;
    Fact& fact = add("glass_kind", std::string(spelling(meeting->material)), path(meeting->at_step),
                     s, meeting->at_step);
    fact.about["vessel"] = meeting->vessel;
    fact.about["with"] = meeting->cooling ? "cold water" : "boiling wort";
  }

  /// The cover that lies on the wort of a stage when `when` begins: the last one laid before it.
  std::optional<int> cover_at(int s, int when) const {
    std::optional<int> on;
    for (int i : c_.process.order) {
      if (step(i).does != Do::cover || step(i).stage != s) continue;
      if (i == when || c_.process.precedes(i, when) ||
          c_.process.inside[at(i)] == std::optional(when))
        on = i;
    }
    return on;
  }

  void seal(int s) {
    auto sealed = [&](std::optional<int> when) -> std::optional<int> {
      if (!when) return std::nullopt;
      const auto on = cover_at(s, *when);
      return on && step(*on).sealed ? on : std::nullopt;
    };
    auto told = [&](const char* value, int i) {
      Fact& fact = add("seal", value, path(i), s, i);
      fact.about["item"] = step(i).with.empty() ? "cover" : step(i).with.front();
    };
    const auto boil = first_step(c_.plan, Do::boil, s);
    const auto chill = first_step(c_.plan, Do::chill, s);
    const auto pitch = first_step(c_.plan, Do::pitch, s);
    if (const auto on = sealed(boil)) return told("sealed over the boil", *on);
    if (boil && chill)
      if (const auto on = sealed(chill)) return told("sealed while hot", *on);
    // Shut away after the boil and before any chilling, it is still hot.
    for (int i : steps_of(c_.plan, Do::store, s))
      if (step(i).sealed && boil && c_.process.precedes(*boil, i) &&
          !(chill && c_.process.precedes(*chill, i)))
        return told("sealed while hot", i);
    for (Do growing : {Do::agitate, Do::rest, Do::crash, Do::store}) {
      const auto i = last_step(c_.plan, growing, s);
      if (!i || !pitch || !c_.process.precedes(*pitch, *i)) continue;
      if (const auto on = sealed(*i)) return told("sealed over live yeast", *on);
      if (step(*i).sealed) return told("sealed over live yeast", *i);
    }
    if (pitch)
      for (int i : steps_of(c_.plan, Do::cover, s))
        if (step(i).sealed && c_.process.precedes(*pitch, i))
          return told("sealed over live yeast", i);
    add("seal", "open", stage_path(s), s).about["item"] = "cover";
  }

  /// How long boiled wort without yeast stands in the cold in cold rests before this step.
  Duration cold_before(int pitch) const {
    Duration cold;
    const auto boil = first_step(c_.plan, Do::boil, step(pitch).stage);
    for (int i : steps_of(c_.plan, Do::crash, step(pitch).stage)) {
      if (!c_.process.precedes(i, pitch) || (boil && !c_.process.precedes(*boil, i))) continue;
      if (step(i).at.value_or(c_.plan.place.fridge) > kept_cold) continue;
      const StepTime& rest = c_.workings.times.times[at(i)];
      cold += rest.end - rest.start;
    }
    return cold;
  }

  void storage(int s) {
    const auto pitch = first_step(c_.plan, Do::pitch, s);
    const auto boil = first_step(c_.plan, Do::boil, s);
    std::optional<int> kept;
    for (int i : steps_of(c_.plan, Do::store, s))
      if ((!pitch || c_.process.precedes(i, *pitch)) && (!boil || c_.process.precedes(*boil, i)))
        kept = i;
    if (!kept) {
      const Duration wait = working(s).wort_wait.value_or(Duration());
      const auto on = pitch ? cover_at(s, *pitch) : std::nullopt;
      const bool tight = on && step(*on).sealed;
      const Duration cold = pitch ? cold_before(*pitch) : Duration();
      const Duration warm = wait - cold;
      // Minutes between chilling and pitching are part of the work, not storage.
      Fact& fact = add("wort_storage",
                       wait <= Duration()                 ? "none"
                       : cold > Duration() && warm <= 1_h ? "cold"
                       : tight && wait > 1_h              ? "sealed and warm"
                                                          : "covered and warm",
                       pitch ? path(*pitch) : stage_path(s), s, pitch.value_or(-1));
      if (cold > Duration() && warm > 1_h)
        fact.about["word"] =
            (tight ? "sealed, " : "covered, ") + write(warm, UnitSystem::metric) + " of it warm";
      return;
    }
    const Temperature place = step(*kept).at.value_or(c_.plan.place.room);
    const auto on = cover_at(s, *kept);
    const bool tight = step(*kept).sealed || (on && step(*on).sealed);
    add("wort_storage",
        place <= kept_cold ? "cold"
        : tight            ? "sealed and warm"
                           : "covered and warm",
        path(*kept), s, *kept);
  }

  /// Whether a stage is put in the cold before it has grown. A rest after the pitch is growth too,
  /// and so is a pitch that is given hours. Yeast that is pitched into wort already cold has a rule
  /// of its own.
  void cold_rest(int s) {
    const auto crashes = steps_of(c_.plan, Do::crash, s);
    if (crashes.empty()) return;
    const auto pitches = steps_of(c_.plan, Do::pitch, s);
    const auto agitates = steps_of(c_.plan, Do::agitate, s);
    const auto before = [&](int a, int b) { return c_.process.precedes(a, b); };
    const auto grown_by = [&](int cold) {
      for (int i : agitates)
        if (before(i, cold)) return true;
      for (int pitch : pitches) {
        if (!before(pitch, cold)) continue;
        if (step(pitch).lasts.value_or(Duration()) >= 1_h) return true;
        for (int rest : steps_of(c_.plan, Do::rest, s))
          if (before(pitch, rest) && before(rest, cold)) return true;
      }
      return false;
    };
    const auto early = [&](int cold) {
      return !grown_by(cold) && std::any_of(agitates.begin(), agitates.end(), [&](int grows) {
        return before(cold, grows) && std::none_of(pitches.begin(), pitches.end(), [&](int pitch) {
                 return before(cold, pitch) && before(pitch, grows);
               });
      });
    };
    const auto found = std::find_if(crashes.begin(), crashes.end(), early);
    const int told = found != crashes.end() ? *found : crashes.front();
    add("cold_rest", found != crashes.end() ? "before growth" : "after growth", path(told), s,
        told);
  }

  void checked(int s) {
    const auto pitch = first_step(c_.plan, Do::pitch, s);
    if (!pitch) return;
    bool read = false;
    for (int i : steps_of(c_.plan, Do::check_temperature, s))
      read |= c_.process.precedes(i, *pitch);
    add("temperature_checked", read ? "checked" : "not checked", path(*pitch), s, *pitch);
  }

  void air(int s) {
    const std::string field = stage_path(s, "/agitation");
    const bool says = c_.plan.wrote(field) || first_step(c_.plan, Do::agitate, s).has_value();
    add("agitation_stated", says ? "stated" : "not stated", stage_path(s), s).sure = says;
    const Fact* sealed = find_fact(facts_, "seal", s);
    const bool tight = sealed && sealed->value == "sealed over live yeast";
    std::string value = stage(s).agitation == Agitation::stir_plate ? "stirred"
                        : stage(s).agitation == Agitation::shaken   ? "shaken"
                                                                    : "still";
    if (tight) value = value == "stirred" ? "stirred under tight cover" : "sealed";
    add("air_access", value, field, s).about["item"] = "cover";
  }

  void cover(int s) {
    const auto anchor = first_step(c_.plan, Do::pitch, s);
    if (!anchor) return;
    const bool ever = !steps_of(c_.plan, Do::cover, s).empty();
    const auto open_from = first_step(c_.plan, Do::chill, s).value_or(*anchor);
    add("cover", ever ? "covered" : "left open", path(open_from), s, open_from);
  }

  void bath(int s) {
    const auto& chill = working(s).chill;
    if (!chill || !step(chill->step).bath_depth) return;
    add("flask_in_bath", chill->floats ? "floats" : "stands", path(chill->step), s, chill->step);
  }

  /// Where a stage and its step speak of the same thing and differ, the stage governs.
  void disagreements(int s) {
    const auto i = growth_step(c_.plan, c_.process, s);
    if (!i || !step(*i).lasts) return;
    const Duration apart = *step(*i).lasts - stage(s).duration;
    if (apart < 1_min && apart > -1_min) return;
    Fact& fact = add("stage_governs", "stage governs", path(*i), s, *i);
    fact.about["word"] = write(*step(*i).lasts, UnitSystem::metric);
    fact.about["with"] = write(stage(s).duration, UnitSystem::metric);
  }

  void yeast() {
    const Yeast& y = c_.plan.yeast;
    if (y.form != YeastForm::dry) {
      const bool weak = c_.workings.viability < 50_percent;
      const bool eased = working(0).gravity <= 6_degP;
      Fact& fact = add("weak_pack",
                       !weak   ? "strong"
                       : eased ? "weak eased in"
                               : "weak into full strength",
                       stage_path(0), 0);
      fact.sure = y.viability.has_value() || c_.workings.pack_age_known;
    }
    std::string dry = "not dry";
    if (y.form == YeastForm::dry) {
      const auto due = yeast_due(c_.plan);
      dry = y.best_before && due && *due > *y.best_before ? "dry past date" : "dry in date";
    }
    add("dry_grown", dry, "/yeast", -1).sure =
        y.form != YeastForm::dry || (y.best_before && yeast_due(c_.plan));
    pack_date();
  }

  /// Whether the day on the yeast comes before the day it goes in, where the plan tells both.
  void pack_date() {
    if (!c_.workings.pack_age_known) return;
    const bool after = c_.workings.pack_age < Duration();
    const LocalTime packaged = *c_.plan.yeast.packaged;
    Fact& fact =
        add("pack_date", after ? "after the pitch" : "before the pitch", "/yeast/packaged", -1);
    fact.about["word"] = iso_day(packaged + c_.workings.pack_age);
    fact.about["with"] = iso_day(packaged);
  }

  void decanting() {
    const int last = static_cast<int>(c_.plan.stages.size()) - 1;
    const double share = c_.workings.starter_volume / c_.plan.beer.volume;
    const auto krausen = first_step(c_.plan, Do::krausen_pitch, last);
    const auto handover = first_step(c_.plan, Do::pitch_to_beer, last);
    const auto decant = first_step(c_.plan, Do::decant, last);
    const int i = krausen.value_or(decant.value_or(handover.value_or(-1)));
    // Below a fiftieth of the batch nothing is gained by pouring beer off.
    std::string value = krausen && !decant
                            ? (share > 0.1 ? "large and pitched whole" : "krausen pitch")
                        : decant       ? (share < 0.02 ? "tiny and active, decanted" : "decanted")
                        : share > 0.05 ? "large and pitched whole"
                                       : "small and pitched whole";
    add("decant_choice", value, i >= 0 ? path(i) : "/steps", -1, i);
  }

  void graph() {
    const int count = static_cast<int>(c_.plan.steps.size());
    for (const MissingStep& missing : c_.process.missing) {
      const std::string where = missing.before < count ? path(missing.before) : "/steps";
      Fact& fact = add("missing_step", std::string(spelling(missing.what)), where, missing.stage);
      fact.step = missing.before;
      fact.about["needs"] =
          missing.before < count ? label(missing.before) : std::string("the end of the plan");
    }
    for (const auto& ring : c_.process.loops) {
      std::string words;
      for (int i : ring) words += label(i) + " → ";
      words += label(ring.front());
      add("step_loop", "loop", path(ring.front()), -1, ring.front()).about["word"] = words;
    }
    for (const UnknownName& name : c_.process.unknown) {
      Fact& fact =
          add("step_unknown", "unknown", path(name.step) + "/" + name.field, -1, name.step);
      fact.about["word"] = name.word;
      fact.about["nearest"] = name.nearest;
      fact.about["field"] = name.field;
    }
  }

  void partner(int i, const char* has, const char* needs) {
    Fact& fact = add("partner_missing", has, path(i), step(i).stage, i);
    fact.about["needs"] = needs;
  }

  void partners() {
    for (int i = 0; i < static_cast<int>(c_.plan.steps.size()); ++i) {
      const Step& s = step(i);
      if (s.does != Do::chill) continue;
      if (s.ice_from && !s.ice) partner(i, "ice_from", "ice");
      if (s.ice && !c_.plan.wrote(s.path + "/ice_from")) partner(i, "ice", "ice_from");
    }
    for (int s = 0; s < static_cast<int>(c_.plan.stages.size()); ++s) {
      const auto i = first_step(c_.plan, Do::agitate, s);
      if (i && stage(s).agitation == Agitation::none)
        partner(*i, "agitate", "the stage's agitation");
      const Readings& read = stage(s).measured;
      if (read.cells && !read.cells_counted) {
        Fact& fact = add("partner_missing", "measured cells", stage_path(s, "/measured"), s);
        fact.about["needs"] = "cells_counted";
        fact.about["step"] = "the readings";
      }
    }
    if (c_.plan.yeast.viability && !c_.plan.yeast.cells_counted) {
      Fact& fact = add("partner_missing", "viability", "/yeast/viability", -1);
      fact.about["needs"] = "cells_counted";
      fact.about["step"] = "the yeast";
    }
  }

  const Case& c_;
  std::vector<Fact> facts_;
};

}  // namespace

std::span<const FactKind> fact_kinds() {
  return kinds;
}

std::vector<Fact> facts_of(const Case& c) {
  return Gatherer(c).all();
}

const Fact* find_fact(std::span<const Fact> facts, std::string_view name, int stage) {
  const Fact* of_plan = nullptr;
  for (const Fact& fact : facts) {
    if (fact.name != name) continue;
    if (fact.stage == stage) return &fact;
    if (fact.stage < 0) of_plan = &fact;
  }
  return of_plan;
}

}  // namespace starter
