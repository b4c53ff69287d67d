#include "browser/reference.h"

#include <string>
#include <utility>

#include "output/calendar_json.h"
#include "output/json.h"
#include "output/rule_rows.h"
#include "rules/catalogue.h"
#include "rules/telling.h"

namespace starter {
namespace {

DrawingOptions drawn_for(const Request& request) {
  DrawingOptions options;
  options.units = request.units();
  return options;
}

}  // namespace

Json tell_measures(const Request& request) {
  return of_plan(request, [&](const Given& given) {
    return measures_json(request.name(), given.plan, measure(given.plan, unfold(given.plan)));
  });
}

Json tell_schedule(const Request& request) {
  return of_plan(request, [&](Given given) {
    const Judgement judgement = judged(request, std::move(given), false);
    return calendar_json(request.name(), calendar_of(judgement, request.units()), judgement);
  });
}

Json explain(const Request& request) {
  if (request.has("rule")) return explain_json(request.rule());
  Json all = Json::array();
  for (const Rule& rule : catalogue()) all.push_back(explain_json(rule));
  return all;
}

Json tell_rows(const Request& request) {
  const Rule& rule = request.rule();
  Json list = Json::array();
  for (const RuleRow& row : rule_rows(rule, request.units()))
    list.push_back(
        Json({{"name", row.name},
              {"says", row.text + (row.severity ? std::string(meaning_of(*row.severity)) : "")},
              {"severity", row.severity ? Json(spelling(*row.severity)) : Json(nullptr)}}));
  return {{"rows", list}, {"sources", source_sentences(rule)}};
}

Json tell_cautions(const Request&) {
  Json list = Json::array();
  for (const Caution& c : cautions())
    list.push_back(Json({{"id", c.id}, {"title", c.title}, {"text", c.text}}));
  return list;
}

Json draw_rule(const Request& request) {
  return drawing_json(rule_drawing(request.rule(), drawn_for(request)));
}

Json draw_process(const Request& request) {
  return drawing_json(standard_drawing(drawn_for(request)));
}

}  // namespace starter
