#include "browser/answer.h"

#include <algorithm>
#include <exception>
#include <optional>
#include <span>
#include <utility>
#include <variant>
#include <vector>

#include "output/acceptance_words.h"
#include "output/calendar_json.h"
#include "output/cautions_of.h"
#include "output/characters.h"
#include "output/dot.h"
#include "output/icalendar.h"
#include "output/json.h"
#include "output/key_numbers.h"
#include "output/rule_rows.h"
#include "output/svg.h"
#include "plan/document.h"
#include "plan/json.h"
#include "plan/layout.h"
#include "plan/write.h"
#include "quantity/local_time.h"
#include "quantity/words.h"
#include "quantity/write.h"
#include "rules/acceptance.h"
#include "rules/catalogue.h"
#include "rules/practice.h"
#include "rules/telling.h"

namespace starter {
namespace {

/// What stops a request from being carried out, in words.
struct Refused {
  std::string says;
};

/// A request and the plan it speaks of, with the files that belong to it.
class Request {
 public:
  Request(Json said, std::string_view bytes) : said_(std::move(said)), plan_(bytes) {
    practice_bytes_ = taken("practice");
    accepted_bytes_ = taken("accepted");
    if (!has("practice")) practice_ = usual_practice(catalogue());
  }

  std::string text(const char* name, const char* otherwise = "") const {
    const auto found = said_.find(name);
    if (found == said_.end()) return otherwise;
    if (!found->is_string()) throw Refused{std::string("“") + name + "” must be a text"};
    return found->get<std::string>();
  }
  bool flag(const char* name, bool otherwise) const {
    const auto found = said_.find(name);
    if (found == said_.end()) return otherwise;
    if (!found->is_boolean()) throw Refused{std::string("“") + name + "” must be true or false"};
    return found->get<bool>();
  }
  const Json& part(const char* name) const {
    const auto found = said_.find(name);
    if (found == said_.end()) throw Refused{std::string("“") + name + "” is missing"};
    return *found;
  }
  bool has(const char* name) const { return said_.contains(name); }

  UnitSystem units() const {
    const std::string word = text("units", "metric");
    if (word == "metric") return UnitSystem::metric;
    if (word == "us") return UnitSystem::us;
    throw Refused{"units are metric or us, not " + starter::quoted(word)};
  }
  const Rule& rule() const {
    const std::string id = text("rule");
    if (const Rule* rule = find_rule(id)) return *rule;
    std::vector<std::string_view> ids;
    for (const Rule& known : catalogue()) ids.push_back(known.id);
    const auto nearest = nearest_word(id, ids);
    throw Refused{"there is no rule " + starter::quoted(id) + "." +
                  (nearest ? " Did you mean " + *nearest + "?" : "")};
  }
  std::string_view plan() const { return plan_; }
  /// What the plan's file is called.
  std::string name() const { return text("name", "-"); }
  PlanResult read() const { return read_plan(plan_, practice().defaults); }

  PracticeResult read_practice() const {
    return starter::read_practice(practice_bytes_, {catalogue(), cautions()});
  }
  /// The usual one where the request has none. The pages look at a club's file before they use it.
  const Practice& practice() const {
    if (practice_) return *practice_;
    PracticeResult read = read_practice();
    if (const auto* errors = std::get_if<std::vector<PlanError>>(&read))
      throw Refused{"the practice file cannot be used: " + errors->front().says};
    return practice_.emplace(std::get<Practice>(std::move(read)));
  }
  /// None where the request has none.
  AcceptancesResult read_accepted() const {
    return has("accepted") ? read_acceptances(accepted_bytes_)
                           : AcceptancesResult(std::vector<AcceptanceRecord>());
  }

 private:
  /// The last bytes, as many as the request says.
  std::string_view taken(const char* name) {
    const auto found = said_.find(name);
    if (found == said_.end()) return {};
    if (!found->is_number_unsigned() || found->get<std::size_t>() > plan_.size())
      throw Refused{std::string("“") + name + "” must be how many of the bytes are its own"};
    const std::string_view part = plan_.substr(plan_.size() - found->get<std::size_t>());
    plan_.remove_suffix(part.size());
    return part;
  }

  Json said_;
  std::string_view plan_, accepted_bytes_, practice_bytes_;
  mutable std::optional<Practice> practice_;
};

/// A plan that can be judged, with what a mentor accepted of it.
struct Given {
  Plan plan;
  std::vector<AcceptanceRecord> accepted;
};

Judgement judged(const Request& request, Given given, bool fixes) {
  JudgeOptions how;
  how.units = request.units();
  how.fixes = fixes;
  Judgement judgement = judge(std::move(given.plan), request.practice().rules(), how);
  apply_acceptances(judgement, given.accepted);
  return judgement;
}

/// The answer that `tell` gives of the plan, or why it cannot be used, as the program tells it.
template <class Tell>
Json of_plan(const Request& request, Tell tell) {
  const std::string name = request.name();
  PlanResult plan = request.read();
  if (const auto* errors = std::get_if<std::vector<PlanError>>(&plan))
    return errors_json(name, *errors);
  AcceptancesResult accepted = request.read_accepted();
  if (auto* errors = std::get_if<std::vector<PlanError>>(&accepted))
    return errors_json(name, in_file(name, acceptance_file_name(name), std::move(*errors)));
  return tell(Given{std::get<Plan>(std::move(plan)),
                    std::get<std::vector<AcceptanceRecord>>(std::move(accepted))});
}

Json check(const Request& request) {
  return of_plan(request, [&](Given given) {
    return check_json(request.name(),
                      judged(request, std::move(given), request.flag("fixes", true)));
  });
}

Json measures(const Request& request) {
  return of_plan(request, [&](const Given& given) {
    return measures_json(request.name(), given.plan, measure(given.plan, unfold(given.plan)));
  });
}

Json schedules(const Request& request) {
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

/// Every word of a mentor's on the plan in a sentence: those that hold, those that no longer do,
/// and at the end those on what is no longer found.
Json words_json(const Judgement& judgement) {
  Json list = Json::array();
  const auto add = [&](const char* stands, Json finding, const std::string& rule,
                       const std::string& where, std::string says) {
    list.push_back(Json({{"stands", stands},
                         {"finding", std::move(finding)},
                         {"rule", rule},
                         {"where", where},
                         {"says", std::move(says)}}));
  };
  for (std::size_t i = 0; i < judgement.findings.size(); ++i) {
    const Finding& f = judgement.findings[i];
    if (f.accepted)
      add("accepted", i, f.rule->id, f.accepted->where,
          accepted_in_words(*f.accepted) +
              (f.counts() ? " " + std::string(acknowledged_only) : ""));
    if (f.reopened)
      add("reopened", i, f.rule->id, f.reopened->was.where, reopened_in_words(*f.reopened));
  }
  for (const AcceptanceRecord& r : judgement.unused)
    add("unused", nullptr, r.rule, r.where, unused_in_words(r, judgement.plan));
  return list;
}

Json look(const Request& request) {
  Json told = of_plan(request, [&](Given given) -> Json {
    const UnitSystem units = request.units();
    const Judgement judgement = judged(request, std::move(given), request.flag("fixes", true));
    const Calendar calendar = calendar_of(judgement, units);
    Json of_it = {{"check", check_json(request.name(), judgement)},
                  {"schedule", calendar_json(request.name(), calendar, judgement)},
                  {"key_numbers", key_numbers_json(judgement, units)},
                  {"steps", steps_json(judgement.plan)},
                  {"words", words_json(judgement)}};
    if (request.flag("numbers", true)) of_it["numbers"] = numbers_json(judgement, units);
    return of_it;
  });
  if (told.contains("errors")) return {{"check", std::move(told)}};
  return told;
}

/// What the club's practice file says, in words, or why it cannot be used.
Json practice(const Request& request) {
  const PracticeResult read = request.read_practice();
  if (const auto* errors = std::get_if<std::vector<PlanError>>(&read))
    return errors_json(request.name(), *errors);
  const auto& practice = std::get<Practice>(read);
  Json rules = Json::array(), off = Json::array();
  for (const Rule& rule : practice.rules())
    if (rule.club)
      rules.push_back(Json({{"rule", rule.id},
                            {"title", rule.title},
                            {"own", rule.club->own},
                            {"says", club_in_words(*rule.club)}}));
  for (const SwitchedOff& rule : practice.off)
    off.push_back(Json({{"rule", rule.rule}, {"title", rule.title}, {"because", rule.because}}));
  return {{"club", practice.club}, {"rules", rules}, {"off", off}};
}

/// Which findings the acceptances are of, or why they cannot be used.
Json accepted(const Request& request) {
  const AcceptancesResult read = request.read_accepted();
  if (const auto* errors = std::get_if<std::vector<PlanError>>(&read))
    return errors_json(request.name(), *errors);
  Json list = Json::array();
  for (const AcceptanceRecord& r : std::get<std::vector<AcceptanceRecord>>(read))
    list.push_back(Json({{"rule", r.rule}, {"where", r.where}}));
  return {{"records", list}};
}

/// A mentor's name or reason.
std::string word_of(const Request& request, const char* name, const char* missing) {
  const std::string text = request.text(name);
  if (text.find_first_not_of(" \t\r\n") == std::string::npos) throw Refused{missing};
  if (const std::string wrong = wrong_word(text); !wrong.empty()) throw Refused{wrong};
  return text;
}

/// The day as ISO 8601 has it; empty where none is given.
std::string day_of(const Request& request) {
  const std::string typed = request.text("on");
  if (typed.empty()) return "";
  std::string says, write;
  const auto read = read_time(typed, &says, &write);
  if (!read) throw Refused{"the day: " + says};
  if (read->has_clock) throw Refused{"a day is wanted, without a clock time"};
  return iso_day(read->at);
}

Json accept(const Request& request) {
  const std::string by = word_of(request, "by", "the name of who accepts it is missing");
  const std::string because =
      word_of(request, "because", "the reason is missing: why it may stand");
  const std::string on = day_of(request);
  return of_plan(request, [&](Given given) -> Json {
    const std::vector<AcceptanceRecord> kept = given.accepted;
    const Judgement judgement = judged(request, std::move(given), false);
    std::vector<const Finding*> chosen;
    for (const Finding& f : judgement.findings)
      if (f.rule->id == request.text("rule") && f.where == request.text("where"))
        chosen.push_back(&f);
    if (chosen.empty()) throw Refused{"there is no such finding to accept"};
    return {
        {"accepted", write_acceptances(accept_findings(kept, chosen, by, because, on).records)}};
  });
}

Json withdraw(const Request& request) {
  AcceptancesResult read = request.read_accepted();
  auto* records = std::get_if<std::vector<AcceptanceRecord>>(&read);
  if (records == nullptr) throw Refused{"the acceptances cannot be read"};
  const auto taken = std::erase_if(*records, [&](const AcceptanceRecord& r) {
    return r.rule == request.text("rule") && r.where == request.text("where");
  });
  if (taken == 0) throw Refused{"there is no such acceptance to take back"};
  return {{"accepted", write_acceptances(*records)}};
}

Json rows(const Request& request) {
  const Rule& rule = request.rule();
  Json list = Json::array();
  for (const RuleRow& row : rule_rows(rule, request.units()))
    list.push_back(
        Json({{"name", row.name},
              {"says", row.text + (row.severity ? std::string(meaning_of(*row.severity)) : "")},
              {"severity", row.severity ? Json(spelling(*row.severity)) : Json(nullptr)}}));
  return {{"rows", list}, {"sources", source_sentences(rule)}};
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

Json drawn(const Drawing& drawing) {
  return {{"dot", dot_of(drawing)}, {"title", drawing.title}, {"about", drawing.about}};
}

Json draw(const Request& request) {
  DrawingOptions options;
  options.units = request.units();
  if (request.flag("standard", false)) return drawn(standard_drawing(options));
  if (request.has("rule")) return drawn(rule_drawing(request.rule(), options));
  return of_plan(request, [&](Given given) {
    return drawn(drawing_of(judged(request, std::move(given), false), options));
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

Json all_cautions(const Request&) {
  Json list = Json::array();
  for (const Caution& c : cautions())
    list.push_back(Json({{"id", c.id}, {"title", c.title}, {"text", c.text}}));
  return list;
}

struct Service {
  std::string_view word;
  Json (*carry_out)(const Request&);
};
constexpr Service services[] = {
    {"check", check},
    {"look", look},
    {"measure", measures},
    {"schedule", schedules},
    {"explain", explain},
    {"rows", rows},
    {"draw", draw},
    {"picture", picture},
    {"calendar", calendar_file},
    {"change", change},
    {"steps", steps},
    {"schema", schema},
    {"cautions", all_cautions},
    {"practice", practice},
    {"accepted", accepted},
    {"accept", accept},
    {"withdraw", withdraw},
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
