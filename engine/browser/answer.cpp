#include "browser/answer.h"

#include <algorithm>
#include <exception>
#include <utility>
#include <variant>
#include <vector>

#include "browser/club.h"
#include "browser/request.h"
#include "output/calendar_json.h"
#include "output/icalendar.h"
#include "output/json.h"
#include "output/key_numbers.h"
#include "output/svg.h"
#include "plan/document.h"
#include "plan/json.h"
#include "plan/layout.h"
#include "plan/write.h"
#include "quantity/words.h"
#include "quantity/write.h"
#include "rules/telling.h"

namespace starter {
namespace {

Json check(const Request& request) {
  return of_plan(request, [&](Given given) {
    return check_json(request.name(),
                      judged(request, std::move(given), request.flag("advice", true)));
  });
}

Json key_numbers_json(const Judgement& judgement, UnitSystem units) {
  Json parts = Json::array();
  for (const KeyNumbers& part : key_numbers(judgement, units)) {
    Json rows = Json::array();
    for (const auto& [name, value] : part.rows) rows.push_back(Json::array({name, value}));
    parts.push_back(Json({{"title", part.title}, {"rows", rows}}));
  }
  return parts;
}

/// Every measure in words: its title, its value with its range, and its making.
Json numbers_json(const Judgement& judgement, UnitSystem units) {
  Json list = Json::array();
  for (const Measure& m : judgement.measures) {
    const MeasureKind* kind = find_measure_kind(m.name);
    list.push_back(Json({{"name", m.name},
                         {"of", m.of},
                         {"title", kind ? std::string(kind->title) : m.name},
                         {"says", value_text(m, units)},
                         {"how", m.how}}));
  }
  return list;
}

/// What each step does, to which stage it belongs, counted from 1 as in a plan, and how long it is
/// to last where the plan says it.
Json steps_json(const Plan& plan) {
  Json list = Json::array();
  for (const Step& step : plan.steps)
    list.push_back(Json({{"where", step.path},
                         {"do", step.verb},
                         {"stage", step.stage + 1},
                         {"minutes", step.lasts ? Json(step.lasts->minutes()) : Json(nullptr)}}));
  return list;
}

Json look(const Request& request) {
  Json told = of_plan(request, [&](Given given) -> Json {
    const UnitSystem units = request.units();
    const Judgement judgement = judged(request, std::move(given), request.flag("advice", true));
    const Calendar calendar = calendar_of(judgement, units);
    const bool numbers = request.flag("numbers", true);
    Json of_it = object_for(6);
    of_it["check"] =
        check_json(request.name(), judgement, numbers ? Measures::all : Measures::of_findings);
    of_it["schedule"] = calendar_json(request.name(), calendar, judgement);
    of_it["key_numbers"] = key_numbers_json(judgement, units);
    of_it["steps"] = steps_json(judgement.plan);
    of_it["words"] = club() ? club()->words(judgement) : Json::array();
    if (numbers) of_it["numbers"] = numbers_json(judgement, units);
    return of_it;
  });
  if (told.contains("errors")) return {{"check", std::move(told)}};
  return told;
}

Json calendar_file(const Request& request) {
  return of_plan(request, [&](Given given) -> Json {
    const Judgement judgement = judged(request, std::move(given), false);
    const Calendar calendar = calendar_of(judgement, request.units());
    if (!calendar.start)
      throw Refused{
          "a calendar file needs clock times, and this plan has neither a start nor a brew day"};
    return {{"ics", icalendar(calendar, judgement)}};
  });
}

Json draw(const Request& request) {
  DrawingOptions options;
  options.units = request.units();
  return of_plan(request, [&](Given given) {
    return drawing_json(drawing_of(judged(request, std::move(given), false), options));
  });
}

Json picture(const Request& request) {
  return {
      {"svg", stand_alone_svg(request.text("svg"), request.text("title"), request.text("about"))}};
}

/// The plan as it stands, for a change that keeps the order and the words of its writer.
Json document_of(std::string_view bytes) {
  Report report;
  if (!read_document(bytes, report) || !report.empty())
    throw Refused{"the plan is not JSON that can be changed; mend its text first"};
  return parse_json(bytes);
}

Json change(const Request& request) {
  const Json& patch = request.part("patch");
  if (!patch.is_array()) throw Refused{"“patch” must be a list of changes"};
  try {
    return {{"plan", lay_out(document_of(request.plan()).patch(patch))}};
  } catch (const Json::exception&) {
    throw Refused{"this change does not fit the plan any more"};
  }
}

/// The usual process chills in a bath and with ice that are worked out; a plan that lists its steps
/// says them.
void say_baths(const Judgement& judgement, UnitSystem units, Json& steps) {
  for (const StageWorking& stage : judgement.workings.stages) {
    if (!stage.chill) continue;
    const auto index = static_cast<std::size_t>(stage.chill->step);
    if (!judgement.plan.steps[index].path.empty()) continue;
    Json& chill = steps.at(index);
    chill["bath"] = write(stage.chill->bath, units);
    if (stage.chill->ice > Mass()) {
      chill["ice"] = write(stage.chill->ice, units);
      chill["ice_from"] = write(stage.chill->ice_from, units);
    }
    chill["swirl"] = true;
  }
}

Json steps(const Request& request) {
  return of_plan(request, [&](Given given) -> Json {
    const auto is_steps = [](const Assumption& a) { return a.where == "/steps"; };
    std::erase_if(given.plan.assumed, is_steps);
    Json written = parse_json(write_plan(given.plan)).at("steps");
    say_baths(judged(request, std::move(given), false), request.units(), written);
    Json document = document_of(request.plan());
    document["steps"] = std::move(written);
    return {{"plan", lay_out(document)}};
  });
}

Json schema(const Request&) {
  return parse_json(plan_schema());
}

constexpr Service services[] = {
    {"check", check},
    {"look", look},
    {"draw", draw},
    {"picture", picture},
    {"calendar", calendar_file},
    {"change", change},
    {"steps", steps},
    {"schema", schema},
};

/// Looked through by our own reader first, which limits how deep lists may lie in one another.
Request request_of(std::string_view bytes, std::string_view plan) {
  Report report;
  if (!read_document(bytes, report) || !report.empty())
    throw Refused{"the request is not JSON: " + report.in_file_order().front().says};
  Json said = parse_json(bytes);
  if (!said.is_object()) throw Refused{"the request must be an object"};
  return {std::move(said), plan};
}

Json carried_out(const Request& request) {
  const std::string word = request.text("do");
  std::vector<std::string_view> known;
  for (const Service& service : services) {
    if (service.word == word) return service.carry_out(request);
    known.push_back(service.word);
  }
  for (const std::string_view of_clubs : club_words) {
    if (of_clubs == word && club() == nullptr)
      throw Refused{starter::quoted(word) +
                    " is answered by the engine for clubs, and this is the small one"};
    known.push_back(of_clubs);
  }
  if (club() != nullptr)
    for (const Service& service : club()->services)
      if (service.word == word) return service.carry_out(request);
  const auto nearest = nearest_word(word, known);
  throw Refused{"nothing here answers to " + starter::quoted(word) + "." +
                (nearest ? " Did you mean " + *nearest + "?" : "")};
}

std::string error_text(const std::string& says) {
  return json_text(Json({{"error", says}}));
}

}  // namespace

std::string answer(std::string_view request, std::string_view plan) noexcept {
  try {
    return json_text(carried_out(request_of(request, plan)));
  } catch (const Refused& refused) {
    return error_text(refused.says);
  } catch (const std::exception& problem) {
    return error_text(problem.what());
  }
}

}  // namespace starter
