#include "rules/fixes.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "plan/json.h"
#include "plan/pointer.h"
#include "quantity/sorted.h"
#include "science/extract.h"

namespace starter {
namespace {

using nlohmann::ordered_json;

std::size_t at(int i) {
  return static_cast<std::size_t>(i);
}

// --- turning a knob ---------------------------------------------------------------------------

double between(double low, double high) {
  // What people weigh and count spreads by factors: between 20 and 150 lies 55, not 85.
  return low > 0 && high > 2 * low ? std::sqrt(low * high) : 0.5 * (low + high);
}

/// Where in the wanted bounds to aim, best first: the middle of two, then nearer and nearer to the
/// bound that is broken now; or just at the only one, then some way inside it, where more room is
/// what another rule wants.
std::vector<double> aims_in(const Bounds& wanted, double now) {
  if (!wanted.low || !wanted.high) {
    const double bound = wanted.low.value_or(wanted.high.value_or(0));
    std::vector<double> aims;
    for (int eighths = 0; eighths <= 4; ++eighths)
      aims.push_back(bound + (bound - now) * eighths / 8);
    return aims;
  }
  const double middle = between(*wanted.low, *wanted.high);
  if (now < *wanted.low) return {middle, between(*wanted.low, middle), *wanted.low};
  return {middle, between(middle, *wanted.high), *wanted.high};
}

/// The knob's value at which the number is comfortable: exact by false position, then brought to
/// what a kitchen can measure, on the side that holds.
class Solver {
 public:
  Solver(const Trouble& trouble, const Knob& knob, int stage, double aim)
      : trouble_(trouble),
        knob_(knob),
        stage_(stage),
        aim_(aim),
        least_(knob.least_in ? std::max(knob.least, knob.least_in(trouble.plan, stage))
                             : knob.least),
        most_(knob.most_in ? std::min(knob.most, knob.most_in(trouble.plan, stage)) : knob.most) {
    most_ = std::max(most_, least_);
  }

  /// Beyond what a kitchen at home holds.
  Solver& unbounded() {
    least_ = knob_.least;
    most_ = knob_.most;
    return *this;
  }

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
    return found ? std::optional(*found - aim_) : std::nullopt;
  }

  double away(double now, int k, int direction) const {
    const double far = knob_.additive ? now + direction * knob_.grain(now) * std::pow(2.0, k)
                                      : now * std::pow(1.5, direction * (k + 1));
    return std::clamp(far, least_, most_);
  }

  /// The nearest value on either side where the number lies beyond the aim.
  std::optional<std::pair<double, double>> far_side(double now, double off) const {
    bool more[2] = {true, true};
    for (int k = 0; k < 16; ++k)
      for (int side = 0; side < 2; ++side) {
        if (!more[side]) continue;
        const double value = away(now, k, side == 0 ? 1 : -1);
        more[side] = side == 0 ? value < most_ : value > least_;
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
      if (mark < least_ || mark > most_ || mark == now) continue;
      const auto found = number(mark);
      if (found && trouble_.wanted.hold(*found)) return mark;
    }
    return std::nullopt;
  }

  const Trouble& trouble_;
  const Knob& knob_;
  int stage_;
  double aim_;
  double least_, most_;  ///< of the knob, here
};

// --- what other rules say of the changed plan -------------------------------------------------

/// What the rule said there before at least as badly; the worst of it.
const Verdict* spoke_before(const std::vector<Verdict>& verdicts, const Verdict& v) {
  const Verdict* found = nullptr;
  for (const Verdict& old : verdicts)
    if (old.rule == v.rule && old.stage == v.stage && old.severity >= v.severity)
      if (!found || old.beyond > found->beyond) found = &old;
  return found;
}

/// Whether a number that was outside lies clearly further outside: a quarter more, and a tenth of
/// the way from comfortable to hard.
bool worsened(const Verdict& was, const Verdict& is) {
  return was.severity == is.severity && is.beyond > 1.25 * was.beyond &&
         is.beyond - was.beyond > 0.1;
}

/// How often the rule speaks where the trouble is.
std::ptrdiff_t times_told(const Trouble& trouble, const std::vector<Verdict>& verdicts) {
  return std::count_if(verdicts.begin(), verdicts.end(), [&](const Verdict& v) {
    return v.rule == &trouble.rule && v.stage == trouble.stage;
  });
}

/// Tells a way what it would newly cause or make worse, the two worst and what is new first. Only
/// what weakens or worse counts.
void object(const Trouble& trouble, std::vector<Verdict> caused, Way& way) {
  sort_short(caused, [&](const Verdict& a, const Verdict& b) {
    const auto rank = [&](const Verdict& v) {
      return std::pair(v.severity, spoke_before(trouble.verdicts, v) == nullptr);
    };
    return rank(a) > rank(b);
  });
  std::vector<std::string> told;
  bool any_new = false;
  for (const Verdict& v : caused) {
    if (v.severity < Severity::weakens) continue;
    const Verdict* was = spoke_before(trouble.verdicts, v);
    if (was && !worsened(*was, v)) continue;
    if (v.rule == &trouble.rule && v.stage == trouble.stage) continue;
    any_new = any_new || !was;
    std::string says =
        v.rule->objection.empty() ? "“" + v.rule->title + "” objects" : v.rule->objection;
    // Where it is another stage that suffers, a reader would look in the wrong one.
    if (v.stage >= 0 && v.stage != trouble.stage && trouble.plan.stages.size() > 1)
      says += ", in stage " + std::to_string(v.stage + 1);
    if (was) says += ", more so than now";
    if (told.size() < 2 && std::find(told.begin(), told.end(), says) == told.end())
      told.push_back(std::move(says));
  }
  way.objection = told.empty() ? "" : told.size() == 1 ? told[0] : told[0] + ", and " + told[1];
  way.only_worse = !told.empty() && !any_new;
}

/// Ways are better the less stands against them: nothing, then what is there already and gets
/// worse.
int weight_against(const Way& way) {
  return way.objection.empty() ? 0 : way.only_worse ? 1 : 2;
}

/// One knob turned to one aim.
std::optional<Way> turned(const Trouble& trouble, const FixSpec& spec, const Knob& knob, int stage,
                          double aim) {
  const auto value = Solver(trouble, knob, stage, aim).solve();
  if (!value) return std::nullopt;
  Plan changed = trouble.plan;
  knob.set(changed, stage, *value);
  Way way;
  way.kind = std::string(knob.name);
  way.yours = !knob.fact.empty();
  way.then = std::string(knob.fact);
  const double old = *knob.get(trouble.plan, stage);
  const auto fill = [&](const std::string& shown) {
    return fill_places(spec.says, [&](std::string_view place) -> std::optional<std::string> {
      if (place == "new")
        return knob.show_in ? knob.show_in(changed, *value, trouble.units)
                            : knob.show(*value, trouble.units);
      if (place == "old") return shown;
      if (place == "new_extract")
        return write(changed.stages[at(stage)].extract_mass, trouble.units);
      return trouble.places(place);
    });
  };
  way.says = fill(knob.show(old, trouble.units));
  if (knob.asks) way.asks = knob.asks(old, *value);
  way.retell = [half = fill("{old}"), says = way.says, &knob, stage,
                units = trouble.units](const Plan& plan) {
    const auto was = knob.get(plan, stage);
    if (!was) return says;
    return fill_places(half,
                       [&](std::string_view) { return std::optional(knob.show(*was, units)); });
  };
  object(trouble, quick_verdicts(changed, trouble.rules), way);
  if (!knob.fact.empty()) return way;
  for (auto& [path, text] : knob.fields(changed, stage))
    way.patch.push_back(
        {{"op", trouble.plan.wrote(path) ? "replace" : "add"}, {"path", path}, {"value", text}});
  // What is told in words may have no place in a short plan to be written.
  const auto made = patched_plan(trouble.plan, way.patch);
  const auto number = made ? trouble.number(*made) : std::nullopt;
  if (!number || !trouble.wanted.hold(*number)) way.patch = ordered_json::array();
  return way;
}

/// The stage whose knob is turned: the trouble's, else the last.
int knob_stage(const Trouble& trouble) {
  return trouble.stage >= 0 ? trouble.stage : static_cast<int>(trouble.plan.stages.size()) - 1;
}

/// The knob turned to the best aim that the least stands against.
std::optional<Way> turn(const Trouble& trouble, const FixSpec& spec, const Knob& knob) {
  const int stage = knob_stage(trouble);
  if (!trouble.number || !trouble.wanted.any()) return std::nullopt;
  const auto now = trouble.number(trouble.plan);
  if (!now) return std::nullopt;
  std::optional<Way> best;
  for (double aim : aims_in(trouble.wanted, *now)) {
    auto way = turned(trouble, spec, knob, stage, aim);
    if (way && way->objection.empty()) return way;
    if (way && (!best || weight_against(*way) < weight_against(*best))) best = std::move(way);
  }
  return best;
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

/// A patch; an empty one where only the words help; nothing where the edit has no use.
using Patch = std::optional<ordered_json>;

ordered_json only_words() {
  return ordered_json::array();
}

Patch move_first_before_then(const Trouble& t) {
  if (!t.reversal) return std::nullopt;
  const int first = t.reversal->first;
  int to = t.reversal->then;
  if (first < to) return only_words();  // its place in the list is right; its `after` is not
  // Before everything else of its stage that the trade does after it, too.
  const Step& moved = t.plan.steps[at(first)];
  for (int i = 0; i < to; ++i) {
    const Step& other = t.plan.steps[at(i)];
    if (other.stage == moved.stage && other.does && moved.does &&
        std::any_of(trade_orders().begin(), trade_orders().end(), [&](const TradeOrder& order) {
          return order.first == *moved.does && order.then == *other.does;
        }))
      to = i;
  }
  ordered_json patch = ordered_json::array();
  // Where it stands is said by its place now, not by what it was tied to.
  for (const char* tie : {"/during", "/after"})
    if (t.plan.wrote(moved.path + tie))
      patch.push_back({{"op", "remove"}, {"path", moved.path + tie}});
  patch.push_back({{"op", "move"}, {"from", moved.path}, {"path", t.plan.steps[at(to)].path}});
  return patch;
}

/// Moves a cold rest that stands before the pitch behind the growth that follows it.
Patch crash_after_growth(const Trouble& t) {
  if (!t.reversal) return std::nullopt;
  const int pitch = t.reversal->first, crash = t.reversal->then;
  const auto growth = growth_step(t.plan, t.process, t.plan.steps[at(crash)].stage);
  if (!growth || !t.process.precedes(pitch, *growth) || crash > *growth) return std::nullopt;
  const Step& moved = t.plan.steps[at(crash)];
  ordered_json patch = ordered_json::array();
  for (const char* tie : {"/during", "/after"})
    if (t.plan.wrote(moved.path + tie))
      patch.push_back({{"op", "remove"}, {"path", moved.path + tie}});
  patch.push_back({{"op", "move"}, {"from", moved.path}, {"path", t.plan.steps[at(*growth)].path}});
  return patch;
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

Patch sanitise_item(const Trouble& t) {
  if (!t.touch) return std::nullopt;
  if (const auto sanitise = sanitise_before(t, t.touch->step))
    return ordered_json::array({add_item(t.plan, *sanitise, t.touch->item)});
  ordered_json step = step_value(t.plan, Do::sanitise, t.plan.steps[at(t.touch->step)].stage);
  step["items"] = {t.touch->item};
  return ordered_json::array({add(step_slot(t.plan, t.touch->step), step)});
}

/// A chill as a kitchen does it: a tub a good half full of tap water, and a bag of ice at the end.
/// Common practice, no source.
void add_bath(const Plan& plan, ordered_json& step) {
  Volume bath = Volume::litres(10);
  for (const auto& [name, vessel] : plan.vessels)
    if (vessel.kind == VesselKind::tub || vessel.kind == VesselKind::sink) {
      step["in"] = name;
      bath = Volume::litres(std::max(1.0, std::round(vessel.capacity.litres() * 0.55)));
      break;
    }
  step["bath"] = write(bath, UnitSystem::metric);
  step["ice"] = "1 kg";
  step["ice_from"] = "40 °C";
  step["swirl"] = true;
  step["to"] = write(plan.defaults().chill_to, UnitSystem::metric);
}

/// A step whose word is like none that is known, where the missing one would stand: it may be that
/// step, and a second one beside it would be done twice.
std::optional<int> unknown_in_its_place(const Trouble& t, Do what, int before, int stage) {
  int after = -1;
  for (int i = 0; i < before; ++i) {
    const Step& step = t.plan.steps[at(i)];
    const bool first = std::any_of(
        trade_orders().begin(), trade_orders().end(),
        [&](const TradeOrder& order) { return order.then == what && step.does == order.first; });
    if (step.stage == stage && first) after = i;
  }
  for (int i = after + 1; i < before; ++i)
    if (!t.plan.steps[at(i)].does && t.plan.steps[at(i)].stage == stage) return i;
  return std::nullopt;
}

std::optional<int> may_be_the_missing(const Trouble& t) {
  const auto what = t.fact ? from_spelling<Do>(t.fact->value) : std::nullopt;
  return what ? unknown_in_its_place(t, *what, t.fact->step, t.fact->stage) : std::nullopt;
}

/// What only the member can say: whether a step of a word that is not known is the missing one.
std::string if_it_is_that(const Trouble& t) {
  const auto unknown = may_be_the_missing(t);
  if (!unknown) return "";
  return "if “" + t.plan.steps[at(*unknown)].verb + "” is that step, write “" + t.fact->value +
         "” in its place; only if it is another, ";
}

Patch insert_step(const Trouble& t) {
  if (!t.fact) return std::nullopt;
  const auto what = from_spelling<Do>(t.fact->value);
  if (!what) return std::nullopt;
  if (may_be_the_missing(t)) return only_words();
  const int stage = t.fact->stage;
  ordered_json step = step_value(t.plan, *what, stage);
  if (*what == Do::boil) step["for"] = write(t.plan.defaults().boil_for, UnitSystem::metric);
  if (*what == Do::chill) add_bath(t.plan, step);
  if (*what == Do::pitch && stage == 0)
    step["from"] = t.plan.yeast.form == YeastForm::slurry ? "slurry" : "pack";
  return ordered_json::array({add(step_slot(t.plan, t.fact->step), step)});
}

/// Unseals the step told, or the cover laid before it; where another seal then holds, that too.
Patch unseal(const Trouble& t) {
  if (!t.fact) return std::nullopt;
  const int count = static_cast<int>(t.plan.steps.size());
  const int last = t.fact->step >= 0 ? t.fact->step : count - 1;
  std::vector<int> sealed;
  const auto take = [&](int i) {
    if (t.plan.steps[at(i)].sealed && t.plan.steps[at(i)].stage == t.fact->stage)
      sealed.push_back(i);
  };
  for (int i = last; i >= 0; --i) take(i);
  if (sealed.empty()) return std::nullopt;
  for (int i = last + 1; i < count; ++i) take(i);
  ordered_json patch = ordered_json::array();
  for (const int i : sealed) {
    patch.push_back(
        {{"op", "replace"}, {"path", t.plan.steps[at(i)].path + "/sealed"}, {"value", false}});
    const auto open = patched_plan(t.plan, patch);
    if (open && times_told(t, quick_verdicts(*open, t.rules)) < times_told(t, t.verdicts))
      return patch;
  }
  return ordered_json::array({patch.front()});
}

Patch add_check(const Trouble& t) {
  if (!t.fact || t.fact->step < 0) return std::nullopt;
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

Patch cover_with_foil(const Trouble& t) {
  if (!t.fact) return std::nullopt;
  const auto boil = first_step(t.plan, Do::boil, t.fact->stage);
  if (!boil) return std::nullopt;
  ordered_json step = step_value(t.plan, Do::cover, t.fact->stage);
  step["with"] = "foil";
  step["during"] = "boil";
  return ordered_json::array({add(step_slot(t.plan, *boil + 1), step)});
}

/// Writes the nearest known word where an unknown one stands, in a text or a list of them.
Patch use_nearest(const Trouble& t) {
  if (!t.fact || t.fact->step < 0) return std::nullopt;
  const auto nearest = t.fact->about.find("nearest");
  const auto word = t.fact->about.find("word");
  if (nearest == t.fact->about.end() || nearest->second.empty() || word == t.fact->about.end())
    return std::nullopt;
  std::string path = t.fact->where;
  const auto& after = t.plan.steps[at(t.fact->step)].after;
  if (after && t.plan.wrote(path + "/0"))
    path += "/" +
            std::to_string(std::find(after->begin(), after->end(), word->second) - after->begin());
  return ordered_json::array({{{"op", "replace"}, {"path", path}, {"value", nearest->second}}});
}

/// Brings a slurry that goes into the beer cold near the beer first.
Patch warm_slurry(const Trouble& t) {
  const int last = static_cast<int>(t.plan.stages.size()) - 1;
  if (first_step(t.plan, Do::warm, last)) return std::nullopt;
  const auto handover = first_step(t.plan, Do::pitch_to_beer, last);
  if (!handover) return std::nullopt;
  ordered_json step = step_value(t.plan, Do::warm, last);
  const Temperature to = std::min(t.plan.beer.ferment_at, t.plan.place.room);
  step["to"] = write(to, UnitSystem::metric);
  return ordered_json::array({add(step_slot(t.plan, *handover), step)});
}

/// Warms the slurry as the last thing before it goes into the beer.
Patch warm_last(const Trouble& t) {
  const int last = static_cast<int>(t.plan.stages.size()) - 1;
  const auto warm = last_step(t.plan, Do::warm, last);
  auto handover = first_step(t.plan, Do::pitch_to_beer, last);
  if (!handover) handover = first_step(t.plan, Do::krausen_pitch, last);
  if (!warm || !handover || *handover <= *warm + 1) return std::nullopt;
  const Step& moved = t.plan.steps[at(*warm)];
  ordered_json patch = ordered_json::array();
  for (const char* tie : {"/during", "/after"})
    if (t.plan.wrote(moved.path + tie))
      patch.push_back({{"op", "remove"}, {"path", moved.path + tie}});
  patch.push_back(
      {{"op", "move"}, {"from", moved.path}, {"path", "/steps/" + std::to_string(*handover - 1)}});
  return patch;
}

Patch light_dry_malt(const Trouble& t) {
  if (!t.fact) return std::nullopt;
  const std::string path = t.fact->where + "/kind";
  return ordered_json::array({{{"op", t.plan.wrote(path) ? "replace" : "add"},
                               {"path", path},
                               {"value", "light dry malt"}}});
}

Patch stir_plate(const Trouble& t) {
  if (!t.fact || t.fact->value == "stirred under tight cover") return std::nullopt;
  const std::string path = "/stages/" + std::to_string(t.fact->stage) + "/agitation";
  return ordered_json::array(
      {{{"op", t.plan.wrote(path) ? "replace" : "add"}, {"path", path}, {"value", "stir plate"}}});
}

Patch shaken(const Trouble& t) {
  if (!t.fact || t.fact->value != "still") return std::nullopt;
  const std::string path = "/stages/" + std::to_string(t.fact->stage) + "/agitation";
  return ordered_json::array({add(path, "shaken")});
}

/// The first step of a stage at which the wort must stand in the vessel it grows in.
std::optional<int> first_use(const Plan& plan, int stage) {
  for (Do what : {Do::check_temperature, Do::pitch})
    if (const auto i = first_step(plan, what, stage)) return i;
  return std::nullopt;
}

/// Pours into glass once the wort is chilled: the move goes behind the chilling, which is put in
/// where there is none.
Patch chill_before_move(const Trouble& t) {
  if (!t.fact || t.fact->step < 0) return std::nullopt;
  const int stage = t.fact->stage;
  const auto chill = first_step(t.plan, Do::chill, stage);
  const auto boil = first_step(t.plan, Do::boil, stage);
  std::optional<int> found;
  for (int i : steps_of(t.plan, Do::move, stage))
    if (boil && t.process.precedes(*boil, i) && !(chill && t.process.precedes(*chill, i)))
      found = i;
  if (!found) return std::nullopt;
  const int move = *found;
  const Step& moved = t.plan.steps[at(move)];
  ordered_json patch = ordered_json::array();
  if (!chill) {
    ordered_json step = step_value(t.plan, Do::chill, stage);
    add_bath(t.plan, step);
    patch.push_back(add(moved.path, step));
    return patch;
  }
  if (*chill < move) return std::nullopt;
  int before = *chill + 1;
  if (const auto use = first_use(t.plan, stage); use && *use > *chill) before = *use;
  const auto untie = [&](const Step& step, const char* tie) {
    if (t.plan.wrote(step.path + tie))
      patch.push_back({{"op", "remove"}, {"path", step.path + tie}});
  };
  untie(moved, "/during");
  untie(moved, "/after");
  for (int i = move + 1; i < before; ++i) {
    const Step& step = t.plan.steps[at(i)];
    const auto waits_for = [&](const std::string& name) {
      return name == moved.verb || (!moved.id.empty() && name == moved.id);
    };
    if (step.after && std::any_of(step.after->begin(), step.after->end(), waits_for))
      untie(step, "/after");
  }
  patch.push_back(
      {{"op", "move"}, {"from", moved.path}, {"path", "/steps/" + std::to_string(before - 1)}});
  return patch;
}

/// A pot of the plan that may be heated and holds the boil with room for foam.
std::optional<std::string> pot_for(const Plan& plan, Volume wort, bool induction) {
  std::optional<std::string> found;
  for (const auto& [name, vessel] : plan.vessels) {
    const bool heats = vessel.material == Material::stainless_steel ||
                       (vessel.material == Material::aluminium && !induction);
    if (vessel.kind != VesselKind::pot || !heats || vessel.capacity * 0.55 < wort) continue;
    if (!found || vessel.capacity < plan.vessels.at(*found).capacity) found = name;
  }
  return found;
}

std::string free_name(const Plan& plan, const std::string& wanted) {
  std::string name = wanted;
  for (int n = 2; plan.vessels.count(name) > 0; ++n) name = wanted + " " + std::to_string(n);
  return name;
}

/// An open pot loses more than a flask: a short boil, and water for what is lost, leave the wort as
/// it was. What a member has measured stays.
void boil_down_no_further(const Trouble& t, int boil, Plan& changed, Volume wort,
                          ordered_json& patch) {
  const int stage = t.plan.steps[at(boil)].stage;
  Stage& in_pot = changed.stages[at(stage)];
  if (in_pot.boil_off || in_pot.extract_kind == ExtractKind::wort) return;
  constexpr Duration short_boil = Duration::minutes(6);
  auto& lasts = changed.steps[at(boil)].lasts;
  if (lasts && *lasts > short_boil) {
    lasts = short_boil;
    patch.push_back(
        add(t.plan.steps[at(boil)].path + "/for", write(short_boil, UnitSystem::metric)));
  }
  const Volume now = work_out(changed, t.process, Draw{}).stages[at(stage)].volume;
  const Volume water = Volume::litres(
      round_to_digits(std::ceil((in_pot.water + (wort - now)).litres() * 20) / 20, 12));
  if (now < wort)
    patch.push_back(
        add("/stages/" + std::to_string(stage) + "/water", write(water, UnitSystem::metric)));
}

/// Boils in a pot, one of the plan's or a new one, and pours into the growth vessel when cool.
Patch boil_in_pot(const Trouble& t) {
  if (!t.fact || t.fact->step < 0 || !t.plan.wrote("/vessels")) return std::nullopt;
  const int stage = t.fact->stage;
  const auto boil = first_step(t.plan, Do::boil, stage);
  if (!boil) return std::nullopt;
  const Workings w = work_out(t.plan, t.process, Draw{});
  const Volume wort = science::volume(w.stages[at(stage)].before_boil);
  const bool induction = t.plan.steps[at(*boil)].heat == HeatSource::induction ||
                         t.plan.steps[at(t.fact->step)].heat == HeatSource::induction;
  ordered_json patch = ordered_json::array();
  auto pot = pot_for(t.plan, wort, induction);
  if (!pot) {
    pot = free_name(t.plan, "pot");
    const double litres = std::max(2.0, std::ceil(wort.litres() / 0.5));
    if (litres > largest_pot) return std::nullopt;
    patch.push_back(add(pointer_to("/vessels", *pot),
                        {{"kind", "pot"},
                         {"capacity", write(Volume::litres(litres), UnitSystem::metric)},
                         {"material", "stainless steel"}}));
  }
  Plan changed = t.plan;
  if (changed.vessels.count(*pot) == 0) {
    Vessel& bought = changed.vessels[*pot];
    bought.kind = VesselKind::pot;
    bought.material = Material::stainless_steel;
    bought.capacity = wort * 2;
  }
  for (Do what : {Do::dissolve, Do::heat, Do::boil})
    for (int i : steps_of(t.plan, what, stage)) {
      patch.push_back(add(t.plan.steps[at(i)].path + "/in", *pot));
      changed.steps[at(i)].in = *pot;
    }
  boil_down_no_further(t, *boil, changed, w.stages[at(stage)].volume, patch);
  std::optional<int> move;
  for (int i : steps_of(t.plan, Do::move, stage))
    if (t.process.precedes(*boil, i)) move = i;
  if (move) {
    patch.push_back(add(t.plan.steps[at(*move)].path + "/from", *pot));
    return patch;
  }
  const auto use = first_use(t.plan, stage);
  const std::string& grows_in = t.plan.stages[at(stage)].vessel;
  if (!use || grows_in == *pot) return patch;
  if (const auto sanitise = sanitise_before(t, *use))
    patch.push_back(add_item(t.plan, *sanitise, grows_in));
  ordered_json step = step_value(t.plan, Do::move, stage);
  step["from"] = *pot;
  step["to"] = grows_in;
  patch.push_back(add(step_slot(t.plan, *use), step));
  if (!first_step(t.plan, Do::chill, stage)) {
    ordered_json chill = step_value(t.plan, Do::chill, stage);
    add_bath(t.plan, chill);
    patch.push_back(add(step_slot(t.plan, *use), chill));
  }
  return patch;
}

/// Cold until settled, poured off, brought near the beer; common practice for how long.
ordered_json cold_rest(const Plan& plan, int stage) {
  ordered_json step = step_value(plan, Do::crash, stage);
  step["for"] = plan.yeast.flocculation == Flocculation::low    ? "48 h"
                : plan.yeast.flocculation == Flocculation::high ? "24 h"
                                                                : "36 h";
  return step;
}

/// Settles and decants a starter that would go into the beer whole.
Patch add_decant(const Trouble& t) {
  if (!t.fact || t.fact->value != "large and pitched whole") return std::nullopt;
  const int last = static_cast<int>(t.plan.stages.size()) - 1;
  const auto krausen = first_step(t.plan, Do::krausen_pitch, last);
  const auto handover = krausen ? krausen : first_step(t.plan, Do::pitch_to_beer, last);
  if (!handover) return std::nullopt;
  const auto warm = first_step(t.plan, Do::warm, last);
  const auto crash = first_step(t.plan, Do::crash, last);
  const int before = warm && *warm < *handover ? *warm : *handover;
  ordered_json patch = ordered_json::array();
  if (krausen)
    patch.push_back({{"op", "replace"},
                     {"path", t.plan.steps[at(*krausen)].path + "/do"},
                     {"value", std::string(spelling(Do::pitch_to_beer))}});
  if (!warm) {
    ordered_json step = step_value(t.plan, Do::warm, last);
    step["to"] = write(std::min(t.plan.beer.ferment_at, t.plan.place.room), UnitSystem::metric);
    patch.push_back(add(step_slot(t.plan, before), step));
  }
  patch.push_back(add(step_slot(t.plan, before), step_value(t.plan, Do::decant, last)));
  if (!crash) patch.push_back(add(step_slot(t.plan, before), cold_rest(t.plan, last)));
  return patch;
}

/// Lowers the bath by centimetres until the vessel stands.
Patch lower_bath(const Trouble& t) {
  if (!t.fact || t.fact->step < 0) return std::nullopt;
  const int i = t.fact->step;
  Plan changed = t.plan;
  auto& depth = changed.steps[at(i)].bath_depth;
  if (!depth) return std::nullopt;
  for (double cm = std::ceil(depth->centimetres()) - 1; cm >= 1; --cm) {
    depth = Length::centimetres(cm);
    const Workings workings = work_out(changed, t.process, Draw{});
    const auto& chill = workings.stages[at(t.fact->stage)].chill;
    if (chill && !chill->floats)
      return ordered_json::array(
          {add(t.plan.steps[at(i)].path + "/bath_depth", write(*depth, UnitSystem::metric))});
  }
  return std::nullopt;
}

Patch swirl(const Trouble& t) {
  const auto chill = t.stage >= 0 ? first_step(t.plan, Do::chill, t.stage) : std::nullopt;
  if (!chill || t.plan.steps[at(*chill)].swirl) return std::nullopt;
  return ordered_json::array({add(t.plan.steps[at(*chill)].path + "/swirl", true)});
}

/// Takes out the step that stores boiled wort before the yeast goes in.
Patch drop_store(const Trouble& t) {
  if (!t.fact || t.fact->step < 0) return std::nullopt;
  const Step& step = t.plan.steps[at(t.fact->step)];
  if (step.does != Do::store) return std::nullopt;
  return ordered_json::array({{{"op", "remove"}, {"path", step.path}}});
}

/// Takes out the one tie of a ring of steps without which the ring is open.
Patch cut_loop(const Trouble& t) {
  if (!t.fact) return std::nullopt;
  for (const auto& ring : t.process.loops) {
    if (std::find(ring.begin(), ring.end(), t.fact->step) == ring.end()) continue;
    for (int i : ring)
      for (const char* tie : {"/after", "/during"}) {
        const std::string path = t.plan.steps[at(i)].path + tie;
        if (!t.plan.wrote(path)) continue;
        ordered_json patch = ordered_json::array({{{"op", "remove"}, {"path", path}}});
        const auto made = patched_plan(t.plan, patch);
        if (made && unfold(*made).loops.size() < t.process.loops.size()) return patch;
      }
  }
  return std::nullopt;
}

/// A pack two weeks old when the plan begins. Its date is a fact, and so is a count of the old one:
/// both are written when the other pack is there, and are nothing that a fix may write.
Patch fresh_pack(const Trouble& t) {
  if (t.plan.yeast.form == YeastForm::dry) return std::nullopt;
  // By its number, the age that will do is worked out; a count says nothing of age.
  if (t.number && !t.plan.yeast.viability) return std::nullopt;
  constexpr double two_weeks = 14;
  const auto now = find_knob("pack_age")->get(t.plan, 0);
  if (!t.plan.yeast.viability && (!now || *now <= two_weeks)) return std::nullopt;
  return only_words();
}

/// States the finished volume that water and extract, less boil-off, come to.
Patch restate_volume(const Trouble& t) {
  if (t.stage < 0) return std::nullopt;
  const Volume volume = work_out(t.plan, t.process, Draw{}).stages[at(t.stage)].volume;
  return ordered_json::array({add("/stages/" + std::to_string(t.stage) + "/wort_volume",
                                  write(volume, UnitSystem::metric))});
}

/// Extract for a first wort near 1.020, in which weak yeast revives.
Patch ease_in(const Trouble& t) {
  if (t.plan.stages[0].extract_kind == ExtractKind::wort) return std::nullopt;
  constexpr double aim = 5.1;  // °P, which is near 1.020
  Plan changed = t.plan;
  for (int turn = 0; turn < 3; ++turn) {
    const double plato = work_out(changed, t.process, Draw{}).stages[0].gravity.degrees();
    if (plato <= 0) return std::nullopt;
    changed.stages[0].extract_mass = changed.stages[0].extract_mass * (aim / plato);
  }
  const Mass mass = Mass::grams(std::max(1.0, std::round(changed.stages[0].extract_mass.grams())));
  return ordered_json::array({add("/stages/0/extract/mass", write(mass, UnitSystem::metric))});
}

// --- what one vessel does not hold ------------------------------------------------------------

constexpr int most_shares = 3;  ///< starters that anybody grows at once; common practice, no source
constexpr std::array<const char*, 2> counted = {"two", "three"};
constexpr std::array<const char*, 2> part_of = {"half", "a third"};

/// A plan that grows once more, in the vessel of the last stage, as the last stage was grown; for
/// measuring only, so without its steps.
std::optional<Plan> grown_once_more(const Plan& plan) {
  constexpr std::size_t most_stages = 3;
  if (plan.stages.size() >= most_stages || !plan.source) return std::nullopt;
  const ordered_json document = try_parse_json(*plan.source);
  const std::size_t last = plan.stages.size() - 1;
  if (!document.is_object() || !document.contains("stages") || !document.at("stages").is_array() ||
      document.at("stages").size() != last + 1)
    return std::nullopt;
  ordered_json stage = document.at("stages").at(last);
  // What was read or stated of the last stage says nothing of the next.
  for (const char* own : {"measured", "gravity", "wort_volume", "boil_off"}) stage.erase(own);
  ordered_json patch = ordered_json::array({add("/stages/-", stage)});
  if (plan.wrote("/steps")) patch.push_back({{"op", "remove"}, {"path", "/steps"}});
  return patched_plan(plan, patch);
}

std::string wort_of(const Trouble& t, Volume water, Mass extract) {
  return write(water, t.units) + " of water with " + write(extract, t.units) + " of extract";
}

/// Whether a plan in which only the size changed lets its yeast grow as it should.
bool yeast_has_its_way(const Trouble& t, const Plan& changed) {
  const auto verdicts = quick_verdicts(changed, t.rules);
  return std::none_of(verdicts.begin(), verdicts.end(), [&](const Verdict& v) {
    const std::string& of = v.rule->measure;
    const bool growing =
        of == "inoculation_rate" || of == "growth_time_ratio" || of == "stage_step";
    return growing && v.severity >= Severity::weakens && !spoke_before(t.verdicts, v);
  });
}

/// The same starter in two or three shares; with more packs maybe in one. Nothing where the yeast
/// would not grow as it should, and where it takes more shares.
std::optional<std::string> in_shares(const Trouble& t, const Knob& size, double largest) {
  const int stage = knob_stage(t);
  const auto whole = Solver(t, size, stage, *t.wanted.low).unbounded().solve();
  if (!whole) return std::nullopt;
  const int shares = static_cast<int>(std::ceil(*whole / largest - 1e-9));
  Plan changed = t.plan;
  size.set(changed, stage, *whole);
  if (shares > most_shares || !yeast_has_its_way(t, changed)) return std::nullopt;
  if (shares <= 1)
    return "grow in " +
           wort_of(t, changed.stages[at(stage)].water, changed.stages[at(stage)].extract_mass);
  const double grain = size.grain(*whole / shares);
  const double each = round_to_digits(std::ceil(*whole / shares / grain - 1e-9) * grain, 12);
  size.set(changed, stage, each);
  return std::string("grow ") + counted[at(shares - 2)] + " starters, each in " +
         wort_of(t, changed.stages[at(stage)].water, changed.stages[at(stage)].extract_mass) +
         " and with " + part_of[at(shares - 2)] + " of the yeast";
}

/// The last stage once more in its own vessel.
std::optional<std::string> once_more(const Trouble& t, const Knob& size) {
  const auto again = grown_once_more(t.plan);
  if (!again) return std::nullopt;
  const int next = knob_stage(t) + 1;
  const Process process = unfold(*again);
  const std::vector<Verdict> none;
  const Trouble after{*again,   process, t.rules, none,    t.rule,   next,   t.number,
                      t.wanted, nullptr, nullptr, nullptr, t.places, t.units};
  const auto litres = Solver(after, size, next, *t.wanted.low).solve();
  if (!litres) return std::nullopt;
  Plan changed = *again;
  size.set(changed, next, *litres);
  if (!yeast_has_its_way(after, changed)) return std::nullopt;
  return "pour off the spent wort and grow once more, in " +
         wort_of(t, changed.stages[at(next)].water, changed.stages[at(next)].extract_mass);
}

/// With how many more packs it can be grown, in one vessel or in shares.
std::optional<std::string> with_packs(const Trouble& t, const Knob& size, double largest) {
  const Knob& packs = *find_knob("packs");
  const auto now = packs.get(t.plan, 0);
  if (!now) return std::nullopt;
  for (double more = *now + 1; more <= packs.most; ++more) {
    Plan changed = t.plan;
    packs.set(changed, 0, more);
    const Trouble with{changed,  t.process, t.rules, t.verdicts, t.rule,   t.stage, t.number,
                       t.wanted, nullptr,   nullptr, nullptr,    t.places, t.units};
    if (const auto shares = in_shares(with, size, largest))
      return "use " + packs.show(more, t.units) + " and " + *shares;
  }
  return std::nullopt;
}

/// For how much of the beer the largest starter has the cells; what is to be kept grows with
/// nothing, so a plan that keeps some is not told.
std::optional<std::string> for_less_beer(const Trouble& t, const Knob& size, double largest) {
  if (t.plan.beer.keep_cells) return std::nullopt;
  Plan changed = t.plan;
  size.set(changed, knob_stage(t), largest);
  const auto most = t.number(changed);
  if (!most) return std::nullopt;
  const double beer = t.plan.beer.volume.litres();
  const double litres = std::floor(beer * *most / *t.wanted.low * 2 + 1e-9) / 2;
  if (litres < 1 || litres >= beer) return std::nullopt;
  return "brew no more than " + write(Volume::litres(litres), t.units) + " of this beer";
}

/// What to do about a starter that no vessel of a home holds: in shares, once more in the same
/// vessel, with more packs, or for less beer; empty where one vessel holds it. What a stage brings
/// grows with its size as long as yeast and wort keep their proportion, so each share of a starter,
/// with its share of the yeast, brings its share of the cells.
std::string beyond_one_vessel(const Trouble& t) {
  const Knob& size = *find_knob("stage_size");
  const int stage = knob_stage(t);
  const auto now = t.number ? t.number(t.plan) : std::nullopt;
  if (!now || !t.wanted.low || *now >= *t.wanted.low || !size.get(t.plan, stage) ||
      t.plan.stages[at(stage)].extract_kind == ExtractKind::wort)
    return "";
  if (Solver(t, size, stage, *t.wanted.low).solve()) return "";
  const double largest = size.most_in(t.plan, stage);
  const std::string why =
      ", as one starter in a vessel of " + write(largest_grower(t.plan), t.units) + " is too small";
  auto way = in_shares(t, size, largest);
  if (!way) way = once_more(t, size);
  if (!way) way = with_packs(t, size, largest);
  if (!way) way = for_less_beer(t, size, largest);
  return way.value_or("use more or fresher packs, or brew less beer") + why;
}

/// How many vessels of a capacity hold what one fills too far; nothing where a vessel that a home
/// has would do, and where they are too many.
std::optional<int> vessels_for(const Trouble& t, const char* knob_name, double& capacity) {
  const Knob& knob = *find_knob(knob_name);
  const int stage = knob_stage(t);
  const auto now = t.number ? t.number(t.plan) : std::nullopt;
  const auto own = knob.get(t.plan, stage);
  if (!now || !own || !t.wanted.high || *t.wanted.high <= 0) return std::nullopt;
  const double needed = *own * *now / *t.wanted.high;
  capacity = knob.most_in(t.plan, stage);
  const double vessels = std::ceil(needed / capacity - 1e-9);
  if (vessels < 2 || vessels > most_shares) return std::nullopt;
  return static_cast<int>(vessels);
}

std::string shared_out(const Trouble& t) {
  double capacity = 0;
  const auto vessels = vessels_for(t, "growth_vessel_capacity", capacity);
  if (!vessels) return "";
  return std::string(counted[at(*vessels - 2)]) + " vessels of " +
         write(Volume::litres(capacity), t.units);
}

std::string boiled_in_parts(const Trouble& t) {
  double capacity = 0;
  const auto parts = vessels_for(t, "boil_vessel_capacity", capacity);
  if (!parts) return "";
  return std::string(counted[at(*parts - 2)]) + " parts, each in a vessel of " +
         write(Volume::litres(capacity), t.units);
}

struct Edit {
  std::string_view name;
  Patch (*patch)(const Trouble&);
  bool of_steps = true;        ///< it changes steps, which a short plan has not written
  std::string_view new_value;  ///< for {new}
  Asks asks = Asks::nothing;
  std::string_view fact = "";                     ///< as in Knob
  std::string (*tell)(const Trouble&) = nullptr;  ///< {new}, worked out; such an edit is words only
  std::string (*before)(const Trouble&) = nullptr;  ///< words in front of what it says
};

constexpr Edit edits[] = {
    {"move_first_before_then", move_first_before_then, true, ""},
    {"crash_after_growth", crash_after_growth, true, ""},
    {"sanitise_item", sanitise_item, true, ""},
    {"insert_step", insert_step, true, "", Asks::nothing, "", nullptr, if_it_is_that},
    {"unseal", unseal, true, ""},
    {"add_check", add_check, true, ""},
    {"cover_with_foil", cover_with_foil, true, ""},
    {"use_nearest", use_nearest, true, ""},
    {"warm_slurry", warm_slurry, true, ""},
    {"warm_last", warm_last, true, ""},
    {"extract_kind", light_dry_malt, false, "light dry malt", Asks::purchase},
    {"agitation", stir_plate, false, "a stir plate", Asks::purchase},
    {"shaken", shaken, false, ""},
    {"chill_before_move", chill_before_move, true, ""},
    {"boil_in_pot", boil_in_pot, true, ""},
    {"add_decant", add_decant, true, "", Asks::taste},
    {"lower_bath", lower_bath, true, ""},
    {"swirl", swirl, true, ""},
    {"drop_store", drop_store, true, ""},
    {"cut_loop", cut_loop, true, ""},
    {"fresh_pack", fresh_pack, false, "14 days", Asks::purchase, "write its own date"},
    {"ease_in", ease_in, false, ""},
    {"restate_volume", restate_volume, false, "", Asks::taste},
    {"several_starters", nullptr, false, "", Asks::taste, "", beyond_one_vessel},
    {"several_vessels", nullptr, false, "", Asks::purchase, "", shared_out},
    {"several_boils", nullptr, false, "", Asks::nothing, "", boiled_in_parts},
};

std::optional<Way> put(const Trouble& trouble, const FixSpec& spec, const Edit& edit) {
  const std::string told = edit.tell ? edit.tell(trouble) : std::string(edit.new_value);
  if (edit.tell && told.empty()) return std::nullopt;
  Patch patch = edit.tell ? Patch(only_words()) : edit.patch(trouble);
  if (!patch) return std::nullopt;
  Way way;
  const auto first_extract = [&]() -> std::optional<std::string> {
    const auto made = patched_plan(trouble.plan, *patch);
    if (!made) return std::nullopt;
    return write(made->stages[0].extract_mass, trouble.units);
  };
  way.says = fill_places(spec.says, [&](std::string_view place) -> std::optional<std::string> {
    if (place == "new") return told;
    if (place == "new_extract") return first_extract();
    if (place == "old" && trouble.fact) return trouble.fact->value;
    return trouble.places(place);
  });
  const std::string before = edit.before ? edit.before(trouble) : "";
  way.says = before + way.says;
  way.kind = std::string(edit.name);
  way.yours = !edit.fact.empty() || !before.empty();
  way.then = std::string(edit.fact);
  way.asks = brings_a_vessel(*patch) ? Asks::purchase : edit.asks;
  if (patch->empty() || (edit.of_steps && !steps_are_written(trouble.plan))) return way;
  const auto changed = patched_plan(trouble.plan, *patch);
  if (!changed) return way;
  const auto verdicts = quick_verdicts(*changed, trouble.rules);
  object(trouble, verdicts, way);
  if (times_told(trouble, verdicts) < times_told(trouble, trouble.verdicts))
    way.patch = std::move(*patch);
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

std::vector<std::string_view> edit_names() {
  std::vector<std::string_view> names;
  for (const Edit& edit : edits) names.push_back(edit.name);
  return names;
}

bool brings_a_vessel(const ordered_json& patch) {
  return std::any_of(patch.begin(), patch.end(), [](const ordered_json& op) {
    return op.at("op") == "add" && op.at("path").get<std::string>().rfind("/vessels", 0) == 0;
  });
}

std::optional<Plan> plan_of_document(const ordered_json& document, const Defaults& defaults) {
  PlanResult result =
      read_plan(document.dump(-1, ' ', false, ordered_json::error_handler_t::replace), defaults);
  if (auto* made = std::get_if<Plan>(&result)) return std::move(*made);
  return std::nullopt;
}

std::optional<Plan> patched_plan(const Plan& plan, const ordered_json& patch) {
  if (!plan.source || patch.empty()) return std::nullopt;
  const ordered_json document = try_parse_json(*plan.source);
  if (document.is_discarded()) return std::nullopt;
  try {
    return plan_of_document(document.patch(patch), plan.defaults());
  } catch (const ordered_json::exception&) {
    return std::nullopt;  // a patch that does not fit mends nothing; the words still help
  }
}

std::vector<Way> ways_to_mend(const Trouble& trouble) {
  std::vector<Way> ways;
  const auto take = [&ways](std::optional<Way> way) {
    if (!way || (way->patch.empty() && !way->yours)) return;
    if (std::none_of(ways.begin(), ways.end(), [&](const Way& had) {
          return had.patch == way->patch && (!way->patch.empty() || had.kind == way->kind);
        }))
      ways.push_back(std::move(*way));
  };
  for (const FixSpec& spec : trouble.rule.fixes) {
    const std::string& name = spec.change.empty() ? spec.put : spec.change;
    if (const Knob* knob = find_knob(name)) {
      if (!trouble.number || !trouble.wanted.any()) continue;
      const auto now = trouble.number(trouble.plan);
      if (!now) continue;
      for (double aim : aims_in(trouble.wanted, *now))
        take(turned(trouble, spec, *knob, knob_stage(trouble), aim));
    } else if (const Edit* edit = find_edit(name); edit && !edit->tell) {
      take(put(trouble, spec, *edit));
    }
  }
  return ways;
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
  // What nothing stands against comes first; more than two ways are more than anyone reads.
  sort_short(ways,
             [](const Way& a, const Way& b) { return weight_against(a) < weight_against(b); });
  if (ways.size() > 2) ways.resize(2);
  Fix fix;
  for (const Way& way : ways) {
    const std::string says =
        way.says + (way.objection.empty() ? "" : " – but then " + way.objection);
    // An objection has a sentence with its way alone, so that it is clear what it is to.
    if (fix.says.empty())
      fix.says = sentence(says);
    else if (!ways[0].objection.empty() || !way.objection.empty())
      fix.says += " " + sentence("or " + says);
    else
      fix.says = sentence(fix.says.substr(0, fix.says.size() - 1) + ", or " + says);
    if (fix.patch.empty() && weight_against(way) < 2 && !way.patch.empty())
      fix.patch = way.patch.dump();
  }
  return fix;
}

}  // namespace starter
