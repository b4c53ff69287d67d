#include "lesson/lessons_json.h"

#include <string>
#include <utility>
#include <variant>

#include "lesson/fill.h"
#include "lesson/quiz.h"
#include "output/handout_view.h"
#include "plan/read.h"
#include "rules/catalogue.h"
#include "rules/judge.h"

namespace starter {
namespace {

Json listed(const Lesson& lesson) {
  return {{"number", lesson.name.substr(0, 2)},
          {"name", lesson.name},
          {"title", lesson.title},
          {"summary", lesson.summary},
          {"teaches", lesson.teaches}};
}

/// Filled, without the title, which a page has in its own place.
std::string prose(const Lesson& lesson, UnitSystem units) {
  FillOptions how;
  how.units = units;
  how.diagram = std::string("![The steps of the plan](") + lesson_picture + ")";
  return without_title(told_lesson(lesson, how));
}

Json facts_json(const Judgement& judgement, UnitSystem units) {
  Json rows = Json::array();
  for (const auto& [name, value] : plan_facts(judgement, units))
    rows.push_back(Json::array({name, value}));
  return rows;
}

Json choices_json(const Lesson& lesson, const Judgement& judgement, UnitSystem units) {
  Json list = Json::array();
  for (const Choice& choice : choices_of(lesson, judgement))
    list.push_back(Json({{"rule", choice.rule->id},
                         {"title", choice.rule->title},
                         {"speaks", choice.speaks},
                         {"says", choice.speaks ? what_is_found(*choice.rule, judgement)
                                                : why_silent(*choice.rule, judgement, units)}}));
  return list;
}

}  // namespace

Json lessons_json() {
  Json all = Json::array();
  for (const Lesson& lesson : lessons()) all.push_back(listed(lesson));
  return all;
}

Json lesson_json(const Lesson& lesson, UnitSystem units) {
  const Judgement judgement = judge(std::get<Plan>(read_plan(lesson.plan)), catalogue(),
                                    JudgeOptions::findings_only(units));
  Json told = listed(lesson);
  told["text"] = prose(lesson, units);
  told["plan"] = lesson.plan;
  told["mended"] = lesson.mended;
  told["facts"] = facts_json(judgement, units);
  told["steps"] = steps_to_judge(judgement, units);
  told["choices"] = choices_json(lesson, judgement, units);
  return told;
}

}  // namespace starter
