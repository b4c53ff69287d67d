#include "output/calendar_json.h"

namespace starter {
namespace {

Json hours(Duration d) {
  return round_to_digits(d.hours(), 6);
}
Json hours(const std::optional<Duration>& d) {
  return d ? hours(*d) : Json(nullptr);
}
Json clock(const std::optional<LocalTime>& t) {
  return t ? Json(iso(*t)) : Json(nullptr);
}

std::string_view word_for(GivesWay first) {
  switch (first) {
    case GivesWay::cold_rest:
      return "cold rest";
    case GivesWay::pause:
      return "pause";
    case GivesWay::nothing:
      return "nothing";
    case GivesWay::yeast:
      break;
  }
  return "yeast";
}

Json row_json(const Calendar& c, const CalendarRow& row) {
  Json out = object_for(12);
  out["step"] = row.growth ? Json(nullptr) : Json(row.step + 1);
  out["where"] = row.where;
  out["start"] = clock(c.clock(row.start));
  out["end"] = clock(c.clock(row.end));
  out["hands_on"] = row.hands_on;
  out["slack"] = hours(row.may_wait);
  out["critical"] = row.critical;
  out["words"] = row.words;
  out["start_hours"] = hours(row.start);
  out["end_hours"] = hours(row.end);
  out["gives_way"] = word_for(row.late.first);
  out["gives_way_step"] = row.late.step ? Json(*row.late.step + 1) : Json(nullptr);
  return out;
}

Json visit_json(const Calendar& c, const Visit& visit) {
  Json steps = Json::array();
  for (std::size_t i = visit.row; i <= visit.last; ++i)
    if (!c.rows[i].growth) steps.push_back(c.rows[i].step + 1);
  return {{"start", clock(c.clock(visit.start))},
          {"end", clock(c.clock(visit.end))},
          {"start_hours", hours(visit.start)},
          {"end_hours", hours(visit.end)},
          {"steps", steps}};
}

}  // namespace

Json calendar_json(const std::string& name, const Calendar& c, const Judgement& j) {
  Json out = object_for(11);
  out["plan"] = name;
  out["title"] = j.plan.title;
  out["times"] = Json::array();
  for (const CalendarRow& row : c.rows) out["times"].push_back(row_json(c, row));
  out["start"] = clock(c.start);
  out["due"] = clock(c.due);
  out["slack"] = hours(c.slack);
  out["latest_start"] = clock(c.latest_start);
  out["ready"] = clock(c.clock(c.ready));
  out["ready_hours"] = hours(c.ready);
  out["hands_on_hours"] = hours(c.hands_on);
  out["visits"] = Json::array();
  for (const Visit& visit : c.visits) out["visits"].push_back(visit_json(c, visit));
  return out;
}

}  // namespace starter
