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
    supply("altitude", "/place/altitude", place.altitude, defaults_.altitude,
           "No altitude is given, so a usual one is taken.");
    supply("tap_water", "/place/tap_water", place.tap_water, defaults_.tap_water,
           "No tap water temperature is given, so a usual one is taken.");
    supply("room", "/place/room", place.room, defaults_.room,
           "No room temperature is given, so a usual one is taken.");
    supply("fridge", "/place/fridge", place.fridge, defaults_.fridge,
           "No fridge temperature is given, so a usual one is taken.");
  }

  void beer() {
    Beer& beer = plan_.beer;
    supply_word("beer_kind", "/beer/kind", defaults_.beer_kind, beer.kind, beer_kind_taken());
    supply("ferment_at/" + std::string(spelling(beer.kind)), "/beer/ferment_at", beer.ferment_at,
           usual_fermentation(),
           "No fermentation temperature is given, so one usual for this kind of beer is taken.");
  }

  void yeast() {
    Yeast& yeast = plan_.yeast;
    if (yeast.form == YeastForm::slurry) {
      if (!yeast.slurry_density)
        note("/yeast/slurry_density", "1.5 billion/mL",
             "The slurry's cells are not counted, so thick slurry of 1 to 2 billion/mL is taken.");
    } else {
      if (!plan_.wrote("/yeast/packs")) {
        yeast.packs = defaults_.packs;
        note("/yeast/packs", std::to_string(yeast.packs),
             club_says("packs",
                       yeast.packs == 1
                           ? "The number of packs is not stated, so one is taken."
                           : "The number of packs is not stated, so a usual one is taken."));
      }
    }
    if (yeast.form == YeastForm::liquid)
      supply("cells_per_pack", "/yeast/cells_per_pack", yeast.cells_per_pack,
             defaults_.cells_per_pack,
             "The cells in a fresh pack are not stated, so a usual number is taken.");
    if (yeast.form == YeastForm::dry && !yeast.pack_mass) {
      yeast.pack_mass = defaults_.dry_pack_mass;
      note("/yeast/pack_mass", as_written(*yeast.pack_mass),
           club_says("dry_pack_mass",
                     "The mass of a dry pack is not stated, so a usual one is taken."));
    }
    if (yeast.form != YeastForm::dry && !yeast.packaged && !yeast.viability)
      note("/yeast/packaged", age_in_words(defaults_.pack_age),
           club_says("pack_age", "The age of the yeast is unknown, so " +
                                     age_in_words(defaults_.pack_age) +
                                     " is taken; the date would tell."));
    supply_word("flocculation", "/yeast/flocculation", defaults_.flocculation, yeast.flocculation,
                "How well the yeast settles is not stated, so " +
                    std::string(spelling(defaults_.flocculation)) + " is taken.");
    supply("out_of_fridge", "/yeast/out_of_fridge", yeast.out_of_fridge, defaults_.out_of_fridge,
           "How long the yeast warms up before pitching is not stated, so a usual time is taken.");
  }

  void vessels() {
    if (plan_.vessels.empty()) assume_flask();
    for (auto& [name, vessel] : plan_.vessels) {
      const std::string where = pointer_to("/vessels", name);
      if (plan_.wrote(where))
        supply_word("", pointer_to(where, "material"), usual_material(vessel.kind), vessel.material,
                    "What the " + std::string(spelling(vessel.kind)) +
                        " is made of is not stated, so the usual is taken.");
    }
  }

  void stage(std::size_t index) {
    Stage& stage = plan_.stages[index];
    const std::string where = pointer_to("/stages", index);
    const auto field = [&](std::string_view name) { return pointer_to(where, name); };
    supply_word("extract_kind", pointer_to(field("extract"), "kind"), defaults_.extract_kind,
                stage.extract_kind,
                "The kind of extract is not stated, so " +
                    std::string(spelling(defaults_.extract_kind)) + " extract is taken.");
    const auto moved = agitation_by_steps(index);
    supply_word(moved ? "" : "agitation", field("agitation"), moved.value_or(defaults_.agitation),
                stage.agitation,
                moved ? "How the starter is moved is not stated, so its agitate step tells it."
                : defaults_.agitation == Agitation::none
                    ? "How the starter is moved is not stated, so it is taken to stand still."
                    : "How the starter is moved is not stated, so the usual is taken.");
    const bool room_known = plan_.wrote("/place/room");
    supply(room_known ? "" : "growth_temperature", field("temperature"), stage.temperature,
           room_known ? plan_.place.room : defaults_.growth_temperature,
           room_known ? "The growing temperature is not stated, so that of the room is taken."
                      : "The growing temperature is not stated, so a usual one is taken.");
    const auto growth = growth_by_steps(index);
    const bool stirred = stage.agitation == Agitation::stir_plate;
    const Duration usual = stirred ? defaults_.growth_stirred : defaults_.growth_unstirred;
    supply(growth    ? ""
           : stirred ? "growth_for/stirred"
                     : "growth_for/unstirred",
           field("duration"), stage.duration, growth.value_or(usual),
           growth ? "The time of growth is not stated for the stage, so that of its step is taken."
                  : "The time of growth is not stated, so a usual one is taken.");
  }

  void steps() {
    if (!plan_.steps.empty()) return;
    plan_.steps = standard_process(plan_);
    std::string verbs;
    for (const auto& step : plan_.steps) verbs += (verbs.empty() ? "" : ", ") + step.verb;
    std::string says = "No steps are given, so the usual process is taken.";
    for (const std::string_view name : {"heat", "boil_for", "chill_to", "sanitise_for",
                                        "crash_for/low", "crash_for/medium", "crash_for/high"})
      if (defaults_.from_club.count(name) > 0) {
        says = club_says(name, std::move(says));
        break;
      }
    note("/steps", verbs, std::move(says));
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
  void supply(std::string_view name, const std::string& where, T& into, const T& value,
              std::string says) {
    if (plan_.wrote(where)) return;
    into = value;
    note(where, as_written(value), club_says(name, std::move(says)));
  }

  template <class Word>
  void supply_word(std::string_view name, const std::string& where, Word value, Word& into,
                   std::string says) {
    if (plan_.wrote(where)) return;
    into = value;
    note(where, std::string(spelling(value)), club_says(name, std::move(says)));
  }

  /// Names the club whose practice this default is; others are left as they are.
  /// \param name of the default in a practice file; empty for what none can set.
  std::string club_says(std::string_view name, std::string says) const {
    if (defaults_.from_club.count(name) == 0 || says.empty()) return says;
    says.pop_back();
    return says + ", as " + defaults_.club + " has it.";
  }

  std::string beer_kind_taken() const {
    const std::string kind(spelling(defaults_.beer_kind));
    return "The kind of beer is not stated, so it is taken to be " +
           (defaults_.beer_kind == BeerKind::ale ? "an ale." : "a " + kind + ".");
  }

  static std::string age_in_words(Duration age) {
    return age == Duration::days(30) ? "1 month" : as_written(age);
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
