#include "rules/evaluate.h"

#include <algorithm>
#include <cmath>

namespace starter {
namespace {

std::size_t at(int i) {
  return static_cast<std::size_t>(i);
}

bool conditions_hold(const Rule& rule, std::span<const Fact> facts, int stage) {
  for (const auto& [name, values] : rule.when) {
    const Fact* fact = find_fact(facts, name, stage);
    if (!fact || std::find(values.begin(), values.end(), fact->value) == values.end()) return false;
  }
  return true;
}

/// 0 comfortable, ±1 outside comfortable, ±2 outside hard; negative below.
int level(const RuleBounds& bounds, double value) {
  const bool soft = !bounds.comfortable.hold(value);
  const bool hard = !bounds.hard.hold(value);
  if (!soft && !hard) return 0;
  const Bounds& broken = hard ? bounds.hard : bounds.comfortable;
  const int sign = broken.low && value < *broken.low ? -1 : 1;
  return sign * (hard ? 2 : 1);
}

Severity severity_of(const Rule& rule, int level) {
  return std::abs(level) == 2 ? rule.outside_hard : rule.outside_comfortable;
}

/// Severity and certainty from the levels of likely value and both ends; nothing when all hold.
std::optional<std::pair<Severity, Certainty>> weigh(const Rule& rule, int likely, int low,
                                                    int high) {
  if (likely != 0) {
    const bool all =
        low != 0 && high != 0 && (low < 0) == (likely < 0) && (high < 0) == (likely < 0);
    return std::pair(severity_of(rule, likely), all ? Certainty::certain : Certainty::likely);
  }
  if (low == 0 && high == 0) return std::nullopt;
  return std::pair(Severity::note, Certainty::possible);
}

void range(const Rule& rule, const Evidence& e, std::vector<Spoken>& out) {
  for (const Standing& standing : standings({&rule, 1}, e.measures, e.facts)) {
    const Measure& m = *standing.measure;
    const RuleBounds& bounds = standing.bounds;
    const int likely = standing.level;
    const int low = level(bounds, m.low), high = level(bounds, m.high);
    const auto weighed = weigh(rule, likely, low, high);
    if (!weighed) continue;
    const int side = likely != 0 ? likely : std::abs(low) >= std::abs(high) ? low : high;
    Spoken s;
    s.rule = &rule;
    std::tie(s.severity, s.certainty) = *weighed;
    s.where = m.where;
    s.stage = m.stage;
    s.message = side < 0 ? "low" : "high";
    s.measure = &m;
    s.comfortable = bounds.comfortable.any() ? bounds.comfortable : bounds.hard;
    s.hard = bounds.hard;
    if (!rule.by_fact.empty()) s.fact = find_fact(e.facts, rule.by_fact, m.stage);
    out.push_back(std::move(s));
  }
}

void order(const Rule& rule, const Evidence& e, std::vector<Spoken>& out) {
  for (const Reversal& r :
       reversals(e.plan, e.process, rule.first, rule.then, rule.until, rule.items)) {
    const Step& first = e.plan.steps[at(r.first)];
    if (!conditions_hold(rule, e.facts, first.stage)) continue;
    Spoken s;
    s.rule = &rule;
    s.severity = rule.severity;
    s.where = first.path.empty() ? "/steps" : first.path;
    s.stage = first.stage;
    s.step = r.first;
    s.reversal = r;
    out.push_back(std::move(s));
  }
}

bool wanted_item(const Rule& rule, const std::string& item) {
  return rule.items.empty() ||
         std::any_of(rule.items.begin(), rule.items.end(),
                     [&](const std::string& wanted) { return same_item(wanted, item); });
}

void contact(const Rule& rule, const Evidence& e, std::vector<Spoken>& out) {
  for (const Touch& touch : e.process.touches) {
    const Step& step = e.plan.steps[at(touch.step)];
    if (!wanted_item(rule, touch.item) || !conditions_hold(rule, e.facts, step.stage)) continue;
    Spoken s;
    s.rule = &rule;
    s.where = step.path.empty() ? "/steps" : step.path;
    s.stage = step.stage;
    s.step = touch.step;
    s.touch = &touch;
    s.severity = touch.assumed ? Severity::note : rule.severity;
    s.certainty = touch.assumed ? Certainty::possible : Certainty::certain;
    if (touch.cleaned_by) {
      Duration clean = e.times.times[at(*touch.cleaned_by)].end;
      // What has been in the wort since it was clean is as clean as the wort.
      if (touch.last_touch) clean = std::max(clean, e.times.times[at(*touch.last_touch)].end);
      s.idle = e.times.times[at(touch.step)].start - clean;
      if (*s.idle <= stale_after) continue;
      s.message = "stale";
      s.severity = Severity::note;
      s.certainty = Certainty::possible;
    } else if (touch.last_touch) {
      continue;  // told once, where it first meets the wort
    } else {
      s.message = touch.cleaned_late ? "late" : "never";
    }
    out.push_back(std::move(s));
  }
}

void present(const Rule& rule, const Evidence& e, std::vector<Spoken>& out) {
  for (const Fact& fact : e.facts) {
    if (fact.name != rule.fact || !conditions_hold(rule, e.facts, fact.stage)) continue;
    if (std::find(rule.fine.begin(), rule.fine.end(), fact.value) != rule.fine.end()) continue;
    const auto named = rule.others.find(fact.value);
    if (named == rule.others.end() && !rule.otherwise) continue;
    Spoken s;
    s.rule = &rule;
    s.severity = named != rule.others.end() ? named->second : *rule.otherwise;
    s.certainty = fact.sure ? Certainty::certain : Certainty::likely;
    s.where = fact.where;
    s.stage = fact.stage;
    s.step = fact.step;
    s.message = rule.says.count(fact.value) ? fact.value : "otherwise";
    s.fact = &fact;
    out.push_back(std::move(s));
  }
}

void consistent(const Rule& rule, const Evidence& e, std::vector<Spoken>& out) {
  for (const Measure& first : e.measures) {
    if (first.name != rule.measures[0] || !conditions_hold(rule, e.facts, first.stage)) continue;
    const Measure* second = find_measure(e.measures, rule.measures[1], first.stage);
    if (!second) continue;
    auto level_of = [&](double a, double b) {
      const double gap = gap_between(rule, a, b);
      const int sign = gap < 0 ? -1 : 1;
      if (rule.hard_gap && std::fabs(gap) > *rule.hard_gap) return 2 * sign;
      return std::fabs(gap) > rule.comfortable_gap ? sign : 0;
    };
    const int likely = level_of(first.value, second->value);
    if (likely == 0) continue;  // that two numbers might disagree is no news
    const auto weighed =
        weigh(rule, likely, level_of(first.low, second->high), level_of(first.high, second->low));
    Spoken s;
    s.rule = &rule;
    std::tie(s.severity, s.certainty) = *weighed;
    s.where = first.where;
    s.stage = first.stage;
    s.measure = &first;
    s.against = second;
    s.comfortable = {-rule.comfortable_gap, rule.comfortable_gap};
    out.push_back(std::move(s));
  }
}

/// Whether two findings speak of the same place. Of what one step does with its item or its turn
/// there may be several findings in a stage.
bool same_place(const Spoken& a, const Spoken& b) {
  const bool by_step = (a.touch || a.reversal) && (b.touch || b.reversal);
  if (by_step) return a.step == b.step;
  return a.stage == b.stage || a.stage < 0 || b.stage < 0;
}

/// One cause is told once: a rule is silent behind one it yields to that is at least as bad.
void yield(std::vector<Spoken>& all) {
  const std::vector<Spoken> before = all;
  all.erase(std::remove_if(all.begin(), all.end(),
                           [&](const Spoken& s) {
                             for (const std::string& id : s.rule->yields_to)
                               for (const Spoken& other : before)
                                 if (other.rule->id == id && other.severity >= s.severity &&
                                     same_place(s, other))
                                   return true;
                             return false;
                           }),
            all.end());
}

}  // namespace

RuleBounds bounds_at(const Rule& rule, std::span<const Fact> facts, int stage) {
  if (!rule.by_fact.empty())
    if (const Fact* fact = find_fact(facts, rule.by_fact, stage))
      if (const auto found = rule.by_value.find(fact->value); found != rule.by_value.end())
        return found->second;
  return rule.bounds;
}

std::vector<Standing> standings(std::span<const Rule> rules, std::span<const Measure> measures,
                                std::span<const Fact> facts) {
  std::vector<Standing> all;
  for (const Rule& rule : rules) {
    if (rule.kind != RuleKind::range) continue;
    for (const Measure& m : measures) {
      if (m.name != rule.measure || !conditions_hold(rule, facts, m.stage)) continue;
      const RuleBounds bounds = bounds_at(rule, facts, m.stage);
      all.push_back({&rule, &m, bounds, level(bounds, m.value)});
    }
  }
  return all;
}

double gap_between(const Rule& rule, double first, double second) {
  if (!rule.relative) return first - second;
  return second != 0 ? (first - second) / std::fabs(second) : 0;
}

std::vector<Spoken> evaluate(std::span<const Rule> rules, const Evidence& evidence) {
  std::vector<Spoken> all;
  for (const Rule& rule : rules) {
    switch (rule.kind) {
      case RuleKind::range:
        range(rule, evidence, all);
        break;
      case RuleKind::order:
        order(rule, evidence, all);
        break;
      case RuleKind::contact:
        contact(rule, evidence, all);
        break;
      case RuleKind::present:
        present(rule, evidence, all);
        break;
      case RuleKind::consistent:
        consistent(rule, evidence, all);
        break;
    }
  }
  yield(all);
  return all;
}

}  // namespace starter
