#include "output/step_words.h"

#include <algorithm>

namespace starter {
namespace {

std::size_t at(int i) {
  return static_cast<std::size_t>(i);
}

std::string list_of(const std::vector<std::string>& names) {
  std::string out;
  for (const std::string& name : names) out += (out.empty() ? "" : ", ") + name;
  return out;
}

/// A capital letter at the start of a word of ours; a member's own word stays as typed.
std::string capital(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z')
    text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text;
}

std::string in_vessel(const Step& step) {
  return step.in ? " in " + *step.in : "";
}

std::string heated_by(const Step& step) {
  return step.heat && *step.heat != HeatSource::none ? ", " + std::string(spelling(*step.heat))
                                                     : "";
}

std::string at_warmth(const Step& step, UnitSystem units) {
  return step.at ? " at " + write(*step.at, units) : "";
}

std::string from_to(const Step& step) {
  std::string out;
  if (step.from) out += " from " + *step.from;
  if (step.into) out += " to " + *step.into;
  return out;
}

const Stage& stage_of(const Plan& plan, const Step& step) {
  return plan.stages[at(step.stage)];
}

/// The first step of the stage of the first of these kinds that the stage has; else its first step.
int first_of(const Plan& plan, int stage, std::initializer_list<Do> kinds) {
  for (Do kind : kinds)
    if (const auto found = first_step(plan, kind, stage)) return *found;
  for (std::size_t i = 0; i < plan.steps.size(); ++i)
    if (plan.steps[i].stage == stage) return static_cast<int>(i);
  return -1;
}

class Joins {
 public:
  Joins(const Judgement& j, int step, UnitSystem units)
      : j_(j), index_(step), step_(j.plan.steps[at(step)]), units_(units) {}

  std::vector<Joining> all() {
    wort();
    bath();
    yeast();
    things();
    beer();
    return std::move(found_);
  }

 private:
  void add(Joining::Kind kind, std::string what, std::string key = "") {
    found_.push_back({kind, std::move(what), std::move(key), "", false, std::nullopt});
  }

  void wort() {
    const Stage& stage = stage_of(j_.plan, step_);
    const bool ready = stage.extract_kind == ExtractKind::wort;
    const int water = first_of(j_.plan, step_.stage, {Do::dissolve, Do::heat, Do::boil});
    if (ready) {
      if (index_ == water) add(Joining::Kind::material, "ready wort", write(stage.water, units_));
      return;
    }
    if (index_ == first_of(j_.plan, step_.stage, {Do::weigh, Do::dissolve, Do::heat, Do::boil}))
      add(Joining::Kind::material, std::string(spelling(stage.extract_kind)),
          write(stage.extract_mass, units_));
    if (index_ == water) add(Joining::Kind::material, "water", write(stage.water, units_));
  }

  void bath() {
    if (step_.bath) add(Joining::Kind::material, "bath water", write(*step_.bath, units_));
    if (step_.ice) add(Joining::Kind::material, "ice", write(*step_.ice, units_));
  }

  void yeast() {
    if (step_.does != Do::pitch || index_ != first_step(j_.plan, Do::pitch, step_.stage)) return;
    if (step_.stage > 0) {
      add(Joining::Kind::yeast, "yeast of stage " + std::to_string(step_.stage));
      return;
    }
    const Yeast& yeast = j_.plan.yeast;
    switch (yeast.form) {
      case YeastForm::liquid:
        add(Joining::Kind::yeast,
            yeast.packs == 1 ? "yeast pack" : std::to_string(yeast.packs) + " yeast packs",
            write(yeast.cells_per_pack * yeast.packs, units_));
        break;
      case YeastForm::dry:
        add(Joining::Kind::yeast, "dry yeast",
            yeast.pack_mass ? write(*yeast.pack_mass * yeast.packs, units_) : "");
        break;
      case YeastForm::slurry:
        add(Joining::Kind::yeast, "kept slurry",
            yeast.slurry_volume ? write(*yeast.slurry_volume, units_) : "");
        break;
    }
  }

  void beer() {
    if (step_.does != Do::pitch_to_beer && step_.does != Do::krausen_pitch) return;
    add(Joining::Kind::material, std::string(spelling(j_.plan.beer.kind)),
        write(j_.plan.beer.volume, units_));
  }

  /// Things the step names, and those that practice brings to boiled wort.
  void things() {
    std::vector<std::string> names = step_.with;
    if (step_.does != Do::sanitise)
      names.insert(names.end(), step_.items.begin(), step_.items.end());
    for (const Touch& touch : j_.process.touches)
      if (touch.step == index_ && std::find(names.begin(), names.end(), touch.item) == names.end())
        names.push_back(touch.item);
    for (const std::string& name : names) thing(name);
  }

  void thing(const std::string& name) {
    if (std::any_of(found_.begin(), found_.end(),
                    [&](const Joining& other) { return other.what == name; }))
      return;
    Joining joining{Joining::Kind::item, name, "", "", false, std::nullopt};
    for (const Touch& touch : j_.process.touches)
      if (touch.step == index_ && touch.item == name) tell(touch, joining);
    found_.push_back(std::move(joining));
  }

  void tell(const Touch& touch, Joining& joining) const {
    joining.assumed = touch.assumed;
    joining.cleaned_in = touch.cleaned_by;
    if (touch.cleaned_by) {
      joining.kind = Joining::Kind::clean;
      joining.note = "clean: step " + std::to_string(*touch.cleaned_by + 1);
    } else if (touch.last_touch) {
      // It has been in this wort before; that it was not clean is told there.
      joining.note = "as in step " + std::to_string(*touch.last_touch + 1);
    } else {
      joining.kind = Joining::Kind::unclean;
      joining.note = touch.cleaned_late
                         ? "cleaned too late: step " + std::to_string(*touch.cleaned_late + 1)
                         : "not clean";
    }
  }

  const Judgement& j_;
  int index_;
  const Step& step_;
  UnitSystem units_;
  std::vector<Joining> found_;
};

}  // namespace

std::string step_words(const Plan& plan, const Step& step, UnitSystem units) {
  if (!step.does) {
    std::string words = step.verb;
    if (!step.items.empty()) words += " " + list_of(step.items);
    return words + in_vessel(step) + from_to(step);
  }
  const std::string verb = capital(step.verb);
  switch (*step.does) {
    case Do::heat:
    case Do::boil:
      return verb + in_vessel(step) + heated_by(step);
    case Do::sanitise:
      return step.items.empty() ? verb : verb + " " + list_of(step.items);
    case Do::cover:
      return verb + in_vessel(step) + (step.sealed ? ", sealed" : "");
    case Do::store:
      return verb + in_vessel(step) + (step.sealed ? ", sealed" : "") + at_warmth(step, units);
    case Do::crash:
    case Do::rest:
      return verb + in_vessel(step) + at_warmth(step, units);
    case Do::chill:
      return verb + in_vessel(step) + (step.swirl ? ", swirling" : "");
    case Do::agitate: {
      const Agitation how = stage_of(plan, step).agitation;
      return how == Agitation::none ? verb : verb + ", " + std::string(spelling(how));
    }
    default:
      return verb + in_vessel(step) + from_to(step);
  }
}

std::string step_verb(const Step& step) {
  return step.does ? capital(step.verb) : step.verb;
}

std::string step_key(const Judgement& j, int index, UnitSystem units) {
  const Step& step = j.plan.steps[at(index)];
  if (!step.does) return step.lasts ? write(*step.lasts, units) : "";
  const Stage& stage = stage_of(j.plan, step);
  const StageWorking& working = j.workings.stages[at(step.stage)];
  const auto lasting = [&]() { return step.lasts ? write(*step.lasts, units) : std::string(); };
  switch (*step.does) {
    case Do::weigh:
      return stage.extract_kind == ExtractKind::wort ? "" : write(stage.extract_mass, units);
    case Do::dissolve:
      return write(stage.water, units);
    case Do::heat:
    case Do::chill:
    case Do::warm:
      return step.to ? write(*step.to, units) : lasting();
    case Do::boil:
      return step.lasts ? write(*step.lasts, units) : write(working.boil_time, units);
    case Do::agitate:
    case Do::rest:
      if (growth_step(j.plan, j.process, step.stage) == index) return write(stage.duration, units);
      return lasting();
    case Do::crash:
    case Do::store:
      return step.lasts ? write(*step.lasts, units) : "";
    case Do::pitch:
      return first_step(j.plan, Do::pitch, step.stage) == index
                 ? write(working.living_pitched, units) + " cells"
                 : "";
    case Do::pitch_to_beer:
    case Do::krausen_pitch:
      return write(j.workings.cells_at_pitch, units) + " cells";
    default:
      return lasting();
  }
}

std::vector<Joining> joinings_of(const Judgement& judgement, int step, UnitSystem units) {
  return Joins(judgement, step, units).all();
}

}  // namespace starter
