/// \file
/// The trade's standard process drawn with no plan, and the part of it that a rule watches.

#include <algorithm>
#include <set>
#include <variant>

#include "output/process_graph.h"
#include "plan/standard_process.h"
#include "rules/catalogue.h"
#include "rules/telling.h"

namespace starter {
namespace {

std::size_t at(int i) {
  return static_cast<std::size_t>(i);
}

/// What the standard process is drawn for: nothing in it is told but its steps.
constexpr std::string_view ordinary_plan = R"({
  "plan": 1,
  "beer": {"kind": "ale", "volume": "20 L", "gravity": "1.048 SG"},
  "yeast": {"form": "liquid", "packs": 1, "cells_per_pack": "100 billion", "viability": "90 %"},
  "vessels": {
    "flask": {"kind": "conical flask", "capacity": "3 L", "material": "borosilicate glass"},
    "tub": {"kind": "tub", "capacity": "20 L", "material": "plastic"}
  },
  "stages": [{
    "extract": {"kind": "light dry malt", "mass": "140 g"}, "water": "1.5 L",
    "vessel": "flask", "agitation": "stir plate", "temperature": "20 °C", "duration": "36 h"
  }]
})";

/// The standard process with the stir bar boiled in the wort, each step with a place of its own.
Plan standard_plan() {
  PlanResult read = read_plan(ordinary_plan);
  Plan plan = std::get<Plan>(std::move(read));
  plan.steps = standard_process(plan);
  Step bar;
  bar.does = Do::add;
  bar.verb = std::string(spelling(Do::add));
  bar.items = {"stir bar"};
  const auto boil = std::find_if(plan.steps.begin(), plan.steps.end(),
                                 [](const Step& step) { return step.does == Do::boil; });
  plan.steps.insert(boil, bar);
  for (Step& step : plan.steps)
    if (step.does == Do::sanitise)
      step.items.erase(std::remove(step.items.begin(), step.items.end(), "stir bar"),
                       step.items.end());
  for (std::size_t i = 0; i < plan.steps.size(); ++i)
    plan.steps[i].path = "/steps/" + std::to_string(i);
  return plan;
}

Judgement unfolded() {
  Judgement j;
  j.plan = standard_plan();
  j.process = unfold(j.plan);
  j.workings = work_out(j.plan, j.process, Draw{});
  return j;
}

/// \return "" for a rule of no number
std::string comfortable(const Rule& rule, UnitSystem units) {
  const MeasureKind* kind = find_measure_kind(rule.measure);
  if (!kind || !rule.bounds.comfortable.any()) return "";
  const Telling telling = telling_of(rule, kind->unit);
  return bounds_text(telling.of(rule.bounds.comfortable), telling.unit, units);
}
std::string comfortable(std::string_view id, UnitSystem units) {
  const Rule* rule = find_rule(id);
  return rule ? comfortable(*rule, units) : "";
}

/// How long the yeast settles, from the quickest to the slowest kind.
std::string settling(UnitSystem units) {
  Plan plan = standard_plan();
  const auto crash = [&plan](Flocculation kind) {
    plan.yeast.flocculation = kind;
    const auto steps = standard_process(plan);
    for (const Step& step : steps)
      if (step.does == Do::crash && step.lasts) return step.lasts->hours();
    return 0.0;
  };
  return write_range(crash(Flocculation::high), crash(Flocculation::low), "h", units);
}

/// In no one's plan the numbers are those the rules call comfortable.
void put_bounds(Drawing& drawing, const Plan& plan, UnitSystem units) {
  for (DrawnStep& node : drawing.nodes) {
    for (Joining& joining : node.joins) joining.key.clear();
    switch (*plan.steps[at(node.step)].does) {
      case Do::weigh:
        node.key = comfortable("extract-ratio", units);
        break;
      case Do::boil:
        node.key = comfortable("boil-time", units);
        break;
      case Do::chill:
        node.key = comfortable("chill-target", units);
        break;
      case Do::agitate:
        node.key = comfortable("growth-temperature", units);
        break;
      case Do::crash:
        node.key = settling(units);
        break;
      case Do::sanitise:
        node.key = "as its label says";
        break;
      default:
        node.key.clear();
    }
  }
}

/// Steps of the standard process, and orders among them, that a rule looks at.
struct Watch {
  std::set<int> steps;
  std::vector<std::pair<int, int>> orders;
};

void watch_kinds(const Plan& plan, std::initializer_list<Do> kinds, Watch& watch) {
  for (Do kind : kinds)
    for (int step : steps_of(plan, kind, 0)) watch.steps.insert(step);
}

/// Facts that a plan without fault does not have, by what they would be about.
void watch_absent_fact(const Judgement& j, std::string_view fact, Watch& watch) {
  if (fact == "missing_step")
    watch_kinds(j.plan, {Do::dissolve, Do::boil, Do::chill, Do::pitch, Do::pitch_to_beer}, watch);
  else if (fact == "stage_governs")
    watch_kinds(j.plan, {Do::agitate, Do::rest}, watch);
  else if (fact == "partner_missing")
    watch_kinds(j.plan, {Do::chill, Do::agitate}, watch);
  else if (fact == "wort_storage" || fact == "seal" || fact == "cover")
    watch_kinds(j.plan, {Do::cover, Do::chill, Do::pitch}, watch);
  else
    for (std::size_t i = 0; i < j.plan.steps.size(); ++i) watch.steps.insert(static_cast<int>(i));
}

void watch_place(const Judgement& j, const std::string& where, int stage, Watch& watch) {
  if (const auto step = step_of_place(j.plan, j.process, where, stage)) watch.steps.insert(*step);
}

void watch_measure(const Judgement& j, const std::string& name, Watch& watch) {
  const MeasureKind* kind = find_measure_kind(name);
  if (!kind) return;
  const int stage = kind->of == Of::stage ? 0 : -1;
  const std::string whole = stage < 0 ? "/beer" : "/stages/0";
  watch_place(j, kind->where ? kind->where({j.plan, j.process, j.workings}, stage) : whole, stage,
              watch);
}

Watch watched_by(const Rule& rule, const Judgement& j) {
  Watch watch;
  switch (rule.kind) {
    case RuleKind::order: {
      watch_kinds(j.plan, {rule.first, rule.then}, watch);
      if (rule.until) watch_kinds(j.plan, {*rule.until}, watch);
      for (int first : steps_of(j.plan, rule.first, 0))
        for (int then : steps_of(j.plan, rule.then, 0)) watch.orders.emplace_back(first, then);
      break;
    }
    case RuleKind::contact:
      for (const Touch& touch : j.process.touches) {
        watch.steps.insert(touch.step);
        if (touch.cleaned_by) watch.steps.insert(*touch.cleaned_by);
      }
      break;
    case RuleKind::range:
      watch_measure(j, rule.measure, watch);
      break;
    case RuleKind::consistent:
      for (const std::string& name : rule.measures) watch_measure(j, name, watch);
      break;
    case RuleKind::present: {
      const auto facts = facts_of({j.plan, j.process, j.workings});
      for (const Fact& fact : facts) {
        if (fact.name != rule.fact) continue;
        const bool in_plan = fact.step >= 0 && fact.step < static_cast<int>(j.plan.steps.size());
        if (in_plan)
          watch.steps.insert(fact.step);
        else
          watch_place(j, fact.where, fact.stage, watch);
      }
      break;
    }
  }
  if (watch.steps.empty()) watch_absent_fact(j, rule.fact, watch);
  return watch;
}

/// Rows that are watched, their outer steps, and the rows before and after them that hang on none.
std::vector<bool> around_watched(const std::vector<DrawnStep>& nodes) {
  const int count = static_cast<int>(nodes.size());
  std::vector<bool> kept(nodes.size(), false);
  for (int i = 0; i < count; ++i) {
    if (!nodes[at(i)].watched) continue;
    kept[at(i)] = true;
    if (nodes[at(i)].inside) kept[at(*nodes[at(i)].inside)] = true;
    for (const int way : {-1, 1}) {
      int other = i + way;
      while (other >= 0 && other < count && nodes[at(other)].inside) other += way;
      if (other >= 0 && other < count) kept[at(other)] = true;
    }
  }
  return kept;
}

/// Keeps the watched rows and what is around them; what is left out is a gap.
void keep_around_watched(Drawing& drawing) {
  const int count = static_cast<int>(drawing.nodes.size());
  const std::vector<bool> kept = around_watched(drawing.nodes);
  std::vector<int> place(at(count), -1);
  std::vector<DrawnStep> nodes;
  for (int i = 0; i < count; ++i) {
    if (!kept[at(i)]) continue;
    place[at(i)] = static_cast<int>(nodes.size());
    nodes.push_back(std::move(drawing.nodes[at(i)]));
  }
  for (DrawnStep& node : nodes) {
    if (node.inside) {
      const int outer = place[at(*node.inside)];
      node.inside = outer < 0 ? std::nullopt : std::optional(outer);
    }
    for (Joining& joining : node.joins)
      if (joining.cleaned_in) {
        const int by = place[at(*joining.cleaned_in)];
        joining.cleaned_in = by < 0 ? std::nullopt : std::optional(by);
      }
  }
  std::vector<Arrow> arrows;
  std::set<int> reached;
  for (Arrow arrow : drawing.arrows) {
    arrow.from = place[at(arrow.from)];
    arrow.to = place[at(arrow.to)];
    if (arrow.from < 0 || arrow.to < 0) continue;
    if (arrow.kind == Arrow::Kind::then || arrow.kind == Arrow::Kind::trade)
      reached.insert(arrow.to);
    arrows.push_back(arrow);
  }
  for (int i = 1; i < static_cast<int>(nodes.size()); ++i)
    if (!reached.count(i) && !nodes[at(i)].inside)
      arrows.push_back({i - 1, i, Arrow::Kind::gap, false, std::nullopt});
  drawing.nodes = std::move(nodes);
  drawing.arrows = std::move(arrows);
}

Drawing base_drawing(const Judgement& j, const DrawingOptions& options) {
  Drawing drawing = drawing_of(j, {options.units, false});
  drawing.standard = true;
  drawing.member.clear();
  put_bounds(drawing, j.plan, options.units);
  return drawing;
}

std::string watched_in_words(const Drawing& drawing) {
  std::string out;
  for (const DrawnStep& node : drawing.nodes)
    if (node.watched) out += (out.empty() ? "Steps watched: " : ", ") + node.words;
  return out.empty() ? "" : out + ".";
}

std::string steps_in_words(const Drawing& drawing) {
  std::string out = "The steps in order:";
  for (const DrawnStep& node : drawing.nodes)
    out += " " + node.number + " " + node.words + (node.key.empty() ? "" : ", " + node.key) + ".";
  return out;
}

}  // namespace

Drawing standard_drawing(const DrawingOptions& options) {
  const Judgement j = unfolded();
  Drawing drawing = base_drawing(j, options);
  drawing.title = "How a yeast starter is made";
  drawing.caption = {
      "The usual process of a club, with the numbers that its rules call comfortable."};
  drawing.about = steps_in_words(drawing);
  drawing.blank = options.blank;
  if (options.blank)
    for (DrawnStep& node : drawing.nodes) node.key.clear();
  return drawing;
}

Drawing rule_drawing(const Rule& rule, const DrawingOptions& options) {
  const Judgement j = unfolded();
  Drawing drawing = base_drawing(j, options);
  const Watch watch = watched_by(rule, j);
  for (DrawnStep& node : drawing.nodes) node.watched = watch.steps.count(node.step) > 0;
  const auto row_of = [&](int step) {
    for (std::size_t i = 0; i < drawing.nodes.size(); ++i)
      if (drawing.nodes[i].step == step) return static_cast<int>(i);
    return 0;
  };
  for (const auto& [first, then] : watch.orders)
    drawing.arrows.push_back({row_of(first), row_of(then), Arrow::Kind::rule, false, std::nullopt});
  keep_around_watched(drawing);
  drawing.title = rule.title;
  drawing.caption = {"What the rule " + rule.id + " watches.", rule.advice};
  const std::string bounds = comfortable(rule, options.units);
  const MeasureKind* kind = find_measure_kind(rule.measure);
  if (!bounds.empty() && kind)
    drawing.caption.insert(drawing.caption.begin() + 1,
                           std::string(kind->title) + ", comfortable: " + bounds + ".");
  drawing.about = watched_in_words(drawing) + " " + rule.why;
  return drawing;
}

}  // namespace starter
