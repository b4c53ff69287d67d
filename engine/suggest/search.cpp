#include "suggest/search.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cstdint>
#include <string_view>
#include <tuple>

#include "plan/json.h"
#include "quantity/write.h"
#include "suggest/remedies.h"
#include "suggest/sizing.h"

namespace starter {
namespace {

using nlohmann::ordered_json;

constexpr int tries_a_finding = 10;  ///< what working out its ways costs, in tries
constexpr int most_alike = 3;        ///< changes followed that leave the same to be mended
constexpr int most_steps_ahead = 3;  ///< changes made together
constexpr std::array<std::size_t, 3> looked_at = {8, 4, 3};  ///< drafts followed, by depth

std::ptrdiff_t at_or_above(const std::vector<Verdict>& verdicts, Severity least) {
  return std::count_if(verdicts.begin(), verdicts.end(),
                       [=](const Verdict& v) { return v.severity >= least; });
}

/// The sum of what stands, a worse thing weighing as much as three of the next milder.
int weight(const std::vector<Verdict>& verdicts) {
  int sum = 0;
  for (const Verdict& v : verdicts)
    sum += v.severity == Severity::danger ? 9 : v.severity == Severity::spoils ? 3 : 1;
  return sum;
}

bool same_finding(const Verdict& a, const Verdict& b) {
  return a.rule == b.rule && a.stage == b.stage;
}

bool same_verdicts(const std::vector<Verdict>& a, const std::vector<Verdict>& b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](const Verdict& x, const Verdict& y) {
    return same_finding(x, y) && x.severity == y.severity;
  });
}

/// Whether `v` was only silent before because a rule that it yields to spoke.
bool uncovered(const Verdict& v, const std::vector<Verdict>& before) {
  return std::any_of(before.begin(), before.end(), [&](const Verdict& other) {
    const auto& behind = v.rule->yields_to;
    return std::find(behind.begin(), behind.end(), other.rule->id) != behind.end() &&
           other.severity >= v.severity;
  });
}

/// Whether there are no more findings at or above any severity.
bool no_more(const std::vector<Verdict>& now, const std::vector<Verdict>& before) {
  for (const Severity least : {Severity::weakens, Severity::spoils, Severity::danger})
    if (at_or_above(now, least) > at_or_above(before, least)) return false;
  return true;
}

/// Who the step of a JSON pointer is; nothing when it points elsewhere.
std::optional<int> id_at(const std::string& where, const StepIds& ids) {
  constexpr std::string_view steps = "/steps/";
  if (where.rfind(steps, 0) != 0) return std::nullopt;
  std::size_t index = 0;
  const char* const end = where.data() + where.size();
  const auto read = std::from_chars(where.data() + steps.size(), end, index);
  if (read.ec != std::errc() || (read.ptr != end && *read.ptr != '/') || index >= ids.size())
    return std::nullopt;
  return ids.at(index);
}

/// Before each way that moves the start by hours, one that moves it by whole days: the hour is the
/// member's own.
void whole_days_first(const Plan& plan, std::vector<Way>& ways) {
  if (!plan.start) return;
  constexpr std::int64_t day = 24 * 60;
  for (std::size_t i = 0; i < ways.size(); ++i) {
    const ordered_json& patch = ways[i].patch;
    if (patch.size() != 1 || patch[0].at("path") != "/start") continue;
    const auto moved = patched_plan(plan, patch);
    if (!moved || !moved->start) continue;
    const std::int64_t by = moved->start->minutes() - plan.start->minutes();
    if (by % day == 0) continue;
    const std::int64_t days = by / day + (by < 0 ? -1 : 1);
    const LocalTime start = LocalTime::from_minutes(plan.start->minutes() + days * day);
    Way way;
    way.asks = ways[i].asks;
    way.kind = ways[i].kind;
    way.says = "start at the same hour, but on " + spoken(start);
    way.patch = patch;
    way.patch[0]["value"] = iso(start);
    ways.insert(ways.begin() + static_cast<std::ptrdiff_t>(i), std::move(way));
    ++i;
  }
}

/// The vessel that a patch puts the boil in.
std::string pot_named_in(const ordered_json& patch) {
  for (const ordered_json& op : patch) {
    const std::string path = op.at("path").get<std::string>();
    constexpr std::string_view in = "/in";
    if (path.size() > in.size() && path.compare(path.size() - in.size(), in.size(), in) == 0 &&
        op.contains("value") && op.at("value").is_string())
      return op.at("value").get<std::string>();
  }
  return "pot";
}

struct Candidate {
  Draft draft;
  Asks asks = Asks::nothing;
  std::size_t ops = 0;
  int weighs = 0;
};

class Searcher {
 public:
  Searcher(const Draft& original, std::span<const Rule> rules, UnitSystem units, int most_tries)
      : original_(original), rules_(rules), units_(units), tries_(most_tries) {}

  Search mend(Draft draft) {
    while (tries_ > 0 && !draft.verdicts.empty()) {
      auto next = better(draft);
      if (!next) break;
      draft = std::move(*next);
    }
    const bool finished = tries_ > 0;
    return {thin_out(std::move(draft)), finished};
  }

 private:
  bool improves(const std::vector<Verdict>& now, const std::vector<Verdict>& before) const {
    return weight(now) < weight(before) && no_worse(now, before);
  }

  std::vector<Candidate> candidates(const Draft& draft,
                                    const std::function<bool(const Verdict&)>& wanted) {
    std::vector<Candidate> found;
    std::vector<ordered_json> seen;
    for (const Mendable& m : all_ways(draft.plan, rules_, units_, wanted)) {
      tries_ -= tries_a_finding;
      for (const Way& way : m.ways) {
        if (tries_ <= 0) return found;
        if (way.patch.empty()) continue;  // the member's own
        if (std::find(seen.begin(), seen.end(), way.patch) != seen.end()) continue;
        seen.push_back(way.patch);
        --tries_;
        auto made = with_change(draft, way, rules_);
        if (!made) continue;
        const int weighs = weight(made->verdicts);
        found.push_back({std::move(*made), way.asks, way.patch.size(), weighs});
      }
    }
    return found;
  }

  /// The best that improves on `draft`, by one change or, where none does, by several together.
  std::optional<Draft> better(const Draft& draft) {
    auto found = candidates(draft, [&](const Verdict& v) {
      return std::any_of(draft.verdicts.begin(), draft.verdicts.end(), [&](const Verdict& told) {
        return same_finding(told, v) && told.where == v.where;
      });
    });
    Candidate* best = nullptr;
    const auto worth = [](const Candidate& c) { return std::tuple(c.asks, c.weighs, c.ops); };
    for (Candidate& c : found)
      if (improves(c.draft.verdicts, draft.verdicts) && (!best || worth(c) < worth(*best)))
        best = &c;
    if (best) return std::move(best->draft);
    const std::optional<Draft> safer = less_dangerous(found, draft);
    if (auto several = ahead(std::move(found), draft, 1)) return several;
    return safer;
  }

  /// A danger is never kept for the sake of something milder: of the changes that leave fewer
  /// dangers, and no more findings at or above any severity, the one that leaves least.
  static std::optional<Draft> less_dangerous(const std::vector<Candidate>& found,
                                             const Draft& draft) {
    const Candidate* best = nullptr;
    for (const Candidate& c : found)
      if (at_or_above(c.draft.verdicts, Severity::danger) <
              at_or_above(draft.verdicts, Severity::danger) &&
          no_more(c.draft.verdicts, draft.verdicts) && (!best || c.weighs < best->weighs))
        best = &c;
    return best ? std::optional(best->draft) : std::nullopt;
  }

  /// Follows what the most promising changes cause, and mends that too.
  std::optional<Draft> ahead(std::vector<Candidate> found, const Draft& base, int depth) {
    if (depth >= most_steps_ahead) return std::nullopt;
    std::stable_sort(found.begin(), found.end(), [](const Candidate& a, const Candidate& b) {
      return std::tuple(a.weighs, a.asks, a.ops) < std::tuple(b.weighs, b.asks, b.ops);
    });
    std::size_t followed = 0;
    std::vector<const Draft*> seen;
    for (const Candidate& candidate : found) {
      const Draft& draft = candidate.draft;
      // Of those that leave the same to be mended a few are as good as all.
      const auto alike = std::count_if(seen.begin(), seen.end(), [&](const Draft* had) {
        return same_verdicts(had->verdicts, draft.verdicts);
      });
      if (alike >= (depth == 1 ? most_alike : 1)) continue;
      seen.push_back(&draft);
      if (alike == 0 && followed++ == looked_at[static_cast<std::size_t>(depth) - 1]) break;
      const auto caused = said_newly(draft.verdicts, base.verdicts);
      auto next = candidates(draft, [&](const Verdict& v) {
        return std::any_of(caused.begin(), caused.end(),
                           [&](const Verdict& c) { return same_finding(c, v); });
      });
      Candidate* best = nullptr;
      const auto worth = [](const Candidate& c) { return std::tuple(c.weighs, c.asks, c.ops); };
      for (Candidate& c : next)
        if (improves(c.draft.verdicts, base.verdicts) && (!best || worth(c) < worth(*best)))
          best = &c;
      if (best) return std::move(best->draft);
      if (auto deeper = ahead(std::move(next), base, depth + 1)) return deeper;
    }
    return std::nullopt;
  }

  /// Leaves out every change that nothing comes back without, those that ask most first.
  Draft thin_out(Draft draft) {
    for (bool again = true; again;) {
      again = false;
      std::vector<std::size_t> order;
      for (std::size_t i = draft.made.size(); i-- > 0;)
        if (!draft.made[i].fills) order.push_back(i);
      std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return draft.made[a].asks > draft.made[b].asks;
      });
      for (const std::size_t i : order) {
        std::vector<Made> fewer = draft.made;
        fewer.erase(fewer.begin() + static_cast<std::ptrdiff_t>(i));
        auto without = replay(original_, fewer, rules_);
        if (!without || weight(without->verdicts) > weight(draft.verdicts) ||
            !no_worse(without->verdicts, draft.verdicts))
          continue;
        draft = std::move(*without);
        again = true;
        break;
      }
    }
    return draft;
  }

  const Draft& original_;
  std::span<const Rule> rules_;
  UnitSystem units_;
  int tries_;
};

}  // namespace

std::vector<StandingFinding> standing_of(const std::vector<Finding>& findings, const StepIds& ids) {
  std::vector<StandingFinding> standing;
  for (const Finding& f : findings)
    if (!f.counts()) standing.push_back({f.rule, f.severity, f.stage, id_at(f.where, ids)});
  return standing;
}

std::vector<Verdict> verdicts_above_note(const Plan& plan, std::span<const Rule> rules,
                                         const StepIds& ids,
                                         const std::vector<StandingFinding>& standing) {
  std::vector<StandingFinding> left = standing;  // each answers for one
  std::vector<Verdict> verdicts;
  for (const Verdict& v : quick_verdicts(plan, rules)) {
    if (v.severity < Severity::weakens) continue;
    const auto step = id_at(v.where, ids);
    const auto stands = std::find_if(left.begin(), left.end(), [&](const StandingFinding& s) {
      return s.rule == v.rule && s.severity >= v.severity && v.severity < Severity::danger &&
             s.stage == v.stage && (!s.step || s.step == step);
    });
    if (stands == left.end())
      verdicts.push_back(v);
    else
      left.erase(stands);
  }
  return verdicts;
}

StepIds ids_of(const Plan& plan) {
  return StepIds(plan.wrote("/steps/0") ? plan.steps.size() : 0);
}

Draft draft_of(Plan plan, std::span<const Rule> rules, std::vector<StandingFinding> standing) {
  StepIds ids = ids_of(plan);
  auto verdicts = verdicts_above_note(plan, rules, ids, standing);
  return {std::move(plan), std::move(ids), std::move(standing), std::move(verdicts), {}};
}

bool buys_too_big(const Plan& before, const Plan& now) {
  const Volume most = Volume::litres(largest_flask);
  return std::any_of(now.vessels.begin(), now.vessels.end(), [&](const auto& named) {
    const auto& [name, vessel] = named;
    if (!may_grow(vessel) || vessel.capacity <= most) return false;
    const auto had = before.vessels.find(name);
    return had == before.vessels.end() || had->second.capacity < vessel.capacity;
  });
}

bool drains_bath(const Plan& before, const Plan& now) {
  return std::any_of(now.steps.begin(), now.steps.end(), [&](const Step& step) {
    if (step.does != Do::chill || !step.bath) return false;
    const Volume wort = now.stages[static_cast<std::size_t>(step.stage)].water;
    if (*step.bath >= std::max(wort, Volume::litres(2))) return false;
    return std::none_of(before.steps.begin(), before.steps.end(), [&](const Step& had) {
      return had.stage == step.stage && had.bath && *had.bath <= *step.bath;
    });
  });
}

std::optional<Draft> with_change(const Draft& draft, const Way& way, std::span<const Rule> rules,
                                 bool fills) {
  auto plan = patched_plan(draft.plan, way.patch);
  if (!plan || buys_too_big(draft.plan, *plan) || drains_bath(draft.plan, *plan))
    return std::nullopt;
  StepIds ids = draft.ids;
  auto ops = stable(way.patch, ids);
  if (!ops) return std::nullopt;
  std::vector<Made> made = draft.made;
  made.push_back({std::move(*ops), way.says, way.kind, way.retell, way.asks, fills});
  auto verdicts = verdicts_above_note(*plan, rules, ids, draft.standing);
  return Draft{std::move(*plan), std::move(ids), draft.standing, std::move(verdicts),
               std::move(made)};
}

Draft boiled_in_pots(const Draft& original, Draft draft, std::span<const Rule> rules,
                     UnitSystem units) {
  constexpr int most_tries = 300;  // to mend what a pot brings with it
  const auto written_here = [&](const Verdict& v) {
    const auto step = id_at(v.where, draft.ids);
    return v.rule->id == "boil-vessel" && step && !original.ids.index_of(*step);
  };
  const auto in_pot = [&](Way way) -> std::optional<Draft> {
    if (way.patch.empty() || brings_a_vessel(way.patch)) return std::nullopt;
    way.says = "boil in your “" + pot_named_in(way.patch) +
               "”, with water for what it loses, and pour into the glass when cool";
    auto made = with_change(draft, way, rules, true);
    if (made && !no_worse(made->verdicts, draft.verdicts))
      made = search(original, std::move(*made), rules, units, most_tries).draft;
    return made && no_worse(made->verdicts, draft.verdicts) ? made : std::nullopt;
  };
  for (bool again = true; again;) {
    again = false;
    for (const Mendable& m : mendables(draft.plan, rules, units, written_here, Severity::note))
      for (const Way& way : m.ways) {
        if (again) break;  // steps may have moved
        if (auto better = in_pot(way)) {
          draft = std::move(*better);
          again = true;
        }
      }
  }
  return draft;
}

std::optional<Draft> replay(const Draft& original, const std::vector<Made>& changes,
                            std::span<const Rule> rules) {
  ordered_json document = try_parse_json(*original.plan.source);
  StepIds ids = original.ids;
  for (const Made& change : changes)
    if (!rejoin(change.ops, document, ids)) return std::nullopt;
  auto plan = plan_of_document(document, original.plan.defaults());
  if (!plan) return std::nullopt;
  auto verdicts = verdicts_above_note(*plan, rules, ids, original.standing);
  return Draft{std::move(*plan), std::move(ids), original.standing, std::move(verdicts), changes};
}

std::vector<Verdict> said_newly(const std::vector<Verdict>& now,
                                const std::vector<Verdict>& before) {
  std::vector<Verdict> left = before, newly;
  for (const Verdict& v : now) {
    const auto had = std::find_if(left.begin(), left.end(), [&](const Verdict& old) {
      return same_finding(old, v) && old.severity >= v.severity;
    });
    if (had == left.end())
      newly.push_back(v);
    else
      left.erase(had);
  }
  return newly;
}

bool no_worse(const std::vector<Verdict>& now, const std::vector<Verdict>& before) {
  if (!no_more(now, before)) return false;
  const auto newly = said_newly(now, before);
  return std::all_of(newly.begin(), newly.end(),
                     [&](const Verdict& v) { return uncovered(v, before); });
}

Search search(const Draft& original, Draft start, std::span<const Rule> rules, UnitSystem units,
              int most_tries) {
  return Searcher(original, rules, units, most_tries).mend(std::move(start));
}

std::vector<Mendable> all_ways(const Plan& plan, std::span<const Rule> rules, UnitSystem units,
                               const std::function<bool(const Verdict&)>& wanted) {
  std::vector<Mendable> found = mendables(plan, rules, units, wanted);
  for (Mendable& m : found) {
    whole_days_first(plan, m.ways);
    std::vector<Way> more = remedies(plan, rules, m.verdict, units);
    m.ways.insert(m.ways.begin(), std::make_move_iterator(more.begin()),
                  std::make_move_iterator(more.end()));
  }
  return found;
}

}  // namespace starter
