#include "output/compare_json.h"

#include <utility>

#include "output/verdict.h"

namespace starter {
namespace {

Json plan_json(const Judgement& j, const std::string& name) {
  return {{"plan", name},
          {"title", j.plan.title},
          {"member", j.plan.member},
          {"verdict", verdict_of(j.findings)}};
}

Json finding_json(const Finding* f) {
  if (f == nullptr) return nullptr;
  return {{"severity", spelling(f->severity)},
          {"certainty", spelling(f->certainty)},
          {"where", f->where},
          {"says", f->says},
          {"margin", f->margin}};
}

Json number_json(const Measure* m) {
  if (m == nullptr) return nullptr;
  return {{"value", m->value}, {"low", m->low}, {"high", m->high}};
}

Json measure_json(const ComparedMeasure& m) {
  const Measure& any = m.second != nullptr ? *m.second : *m.first;
  return {{"name", any.name},
          {"of", any.of},
          {"unit", any.unit},
          {"first", number_json(m.first)},
          {"second", number_json(m.second)},
          {"differs", m.differs},
          {"beyond_ranges", m.beyond}};
}

Json pointer_json(const std::string& where) {
  return where.empty() ? Json(nullptr) : Json(where);
}

Json field_json(const ComparedField& f) {
  return {{"change", spelling(f.how)},
          {"place", f.place},
          {"first_where", pointer_json(f.first_where)},
          {"second_where", pointer_json(f.second_where)},
          {"first", f.first},
          {"second", f.second},
          {"first_assumed", f.first_assumed},
          {"second_assumed", f.second_assumed}};
}

Json clock(const std::optional<LocalTime>& t) {
  return t ? Json(iso(*t)) : Json(nullptr);
}
Json hours(Duration d) {
  return round_to_digits(d.hours(), 6);
}

Json calendar_json(const Calendar& c) {
  return {{"start", clock(c.start)},
          {"due", clock(c.due)},
          {"ready", clock(c.clock(c.ready))},
          {"slack", c.slack ? hours(*c.slack) : Json(nullptr)},
          {"latest_start", clock(c.latest_start)},
          {"ready_hours", hours(c.ready)},
          {"hands_on_hours", hours(c.hands_on)},
          {"visits", c.visits.size()}};
}

}  // namespace

Json compare_json(const Comparison& c, const std::string& first_name,
                  const std::string& second_name) {
  Json out;
  out["first"] = plan_json(c.first, first_name);
  out["second"] = plan_json(c.second, second_name);
  out["verdict"] = comparison_in_words(c);
  out["findings"] = Json::array();
  for (const ComparedFinding& f : c.findings) {
    const Finding& any = f.second != nullptr ? *f.second : *f.first;
    out["findings"].push_back(Json({{"change", spelling(f.change)},
                                    {"rule", any.rule->id},
                                    {"title", any.rule->title},
                                    {"first", finding_json(f.first)},
                                    {"second", finding_json(f.second)}}));
  }
  out["calendar"] = {{"first", calendar_json(c.first_calendar)},
                     {"second", calendar_json(c.second_calendar)}};
  out["fields"] = Json::array();
  for (const ComparedField& f : c.fields) out["fields"].push_back(field_json(f));
  out["measures"] = Json::array();
  for (const ComparedMeasure& m : c.measures) out["measures"].push_back(measure_json(m));
  return out;
}

Json not_compared_json(std::vector<Json> unusable) {
  Json out;
  out["unusable"] = Json::array();
  for (Json& one : unusable) out["unusable"].push_back(std::move(one));
  return out;
}

}  // namespace starter
