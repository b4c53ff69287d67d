#include "output/json.h"

#include <fmt/format.h>

#include <utility>

#include "output/cautions_of.h"
#include "output/verdict.h"
#include "plan/json.h"
#include "rules/catalogue.h"

namespace starter {
namespace {

Json measure_json(const Measure& m) {
  Json out = object_for(7);
  out["name"] = m.name;
  out["of"] = m.of;
  out["value"] = m.value;
  out["low"] = m.low;
  out["high"] = m.high;
  out["unit"] = m.unit;
  out["how"] = m.how;
  return out;
}

Json measure_list(std::span<const Measure> measures) {
  Json list = Json::array();
  for (const Measure& m : measures) list.push_back(measure_json(m));
  return list;
}

Json sources_json(const Rule& rule) {
  Json list = Json::array();
  for (const RuleSource& s : rule.sources)
    list.push_back(Json({{"label", s.label}, {"text", s.text}}));
  return list;
}

Json acceptance_json(const Acceptance& a) {
  return {{"by", a.by}, {"because", a.because}, {"on", a.on.empty() ? Json(nullptr) : Json(a.on)}};
}

Json unused_json(const Judgement& j) {
  Json list = Json::array();
  for (const AcceptanceRecord& r : j.unused) {
    Json one = {{"rule", r.rule}, {"where", r.where}};
    one.update(acceptance_json({r.by, r.because, r.on, false}));
    list.push_back(std::move(one));
  }
  return list;
}

Json finding_json(const Finding& f) {
  Json out = object_for(20);
  out["rule"] = f.rule->id;
  out["severity"] = spelling(f.severity);
  out["certainty"] = spelling(f.certainty);
  out["where"] = f.where;
  out["says"] = f.says;
  out["why"] = f.rule->why;
  out["numbers"] = measure_list(f.numbers);
  out["fix"] = nullptr;
  if (f.fix) {
    out["fix"] = Json::object();
    out["fix"]["says"] = f.fix->says;
    out["fix"]["patch"] = f.fix->patch.empty() ? Json::array() : parse_json(f.fix->patch);
  }
  out["sources"] = sources_json(*f.rule);
  out["lesson"] = f.rule->lesson;
  out["accepted"] = nullptr;
  if (f.accepted) {
    out["accepted"] = acceptance_json(*f.accepted);
    out["accepted"]["counts"] = f.counts();
  }
  out["title"] = f.rule->title;
  out["margin"] = f.margin;
  out["narrow"] = f.narrow;
  out["narrow_where"] = f.narrow_where.empty() ? Json(nullptr) : Json(f.narrow_where);
  out["narrow_patch"] = f.narrow_patch.empty() ? Json::array() : parse_json(f.narrow_patch);
  out["do"] = f.rule->advice;
  out["cautions"] = f.rule->cautions;
  out["club"] = f.rule->club ? Json(f.rule->club->club) : Json(nullptr);
  out["reopened"] = nullptr;
  if (f.reopened) {
    out["reopened"] = acceptance_json(f.reopened->was);
    out["reopened"]["changes"] = Json::array();
    for (const ReadingChange& c : f.reopened->changes)
      out["reopened"]["changes"].push_back(Json({{"what", c.what}, {"was", c.was}, {"is", c.is}}));
  }
  return out;
}

/// Where a caution is needed, as JSON pointers; a step of the standard process has no place of its
/// own in the plan.
Json places_of(const NeededCaution& n, const Plan& plan) {
  Json places = Json::array();
  for (const int step : n.steps) {
    const std::string& path = plan.steps[static_cast<std::size_t>(step)].path;
    if (!path.empty()) places.push_back(path);
  }
  return places;
}

Json bounds_json(const Bounds& b) {
  Json pair = Json::array({nullptr, nullptr});
  if (b.low) pair[0] = *b.low;
  if (b.high) pair[1] = *b.high;
  return pair;
}

Json rule_bounds_json(const RuleBounds& b) {
  return {{"comfortable", bounds_json(b.comfortable)}, {"hard", bounds_json(b.hard)}};
}

void add_range(Json& out, const Rule& rule) {
  const MeasureKind* kind = find_measure_kind(rule.measure);
  out["measure"] = rule.measure;
  out["unit"] = kind ? std::string(kind->unit) : "";
  out["bounds"] = rule_bounds_json(rule.bounds);
  if (!rule.by_fact.empty()) {
    out["by"] = rule.by_fact;
    for (const auto& [value, bounds] : rule.by_value)
      out["bounds_by"][value] = rule_bounds_json(bounds);
  }
}

void add_present(Json& out, const Rule& rule) {
  out["fact"] = rule.fact;
  out["fine"] = rule.fine;
  out["others"] = Json::object();
  for (const auto& [value, severity] : rule.others) out["others"][value] = spelling(severity);
  if (rule.otherwise) out["otherwise"] = spelling(*rule.otherwise);
}

void add_consistent(Json& out, const Rule& rule) {
  out["measures"] = {rule.measures[0], rule.measures[1]};
  out["relative"] = rule.relative;
  out["comfortable"] = rule.comfortable_gap;
  if (rule.hard_gap) out["hard"] = *rule.hard_gap;
}

void add_severity(Json& out, const Rule& rule) {
  if (rule.kind == RuleKind::range || rule.kind == RuleKind::consistent) {
    out["severity"] = {{"comfortable", spelling(rule.outside_comfortable)},
                       {"hard", spelling(rule.outside_hard)}};
  } else if (rule.kind != RuleKind::present) {
    out["severity"] = spelling(rule.severity);
  }
}

/// JSON leaves DEL and the control characters from U+0080 to U+009F as they are; a terminal may
/// act on them. They can stand in strings only, where an escape means the same.
std::string calm(std::string_view json) {
  std::string out;
  out.reserve(json.size());
  for (std::size_t i = 0; i < json.size(); ++i) {
    const auto byte = static_cast<unsigned char>(json[i]);
    const auto next = i + 1 < json.size() ? static_cast<unsigned char>(json[i + 1]) : 0u;
    if (byte == 0x7F) {
      out += "\\u007f";
    } else if (byte == 0xC2 && next >= 0x80 && next <= 0x9F) {
      out += fmt::format("\\u{:04x}", next);
      ++i;
    } else {
      out += json[i];
    }
  }
  return out;
}

}  // namespace

Json assumed_json(const Plan& plan) {
  Json list = Json::array();
  for (const Assumption& a : plan.assumed)
    list.push_back(Json({{"where", a.where}, {"value", a.value}, {"says", a.says}}));
  return list;
}

Json cautions_json(const Judgement& j) {
  Json list = Json::array();
  for (const NeededCaution& n : cautions_of(j))
    list.push_back(Json({{"id", n.caution->id},
                         {"title", n.caution->title},
                         {"text", n.caution->text},
                         {"steps", places_of(n, j.plan)}}));
  return list;
}

Json check_json(const std::string& name, const Judgement& j, Measures measures) {
  Json out = object_for(8);
  out["plan"] = name;
  out["title"] = j.plan.title;
  out["verdict"] = verdict_of(j.findings);
  out["assumed"] = assumed_json(j.plan);
  out["findings"] = Json::array();
  for (const Finding& f : j.findings) out["findings"].push_back(finding_json(f));
  if (measures == Measures::all) out["measures"] = measure_list(j.measures);
  out["cautions"] = cautions_json(j);
  out["unused_acceptances"] = unused_json(j);
  return out;
}

Json measures_json(const std::string& name, const Plan& plan, std::span<const Measure> measures) {
  Json out;
  out["plan"] = name;
  out["title"] = plan.title;
  out["assumed"] = assumed_json(plan);
  out["measures"] = measure_list(measures);
  return out;
}

Json errors_json(const std::string& name, std::span<const PlanError> errors) {
  Json out;
  out["plan"] = name;
  out["errors"] = Json::array();
  for (const PlanError& e : errors)
    out["errors"].push_back(
        Json({{"where", e.where}, {"line", e.line}, {"says", e.says}, {"write", e.write}}));
  return out;
}

std::vector<PlanError> in_file(const std::string& plan, const std::string& file,
                               std::vector<PlanError> errors) {
  if (file != plan)
    for (PlanError& error : errors) error.says = "in " + file + ": " + error.says;
  return errors;
}

Json explain_json(const Rule& rule, const SwitchedOff* off) {
  Json out;
  out["rule"] = rule.id;
  out["title"] = rule.title;
  out["kind"] = spelling(rule.kind);
  switch (rule.kind) {
    case RuleKind::range:
      add_range(out, rule);
      break;
    case RuleKind::present:
      add_present(out, rule);
      break;
    case RuleKind::consistent:
      add_consistent(out, rule);
      break;
    case RuleKind::order:
      out["first"] = spelling(rule.first);
      out["then"] = spelling(rule.then);
      if (rule.until) out["until"] = spelling(*rule.until);
      out["items"] = rule.items;
      break;
    case RuleKind::contact:
      break;
  }
  add_severity(out, rule);
  out["when"] = rule.when;
  out["yields_to"] = rule.yields_to;
  out["why"] = rule.why;
  out["do"] = rule.advice;
  out["example"] = nullptr;
  if (!rule.wrong.empty()) out["example"] = {{"wrong", rule.wrong}, {"right", rule.right}};
  out["cautions"] = rule.cautions;
  out["sources"] = sources_json(rule);
  out["lesson"] = rule.lesson;
  out["club"] = nullptr;
  if (rule.club)
    out["club"] = {{"name", rule.club->club},
                   {"own", rule.club->own},
                   {"because", rule.club->because},
                   {"changes", rule.club->changes}};
  out["off"] = nullptr;
  if (off) out["off"] = {{"because", off->because}};
  return out;
}

Json one_or_all(std::vector<Json> documents) {
  if (documents.size() == 1) return std::move(documents.front());
  Json all = Json::array();
  for (Json& document : documents) all.push_back(std::move(document));
  return all;
}

std::string json_text(const Json& document) {
  return calm(document.dump(2, ' ', false, Json::error_handler_t::replace)) + "\n";
}

}  // namespace starter
