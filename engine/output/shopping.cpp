#include "output/shopping.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "process/process.h"
#include "quantity/local_time.h"

namespace starter {
namespace {

std::size_t at(int i) {
  return static_cast<std::size_t>(i);
}

std::string joined(const std::vector<std::string>& parts) {
  std::string out;
  for (const std::string& part : parts) out += (out.empty() ? "" : ", ") + part;
  return out;
}

/// Mass and volume alike: the sum over places, and how it falls to them when there are several.
template <class Quantity>
class Sum {
 public:
  void add(Quantity q, std::string where) {
    if (!(q > Quantity())) return;
    total_ += q;
    parts_.emplace_back(q, std::move(where));
  }
  bool any() const { return !parts_.empty(); }
  std::string amount(UnitSystem units) const { return write(total_, units); }
  std::string parts(UnitSystem units) const {
    std::vector<std::string> texts;
    if (parts_.size() > 1)
      for (const auto& [q, where] : parts_) texts.push_back(write(q, units) + " " + where);
    return joined(texts);
  }

 private:
  Quantity total_;
  std::vector<std::pair<Quantity, std::string>> parts_;
};

std::string for_stage(int stage) {
  return fmt::format("for stage {}", stage + 1);
}
std::string in_step(int step) {
  return fmt::format("in step {}", step + 1);
}

std::string extract_name(ExtractKind kind) {
  std::string name(spelling(kind));
  return name.find("malt") == std::string::npos ? name : name + " extract";
}

class List {
 public:
  List(const Judgement& j, UnitSystem units) : j_(j), plan_(j.plan), units_(units) {}

  std::vector<Needed> all() {
    extracts();
    yeast();
    wort_water();
    baths();
    vessels();
    things();
    implied();
    cleaning();
    std::stable_sort(found_.begin(), found_.end(),
                     [](const Needed& a, const Needed& b) { return a.shelf < b.shelf; });
    return std::move(found_);
  }

 private:
  using Shelf = Needed::Shelf;

  Needed& add(Shelf shelf, std::string what, std::string amount, std::string note = "") {
    found_.push_back({shelf, std::move(what), std::move(amount), std::move(note), {}, false});
    return found_.back();
  }

  bool has(std::string_view name) const {
    return std::any_of(found_.begin(), found_.end(),
                       [&](const Needed& n) { return same_item(n.what, name); });
  }
  bool has_step(Do what) const {
    return std::any_of(plan_.steps.begin(), plan_.steps.end(),
                       [&](const Step& s) { return s.does == what; });
  }

  void extracts() {
    std::map<ExtractKind, Sum<Mass>> sums;
    Sum<Volume> ready;
    for (std::size_t i = 0; i < plan_.stages.size(); ++i) {
      const Stage& stage = plan_.stages[i];
      if (stage.extract_kind == ExtractKind::wort)
        ready.add(stage.water, for_stage(static_cast<int>(i)));
      else
        sums[stage.extract_kind].add(stage.extract_mass, for_stage(static_cast<int>(i)));
    }
    for (const auto& [kind, sum] : sums)
      if (sum.any())
        add(Shelf::ingredient, extract_name(kind), sum.amount(units_), sum.parts(units_));
    if (ready.any())
      add(Shelf::ingredient, "ready wort", ready.amount(units_), ready.parts(units_));
  }

  void yeast() {
    const Yeast& y = plan_.yeast;
    const std::string packs = y.packs == 1 ? "1 pack" : std::to_string(y.packs) + " packs";
    std::vector<std::string> notes;
    const char* each = y.packs == 1 ? "" : " each";
    switch (y.form) {
      case YeastForm::liquid:
        notes.push_back(write(y.cells_per_pack, units_) + " cells" + each);
        if (y.packaged) notes.push_back("packaged " + spoken_day(*y.packaged));
        add(Shelf::ingredient, "liquid yeast", packs, joined(notes));
        break;
      case YeastForm::dry:
        if (y.pack_mass) notes.push_back(write(*y.pack_mass, units_) + each);
        if (y.best_before) notes.push_back("best before " + spoken_day(*y.best_before));
        add(Shelf::ingredient, "dry yeast", packs, joined(notes));
        break;
      case YeastForm::slurry:
        if (y.slurry_density) notes.push_back(write(*y.slurry_density, units_) + " cells");
        if (y.packaged) notes.push_back("harvested " + spoken_day(*y.packaged));
        add(Shelf::ingredient, "kept slurry",
            y.slurry_volume ? write(*y.slurry_volume, units_) : "", joined(notes));
        break;
    }
  }

  void wort_water() {
    Sum<Volume> sum;
    for (std::size_t i = 0; i < plan_.stages.size(); ++i)
      if (plan_.stages[i].extract_kind != ExtractKind::wort)
        sum.add(plan_.stages[i].water, for_stage(static_cast<int>(i)));
    if (sum.any()) add(Shelf::water, "water for the wort", sum.amount(units_), sum.parts(units_));
  }

  void baths() {
    Sum<Volume> water;
    Sum<Mass> ice;
    std::vector<int> water_steps, ice_steps;
    std::vector<std::string> when;
    for (std::size_t i = 0; i < plan_.steps.size(); ++i) {
      const Step& step = plan_.steps[i];
      const int index = static_cast<int>(i);
      if (step.bath) {
        water.add(*step.bath, in_step(index));
        water_steps.push_back(index);
      }
      if (!step.ice) continue;
      ice.add(*step.ice, in_step(index));
      ice_steps.push_back(index);
      if (step.ice_from)
        when.push_back(
            fmt::format("goes in when the wort is at {}{}", write(*step.ice_from, units_),
                        ice_steps.size() > 1 ? " in step " + std::to_string(index + 1) : ""));
    }
    if (water.any())
      add(Shelf::water, "water for the bath", water.amount(units_), water.parts(units_)).steps =
          water_steps;
    if (!ice.any()) return;
    std::string note = ice.parts(units_);
    // The same rule for every bath is said once.
    const bool once = when.size() == ice_steps.size() && !when.empty() && same_start();
    if (once) when = {when.front()};
    if (!when.empty()) note += (note.empty() ? "" : "; ") + joined(when);
    add(Shelf::water, "ice", ice.amount(units_), note).steps = ice_steps;
  }

  /// Whether every ice goes in at one temperature.
  bool same_start() const {
    std::optional<Temperature> first;
    for (const Step& step : plan_.steps) {
      if (!step.ice) continue;
      if (!step.ice_from || (first && *first != *step.ice_from)) return false;
      first = step.ice_from;
    }
    return true;
  }

  void vessels() {
    std::vector<std::pair<int, std::string>> by_use;
    for (const auto& [name, vessel] : plan_.vessels) {
      int first = static_cast<int>(plan_.steps.size());
      for (std::size_t i = plan_.steps.size(); i-- > 0;)
        if (uses_vessel(plan_.steps[i], name)) first = static_cast<int>(i);
      by_use.emplace_back(first, name);
    }
    std::sort(by_use.begin(), by_use.end());
    for (const auto& [first, name] : by_use) {
      const Vessel& v = plan_.vessels.at(name);
      Needed& n = add(Shelf::thing, name, write(v.capacity, units_),
                      std::string(spelling(v.kind)) + ", " + std::string(spelling(v.material)));
      for (std::size_t i = 0; i < plan_.steps.size(); ++i)
        if (uses_vessel(plan_.steps[i], name)) n.steps.push_back(static_cast<int>(i));
    }
  }

  static bool uses_vessel(const Step& step, const std::string& name) {
    return step.in == name || step.from == name || step.into == name;
  }

  bool is_yeast(const std::string& name) const {
    return same_item(name, "pack") || same_item(name, "slurry") || same_item(name, "slurry jar");
  }
  bool is_ingredient(const std::string& name) const {
    return same_item(name, "ice") || same_item(name, "extract") || same_item(name, "water");
  }

  void thing(const std::string& name, int step, bool assumed) {
    if (plan_.vessels.count(name) || is_yeast(name) || is_ingredient(name)) return;
    for (Needed& n : found_)
      if (n.shelf == Shelf::thing && same_item(n.what, name)) {
        if (std::find(n.steps.begin(), n.steps.end(), step) == n.steps.end())
          n.steps.push_back(step);
        n.assumed &= assumed;
        return;
      }
    Needed& n = add(Shelf::thing, name, "");
    n.steps = {step};
    n.assumed = assumed;
  }

  /// What the steps name, and what practice brings to boiled wort.
  void things() {
    for (std::size_t i = 0; i < plan_.steps.size(); ++i) {
      const int index = static_cast<int>(i);
      for (const auto* names : {&plan_.steps[i].with, &plan_.steps[i].items})
        for (const std::string& name : *names) thing(name, index, false);
      for (const Touch& touch : j_.process.touches)
        if (touch.step == index) thing(touch.item, index, touch.assumed);
    }
    for (Needed& n : found_) {
      if (n.shelf != Shelf::thing) continue;
      std::sort(n.steps.begin(), n.steps.end());
      if (same_item(n.what, "foil")) n.amount = pieces(n.steps);
    }
  }

  /// A piece of foil a cover; to sanitise it needs none of its own.
  std::string pieces(const std::vector<int>& steps) const {
    const auto covers = std::count_if(
        steps.begin(), steps.end(), [&](int s) { return plan_.steps[at(s)].does != Do::sanitise; });
    return covers < 2 ? "1 piece" : std::to_string(covers) + " pieces";
  }

  /// What the work needs though no step names it. Common practice, no source.
  void implied() {
    const auto imply = [&](bool wanted, const char* what) {
      if (wanted && !has(what)) add(Shelf::thing, what, "").assumed = true;
    };
    const bool stirred = std::any_of(plan_.stages.begin(), plan_.stages.end(), [](const Stage& s) {
      return s.agitation == Agitation::stir_plate;
    });
    const bool hot = has_step(Do::boil) || has_step(Do::heat);
    imply(has_step(Do::weigh), "scales");
    imply(true, "thermometer");
    imply(true, "hydrometer");
    imply(stirred, "stir plate");
    imply(hot, "dry mitts");
    imply(true, "clock or timer");
    imply(has_step(Do::crash), "room in the fridge");
  }

  void cleaning() {
    const auto by_label = [&](const char* what) -> Needed& {
      return add(Shelf::cleaning, what, "by its label");
    };
    by_label("cleaner").note = "wash and rinse everything before the first step";
    if (has_step(Do::sanitise) || !j_.process.touches.empty()) {
      Needed& n = by_label("sanitiser");
      n.note = "dose and contact time";
      for (std::size_t i = 0; i < plan_.steps.size(); ++i)
        if (plan_.steps[i].does == Do::sanitise) n.steps.push_back(static_cast<int>(i));
    }
  }

  const Judgement& j_;
  const Plan& plan_;
  UnitSystem units_;
  std::vector<Needed> found_;
};

/// Whether the thing lies over the boil rather than in it.
bool hangs_over(const Plan& plan, const std::string& item, int stage) {
  return std::any_of(plan.steps.begin(), plan.steps.end(), [&](const Step& s) {
    return s.does == Do::cover && s.stage == stage &&
           std::any_of(s.with.begin(), s.with.end(),
                       [&](const std::string& name) { return same_item(name, item); });
  });
}

ToClean::How how_cleaned(const Judgement& j, const Touch& touch) {
  const Plan& plan = j.plan;
  if (!touch.cleaned_by && touch.cleaned_late) return ToClean::How::late;
  if (!touch.cleaned_by)
    return into_hot_wort(j, touch.step) ? ToClean::How::hot : ToClean::How::never;
  const Step& by = plan.steps[at(*touch.cleaned_by)];
  if (by.does == Do::sanitise) return ToClean::How::sanitised;
  return hangs_over(plan, touch.item, by.stage) ? ToClean::How::steamed : ToClean::How::boiled;
}

/// The vessel that wort boils in is the first thing that it meets.
std::vector<ToClean> boiling_vessels(const Judgement& j, int stage) {
  std::vector<ToClean> found;
  for (const int boil : steps_of(j.plan, Do::boil, stage)) {
    const std::string vessel = boiled_in(j.plan, j.process, boil);
    const bool told =
        std::any_of(found.begin(), found.end(), [&](const ToClean& t) { return t.what == vessel; });
    if (!vessel.empty() && !told)
      found.push_back({vessel, stage, ToClean::How::boiled, boil, {boil}, false});
  }
  return found;
}

}  // namespace

std::vector<Needed> shopping_list(const Judgement& j, UnitSystem units) {
  return List(j, units).all();
}

bool into_hot_wort(const Judgement& j, int step) {
  const Step& adds = j.plan.steps[at(step)];
  if (adds.does != Do::add) return false;
  const auto before = [&](Do what) {
    const auto all = steps_of(j.plan, what, adds.stage);
    return std::any_of(all.begin(), all.end(), [&](int i) { return j.process.precedes(i, step); });
  };
  return before(Do::boil) && !before(Do::chill);
}

std::vector<ToClean> cleaning_list(const Judgement& j) {
  std::vector<ToClean> all;
  for (int stage = 0; stage < static_cast<int>(j.plan.stages.size()); ++stage) {
    std::vector<ToClean> found = boiling_vessels(j, stage);
    for (const Touch& touch : j.process.touches) {
      if (j.plan.steps[at(touch.step)].stage != stage) continue;
      const auto known = std::find_if(found.begin(), found.end(), [&](const ToClean& t) {
        return same_item(t.what, touch.item);
      });
      if (known != found.end()) {
        known->meets.push_back(touch.step);
        continue;
      }
      const auto cleaned_in = touch.cleaned_by ? touch.cleaned_by : touch.cleaned_late;
      found.push_back(
          {touch.item, stage, how_cleaned(j, touch), cleaned_in, {touch.step}, touch.assumed});
    }
    all.insert(all.end(), found.begin(), found.end());
  }
  return all;
}

std::string clean_in_words(const ToClean& t) {
  const std::string step = t.cleaned_in ? std::to_string(*t.cleaned_in + 1) : "";
  switch (t.how) {
    case ToClean::How::boiled:
      return "washed; boiled with the wort in step " + step;
    case ToClean::How::steamed:
      return "steamed over the boil of step " + step;
    case ToClean::How::sanitised:
      return "sanitised in step " + step;
    case ToClean::How::hot:
      return "boiled with the wort, once it goes in before the boil";
    case ToClean::How::late:
      return "not clean in time: only step " + step + " cleans it";
    case ToClean::How::never:
      break;
  }
  return "not clean: no step cleans it";
}

}  // namespace starter
