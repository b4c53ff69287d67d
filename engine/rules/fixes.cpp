#include "rules/fixes.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "rules/knobs.h"

namespace starter {
namespace {

using nlohmann::ordered_json;

std::size_t at(int i) {
  return static_cast<std::size_t>(i);
}

// --- turning a knob ---------------------------------------------------------------------------

/// Where in the wanted bounds to aim: the middle of two, or just at the only one.
double aim_in(const Bounds& wanted) {
  if (wanted.low && wanted.high) return 0.5 * (*wanted.low + *wanted.high);
  return wanted.low.value_or(wanted.high.value_or(0));
}

/// The knob's value at which the number is comfortable: exact by false position, then brought to
/// what a kitchen can measure, on the side that holds.
class Solver {
 public:
  Solver(const Trouble& trouble, const Knob& knob, int stage)
      : trouble_(trouble), knob_(knob), stage_(stage) {}

  std::optional<double> solve() {
    const auto now = knob_.get(trouble_.plan, stage_);
    if (!now) return std::nullopt;
    const auto off = miss(*now);
    if (!off) return std::nullopt;
    const auto other = far_side(*now, *off);
    if (!other) return std::nullopt;
    return to_grain(root(*now, *off, other->first, other->second), *now);
  }

 private:
  std::optional<double> number(double value) const {
    Plan changed = trouble_.plan;
    knob_.set(changed, stage_, value);
    return trouble_.number(changed);
  }
  std::optional<double> miss(double value) const {
    const auto found = number(value);
    return found ? std::optional(*found - aim_in(trouble_.wanted)) : std::nullopt;
  }

  double away(double now, int k, int direction) const {
    const double far = knob_.additive ? now + direction * knob_.grain(now) * std::pow(2.0, k)
                                      : now * std::pow(1.5, direction * (k + 1));
    return std::clamp(far, knob_.least, knob_.most);
  }

  /// The nearest value on either side where the number lies beyond the aim.
  std::optional<std::pair<double, double>> far_side(double now, double off) const {
    bool more[2] = {true, true};
    for (int k = 0; k < 16; ++k)
      for (int side = 0; side < 2; ++side) {
        if (!more[side]) continue;
        const double value = away(now, k, side == 0 ? 1 : -1);
        more[side] = value > knob_.least && value < knob_.most;
        const auto there = miss(value);
        if (there && ((*there >= 0) != (off >= 0) || *there == 0)) return std::pair(value, *there);
      }
    return std::nullopt;
  }

  double root(double a, double miss_a, double b, double miss_b) const {
    int kept = 0;
    for (int turn = 0; turn < 40; ++turn) {
      if (std::fabs(b - a) < 0.1 * knob_.grain(b) || miss_b == 0) return b;
      const double next = (a * miss_b - b * miss_a) / (miss_b - miss_a);
      const auto there = miss(next);
      if (!there) return b;
      if ((*there >= 0) != (miss_b >= 0)) {
        a = b;
        miss_a = miss_b;
        kept = 0;
      } else if (++kept > 1) {
        miss_a /= 2;
      }
      b = next;
      miss_b = *there;
    }
    return b;
  }

  /// The grain mark at or next to `exact` where the rule is comfortable, the nearer first.
  std::optional<double> to_grain(double exact, double now) const {
    const double grain = knob_.grain(exact);
    const double below = std::floor(exact / grain + 1e-9) * grain;
    const double above = std::ceil(exact / grain - 1e-9) * grain;
    std::array<double, 4> marks = {below, above, below - grain, above + grain};
    if (above - exact < exact - below) std::swap(marks[0], marks[1]);
    for (double mark : marks) {
      mark = round_to_digits(mark, 12);
      if (mark < knob_.least || mark > knob_.most || mark == now) continue;
      const auto found = number(mark);
      if (found && trouble_.wanted.hold(*found)) return mark;
    }
    return std::nullopt;
  }

  const Trouble& trouble_;
  const Knob& knob_;
  int stage_;
};

// --- what other rules say of the changed plan -------------------------------------------------

bool spoke_before(const std::vector<Verdict>& verdicts, const Verdict& v) {
  return std::any_of(verdicts.begin(), verdicts.end(), [&](const Verdict& old) {
    return old.rule == v.rule && old.stage == v.stage && old.severity >= v.severity;
  });
}

/// What the change would newly cause, in words; empty when nothing. Only what weakens or worse.
std::string objections(const Trouble& trouble, const Plan& changed) {
  std::string words;
  for (const Verdict& v : quick_verdicts(changed, trouble.rules)) {
    if (v.severity < Severity::weakens || spoke_before(trouble.verdicts, v)) continue;
    if (v.rule == &trouble.rule) continue;
    const std::string says =
        v.rule->objection.empty() ? "then " + v.rule->id + " is broken" : v.rule->objection;
    if (words.find(says) != std::string::npos) continue;
    words += (words.empty() ? "" : ", and ") + says;
  }
  return words;
}

/// One way to mend: in words, as changes of fields or a ready patch, and what stands against it.
struct Way {
  std::string says;
  std::string objection;
  ordered_json patch = ordered_json::array();
};

std::optional<Way> turn(const Trouble& trouble, const FixSpec& spec, const Knob& knob) {
  const int last = static_cast<int>(trouble.plan.stages.size()) - 1;
  const int stage = trouble.stage >= 0 ? trouble.stage : last;
  if (!trouble.number || !trouble.wanted.any()) return std::nullopt;
  const auto value = Solver(trouble, knob, stage).solve();
  if (!value) return std::nullopt;
  Plan changed = trouble.plan;
  knob.set(changed, stage, *value);
  Way way;
  const double old = *knob.get(trouble.plan, stage);
  way.says = fill_places(spec.says, [&](std::string_view place) -> std::optional<std::string> {
    if (place == "new") return knob.show(*value, trouble.units);
    if (place == "old") return knob.show(old, trouble.units);
    if (place == "new_extract") return write(changed.stages[at(stage)].extract_mass, trouble.units);
    return trouble.places(place);
  });
  way.objection = objections(trouble, changed);
  for (auto& [path, text] : knob.fields(changed, stage))
    way.patch.push_back(
        {{"op", trouble.plan.wrote(path) ? "replace" : "add"}, {"path", path}, {"value", text}});
  return way;
}

// --- edits ------------------------------------------------------------------------------------

bool steps_are_written(const Plan& plan) {
  return plan.wrote("/steps");
}

ordered_json add(const std::string& path, ordered_json value) {
  return {{"op", "add"}, {"path", path}, {"value", std::move(value)}};
}

ordered_json step_value(const Plan& plan, Do what, int stage) {
  ordered_json step = {{"do", std::string(spelling(what))}};
  if (plan.stages.size() > 1) step["stage"] = stage + 1;
  return step;
}

std::string step_slot(const Plan& plan, int before) {
  return before < static_cast<int>(plan.steps.size()) ? "/steps/" + std::to_string(before)
                                                      : "/steps/-";
}

ordered_json move_first_before_then(const Trouble& t) {
  if (!t.reversal) return {};
  const int first = t.reversal->first, then = t.reversal->then;
  if (first < then) return {};  // its place in the list is right; only its `after` is not
  return ordered_json::array({{{"op", "move"},
                               {"from", t.plan.steps[at(first)].path},
                               {"path", t.plan.steps[at(then)].path}}});
}

/// Adds an item to a sanitising step, whether its list is written as a list or as one text.
ordered_json add_item(const Plan& plan, int sanitise, const std::string& item) {
  const Step& step = plan.steps[at(sanitise)];
  if (plan.wrote(step.path + "/items/0")) return add(step.path + "/items/-", item);
  ordered_json items = ordered_json::array();
  for (const std::string& already : step.items) items.push_back(already);
  items.push_back(item);
  return {{"op", plan.wrote(step.path + "/items") ? "replace" : "add"},
          {"path", step.path + "/items"},
          {"value", items}};
}

std::optional<int> sanitise_before(const Trouble& t, int step) {
  std::optional<int> nearest;
  for (int i : steps_of(t.plan, Do::sanitise, t.plan.steps[at(step)].stage))
    if (t.process.precedes(i, step)) nearest = i;
  return nearest;
}

ordered_json sanitise_item(const Trouble& t) {
  if (!t.touch) return {};
  if (const auto sanitise = sanitise_before(t, t.touch->step))
    return ordered_json::array({add_item(t.plan, *sanitise, t.touch->item)});
  ordered_json step = step_value(t.plan, Do::sanitise, t.plan.steps[at(t.touch->step)].stage);
  step["items"] = {t.touch->item};
  return ordered_json::array({add(step_slot(t.plan, t.touch->step), step)});
}

ordered_json insert_step(const Trouble& t) {
  if (!t.fact) return {};
  const auto what = from_spelling<Do>(t.fact->value);
  if (!what) return {};
  const int stage = t.fact->stage;
  ordered_json step = step_value(t.plan, *what, stage);
  if (*what == Do::boil) step["for"] = "12 min";
  if (*what == Do::chill) step["to"] = "20 °C";
  if (*what == Do::pitch && stage == 0) step["from"] = "pack";
  return ordered_json::array({add(step_slot(t.plan, t.fact->step), step)});
}

ordered_json unseal(const Trouble& t) {
  if (!t.fact || t.fact->step < 0) return {};
  // The seal may be on the step told or on the cover laid before it.
  for (int i = t.fact->step; i >= 0; --i) {
    const Step& step = t.plan.steps[at(i)];
    if (step.sealed && step.stage == t.fact->stage)
      return ordered_json::array(
          {{{"op", "replace"}, {"path", step.path + "/sealed"}, {"value", false}}});
  }
  return {};
}

ordered_json add_check(const Trouble& t) {
  if (!t.fact || t.fact->step < 0) return {};
  const int pitch = t.fact->step;
  ordered_json patch = ordered_json::array();
  ordered_json check = step_value(t.plan, Do::check_temperature, t.fact->stage);
  check["with"] = "thermometer";
  patch.push_back(add(step_slot(t.plan, pitch), check));
  if (const auto sanitise = sanitise_before(t, pitch)) {
    bool listed = false;
    for (const std::string& item : t.plan.steps[at(*sanitise)].items)
      listed |= same_item(item, "thermometer");
    if (!listed) patch.push_back(add_item(t.plan, *sanitise, "thermometer"));
  } else {
    ordered_json step = step_value(t.plan, Do::sanitise, t.fact->stage);
    step["items"] = {"thermometer"};
    patch.push_back(add(step_slot(t.plan, pitch), step));
  }
  return patch;
}

ordered_json cover_with_foil(const Trouble& t) {
  if (!t.fact) return {};
  const auto boil = first_step(t.plan, Do::boil, t.fact->stage);
  if (!boil) return {};
  ordered_json step = step_value(t.plan, Do::cover, t.fact->stage);
  step["with"] = "foil";
  step["during"] = "boil";
  return ordered_json::array({add(step_slot(t.plan, *boil + 1), step)});
}

ordered_json light_dry_malt(const Trouble& t) {
  const std::string path = t.fact ? t.fact->where + "/kind" : "";
  if (path.empty()) return {};
  return ordered_json::array({{{"op", t.plan.wrote(path) ? "replace" : "add"},
                               {"path", path},
                               {"value", "light dry malt"}}});
}

ordered_json stir_plate(const Trouble& t) {
  if (!t.fact) return {};
  const std::string path = "/stages/" + std::to_string(t.fact->stage) + "/agitation";
  return ordered_json::array(
      {{{"op", t.plan.wrote(path) ? "replace" : "add"}, {"path", path}, {"value", "stir plate"}}});
}

struct Edit {
  std::string_view name;
  ordered_json (*patch)(const Trouble&);
  std::string_view new_value;  ///< for {new}
};

constexpr Edit edits[] = {
    {"move_first_before_then", move_first_before_then, ""},
    {"sanitise_item", sanitise_item, ""},
    {"insert_step", insert_step, ""},
    {"unseal", unseal, ""},
    {"add_check", add_check, ""},
    {"cover_with_foil", cover_with_foil, ""},
    {"extract_kind", light_dry_malt, "light dry malt"},
    {"agitation", stir_plate, "a stir plate"},
};

/// The plan with a patch applied to the document it came from; nothing when that cannot be.
std::optional<Plan> patched(const Plan& plan, const ordered_json& patch) {
  if (!plan.source) return std::nullopt;
  const ordered_json document = ordered_json::parse(*plan.source, nullptr, false);
  if (document.is_discarded()) return std::nullopt;
  try {
    PlanResult result = read_plan(document.patch(patch).dump());
    if (auto* made = std::get_if<Plan>(&result)) return std::move(*made);
  } catch (const ordered_json::exception&) {
    // A patch that does not fit this document mends nothing; the words still help.
  }
  return std::nullopt;
}

std::optional<Way> put(const Trouble& trouble, const FixSpec& spec, const Edit& edit) {
  Way way;
  way.says = fill_places(spec.says, [&](std::string_view place) -> std::optional<std::string> {
    if (place == "new") return std::string(edit.new_value);
    if (place == "old" && trouble.fact) return trouble.fact->value;
    return trouble.places(place);
  });
  const bool on_steps = edit.new_value.empty();
  if (on_steps && !steps_are_written(trouble.plan)) return way;
  ordered_json patch = edit.patch(trouble);
  if (patch.empty()) return way;
  const auto changed = patched(trouble.plan, patch);
  if (!changed) return way;
  way.objection = objections(trouble, *changed);
  way.patch = std::move(patch);
  return way;
}

const Edit* find_edit(std::string_view name) {
  for (const Edit& edit : edits)
    if (edit.name == name) return &edit;
  return nullptr;
}

std::string sentence(std::string words) {
  if (words.empty()) return words;
  if (words[0] >= 'a' && words[0] <= 'z') words[0] = static_cast<char>(words[0] - 'a' + 'A');
  if (words.back() != '.') words += '.';
  return words;
}

}  // namespace

bool known_edit(std::string_view name) {
  return find_edit(name) != nullptr;
}

std::optional<Fix> work_out_fix(const Trouble& trouble) {
  std::vector<Way> ways;
  for (const FixSpec& spec : trouble.rule.fixes) {
    const std::string& name = spec.change.empty() ? spec.put : spec.change;
    std::optional<Way> way;
    if (const Knob* knob = find_knob(name))
      way = turn(trouble, spec, *knob);
    else if (const Edit* edit = find_edit(name))
      way = put(trouble, spec, *edit);
    if (way) ways.push_back(std::move(*way));
  }
  if (ways.empty()) return std::nullopt;
  // What nothing stands against comes first.
  std::stable_sort(ways.begin(), ways.end(), [](const Way& a, const Way& b) {
    return a.objection.empty() && !b.objection.empty();
  });
  Fix fix;
  std::string words;
  for (const Way& way : ways) {
    words += (words.empty() ? "" : ", or ") + way.says;
    if (!way.objection.empty()) words += " – but then " + way.objection;
  }
  fix.says = sentence(words);
  if (ways.front().objection.empty()) fix.patch = ways.front().patch;
  return fix;
}

}  // namespace starter
