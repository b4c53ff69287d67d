#include <algorithm>

#include "output/review_pages.h"

namespace starter {

extern const std::string_view review_schema_text;

namespace {

Json by_severity(const std::array<int, 4>& counts) {
  Json out;
  for (const Severity s : {Severity::danger, Severity::spoils, Severity::weakens, Severity::note})
    out[std::string(spelling(s))] = counts[static_cast<std::size_t>(s)];
  return out;
}

Json worst_json(const std::optional<Severity>& worst) {
  return worst ? Json(spelling(*worst)) : Json(nullptr);
}

Json totals_json(const ReviewTally& tally) {
  const auto worst = [&tally](Severity s) { return tally.by_worst[static_cast<std::size_t>(s)]; };
  return {{"plans", tally.plans},
          {"unusable", tally.unusable},
          {"danger", worst(Severity::danger)},
          {"spoils", worst(Severity::spoils)},
          {"weakens", worst(Severity::weakens)},
          {"sound", tally.sound}};
}

Json rules_json(const ReviewTally& tally) {
  Json list = Json::array();
  for (const RuleTally& t : tally.rules)
    list.push_back(Json({{"rule", t.rule->id},
                         {"title", t.rule->title},
                         {"lesson", t.rule->lesson},
                         {"plans", t.plans},
                         {"noted", t.noted},
                         {"findings", by_severity(t.by_severity)}}));
  return list;
}

Json lessons_json(const ReviewTally& tally) {
  Json list = Json::array();
  for (const LessonTally& lesson : tally.lessons) {
    Json rules = Json::array();
    for (const Rule* rule : lesson.rules) rules.push_back(rule->id);
    list.push_back(
        Json({{"lesson", lesson.lesson}, {"plans", lesson.plans}, {"rules", std::move(rules)}}));
  }
  return list;
}

Json members_json(const ReviewTally& tally) {
  Json list = Json::array();
  for (const MemberTally& m : tally.members)
    list.push_back(Json({{"member", m.member},
                         {"plans", m.plans},
                         {"to_mend", m.to_mend},
                         {"worst", worst_json(m.worst)},
                         {"most", m.most ? Json(m.most->id) : Json(nullptr)}}));
  return list;
}

Json spreads_json(const ReviewTally& tally) {
  Json list = Json::array();
  for (const Spread& s : tally.spreads) {
    const MeasureKind* kind = find_measure_kind(s.rule->measure);
    list.push_back(Json({{"rule", s.rule->id},
                         {"measure", s.rule->measure},
                         {"unit", kind ? kind->unit : ""},
                         {"least", s.values.front().value},
                         {"most", s.values.back().value},
                         {"far_below", s.by_level[0]},
                         {"below", s.by_level[1]},
                         {"comfortable", s.by_level[2]},
                         {"above", s.by_level[3]},
                         {"far_above", s.by_level[4]}}));
  }
  return list;
}

}  // namespace

Json review_json(const Review& review, const ReviewTally& tally) {
  Json out;
  out["review"] = 1;
  out["program"] = review.program;
  out["folder"] = review.folder;
  out["units"] = review.units == UnitSystem::us ? "us" : "metric";
  out["totals"] = totals_json(tally);
  out["plans"] = Json::array();
  for (const ReviewRow& row : review.rows) out["plans"].push_back(row_json(row));
  out["rules"] = rules_json(tally);
  out["lessons"] = lessons_json(tally);
  out["members"] = members_json(tally);
  out["spreads"] = spreads_json(tally);
  return out;
}

std::string review_schema() {
  return std::string(review_schema_text);
}

}  // namespace starter
