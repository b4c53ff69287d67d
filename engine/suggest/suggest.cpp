#include "suggest/suggest.h"

#include <algorithm>
#include <cmath>
#include <memory>
#include <utility>

#include "plan/json.h"
#include "plan/pointer.h"
#include "quantity/write.h"
#include "rules/acceptance.h"
#include "suggest/search.h"
#include "suggest/sizing.h"

namespace starter {
namespace {

using nlohmann::ordered_json;

FindingAt told_of(const Verdict& v) {
  return {v.rule, v.severity, v.where};
}

/// Ways of another kind than that of the change, for what it clears; the first two. Of one kind, as
/// of two numbers for the same thing, one is told: the first that nothing stands against.
std::vector<std::string> others(const Plan& before, const Change& change, const std::string& kind,
                                std::span<const Rule> rules, UnitSystem units) {
  std::vector<std::string> found;
  if (change.asks == Asks::nothing) return found;
  for (const Mendable& m : all_ways(before, rules, units, [&](const Verdict& v) {
         return std::any_of(change.clears.begin(), change.clears.end(), [&](const FindingAt& t) {
           return t.rule == v.rule && t.where == v.where;
         });
       })) {
    std::vector<const Way*> kinds;
    for (const Way& way : m.ways) {
      if (way.patch == change.patch || way.says == change.says) continue;
      if (!kind.empty() && way.kind == kind) continue;
      const auto had = std::find_if(kinds.begin(), kinds.end(), [&](const Way* other) {
        return !way.kind.empty() && other->kind == way.kind;
      });
      if (had == kinds.end())
        kinds.push_back(&way);
      else if (way.objection.empty() && !(*had)->objection.empty())
        *had = &way;
    }
    for (const Way* way : kinds) {
      const std::string says =
          way->says + (way->objection.empty() ? "" : " – but then " + way->objection);
      if (found.size() < 2 && std::find(found.begin(), found.end(), says) == found.end())
        found.push_back(says);
    }
    if (!found.empty()) break;
  }
  return found;
}

/// Whether the rule still speaks there, but as a note.
bool stays_a_note(const Verdict& v, const std::vector<Finding>& findings) {
  return std::any_of(findings.begin(), findings.end(), [&](const Finding& f) {
    return f.rule == v.rule && f.stage == v.stage && f.severity == Severity::note;
  });
}

/// Whether the rule speaks there in every one of `history` from `first`.
bool all_have(const Verdict& v, const std::vector<std::vector<Verdict>>& history,
              std::size_t first) {
  return std::all_of(history.begin() + static_cast<std::ptrdiff_t>(first), history.end(),
                     [&](const std::vector<Verdict>& verdicts) {
                       return std::any_of(verdicts.begin(), verdicts.end(),
                                          [&](const Verdict& told) {
                                            return told.rule == v.rule && told.stage == v.stage;
                                          });
                     });
}

/// Retells every change of a draft, each on the plan that the one before left.
void tell_changes(const Draft& original, const std::vector<Made>& made, std::span<const Rule> rules,
                  UnitSystem units, Suggestion& s) {
  ordered_json document = try_parse_json(*original.plan.source);
  StepIds ids = original.ids;
  Plan plan = original.plan;
  std::vector<Verdict> verdicts = original.verdicts;
  std::vector<std::vector<Verdict>> history = {verdicts};  ///< as it was, and after each change
  s.patch = ordered_json::array();
  for (const Made& one : made) {
    Change change;
    change.asks = one.asks;
    change.fills = one.fills;
    change.before = plan;
    for (std::size_t i = 0; i < plan.steps.size(); ++i) {
      const auto was = i < ids.size() ? original.ids.index_of(ids.at(i)) : std::nullopt;
      change.step_was.push_back(was ? static_cast<int>(*was) : -1);
    }
    change.says = one.retell ? one.retell(plan) : one.says;
    change.patch = rejoin(one.ops, document, ids).value_or(ordered_json::array());
    for (const ordered_json& op : change.patch) s.patch.push_back(op);
    auto next = plan_of_document(document, original.plan.defaults());
    if (!next) continue;  // part of a pair that only together is a plan
    auto now = verdicts_above_note(*next, rules, ids, original.standing);
    for (const Verdict& v : said_newly(verdicts, now)) {
      Cleared cleared{told_of(v)};
      cleared.to_a_note = stays_a_note(v, s.after.findings);
      while (cleared.since < static_cast<int>(history.size()) &&
             !all_have(v, history, static_cast<std::size_t>(cleared.since)))
        ++cleared.since;
      change.clears.push_back(std::move(cleared));
    }
    change.on_the_way = change.clears.empty() && !change.fills;
    change.instead = others(plan, change, one.kind, rules, units);
    s.changes.push_back(std::move(change));
    history.push_back(now);
    plan = std::move(*next);
    verdicts = std::move(now);
  }
  s.document = std::move(document);
}

/// What helps against a finding beyond a change of the plan, as its fix tells it; empty where none.
std::string beyond_the_plan(const Suggestion& s, const Finding& f, std::span<const Rule> rules,
                            UnitSystem units) {
  JudgeOptions how;
  how.units = units;
  const Judgement told = judge(s.after.plan, rules, how);
  for (const Finding& other : told.findings)
    if (other.rule == f.rule && other.where == f.where && other.fix) return other.fix->says;
  return "";
}

std::string reason(const Plan& plan, const Mendable& m, UnitSystem units) {
  const auto yours =
      std::find_if(m.ways.begin(), m.ways.end(), [](const Way& way) { return way.yours; });
  if (yours != m.ways.end())
    return "only you can do that: " + yours->says +
           (yours->then.empty() ? "" : ", and " + yours->then);
  const auto way_that_may_be = std::find_if(m.ways.begin(), m.ways.end(), [&](const Way& way) {
    const auto changed = patched_plan(plan, way.patch);
    return !changed || !buys_too_big(plan, *changed);
  });
  if (way_that_may_be == m.ways.end())
    return "it would take a vessel of more than " + write(Volume::litres(largest_flask), units) +
           ": too big for one starter. More packs, a fresher pack, or less beer";
  const Way& way = *way_that_may_be;
  if (way.objection.empty()) return "what would mend it would undo another change";
  return "one could " + way.says + ", but then " + way.objection;
}

void tell_left(Suggestion& s, std::span<const Rule> rules, UnitSystem units) {
  const auto ways = all_ways(s.after.plan, rules, units, [](const Verdict&) { return true; });
  for (const Finding& f : s.after.findings) {
    if (f.severity < Severity::weakens) continue;
    if (!f.counts()) {
      s.stands.push_back({{f.rule, f.severity, f.where}, f.says, *f.accepted});
      continue;
    }
    Left left;
    left.told = {f.rule, f.severity, f.where};
    left.says = f.says;
    left.advice = f.rule->advice;
    const auto found = std::find_if(ways.begin(), ways.end(), [&](const Mendable& m) {
      return m.verdict.rule == f.rule && m.verdict.where == f.where;
    });
    if (found != ways.end() && !found->ways.empty()) {
      left.why_not = reason(s.after.plan, *found, units);
    } else {
      left.why_not = "nothing that stands in the plan would mend it";
      if (const std::string other = beyond_the_plan(s, f, rules, units); !other.empty())
        left.why_not += ". " + other;
    }
    if (!s.finished) left.why_not = "the search ended before it was reached";
    s.left.push_back(std::move(left));
  }
}

/// What the plan does not say, and nothing but the member can.
void tell_decisions(Suggestion& s) {
  const Plan& plan = s.after.plan;
  if (!plan.beer.brew_day)
    s.decisions.push_back({"/beer/brew_day",
                           "No brew day is stated, so nothing here says whether the yeast is ready "
                           "in time.",
                           "\"brew_day\": \"2027-03-20T09:00\""});
  if (plan.yeast.form != YeastForm::dry && !plan.yeast.packaged && !plan.yeast.viability)
    s.decisions.push_back({"/yeast/packaged",
                           "How old the yeast is is not stated; one month was taken. An older pack "
                           "brings fewer living cells, and may need another size.",
                           "\"packaged\": \"2027-02-20\""});
  for (const Finding& f : s.after.findings)
    if (f.severity >= Severity::weakens && f.counts() && f.certainty == Certainty::likely &&
        !f.narrow.empty())
      s.decisions.push_back(
          {f.where, "“" + f.rule->title + "” is likely, not certain. To know, " + f.narrow + ".",
           ""});
}

/// The draft with a change that writes down what is open, or as it was where there is none.
Draft filled(Draft draft, const std::optional<Way>& way, std::span<const Rule> rules) {
  if (way)
    if (auto next = with_change(draft, *way, rules, true)) return std::move(*next);
  return draft;
}

/// Fills in what a short plan leaves open and mends the rest.
Search fill_and_mend(const Draft& original, Draft start, std::span<const Rule> rules,
                     const SuggestOptions& options) {
  const auto steps = written_steps(start.plan);
  Search found = search(original, filled(std::move(start), steps, rules), rules, options.units,
                        options.most_tries);
  found.draft = boiled_in_pots(original, std::move(found.draft), rules, options.units);
  // When to begin is known once it is known how long all of it takes.
  if (const auto evening = evening_start(found.draft.plan)) {
    const bool finished = found.finished;
    found = search(original, filled(std::move(found.draft), evening, rules), rules, options.units,
                   options.most_tries);
    found.finished &= finished;
  }
  return found;
}

/// A plan that lacks its stages, and what sizing makes of it.
struct Start {
  Draft original;
  Draft draft;
};

std::optional<Start> sized_start(std::string_view bytes, std::span<const Rule> rules,
                                 const SuggestOptions& options) {
  const ordered_json document = try_parse_json(bytes);
  if (document.is_discarded() || !lacks_only_stages(document, options.defaults))
    return std::nullopt;
  auto sized = size_stages(document, rules, options.units, options.defaults);
  if (!sized) return std::nullopt;
  Draft original = draft_of(std::move(sized->plan), rules);
  original.plan.source = std::make_shared<const std::string>(bytes);
  original.verdicts.clear();  // nothing can be said of what is no plan
  Way way;
  way.says = sized->says;
  way.patch = sized->patch;
  way.asks = sized->asks;
  auto draft = with_change(original, way, rules, true);
  if (!draft) return std::nullopt;
  return Start{std::move(original), std::move(*draft)};
}

/// What mends a readable plan.
Search mended(const Draft& original, std::span<const Rule> rules, const SuggestOptions& options) {
  Search found = fill_and_mend(original, original, rules, options);
  // Filling in may show what the short plan hid; then it is mended as it stands.
  if (!no_worse(found.draft.verdicts, original.verdicts))
    found = search(original, original, rules, options.units, options.most_tries);
  return found;
}

Judgement judged(Plan plan, std::span<const Rule> rules, const SuggestOptions& options) {
  JudgeOptions how;
  how.units = options.units;
  how.fixes = false;
  Judgement j = judge(std::move(plan), rules, how);
  apply_acceptances(j, options.accepted);
  return j;
}

bool is_reopened(const Finding& f) {
  return f.reopened && f.severity >= Severity::weakens;
}

}  // namespace

std::optional<Suggestion> suggest(std::string_view bytes, std::span<const Rule> rules,
                                  const SuggestOptions& options) {
  Suggestion s;
  PlanResult read = read_plan(bytes, options.defaults);
  std::optional<Start> start;
  Search found;
  if (auto* plan = std::get_if<Plan>(&read)) {
    s.before = judged(*plan, rules, options);
    Draft draft = draft_of(*plan, rules, standing_of(s.before->findings, ids_of(*plan)));
    start = Start{draft, draft};
    found = mended(start->original, rules, options);
    s.after = judged(found.draft.plan, rules, options);
    // A word that no longer holds, as a change altered what was looked at, keeps nothing unmended.
    auto& standing = start->original.standing;
    const auto no_longer =
        std::remove_if(standing.begin(), standing.end(), [&](const StandingFinding& w) {
          return std::any_of(s.after.findings.begin(), s.after.findings.end(),
                             [&](const Finding& f) { return is_reopened(f) && f.rule == w.rule; });
        });
    if (no_longer != standing.end()) {
      standing.erase(no_longer, standing.end());
      start->original = draft_of(*plan, rules, standing);
      found = mended(start->original, rules, options);
      s.after = judged(found.draft.plan, rules, options);
    }
  } else {
    // Anything else that is wrong with the bytes keeps them from being looked at further.
    const auto& errors = std::get<std::vector<PlanError>>(read);
    if (std::any_of(errors.begin(), errors.end(),
                    [](const PlanError& e) { return e.where != "/stages"; }))
      return std::nullopt;
    start = sized_start(bytes, rules, options);
    if (!start) return std::nullopt;
    found = fill_and_mend(start->original, start->draft, rules, options);
    s.after = judged(found.draft.plan, rules, options);
  }
  s.finished = found.finished;
  s.first = dry_needs_no_starter(s.after.plan);
  tell_changes(start->original, found.draft.made, rules, options.units, s);
  tell_left(s, rules, options.units);
  tell_decisions(s);
  return s;
}

std::string too_big_for_one_starter(std::string_view bytes, std::span<const Rule> rules,
                                    const Defaults& defaults, UnitSystem units, bool with_packs) {
  const ordered_json document = try_parse_json(bytes);
  if (document.is_discarded() || !lacks_only_stages(document, defaults) ||
      size_stages(document, rules, units, defaults))
    return "";
  const auto packs = with_packs ? packs_for_one_starter(document, rules, defaults) : std::nullopt;
  return "the cells that this beer wants are too many for one starter in vessels of up to " +
         write(Volume::litres(largest_flask), units) +
         " or your own: it takes more packs, a fresher pack, or less beer" +
         (packs ? ". " + write_number(*packs) + " packs would do" : "");
}

std::string dry_needs_no_starter(const Plan& plan) {
  const Process process = unfold(plan);
  const Workings w = work_out(plan, process, Draw{});
  const auto facts = facts_of({plan, process, w});
  const Fact* dry = find_fact(facts, "dry_grown", -1);
  if (dry == nullptr || dry->value != "dry in date") return "";
  std::string says = dry->sure ? "Your yeast is dry and in date, so it needs no starter"
                               : "Your yeast is dry, and while it is in date it needs no starter";
  says += ": rehydrate or sprinkle it as its label says.";
  const double one = w.cells_available.billion() / plan.yeast.packs;
  if (one > 0 && w.beer_needs > CellCount()) {
    const int packs = static_cast<int>(std::ceil(w.beer_needs.billion() / one - 1e-9));
    says += packs == 1 ? " By its number, 1 pack has the cells that this beer wants."
                       : " By its number, " + write_number(packs) +
                             " packs have the cells that this beer wants.";
  }
  return says + " If you want a starter all the same, to learn how or to keep yeast, read on.";
}

std::string dry_needs_no_starter(std::string_view bytes, const Defaults& defaults) {
  const PlanResult read = read_plan(bytes, defaults);
  if (const auto* plan = std::get_if<Plan>(&read)) return dry_needs_no_starter(*plan);
  const ordered_json document = try_parse_json(bytes);
  if (document.is_discarded() || !lacks_only_stages(document, defaults)) return "";
  const auto plan = with_any_stage(document, defaults);
  return plan ? dry_needs_no_starter(*plan) : "";
}

}  // namespace starter
