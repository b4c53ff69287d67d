#include "output/handout_view.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "output/bar_chart.h"
#include "output/by_hand.h"
#include "output/calendar.h"
#include "output/calendar_words.h"
#include "output/explain_text.h"
#include "output/glossary.h"
#include "output/html.h"
#include "output/label.h"
#include "output/layout.h"
#include "output/measures_text.h"
#include "output/plan_parts.h"
#include "output/readings.h"
#include "output/sheet_view.h"
#include "output/shopping.h"
#include "output/step_words.h"
#include "process/process.h"
#include "rules/telling.h"

namespace starter {
namespace {

constexpr int free_steps = 3;  ///< empty steps at the end of a workshop sheet
constexpr int free_findings =
    7;  ///< empty rows for what the reader finds, where more are not needed

std::size_t at(int i) {
  return static_cast<std::size_t>(i);
}

bool shows_plan(const HandoutOptions& o) {
  return o.kind != SheetKind::workshop;
}
bool shows_answers(const HandoutOptions& o) {
  return o.kind == SheetKind::full;
}

std::string steps_in_words(const std::vector<int>& steps) {
  if (steps.empty()) return "";
  return (steps.size() == 1 ? "step " : "steps ") + step_numbers(steps);
}

// --- the paper --------------------------------------------------------------------------------

Json paper_view(const HandoutOptions& o) {
  return {{"size", o.paper == Paper::a4 ? "A4" : "letter"},
          {"a4", o.paper == Paper::a4},
          {"large", o.large},
          {"picture_lies", o.picture_lies}};
}

/// What stands at the foot of every page has one line of room.
std::string foot_of(const std::string& title) {
  constexpr double room = 330, type = 8;
  return label_lines(title, room, 1, type).front();
}

std::string kind_in_words(const HandoutOptions& o) {
  if (o.answers) return "Answers";
  switch (o.kind) {
    case SheetKind::exercise:
      return "Exercise";
    case SheetKind::workshop:
      return "Workshop sheet";
    case SheetKind::full:
      break;
  }
  return "Plan sheet";
}

// --- who and what -----------------------------------------------------------------------------

std::string stage_in_words(const Plan& plan, const Stage& stage, UnitSystem units) {
  std::string words;
  if (stage.extract_kind == ExtractKind::wort)
    words = write(stage.water, units) + " ready wort";
  else
    words = fmt::format("{} {} in {} water", write(stage.extract_mass, units),
                        spelling(stage.extract_kind), write(stage.water, units));
  words +=
      fmt::format(", grown in {} ({})", stage.vessel, write(plan.vessel_of(stage).capacity, units));
  words += stage.agitation == Agitation::none ? ", not stirred"
                                              : ", " + std::string(spelling(stage.agitation));
  return words +
         fmt::format(", {} for {}", write(stage.temperature, units), write(stage.duration, units));
}

std::string place_in_words(const Place& place, UnitSystem units) {
  return fmt::format("{} above the sea; tap water {}, room {}, fridge {}",
                     write(place.altitude, units), write(place.tap_water, units),
                     write(place.room, units), write(place.fridge, units));
}

Json row(const std::string& name, const std::string& value) {
  return {{"name", name}, {"value", value}};
}

Json facts_view(const std::vector<std::pair<std::string, std::string>>& facts) {
  Json out = Json::array();
  for (const auto& [name, value] : facts) out.push_back(row(name, value));
  return out;
}

/// What a member fills in about a plan of their own.
Json free_facts() {
  Json out = Json::array();
  for (const char* name :
       {"Title", "Member", "Beer: kind, volume, gravity", "Fermented at", "Brew day, yeast due",
        "Begin", "Yeast: form, packs, date", "Extract", "Water", "Vessel, and its room",
        "Stirred how, how warm, how long", "Altitude, tap water, fridge"})
    out.push_back(row(name, ""));
  return out;
}

// --- lists ------------------------------------------------------------------------------------

std::string_view shelf_name(Needed::Shelf shelf) {
  switch (shelf) {
    case Needed::Shelf::ingredient:
      return "Extract and yeast";
    case Needed::Shelf::water:
      return "Water and ice";
    case Needed::Shelf::thing:
      return "Things";
    case Needed::Shelf::cleaning:
      break;
  }
  return "To clean with";
}

Json shopping_view(const Judgement& j, const HandoutOptions& o) {
  Json shelves = Json::array();
  for (const Needed& n : shopping_list(j, o.units)) {
    const std::string name(shelf_name(n.shelf));
    if (shelves.empty() || shelves.back()["name"] != name)
      shelves.push_back(Json({{"name", name}, {"rows", Json::array()}}));
    // A name or an amount that is the plan's own is not given away on a sheet for another plan.
    const bool by_label = n.shelf == Needed::Shelf::cleaning;
    const bool own = shows_plan(o);
    std::string note = own || by_label ? n.note : "";
    // A note that tells amounts by step has named the steps.
    const bool named = n.note.find(" in step ") != std::string::npos;
    const std::string steps = own && !named ? steps_in_words(n.steps) : "";
    if (!steps.empty()) note += (note.empty() ? "" : "; ") + steps;
    shelves.back()["rows"].push_back(Json({{"what", n.what},
                                           {"amount", own || by_label ? n.amount : ""},
                                           {"line", !own && !by_label},
                                           {"note", note}}));
  }
  return shelves;
}

std::string clean_when(const Judgement& j, const ToClean& t) {
  if (!t.cleaned_in) return "";
  const Schedule& times = j.workings.times;
  const auto clock = times.clock(times.times[at(*t.cleaned_in)].start);
  return clock ? spoken(*clock) : "";
}

Json cleaning_view(const Judgement& j, const HandoutOptions& o) {
  Json stages = Json::array();
  int stage = -1;
  for (const ToClean& t : cleaning_list(j)) {
    if (t.stage != stage) {
      stage = t.stage;
      const bool only = j.plan.stages.size() == 1;
      stages.push_back(Json(
          {{"name", only ? "" : "Stage " + std::to_string(stage + 1)}, {"rows", Json::array()}}));
    }
    const bool told = shows_answers(o);
    const bool unclean = t.how == ToClean::How::late || t.how == ToClean::How::never;
    stages.back()["rows"].push_back(Json({{"what", t.what},
                                          {"meets", shows_plan(o) ? steps_in_words(t.meets) : ""},
                                          {"how", told ? clean_in_words(t) : ""},
                                          {"when", told && !unclean ? clean_when(j, t) : ""},
                                          {"unclean", told && unclean},
                                          {"line", !told}}));
  }
  return stages;
}

// --- steps ------------------------------------------------------------------------------------

Json readings_view(const Judgement& j, const CalendarRow& row_of, const HandoutOptions& o) {
  Json list = Json::array();
  if (row_of.growth) return list;
  for (const ReadingPlace& place : reading_places(j, row_of.step, o.units)) {
    // What the plan comes to is an answer; what it says is not, and stands in the step's words.
    const bool told = shows_answers(o);
    list.push_back(
        Json({{"what", place.what}, {"planned", told ? place.planned : ""}, {"unit", place.unit}}));
  }
  return list;
}

Json joins_view(const Judgement& j, const CalendarRow& row_of, const HandoutOptions& o) {
  Json list = Json::array();
  if (row_of.growth || !shows_plan(o)) return list;
  const auto does = j.plan.steps[at(row_of.step)].does;
  const bool said = does == Do::weigh || does == Do::dissolve;
  for (const Joining& joining : joinings_of(j, row_of.step, o.units)) {
    // Extract and water stand in the words of the step that takes them.
    if (said && joining.kind == Joining::Kind::material) continue;
    // The yeast's number is worked out; that of material is the plan's.
    const bool told = shows_answers(o);
    list.push_back(
        Json({{"what", joining.what},
              {"key", told || joining.kind == Joining::Kind::material ? joining.key : ""},
              {"note", told ? joining.note : ""}}));
  }
  return list;
}

/// The cautions of a step that stand in full at an earlier one, in one line: "Hot, sticky wort
/// (step 3), Glass can break (step 4)".
std::string told_before(Json& cautions) {
  std::string words;
  Json in_full = Json::array();
  for (Json& caution : cautions) {
    if (caution["told_at"] == "")
      in_full.push_back(std::move(caution));
    else
      words +=
          fmt::format("{}{} (step {})", words.empty() ? "" : ", ",
                      caution["title"].get<std::string>(), caution["told_at"].get<std::string>());
  }
  cautions = std::move(in_full);
  return words;
}

/// Which step another is done in: " (during step 3)"; empty for most.
std::string during_which(const Judgement& j, const CalendarRow& row_of) {
  if (row_of.growth) return "";
  const auto outer = j.process.inside[at(row_of.step)];
  return outer ? fmt::format(" (during step {})", *outer + 1) : "";
}

/// The steps of sheet_view(), which are the calendar's rows in their order, with days, what joins
/// them and where to write.
void add_to_steps(Json& steps, const Judgement& j, const HandoutOptions& o) {
  Calendar calendar = calendar_of(j, o.units);
  if (!shows_plan(o)) by_number(calendar);
  std::string day;
  for (std::size_t i = 0; i < calendar.rows.size(); ++i) {
    const CalendarRow& row_of = calendar.rows[i];
    Json& step = steps[i];
    const auto clock = calendar.clock(row_of.start);
    const std::string today = clock && shows_plan(o) ? day_of(*clock) + " " + year_of(*clock) : "";
    step["day"] = today == day ? "" : today;
    day = today;
    step["clock"] = shows_plan(o) ? clock_of(calendar, row_of.start) + (clock ? "" : " h") : "";
    step["joins"] = joins_view(j, row_of, o);
    step["has_joins"] = !step["joins"].empty();
    step["readings"] = readings_view(j, row_of, o);
    step["has_readings"] = !step["readings"].empty();
    step["again"] = told_before(step["cautions"]);
    step["has_number"] = !row_of.growth;
    step["line"] = !shows_plan(o);
    if (!shows_plan(o)) {
      step["words"] = row_of.growth ? "Growth" : step_verb(j.plan.steps[at(row_of.step)]);
      step["takes"] = "";
      step["may_be_late"] = "";
    }
    step["words"] = step["words"].get<std::string>() + during_which(j, row_of);
    if (!shows_answers(o)) {
      step["findings"] = Json::array();
      step["critical"] = false;
      step["may_be_late"] = "";
    }
  }
}

/// As many rows as an exercise has findings, so that none of them is left without one.
int rows_for_findings(const Judgement& j, const HandoutOptions& o) {
  if (shows_answers(o)) return 0;
  if (!shows_plan(o)) return free_findings;
  const auto found = std::count_if(j.findings.begin(), j.findings.end(),
                                   [](const Finding& f) { return f.severity > Severity::note; });
  return std::max(free_findings, static_cast<int>(found));
}

Json lines(int count) {
  return Json(static_cast<std::size_t>(count), Json::object());
}

// --- numbers ----------------------------------------------------------------------------------

/// The unit of a number worked out by hand, which its formula gives in metric units.
std::string blank_unit(const Measure& m) {
  if (m.unit == "ratio") return "";
  return m.unit == "K" ? "°C" : m.unit == "d" ? "days" : m.unit;
}

Json measures_view(const Judgement& j, const HandoutOptions& o) {
  Json parts = Json::array();
  std::string part;
  for (const Measure& m : j.measures) {
    const bool told = shows_answers(o);
    // A blank stands only where a pencil can fill it, with the way to it.
    const std::string how = told ? m.how : std::string(by_hand(j.plan, m));
    if (how.empty() && !told) continue;
    const std::string now = measured_part(j.plan, m);
    if (now != part) parts.push_back(Json({{"name", now}, {"rows", Json::array()}}));
    part = now;
    Json& rows = parts.back()["rows"];
    // The part is named in its first row, so that no page ends with its name.
    rows.push_back(Json({{"part", rows.empty() ? now : ""},
                         {"name", find_measure_kind(m.name)->title},
                         {"value", told ? value_text(m, o.units) : ""},
                         {"how", how},
                         {"line", !told},
                         {"unit", told ? "" : blank_unit(m)}}));
  }
  return parts;
}

Json narrowing_view(const Judgement& j, const HandoutOptions& o) {
  Json list = Json::array();
  if (!shows_answers(o)) return list;
  std::set<Unknown> told;
  for (const Measure& m : j.measures)
    if (m.widest && !m.certain()) told.insert(*m.widest);
  for (const Unknown u : told)
    list.push_back(row(std::string(text_of(u).name), std::string(text_of(u).narrow)));
  return list;
}

// --- the picture ------------------------------------------------------------------------------

Json pictures_view(const HandoutOptions& o) {
  Json list = Json::array();
  for (const std::string& svg : o.svgs)
    list.push_back(Json({{"markup", svg}, {"goes_on", !list.empty()}}));
  return list;
}

// --- words ------------------------------------------------------------------------------------

/// Every text of a view, a line each, but for markup.
void gather(const Json& view, std::string& into) {
  if (view.is_string()) into += view.get<std::string>() + "\n";
  if (view.is_array())
    for (const Json& inner : view) gather(inner, into);
  if (view.is_object())
    for (const auto& [key, inner] : view.items())
      if (key != "markup" && key != "about") gather(inner, into);
}

/// The text of markup of our own making: what stands outside its tags.
std::string text_in(const std::string& markup) {
  std::string text;
  bool tag = false;
  for (const char c : markup) {
    if (c == '<') tag = true;
    if (!tag) text += c;
    if (c == '>') {
      tag = false;
      text += ' ';
    }
  }
  return text;
}

Json glossary_view(const Json& view, const HandoutOptions& o) {
  std::string text = text_in(o.prose) + "\n";
  gather(view, text);
  Json list = Json::array();
  for (const Term* term : with_their_own_terms(terms_in(text))) {
    // That most are common practice is said once, over the list.
    const bool sourced = term->source.label != "practice";
    list.push_back(Json({{"term", term->term},
                         {"says", term->says},
                         {"source", sourced ? sentence(source_text(term->source)) : ""}}));
  }
  return list;
}

/// A source in one sentence, its label said once.
void tell_sources(Json& findings, const Judgement& j) {
  for (Json& finding : findings) {
    std::string words;
    for (const Finding& f : j.findings) {
      if (f.rule->id != finding["rule"]) continue;
      for (const RuleSource& source : f.rule->sources)
        words += sentence(source_text(*f.rule, source)) + " ";
      break;
    }
    finding["source"] = words;
  }
}

/// What answers nothing is not on a sheet without answers.
void hide_answers(Json& view) {
  for (const char* list : {"findings", "notes", "accepted_findings", "cautions", "numbers"})
    view[list] = Json::array();
  for (const char* has : {"has_findings", "has_notes", "has_accepted", "has_cautions"})
    view[has] = false;
  view["verdict"] = {{"says", ""}, {"severity", severity_view(std::nullopt)}};
  view["counts"] = Json::array();
}

}  // namespace

Inset picture_room(Paper paper, bool large) {
  // The page less its margins, less the heading: as pages/handout-style.mustache has them.
  constexpr double mm = 72 / 25.4;
  const double width = (paper == Paper::a4 ? 210 * mm : 612) - 20 * mm;
  const double height = (paper == Paper::a4 ? 297 * mm : 792) - 28 * mm;
  const double across = 28 * mm - 20 * mm;  // how much more room there is beside than above
  const double heading = large ? 52 : 30;
  return {width, height - heading, height + across, width - across - heading, large ? 11.0 : 7.5};
}

std::vector<std::pair<std::string, std::string>> plan_facts(const Judgement& j, UnitSystem units) {
  SheetViewOptions basic;
  basic.units = units;
  std::vector<std::pair<std::string, std::string>> facts;
  // The altitude is told with the rest of the place.
  const Json sheet = sheet_view(j, basic);
  for (const Json& fact : sheet["facts"])
    if (fact["name"] != "Altitude") facts.emplace_back(fact["name"], fact["value"]);
  const std::size_t stages = j.plan.stages.size();
  for (std::size_t i = 0; i < stages; ++i)
    facts.emplace_back(stages == 1 ? "Starter" : "Stage " + std::to_string(i + 1),
                       stage_in_words(j.plan, j.plan.stages[i], units));
  facts.emplace_back("Place", place_in_words(j.plan.place, units));
  return facts;
}

Json handout_view(const Judgement& j, const HandoutOptions& o) {
  SheetViewOptions basic;
  basic.units = o.units;
  basic.by_number = !shows_plan(o);
  Json out = sheet_view(j, basic);
  for (const char* list : {"findings", "notes", "accepted_findings"}) tell_sources(out[list], j);
  if (!shows_answers(o)) hide_answers(out);
  if (!shows_plan(o)) {
    out["title"] = workshop_title;
    out["member"] = "";
    out["assumed"] = Json::array();
    out["has_assumed"] = false;
  }
  out["facts"] = shows_plan(o) ? facts_view(plan_facts(j, o.units)) : free_facts();
  out["shopping"] = shopping_view(j, o);
  out["cleaning"] = cleaning_view(j, o);
  add_to_steps(out["steps"], j, o);
  out["free_steps"] = lines(shows_plan(o) ? 0 : free_steps);
  out["free_findings"] = lines(rows_for_findings(j, o));
  out["measures"] = measures_view(j, o);
  out["narrowing"] = narrowing_view(j, o);
  out["has_narrowing"] = !out["narrowing"].empty();
  out["answers"] = shows_answers(o);
  out["metric_how"] = o.units == UnitSystem::us;
  out["own"] = shows_plan(o);
  out["kind"] = kind_in_words(o);
  out["lesson"] = o.lesson;
  out["prose"] = o.prose.empty() ? Json(nullptr) : Json({{"markup", o.prose}});
  out["glossary"] = glossary_view(out, o);
  out["plan_title"] = out["title"];
  if (!o.lesson.empty()) out["title"] = o.lesson_title;
  out["page_title"] = (o.lesson.empty() ? "" : o.lesson + ": ") + out["title"].get<std::string>() +
                      " – " + kind_in_words(o);
  out["foot"] = foot_of(out["page_title"]);
  out["paper"] = paper_view(o);
  out["pictures"] = pictures_view(o);
  return out;
}

std::string handout_page(const Judgement& judgement, const HandoutOptions& options) {
  return fill_page("handout", handout_view(judgement, options));
}

}  // namespace starter
