#include "process/process.h"

#include <algorithm>
#include <boost/graph/adjacency_list.hpp>
#include <boost/graph/strong_components.hpp>
#include <functional>
#include <queue>
#include <set>

#include "quantity/sorted.h"
#include "quantity/words.h"

namespace starter {
namespace {

std::size_t at(int i) {
  return static_cast<std::size_t>(i);
}
int count_of(const Plan& plan) {
  return static_cast<int>(plan.steps.size());
}

std::string nearest_verb(std::string_view word) {
  std::vector<std::string_view> names;
  for (const auto& row : spellings<Do>()) names.push_back(row.text);
  return nearest_word(word, names).value_or("");
}

/// A misspelt word still answers to the word it was meant to be: one slip is told once.
bool answers_to(const Step& step, std::string_view name) {
  return (!step.id.empty() && step.id == name) || step.verb == name ||
         (!step.does && nearest_verb(step.verb) == name);
}

/// The step that `name` means when step `asking` says it: an id wins over a word, the same stage
/// over another, an earlier step over a later one, a near one over a far one.
std::optional<int> resolve(const Plan& plan, int asking, std::string_view name) {
  std::optional<int> best;
  auto rank = [&](int i) {
    const Step& step = plan.steps[at(i)];
    const bool by_id = !step.id.empty() && step.id == name;
    const bool same_stage = step.stage == plan.steps[at(asking)].stage;
    const int distance = i < asking ? asking - i : i - asking;
    return std::tuple(!by_id, !same_stage, i > asking, distance);
  };
  for (int i = 0; i < count_of(plan); ++i) {
    if (i == asking || !answers_to(plan.steps[at(i)], name)) continue;
    if (!best || rank(i) < rank(*best)) best = i;
  }
  return best;
}

std::string nearest_step_name(const Plan& plan, std::string_view word) {
  std::vector<std::string_view> names;
  for (const Step& step : plan.steps) {
    if (!step.id.empty()) names.push_back(step.id);
    names.push_back(step.verb);
  }
  return nearest_word(word, names).value_or("");
}

void find_containers(const Plan& plan, Process& process) {
  process.inside.assign(plan.steps.size(), std::nullopt);
  for (int i = 0; i < count_of(plan); ++i) {
    const Step& step = plan.steps[at(i)];
    if (!step.during) continue;
    const auto outer = resolve(plan, i, *step.during);
    if (!outer && answers_to(step, *step.during)) {
      process.loops.push_back({i});
      continue;
    }
    if (!outer) {
      process.unknown.push_back({i, "during", *step.during, nearest_step_name(plan, *step.during)});
      continue;
    }
    // Steps laid inside each other: those written first keep their places, the ring is told.
    std::vector<int> ring = {i};
    for (auto o = outer; o && *o != i; o = process.inside[at(*o)]) ring.push_back(*o);
    const bool closed = process.inside[at(ring.back())] == i;
    if (!closed) {
      process.inside[at(i)] = outer;
      continue;
    }
    std::rotate(ring.begin(), std::min_element(ring.begin(), ring.end()), ring.end());
    process.loops.push_back(ring);
  }
}

using StepSet = std::bitset<most_steps>;

/// Arrows as the plan has them, each once, loops included.
std::vector<Dependency> written_dependencies(const Plan& plan, Process& process) {
  std::vector<Dependency> arrows;
  std::optional<int> previous;
  for (int i = 0; i < count_of(plan); ++i) {
    const Step& step = plan.steps[at(i)];
    if (step.after) {
      for (const std::string& name : *step.after) {
        if (const auto found = resolve(plan, i, name))
          arrows.push_back({*found, i, Dependency::Why::after});
        else if (answers_to(step, name))
          arrows.push_back({i, i, Dependency::Why::after});
        else
          process.unknown.push_back({i, "after", name, nearest_step_name(plan, name)});
      }
    } else if (!process.inside[at(i)] && previous) {
      arrows.push_back({*previous, i, Dependency::Why::written_order});
    }
    if (!process.inside[at(i)]) previous = i;
  }
  // A name said twice, or an id and a word of the same step, is one arrow.
  std::vector<StepSet> before(plan.steps.size()), behind(plan.steps.size());
  std::vector<Dependency> once;
  for (const Dependency& arrow : arrows) {
    if (before[at(arrow.to)].test(at(arrow.from))) continue;
    before[at(arrow.to)].set(at(arrow.from));
    behind[at(arrow.from)].set(at(arrow.to));
    once.push_back(arrow);
  }
  // What is laid inside a step starts no earlier than it and is done when it is.
  const std::vector<StepSet> said_before = before;
  for (int i = 0; i < count_of(plan); ++i) {
    StepSet earlier, later;
    for (auto outer = process.inside[at(i)]; outer; outer = process.inside[at(*outer)]) {
      earlier |= said_before[at(*outer)];
      later |= behind[at(*outer)];
    }
    for (int other = 0; other < count_of(plan); ++other) {
      if (other == i) continue;
      if (earlier.test(at(other)) && !before[at(i)].test(at(other))) {
        before[at(i)].set(at(other));
        once.push_back({other, i, Dependency::Why::during});
      }
      if (later.test(at(other)) && !before[at(other)].test(at(i))) {
        before[at(other)].set(at(i));
        once.push_back({i, other, Dependency::Why::during});
      }
    }
  }
  return once;
}

/// The shortest ring through the smallest of `members`, which are strongly connected.
std::vector<int> ring_through(const std::vector<int>& members,
                              const std::vector<std::vector<int>>& then) {
  const int start = members.front();
  std::vector<std::optional<int>> reached_from(then.size());
  std::queue<int> ahead;
  ahead.push(start);
  while (!ahead.empty()) {
    const int step = ahead.front();
    ahead.pop();
    for (int next : then[at(step)]) {
      if (next == start) {
        std::vector<int> ring;
        for (int back = step; back != start; back = *reached_from[at(back)]) ring.push_back(back);
        ring.push_back(start);
        std::reverse(ring.begin(), ring.end());
        return ring;
      }
      if (reached_from[at(next)]) continue;
      reached_from[at(next)] = step;
      ahead.push(next);
    }
  }
  return members;
}

/// Tells the loops, then takes out of each the arrows that run against the order of the file, so
/// that the rest of the plan can still be worked out.
void break_loops(const Plan& plan, Process& process, std::vector<Dependency>& arrows) {
  boost::adjacency_list<boost::vecS, boost::vecS, boost::directedS> graph(plan.steps.size());
  std::vector<std::vector<int>> then(plan.steps.size());
  for (const Dependency& arrow : arrows) {
    boost::add_edge(at(arrow.from), at(arrow.to), graph);
    then[at(arrow.from)].push_back(arrow.to);
  }
  std::vector<int> component(plan.steps.size());
  const int components = boost::strong_components(
      graph, boost::make_iterator_property_map(component.begin(), get(boost::vertex_index, graph)));
  std::vector<std::vector<int>> members(at(components));
  for (int i = 0; i < count_of(plan); ++i) members[at(component[at(i)])].push_back(i);
  for (const auto& ring : members) {
    const bool itself = std::any_of(arrows.begin(), arrows.end(), [&](const Dependency& arrow) {
      return arrow.from == ring.front() && arrow.to == ring.front();
    });
    if (ring.size() > 1 || itself) process.loops.push_back(ring_through(ring, then));
  }
  std::sort(process.loops.begin(), process.loops.end());
  process.loops.erase(std::unique(process.loops.begin(), process.loops.end()), process.loops.end());
  arrows.erase(std::remove_if(arrows.begin(), arrows.end(),
                              [&](const Dependency& arrow) {
                                return component[at(arrow.from)] == component[at(arrow.to)] &&
                                       arrow.from >= arrow.to;
                              }),
               arrows.end());
}

/// Kahn's algorithm; of the steps that could be next, the first in the file is.
std::vector<int> topological(const Plan& plan, const std::vector<Dependency>& arrows) {
  std::vector<int> waiting(plan.steps.size(), 0);
  std::vector<std::vector<int>> then(plan.steps.size());
  for (const Dependency& arrow : arrows) {
    ++waiting[at(arrow.to)];
    then[at(arrow.from)].push_back(arrow.to);
  }
  std::priority_queue<int, std::vector<int>, std::greater<>> ready;
  for (int i = 0; i < count_of(plan); ++i)
    if (waiting[at(i)] == 0) ready.push(i);
  std::vector<int> order;
  while (!ready.empty()) {
    const int step = ready.top();
    ready.pop();
    order.push_back(step);
    for (int next : then[at(step)])
      if (--waiting[at(next)] == 0) ready.push(next);
  }
  return order;
}

/// Fills the transitive closure from the arrows, last step of the order first.
void close_over(const Plan& plan, Process& process) {
  process.order = topological(plan, process.dependencies);
  process.followers_.assign(plan.steps.size(), {});
  std::vector<std::vector<int>> then(plan.steps.size());
  for (const Dependency& arrow : process.dependencies) then[at(arrow.from)].push_back(arrow.to);
  for (auto step = process.order.rbegin(); step != process.order.rend(); ++step)
    for (int next : then[at(*step)]) {
      process.followers_[at(*step)] |= process.followers_[at(next)];
      process.followers_[at(*step)].set(at(next));
    }
}

bool laid_together(const Process& process, int a, int b) {
  for (auto o = process.inside[at(a)]; o; o = process.inside[at(*o)])
    if (*o == b) return true;
  for (auto o = process.inside[at(b)]; o; o = process.inside[at(*o)])
    if (*o == a) return true;
  return false;
}

/// Adds `first` → `then` where the plan leaves the two side by side.
void tie(const Plan& plan, Process& process, int first, int then) {
  if (first == then || process.precedes(first, then) || process.precedes(then, first)) return;
  if (laid_together(process, first, then)) return;
  process.dependencies.push_back({first, then, Dependency::Why::trade});
  auto beyond = process.followers_[at(then)];
  beyond.set(at(then));
  for (int i = 0; i < count_of(plan); ++i)
    if (i == first || process.precedes(i, first)) process.followers_[at(i)] |= beyond;
}

void add_trade_dependencies(const Plan& plan, Process& process) {
  for (int stage = 0; stage < static_cast<int>(plan.stages.size()); ++stage) {
    for (const TradeOrder& order : trade_orders())
      for (int then : steps_of(plan, order.then, stage))
        for (int first : steps_of(plan, order.first, stage)) tie(plan, process, first, then);
    // The yeast of a stage comes from the stage before.
    if (stage > 0)
      for (int then : steps_of(plan, Do::pitch, stage))
        for (int first : steps_of(plan, Do::pitch, stage - 1)) tie(plan, process, first, then);
  }
}

/// What the trade does after `first`, directly or by way of others.
std::set<Do> trade_followers(Do first) {
  std::set<Do> found = {first};
  for (bool grew = true; grew;) {
    grew = false;
    for (const TradeOrder& order : trade_orders())
      if (found.count(order.first) > 0) grew |= found.insert(order.then).second;
  }
  found.erase(first);
  return found;
}

/// Whether a step with an unknown word was likely meant to be this one.
bool meant_by_an_unknown(const Plan& plan, Do what, int stage) {
  return std::any_of(plan.steps.begin(), plan.steps.end(), [&](const Step& step) {
    return !step.does && step.stage == stage && nearest_verb(step.verb) == spelling(what);
  });
}

void find_missing(const Plan& plan, Process& process) {
  constexpr Do needed[] = {Do::dissolve, Do::boil, Do::chill, Do::pitch};
  const int stages = static_cast<int>(plan.stages.size());
  for (int stage = 0; stage < stages; ++stage) {
    for (Do what : needed) {
      if (what == Do::dissolve && plan.stages[at(stage)].extract_kind == ExtractKind::wort)
        continue;
      if (first_step(plan, what, stage) || meant_by_an_unknown(plan, what, stage)) continue;
      // It belongs before the first step of the stage that comes later in the trade's order.
      const std::set<Do> later = trade_followers(what);
      std::optional<int> before;
      for (int i = 0; i < count_of(plan) && !before; ++i) {
        const Step& step = plan.steps[at(i)];
        if (step.stage == stage && step.does && later.count(*step.does) > 0) before = i;
      }
      if (!before) {
        int last = -1;
        for (int i = 0; i < count_of(plan); ++i)
          if (plan.steps[at(i)].stage <= stage) last = i;
        before = last + 1;
      }
      process.missing.push_back({what, stage, *before});
    }
  }
  bool given_to_beer = false;
  for (const Step& step : plan.steps)
    given_to_beer |= step.does == Do::pitch_to_beer || step.does == Do::krausen_pitch;
  given_to_beer |= meant_by_an_unknown(plan, Do::pitch_to_beer, stages - 1);
  if (!given_to_beer) process.missing.push_back({Do::pitch_to_beer, stages - 1, count_of(plan)});
}

/// An item and the step that cleans it.
struct Cleaning {
  std::string item;
  int step;
};

/// The first boil of its stage that comes after this step or around it; nothing when none does.
std::optional<int> boil_ahead(const Plan& plan, const Process& process, int step) {
  for (int boil : steps_of(plan, Do::boil, plan.steps[at(step)].stage))
    if (boil == step || process.precedes(step, boil) || laid_together(process, step, boil))
      return boil;
  return std::nullopt;
}

/// The boil that what this step brings goes into, or hangs over.
std::optional<int> goes_into_the_boil(const Plan& plan, const Process& process, int step) {
  const auto does = plan.steps[at(step)].does;
  if (does != Do::add && does != Do::cover && does != Do::dissolve && does != Do::heat &&
      does != Do::boil && does != Do::move)
    return std::nullopt;
  return boil_ahead(plan, process, step);
}

std::vector<Cleaning> cleanings(const Plan& plan, const Process& process) {
  std::vector<Cleaning> found;
  for (int i = 0; i < count_of(plan); ++i) {
    const Step& step = plan.steps[at(i)];
    if (step.does == Do::sanitise) {
      for (const std::string& item : step.items) found.push_back({item, i});
      for (const std::string& item : step.with) found.push_back({item, i});
    } else if (const auto boil = goes_into_the_boil(plan, process, i)) {
      // Boiled with the wort, or steamed over it: clean once the boil is done.
      for (const std::string& item : step.items) found.push_back({item, *boil});
      for (const std::string& item : step.with) found.push_back({item, *boil});
      if (step.does == Do::boil) found.push_back({boiled_in(plan, process, i), *boil});
    }
  }
  return found;
}

/// Whether the wort of this step's stage has had its last boil when the step comes: nothing will
/// clean it again. Where no boil is planned, from chilling or pitching on.
bool wort_is_boiled(const Plan& plan, const Process& process, int step) {
  const int stage = plan.steps[at(step)].stage;
  if (boil_ahead(plan, process, step)) return false;
  for (Do anchor : {Do::boil, Do::chill, Do::pitch}) {
    const auto anchors = steps_of(plan, anchor, stage);
    if (anchors.empty()) continue;
    return std::any_of(anchors.begin(), anchors.end(), [&](int a) {
      return process.precedes(a, step) || (anchor == Do::pitch && a == step);
    });
  }
  return false;
}

/// Whether a step of the stage says that the stir bar goes in. To sanitise it is not yet that.
bool brings_a_stir_bar(const Plan& plan, int stage) {
  for (const Step& step : plan.steps) {
    if (step.stage != stage || step.does == Do::sanitise) continue;
    for (const auto* list : {&step.with, &step.items})
      for (const std::string& item : *list)
        if (same_item(item, "stir bar")) return true;
  }
  return false;
}

/// Things a step works with that never touch what is in the vessel.
bool stays_outside(const std::string& item) {
  constexpr std::string_view outside[] = {"stir plate", "ice",   "ice bath", "bath",   "fridge",
                                          "freezer",    "hob",   "stove",    "burner", "scale",
                                          "scales",     "timer", "mitts",    "gloves"};
  return std::any_of(std::begin(outside), std::end(outside),
                     [&](std::string_view thing) { return same_item(item, thing); });
}

/// What a step brings to boiled wort.
std::vector<Touch> touches_of(const Plan& plan, int i) {
  const Step& step = plan.steps[at(i)];
  const Stage& stage = plan.stages[at(step.stage)];
  std::vector<Touch> found;
  auto touch = [&](const std::string& item, bool assumed) {
    found.push_back({item, i, assumed, std::nullopt, std::nullopt, std::nullopt});
  };
  if (!step.does || step.does == Do::sanitise || step.does == Do::weigh) return found;
  for (const std::string& item : step.with)
    if (!stays_outside(item)) touch(item, false);
  switch (*step.does) {
    case Do::add:
      for (const std::string& item : step.items) touch(item, false);
      break;
    case Do::cover:
      if (step.with.empty()) touch("cover", true);
      break;
    case Do::check_temperature:
      if (step.with.empty()) touch("thermometer", true);
      break;
    case Do::move:
      if (step.into) touch(*step.into, false);
      break;
    case Do::pitch:
      if (step.from && (step.stage == 0 || plan.vessels.count(*step.from) == 0))
        touch(*step.from, false);
      else if (!step.from && step.stage == 0)
        touch(plan.yeast.form == YeastForm::slurry ? "slurry jar" : "pack", true);
      break;
    case Do::agitate:
      if (stage.agitation == Agitation::stir_plate && !brings_a_stir_bar(plan, step.stage))
        touch("stir bar", true);
      break;
    default:
      break;
  }
  return found;
}

/// Wort boiled in one vessel and grown in another meets the second, even when no step says so.
void add_silent_move(const Plan& plan, const Process& process, std::vector<Touch>& touches) {
  for (int stage = 0; stage < static_cast<int>(plan.stages.size()); ++stage) {
    const std::string& grown_in = plan.stages[at(stage)].vessel;
    const auto boil = first_step(plan, Do::boil, stage);
    const auto pitch = first_step(plan, Do::pitch, stage);
    if (!boil || !pitch || boiled_in(plan, process, *boil) == grown_in) continue;
    const bool told = std::any_of(touches.begin(), touches.end(), [&](const Touch& touch) {
      return plan.steps[at(touch.step)].stage == stage && touch.item == grown_in;
    });
    if (!told)
      touches.push_back({grown_in, *pitch, false, std::nullopt, std::nullopt, std::nullopt});
  }
}

void find_touches(const Plan& plan, Process& process) {
  process.order = topological(plan, process.dependencies);
  std::vector<Touch> touches;
  for (int i = 0; i < count_of(plan); ++i)
    for (Touch& touch : touches_of(plan, i)) touches.push_back(std::move(touch));
  add_silent_move(plan, process, touches);
  const std::vector<Cleaning> cleaned = cleanings(plan, process);

  // Where the plan leaves a cleaning and a use side by side, the cleaning is meant to come first.
  for (const Touch& touch : touches)
    for (const Cleaning& cleaning : cleaned)
      if (same_item(cleaning.item, touch.item)) tie(plan, process, cleaning.step, touch.step);

  process.order = topological(plan, process.dependencies);
  std::vector<int> place(plan.steps.size(), 0);
  for (std::size_t k = 0; k < process.order.size(); ++k)
    place[at(process.order[k])] = static_cast<int>(k);
  sort_short(touches,
             [&](const Touch& a, const Touch& b) { return place[at(a.step)] < place[at(b.step)]; });
  for (Touch& touch : touches) {
    if (!wort_is_boiled(plan, process, touch.step)) continue;
    for (const Cleaning& cleaning : cleaned) {
      if (!same_item(cleaning.item, touch.item)) continue;
      auto& slot =
          process.precedes(cleaning.step, touch.step) ? touch.cleaned_by : touch.cleaned_late;
      const bool by = &slot == &touch.cleaned_by;
      if (!slot || (by ? place[at(cleaning.step)] > place[at(*slot)]
                       : place[at(cleaning.step)] < place[at(*slot)]))
        slot = cleaning.step;
    }
    for (const Touch& earlier : process.touches)
      if (same_item(earlier.item, touch.item) &&
          plan.steps[at(earlier.step)].stage == plan.steps[at(touch.step)].stage)
        touch.last_touch = earlier.step;
    process.touches.push_back(touch);
  }
}

std::vector<std::string> bare_words(std::string_view name) {
  std::vector<std::string> words;
  std::string word;
  for (char c : lower_ascii(name) + " ") {
    if (c != ' ' && c != '\t' && c != '\n' && c != '\r') {
      word += c;
      continue;
    }
    if (!word.empty() && word != "the" && word != "a" && word != "an") words.push_back(word);
    word.clear();
  }
  return words;
}

}  // namespace

std::vector<int> steps_of(const Plan& plan, Do what, int stage) {
  std::vector<int> found;
  for (int i = 0; i < count_of(plan); ++i)
    if (plan.steps[at(i)].does == what && plan.steps[at(i)].stage == stage) found.push_back(i);
  return found;
}

std::optional<int> first_step(const Plan& plan, Do what, int stage) {
  const auto all = steps_of(plan, what, stage);
  return all.empty() ? std::nullopt : std::optional(all.front());
}

std::optional<int> last_step(const Plan& plan, Do what, int stage) {
  const auto all = steps_of(plan, what, stage);
  return all.empty() ? std::nullopt : std::optional(all.back());
}

bool same_item(std::string_view a, std::string_view b) {
  const auto left = bare_words(a);
  const auto right = bare_words(b);
  if (left.empty() || right.empty()) return left == right;
  const auto& longer = left.size() >= right.size() ? left : right;
  const auto& shorter = left.size() >= right.size() ? right : left;
  return std::equal(shorter.rbegin(), shorter.rend(), longer.rbegin());
}

std::string vessel_at(const Plan& plan, const Process& process, int step) {
  const int stage = plan.steps[at(step)].stage;
  std::string in = plan.stages[at(stage)].vessel;
  // The last step before this one that says where the wort is.
  for (int i : process.order) {
    if (i == step) break;
    const Step& s = plan.steps[at(i)];
    if (s.stage != stage || !s.does) continue;
    if (s.does == Do::move && s.into && plan.vessels.count(*s.into)) {
      in = *s.into;
    } else if ((s.does == Do::dissolve || s.does == Do::heat || s.does == Do::boil) && s.in) {
      in = *s.in;
    }
  }
  return in;
}

std::string boiled_in(const Plan& plan, const Process& process, int step) {
  const auto& in = plan.steps[at(step)].in;
  return in ? *in : vessel_at(plan, process, step);
}

std::optional<int> growth_step(const Plan& plan, const Process& process, int stage) {
  if (const auto agitate = first_step(plan, Do::agitate, stage)) return agitate;
  const auto pitch = first_step(plan, Do::pitch, stage);
  for (int rest : steps_of(plan, Do::rest, stage))
    if (pitch && process.precedes(*pitch, rest)) return rest;
  return std::nullopt;
}

std::string step_label(const Plan& plan, int step) {
  return "step " + std::to_string(step + 1) + ", " + plan.steps[at(step)].verb;
}

std::vector<Reversal> reversals(const Plan& plan, const Process& process, Do first, Do then,
                                std::optional<Do> until, const std::vector<std::string>& items) {
  auto named = [&](int step) {
    if (items.empty()) return true;
    const Step& s = plan.steps[at(step)];
    for (const std::string& wanted : items)
      for (const auto* list : {&s.items, &s.with})
        for (const std::string& item : *list)
          if (same_item(item, wanted)) return true;
    return false;
  };
  std::vector<Reversal> found;
  for (int stage = 0; stage < static_cast<int>(plan.stages.size()); ++stage) {
    const auto thens = steps_of(plan, then, stage);
    std::vector<int> firsts;
    for (int step : steps_of(plan, first, stage))
      if (named(step)) firsts.push_back(step);
    if (until) {
      const auto untils = steps_of(plan, *until, stage);
      for (int f : firsts) {
        const bool over = std::any_of(untils.begin(), untils.end(),
                                      [&](int u) { return process.precedes(u, f); });
        for (int t : thens)
          if (!over && !process.precedes(f, t) &&
              (process.precedes(t, f) || laid_together(process, f, t)))
            found.push_back({f, t});
      }
      continue;
    }
    for (int t : thens) {
      const bool kept =
          std::any_of(firsts.begin(), firsts.end(), [&](int f) { return process.precedes(f, t); });
      if (kept) continue;
      for (int f : firsts) {
        if (!process.precedes(t, f)) continue;
        found.push_back({f, t});
        break;
      }
    }
  }
  return found;
}

Process unfold(const Plan& plan) {
  Process process;
  for (int i = 0; i < count_of(plan); ++i)
    if (!plan.steps[at(i)].does)
      process.unknown.push_back(
          {i, "do", plan.steps[at(i)].verb, nearest_verb(plan.steps[at(i)].verb)});
  find_containers(plan, process);
  process.dependencies = written_dependencies(plan, process);
  break_loops(plan, process, process.dependencies);
  close_over(plan, process);
  add_trade_dependencies(plan, process);
  find_missing(plan, process);
  find_touches(plan, process);
  return process;
}

}  // namespace starter
