#include "plan/supply.h"

#include <algorithm>
#include <string_view>
#include <utility>

#include "plan/parts.h"
#include "plan/pointer.h"
#include "plan/standard_process.h"
#include "quantity/words.h"
#include "quantity/write.h"

namespace starter {
namespace {

template <class Q>
std::string as_written(const Q& quantity) {
  return write(quantity, UnitSystem::metric);
}

/// Supplies one part of a plan.
class Supplier {
 public:
  Supplier(Plan& plan, const Defaults& defaults) : plan_(plan), defaults_(defaults) {}

  void place() {
    Place& place = plan_.place;
    supply("/place/altitude", place.altitude, defaults_.altitude,
           "No altitude is given, so a usual one is taken.");
    supply("/place/tap_water", place.tap_water, defaults_.tap_water,
           "No tap water temperature is given, so a usual one is taken.");
    supply("/place/room", place.room, defaults_.room,
           "No room temperature is given, so a usual one is taken.");
    supply("/place/fridge", place.fridge, defaults_.fridge,
           "No fridge temperature is given, so a usual one is taken.");
  }

  void beer() {
    Beer& beer = plan_.beer;
    supply_word("/beer/kind", BeerKind::ale, beer.kind,
                "The kind of beer is not stated, so it is taken to be an ale.");
    supply("/beer/ferment_at", beer.ferment_at, usual_fermentation(),
           "No fermentation temperature is given, so one usual for this kind of beer is taken.");
  }

  void yeast() {
    Yeast& yeast = plan_.yeast;
    if (yeast.form == YeastForm::slurry) {
      if (!yeast.slurry_density)
        note("/yeast/slurry_density", "1.5 billion/mL",
             "The slurry's cells are not counted, so thick slurry of 1 to 2 billion/mL is taken.");
    } else {
      if (!plan_.wrote("/yeast/packs"))
        note("/yeast/packs", "1", "The number of packs is not stated, so one is taken.");
    }
    if (yeast.form == YeastForm::liquid)
      supply("/yeast/cells_per_pack", yeast.cells_per_pack, defaults_.cells_per_pack,
             "The cells in a fresh pack are not stated, so a usual number is taken.");
    if (yeast.form == YeastForm::dry && !yeast.pack_mass) {
      yeast.pack_mass = defaults_.dry_pack_mass;
      note("/yeast/pack_mass", as_written(*yeast.pack_mass),
           "The mass of a dry pack is not stated, so a usual one is taken.");
    }
    if (yeast.form != YeastForm::dry && !yeast.packaged && !yeast.viability)
      note("/yeast/packaged", "1 month",
           "The age of the yeast is unknown, so one month is taken; the date would tell.");
    supply_word("/yeast/flocculation", Flocculation::medium, yeast.flocculation,
                "How well the yeast settles is not stated, so medium is taken.");
    supply("/yeast/out_of_fridge", yeast.out_of_fridge, defaults_.out_of_fridge,
           "How long the yeast warms up before pitching is not stated, so a usual time is taken.");
  }

  void vessels() {
    if (plan_.vessels.empty()) assume_flask();
    for (auto& [name, vessel] : plan_.vessels) {
      const std::string where = pointer_to("/vessels", name);
      if (plan_.wrote(where))
        supply_word(pointer_to(where, "material"), usual_material(vessel.kind), vessel.material,
                    "What the " + std::string(spelling(vessel.kind)) +
                        " is made of is not stated, so the usual is taken.");
    }
  }

  void stage(std::size_t index) {
    Stage& stage = plan_.stages[index];
    const std::string where = pointer_to("/stages", index);
    const auto field = [&](std::string_view name) { return pointer_to(where, name); };
    supply_word(pointer_to(field("extract"), "kind"), ExtractKind::light_dry_malt,
                stage.extract_kind,
                "The kind of extract is not stated, so light dry malt extract is taken.");
    const auto moved = agitation_by_steps(index);
    supply_word(field("agitation"), moved.value_or(Agitation::none), stage.agitation,
                moved ? "How the starter is moved is not stated, so its agitate step tells it."
                      : "How the starter is moved is not stated, so it is taken to stand still.");
    const bool room_known = plan_.wrote("/place/room");
    supply(field("temperature"), stage.temperature,
           room_known ? plan_.place.room : defaults_.growth_temperature,
           room_known ? "The growing temperature is not stated, so that of the room is taken."
                      : "The growing temperature is not stated, so a usual one is taken.");
    const auto growth = growth_by_steps(index);
    const Duration usual = stage.agitation == Agitation::stir_plate ? defaults_.growth_stirred
                                                                    : defaults_.growth_unstirred;
    supply(field("duration"), stage.duration, growth.value_or(usual),
           growth ? "The time of growth is not stated for the stage, so that of its step is taken."
                  : "The time of growth is not stated, so a usual one is taken.");
  }

  void steps() {
    if (!plan_.steps.empty()) return;
    plan_.steps = standard_process(plan_);
    std::string verbs;
    for (const auto& step : plan_.steps) verbs += (verbs.empty() ? "" : ", ") + step.verb;
    note("/steps", verbs, "No steps are given, so the usual process is taken.");
  }

  void title() {
    if (plan_.wrote("/title")) return;
    plan_.title = "Starter plan";
    note("/title", plan_.title, "The plan has no title, so a plain one is taken.");
  }

 private:
  void note(std::string where, std::string value, std::string says) {
    plan_.assumed.push_back({std::move(where), std::move(value), std::move(says)});
  }

  template <class T>
  void supply(const std::string& where, T& into, const T& value, std::string says) {
    if (plan_.wrote(where)) return;
    into = value;
    note(where, as_written(value), std::move(says));
  }

  template <class Word>
  void supply_word(const std::string& where, Word value, Word& into, std::string says) {
    if (plan_.wrote(where)) return;
    into = value;
    note(where, std::string(spelling(value)), std::move(says));
  }

  Temperature usual_fermentation() const {
    switch (plan_.beer.kind) {
      case BeerKind::ale:
        return defaults_.ferment_ale;
      case BeerKind::lager:
        return defaults_.ferment_lager;
      case BeerKind::hybrid:
        return defaults_.ferment_hybrid;
    }
    return defaults_.ferment_ale;
  }

  static Material usual_material(VesselKind kind) {
    switch (kind) {
      case VesselKind::conical_flask:
        return Material::borosilicate_glass;
      case VesselKind::jug:
      case VesselKind::bottle:
      case VesselKind::jar:
        return Material::soda_lime_glass;
      case VesselKind::pot:
      case VesselKind::sink:
        return Material::stainless_steel;
      case VesselKind::tub:
        return Material::plastic;
    }
    return Material::borosilicate_glass;
  }

  /// A flask that the largest stage fills to about two thirds at most (common practice).
  void assume_flask() {
    Volume most;
    for (const auto& stage : plan_.stages) most = std::max(most, stage.water);
    const bool is_large = most > Volume::litres(1.3);
    Vessel flask;
    flask.kind = VesselKind::conical_flask;
    flask.material = Material::borosilicate_glass;
    flask.capacity = Volume::litres(is_large ? 5 : 2);
    const std::string capacity = as_written(flask.capacity);
    plan_.vessels.emplace(assumed_vessel, flask);
    note("/vessels",
         "{" + starter::quoted(assumed_vessel) + R"(: {"kind": "conical flask", "capacity": ")" +
             capacity + R"(", "material": "borosilicate glass"}})",
         "No vessels are given, so one borosilicate flask of " + capacity + " is taken.");
  }

  /// What the stage's first agitate step, if any, moves the starter with.
  std::optional<Agitation> agitation_by_steps(std::size_t index) const {
    const auto mentions_bar = [](const std::vector<std::string>& items) {
      return std::any_of(items.begin(), items.end(), [](const std::string& item) {
        return lower_ascii(item).find("stir bar") != std::string::npos;
      });
    };
    for (const auto& step : plan_.steps)
      if (step.does == Do::agitate && step.stage == static_cast<int>(index))
        return mentions_bar(step.with) || mentions_bar(step.items) ? Agitation::stir_plate
                                                                   : Agitation::shaken;
    return std::nullopt;
  }

  /// How long the stage's agitate step lasts, else its rest after the pitch.
  std::optional<Duration> growth_by_steps(std::size_t index) const {
    std::optional<Duration> rests;
    bool pitched = false;
    for (const auto& step : plan_.steps) {
      if (step.stage != static_cast<int>(index)) continue;
      if (step.does == Do::pitch) pitched = true;
      if (step.does == Do::agitate && step.lasts) return step.lasts;
      if (step.does == Do::rest && pitched && step.lasts && !rests) rests = step.lasts;
    }
    return rests;
  }

  Plan& plan_;
  const Defaults& defaults_;
};

}  // namespace

void supply_missing(Plan& plan, const Defaults& defaults) {
  Supplier supplier(plan, defaults);
  supplier.title();
  supplier.place();
  supplier.beer();
  supplier.yeast();
  supplier.vessels();
  for (std::size_t i = 0; i < plan.stages.size(); ++i) supplier.stage(i);
  supplier.steps();
}

}  // namespace starter
