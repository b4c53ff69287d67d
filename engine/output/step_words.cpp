#include "output/step_words.h"

#include <algorithm>

#include "output/calendar_words.h"
#include "output/shopping.h"

namespace starter {
namespace {

std::size_t at(int i) {
  return static_cast<std::size_t>(i);
}

std::string listed(const std::vector<std::string>& names) {
  std::string out;
  for (std::size_t i = 0; i < names.size(); ++i)
    out += (i == 0 ? "" : i + 1 == names.size() ? " and " : ", ") + names[i];
  return out;
}

/// A capital letter at the start of a word of ours; a member's own word stays as typed.
std::string capital(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z')
    text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text;
}

const Stage& stage_of(const Plan& plan, const Step& step) {
  return plan.stages[at(step.stage)];
}

/// " before what", when there is a what.
std::string if_any(std::string_view before, const std::string& what) {
  return what.empty() ? "" : " " + std::string(before) + what;
}
std::string if_any(std::string_view before, const std::optional<std::string>& what) {
  return if_any(before, what.value_or(""));
}
std::string if_any(std::string_view before, const std::optional<Temperature>& t, UnitSystem units) {
  return t ? if_any(before, write(*t, units)) : "";
}

/// What follows the verb, and where only it is said.
struct Part {
  std::string text;
  std::optional<Said> only;
};

std::vector<Part> parts_of(const Plan& plan, const Step& step, UnitSystem units) {
  const auto alone = [](std::string text) { return Part{std::move(text), Said::alone}; };
  const auto drawn = [](std::string text) { return Part{std::move(text), Said::drawn}; };
  const auto both = [](std::string text) { return Part{std::move(text), std::nullopt}; };
  const std::string in = if_any("in ", step.in);
  const std::string from = if_any("from ", step.from), into = if_any("to ", step.into);
  const std::string place = in + from + into;
  const std::string items = if_any("", listed(step.items));
  const std::string to = if_any("to ", step.to, units), at_warmth = if_any("at ", step.at, units);
  const std::string sealed = step.sealed ? ", sealed" : "";
  if (!step.does) return {both(items + place)};
  const Stage& stage = stage_of(plan, step);
  const std::string heat =
      step.heat && *step.heat != HeatSource::none ? ", " + std::string(spelling(*step.heat)) : "";
  switch (*step.does) {
    case Do::weigh:
      return {alone(stage.extract_kind == ExtractKind::wort
                        ? ""
                        : " " + write(stage.extract_mass, units) + " " +
                              std::string(spelling(stage.extract_kind))),
              drawn(place)};
    case Do::dissolve:
      return {alone(" in " + write(stage.water, units) + " water"), drawn(place)};
    case Do::heat:
      return {alone(to), both(in), drawn(heat)};
    case Do::boil:
      return {alone(step.lasts ? " for " + time_in_words(*step.lasts) : ""), both(in), drawn(heat)};
    case Do::chill:
      return {alone(to), both(in), drawn(step.swirl ? ", swirling" : "")};
    case Do::add:
      return {both(items), drawn(place)};
    case Do::sanitise:
      return {both(items)};
    case Do::cover:
      return {alone(if_any("with ", listed(step.with)) + sealed), drawn(in + sealed)};
    case Do::check_temperature:
      return {alone(if_any("with ", listed(step.with))), drawn(place)};
    case Do::agitate:
      return {alone(if_any("with ", listed(step.with))),
              drawn(stage.agitation == Agitation::none
                        ? ""
                        : ", " + std::string(spelling(stage.agitation)))};
    case Do::move:
      return {drawn(in), both(from + into)};
    case Do::pitch:
      return {drawn(in), both(from), drawn(into)};
    case Do::rest:
    case Do::crash:
      return {drawn(in), both(at_warmth)};
    case Do::store:
      return {drawn(in + sealed), both(at_warmth),
              alone(if_any("with ", listed(step.with)) + sealed)};
    case Do::warm:
      return {alone(to), drawn(place)};
    case Do::decant:
    case Do::pitch_to_beer:
    case Do::krausen_pitch:
      return {drawn(place)};
  }
  return {};
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
    } else if (!touch.cleaned_late && into_hot_wort(j_, touch.step)) {
      joining.note = "into hot wort";
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

std::string step_in_words(const Plan& plan, const Step& step, UnitSystem units, Said said) {
  std::string words = said == Said::drawn ? step_verb(step) : step.verb;
  for (const Part& part : parts_of(plan, step, units))
    if (!part.only || *part.only == said) words += part.text;
  return words;
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
    case Do::store: {
      // What lies in the cold takes up the slack, so that the clock knows better than the plan.
      const StepTime& time = j.workings.times.times[at(index)];
      const bool told = step.lasts || j.workings.times.takes_slack == index;
      return told && time.end > time.start ? time_in_words(time.end - time.start) : "";
    }
    case Do::pitch:
      return first_step(j.plan, Do::pitch, step.stage) == index
                 ? write(working.living_pitched, units) + " cells"
                 : "";
    case Do::pitch_to_beer:
    case Do::krausen_pitch:
      return write(j.workings.cells_at_pitch - j.workings.cells_kept, units) + " cells";
    default:
      return lasting();
  }
}

std::string keep_in_words(const Judgement& j, int index, UnitSystem units) {
  const auto hands_over = [](const Step& step) {
    return step.does == Do::pitch_to_beer || step.does == Do::krausen_pitch;
  };
  const auto& steps = j.plan.steps;
  const bool last = hands_over(steps[at(index)]) &&
                    std::none_of(steps.begin() + index + 1, steps.end(), hands_over);
  if (!last || j.workings.cells_kept <= CellCount()) return "";
  const bool poured_off = j.workings.stages.back().decanted;
  return "keep back " + write(j.workings.slurry_kept, units) + " of the " +
         (poured_off ? "slurry, " : "starter, ") + write(j.workings.cells_kept, units) +
         " cells, for another batch";
}

std::vector<Joining> joinings_of(const Judgement& judgement, int step, UnitSystem units) {
  return Joins(judgement, step, units).all();
}

}  // namespace starter
