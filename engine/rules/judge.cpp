#include "rules/judge.h"

#include <algorithm>
#include <cmath>
#include <tuple>

#include "quantity/sorted.h"
#include "rules/evaluate.h"
#include "rules/fixes.h"
#include "rules/mendable.h"
#include "rules/message.h"
#include "rules/narrow.h"
#include "rules/readings.h"
#include "rules/telling.h"

namespace starter {
namespace {

std::size_t at(int i) {
  return static_cast<std::size_t>(i);
}

std::string stage_text(const Plan& plan, int stage) {
  return plan.stages.size() == 1 || stage < 0 ? "the starter"
                                              : "stage " + std::to_string(stage + 1);
}

/// How far a number lies outside bounds; 0 inside.
double beyond_bounds(double value, const Bounds& bounds) {
  if (bounds.low && value < *bounds.low) return *bounds.low - value;
  if (bounds.high && value > *bounds.high) return value - *bounds.high;
  return 0;
}

/// Fills the places of one spoken rule's messages.
class Places {
 public:
  Places(const Spoken& s, const Plan& plan, std::span<const Measure> measures, UnitSystem units)
      : s_(s), plan_(plan), measures_(measures), units_(units) {}

  std::optional<std::string> operator()(std::string_view place) const {
    if (auto text = own(place)) return text;
    if (s_.fact)
      if (const auto found = s_.fact->about.find(std::string(place)); found != s_.fact->about.end())
        return found->second.empty() ? "none that is close" : spoken_if_time(found->second);
    const bool range = place.size() > 6 && place.substr(place.size() - 6) == ".range";
    const std::string_view name = range ? place.substr(0, place.size() - 6) : place;
    if (const Measure* m = find_measure(measures_, name, s_.stage))
      return range ? write_range(m->low, m->high, m->unit, units_)
                   : write_value(m->value, m->unit, units_);
    return std::nullopt;
  }

 private:
  std::optional<std::string> own(std::string_view place) const {
    if (place == "stage") return stage_text(plan_, s_.stage);
    if (place == "stage_s") return stage_text(plan_, s_.stage) + "’s";
    if (place == "step" && s_.step >= 0 && at(s_.step) < plan_.steps.size())
      return step_label(plan_, s_.step);
    if (s_.touch) {
      if (place == "item") return s_.touch->item;
      const auto cleaned = s_.touch->cleaned_by ? s_.touch->cleaned_by : s_.touch->cleaned_late;
      if (place == "cleaned" && cleaned) return step_label(plan_, *cleaned);
      if (place == "idle" && s_.idle) return write(*s_.idle, units_);
    }
    if (s_.reversal) {
      if (place == "first") return step_label(plan_, s_.reversal->first);
      if (place == "then") return step_label(plan_, s_.reversal->then);
    }
    if (!s_.measure) return std::nullopt;
    const Telling telling = telling_of(*s_.rule, s_.measure->unit);
    const Measure m = telling.of(*s_.measure);
    const Bounds comfortable = telling.of(s_.comfortable);
    if (place == "value") return side_text(m, comfortable, units_) + value_text(m, units_);
    if (place == "likely")
      return side_text(m, comfortable, units_) + write_value(m.value, m.unit, units_);
    if (place == "comfortable") return bounds_text(comfortable, m.unit, units_);
    if (place == "hard") return bounds_text(telling.of(s_.hard), m.unit, units_);
    if (place == "beyond") return write_value(beyond() * telling.factor, m.unit, units_);
    return std::nullopt;
  }

  /// By how much the likely value lies outside; where it does not, the end that does.
  double beyond() const {
    const Measure& m = *s_.measure;
    const double likely = beyond_bounds(m.value, s_.comfortable);
    return likely != 0 ? likely
                       : beyond_bounds(s_.message == "low" ? m.low : m.high, s_.comfortable);
  }

  const Spoken& s_;
  const Plan& plan_;
  std::span<const Measure> measures_;
  UnitSystem units_;
};

/// Verdict::beyond of a number.
double bands_beyond(double value, const RuleBounds& bounds) {
  const Bounds& soft = bounds.comfortable;
  const bool low = soft.low && value < *soft.low;
  const auto& bound = low ? soft.low : soft.high;
  const auto& hard = low ? bounds.hard.low : bounds.hard.high;
  if (!bound) return 0;
  const double band = hard ? std::fabs(*hard - *bound) : std::fabs(*bound);
  return beyond_bounds(value, soft) / (band > 0 ? band : 1);
}

Verdict verdict_of(const Spoken& s) {
  const bool of_number = s.measure && !s.against;
  return {s.rule, s.severity, s.where, s.stage,
          of_number ? bands_beyond(s.measure->value, {s.comfortable, s.hard}) : 0};
}

std::string message_of(const Spoken& s) {
  if (s.message == "low" && s.measure && !s.against) return s.rule->low;
  if (s.message == "high" && s.measure && !s.against) return s.rule->high;
  const auto found = s.rule->says.find(s.message);
  return found != s.rule->says.end() ? found->second : "";
}

/// The part of a range's message that tells the number and its bounds. What follows says what is
/// wrong, which a value within them does not bear out.
std::string number_only(const std::string& message) {
  const std::size_t bounds = message.find("{comfortable}");
  const std::size_t end = bounds == std::string::npos ? bounds : message.find(". ", bounds);
  return end == std::string::npos ? message : message.substr(0, end + 1);
}

/// The finding in words. One that only an end of the range brings must not read as a fact.
std::string says_of(const Spoken& s, const std::string& message, const FillPlace& places) {
  if (s.certainty != Certainty::possible) return fill_places(message, places);
  if (!s.measure) return "Possibly: " + fill_places(message, places);
  return "Possibly outside, at an end of its range: " + fill_places(number_only(message), places);
}

std::string margin_of(const Spoken& s, UnitSystem units) {
  if (!s.measure) return "";
  if (s.against)
    return write_value(s.measure->value, s.measure->unit, units) + " against " +
           value_text(*s.against, units);
  const Telling telling = telling_of(*s.rule, s.measure->unit);
  const Measure told = telling.of(*s.measure);
  const Bounds comfortable = telling.of(s.comfortable);
  return side_text(told, comfortable, units) + value_text(told, units) + "; comfortable " +
         bounds_text(comfortable, telling.unit, units);
}

std::vector<Measure> numbers_of(const Spoken& s, std::span<const Measure> measures,
                                const std::string& message) {
  std::vector<Measure> numbers;
  auto add = [&](const Measure* m) {
    if (m && std::none_of(numbers.begin(), numbers.end(), [&](const Measure& had) {
          return had.name == m->name && had.stage == m->stage;
        }))
      numbers.push_back(*m);
  };
  add(s.measure);
  add(s.against);
  for (std::string place : places_in(message)) {
    if (const auto dot = place.rfind(".range"); dot != std::string::npos) place.resize(dot);
    add(find_measure(measures, place, s.stage));
  }
  return numbers;
}

/// What the rule looks at, as a function of the plan, for the solver.
std::function<std::optional<double>(const Plan&)> number_of(const Spoken& s, const Plan& judged,
                                                            const Process& process) {
  if (!s.measure) return {};
  // A plan that was read anew, and not only turned at a knob, has steps of its own.
  const auto value = [&judged, &process](const MeasureKind& kind, const Plan& plan, int stage) {
    return plan.source == judged.source ? likely_value(kind, plan, process, stage)
                                        : likely_value(kind, plan, unfold(plan), stage);
  };
  const MeasureKind* first = find_measure_kind(s.measure->name);
  const int stage = s.measure->stage;
  if (!s.against)
    return [first, stage, value](const Plan& plan) { return value(*first, plan, stage); };
  const MeasureKind* second = find_measure_kind(s.against->name);
  const int other = s.against->stage;
  const Rule* rule = s.rule;
  return [=](const Plan& plan) -> std::optional<double> {
    const auto a = value(*first, plan, stage);
    const auto b = value(*second, plan, other);
    if (!a || !b) return std::nullopt;
    return gap_between(*rule, *a, *b);
  };
}

/// What the plan's own steps leave open and the workings supplied.
std::vector<Assumption> taken_by_the_science(const Judgement& j) {
  std::vector<Assumption> taken;
  for (const StageWorking& x : j.workings.stages) {
    if (!x.chill) continue;
    const Step& step = j.plan.steps[at(x.chill->step)];
    if (step.path.empty()) continue;
    if (!step.bath)
      taken.push_back({step.path + "/bath", write(x.chill->bath, UnitSystem::metric),
                       "How much water the bath holds is not stated, so it is taken to stand about "
                       "as high as the wort."});
    if (!step.to)
      taken.push_back({step.path + "/to", write(x.chill->target, UnitSystem::metric),
                       "Where the chilling stops is not stated, so the growth temperature is "
                       "taken."});
  }
  return taken;
}

/// "step 4, move" as "move"; any other text as it is.
std::string without_step_number(std::string text) {
  constexpr std::string_view step = "step ";
  if (text.rfind(step, 0) != 0) return text;
  const std::size_t end = text.find_first_not_of("0123456789", step.size());
  if (end == std::string::npos || end == step.size() || text.compare(end, 2, ", ") != 0)
    return text;
  return text.substr(end + 2);
}

/// Where a finding stands among the steps, for sorting.
int step_for_sorting(const Plan& plan, const Finding& f) {
  if (f.step >= 0) return f.step;
  constexpr std::string_view steps = "/steps/";
  if (f.where.rfind(steps, 0) == 0) return std::atoi(f.where.c_str() + steps.size());
  if (f.stage >= 0)
    for (std::size_t i = 0; i < plan.steps.size(); ++i)
      if (plan.steps[i].stage == f.stage) return static_cast<int>(i);
  return static_cast<int>(plan.steps.size());
}

void narrow(const Spoken& s, const Judgement& j, Finding& f) {
  if (auto narrowing = narrowing_of(s, j.plan, j.process, j.workings)) {
    f.narrow = std::move(narrowing->says);
    f.narrow_where = std::move(narrowing->where);
    f.narrow_patch = std::move(narrowing->patch);
  } else if (s.certainty != Certainty::certain && s.measure && s.measure->widest) {
    f.narrow = std::string(text_of(*s.measure->widest).narrow);
  }
}

}  // namespace

std::string_view spelling(Certainty certainty) {
  switch (certainty) {
    case Certainty::certain:
      return "certain";
    case Certainty::likely:
      return "likely";
    case Certainty::possible:
      return "possible";
  }
  return "";
}

std::vector<Verdict> quick_verdicts(const Plan& plan, std::span<const Rule> rules) {
  const Process process = unfold(plan);
  const Workings workings = work_out(plan, process, Draw{});
  const Case c{plan, process, workings};
  const auto measures = likely_measures(c);
  const auto facts = facts_of(c);
  std::vector<Verdict> verdicts;
  for (const Spoken& s : evaluate(rules, {plan, process, workings.times, measures, facts}))
    verdicts.push_back(verdict_of(s));
  return verdicts;
}

std::vector<Mendable> mendables(const Plan& plan, std::span<const Rule> rules, UnitSystem units,
                                const std::function<bool(const Verdict&)>& wanted, Severity least) {
  const Process process = unfold(plan);
  const Workings workings = work_out(plan, process, Draw{});
  const Case c{plan, process, workings};
  const auto measures = likely_measures(c);
  const auto facts = facts_of(c);
  const auto spoken = evaluate(rules, {plan, process, workings.times, measures, facts});
  std::vector<Verdict> verdicts;
  verdicts.reserve(spoken.size());
  for (const Spoken& s : spoken) verdicts.push_back(verdict_of(s));
  std::vector<Mendable> found;
  for (std::size_t i = 0; i < spoken.size(); ++i) {
    const Spoken& s = spoken[i];
    if (s.severity < least || !wanted(verdicts[i])) continue;
    const Places places(s, plan, measures, units);
    const FillPlace unnumbered = [&places](std::string_view place) {
      auto text = places(place);
      return text ? std::optional(without_step_number(std::move(*text))) : std::nullopt;
    };
    found.push_back(
        {verdicts[i], ways_to_mend({plan, process, rules, verdicts, *s.rule, s.stage,
                                    number_of(s, plan, process), s.comfortable, s.fact, s.touch,
                                    s.reversal ? &*s.reversal : nullptr, unnumbered, units})});
  }
  return found;
}

Judgement judge(Plan plan, std::span<const Rule> rules, const JudgeOptions& options) {
  Judgement j;
  j.plan = std::move(plan);
  j.process = unfold(j.plan);
  j.workings = work_out(j.plan, j.process, Draw{});
  j.measures = measure(j.plan, j.process);
  j.facts = facts_of({j.plan, j.process, j.workings});
  for (Assumption& taken : taken_by_the_science(j)) j.plan.assumed.push_back(std::move(taken));
  const Evidence evidence{j.plan, j.process, j.workings.times, j.measures, j.facts};
  const std::vector<Spoken> spoken = evaluate(rules, evidence);
  std::vector<Verdict> verdicts;
  if (options.fixes && !spoken.empty()) verdicts = quick_verdicts(j.plan, rules);

  for (const Spoken& s : spoken) {
    const Places places(s, j.plan, j.measures, options.units);
    const std::string message = message_of(s);
    Finding f;
    f.rule = s.rule;
    f.severity = s.severity;
    f.certainty = s.certainty;
    f.where = s.where;
    f.stage = s.stage;
    f.step = s.step;
    if (s.touch)
      f.item = s.touch->item;
    else if (s.fact && s.fact->about.count("needs"))
      f.item = s.fact->about.at("needs");
    f.says = says_of(s, message, places);
    f.margin = margin_of(s, options.units);
    f.numbers = numbers_of(s, j.measures, message);
    f.read = readings_of(s, evidence, f.numbers);
    if (options.narrowing) narrow(s, j, f);
    if (options.fixes && s.certainty != Certainty::possible)
      f.fix = work_out_fix({j.plan, j.process, rules, verdicts, *s.rule, s.stage,
                            number_of(s, j.plan, j.process), s.comfortable, s.fact, s.touch,
                            s.reversal ? &*s.reversal : nullptr, places, options.units});
    j.findings.push_back(std::move(f));
  }
  sort_short(j.findings, [&](const Finding& a, const Finding& b) {
    return std::tuple(-static_cast<int>(a.severity), step_for_sorting(j.plan, a)) <
           std::tuple(-static_cast<int>(b.severity), step_for_sorting(j.plan, b));
  });
  return j;
}

std::optional<Severity> worst(const std::vector<Finding>& findings) {
  std::optional<Severity> found;
  for (const Finding& f : findings)
    if (f.counts() && (!found || f.severity > *found)) found = f.severity;
  return found;
}

}  // namespace starter
