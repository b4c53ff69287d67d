#include "output/suggest_json.h"

#include <algorithm>

#include "output/verdict.h"

namespace starter {
namespace {

Json state_json(const Judgement& j) {
  Json counts;
  for (const Severity severity :
       {Severity::danger, Severity::spoils, Severity::weakens, Severity::note})
    counts[std::string(spelling(severity))] =
        std::count_if(j.findings.begin(), j.findings.end(),
                      [=](const Finding& f) { return f.severity == severity; });
  return {{"verdict", verdict_of(j.findings)}, {"findings", counts}};
}

Json told_json(const FindingAt& told) {
  return {{"rule", told.rule->id}, {"severity", spelling(told.severity)}, {"where", told.where}};
}

Json change_json(const Change& change) {
  Json clears = Json::array();
  for (const Cleared& told : change.clears) {
    Json one = told_json(told);
    one["to_a_note"] = told.to_a_note;
    one["since_change"] = told.since;
    clears.push_back(std::move(one));
  }
  return {{"says", change.says},       {"asks", spelling(change.asks)},
          {"fills_in", change.fills},  {"clears", std::move(clears)},
          {"instead", change.instead}, {"patch", change.patch}};
}

Json left_json(const Left& left) {
  Json out = told_json(left.told);
  out["says"] = left.says;
  out["why_not"] = left.why_not;
  out["do"] = left.advice;
  return out;
}

Json stands_json(const Stands& one) {
  Json out = told_json(one.told);
  out["says"] = one.says;
  out["by"] = one.accepted.by;
  out["because"] = one.accepted.because;
  return out;
}

}  // namespace

Json suggest_json(const std::string& name, const Suggestion& s) {
  Json out;
  out["plan"] = name;
  out["title"] = s.after.plan.title;
  out["first"] = s.first;
  out["before"] = s.before ? state_json(*s.before) : Json(nullptr);
  out["after"] = state_json(s.after);
  out["changes"] = Json::array();
  for (const Change& change : s.changes) out["changes"].push_back(change_json(change));
  out["patch"] = s.patch;
  out["left"] = Json::array();
  for (const Left& left : s.left) out["left"].push_back(left_json(left));
  out["stands"] = Json::array();
  for (const Stands& one : s.stands) out["stands"].push_back(stands_json(one));
  out["decisions"] = Json::array();
  for (const Decision& d : s.decisions)
    out["decisions"].push_back(Json({{"where", d.where}, {"says", d.says}, {"write", d.write}}));
  out["finished"] = s.finished;
  out["mended"] = s.document;
  out["assumed"] = assumed_json(s.after.plan);
  out["cautions"] = cautions_json(s.after);
  return out;
}

}  // namespace starter
