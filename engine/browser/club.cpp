#include "browser/club.h"

#include <algorithm>
#include <cstddef>
#include <iterator>
#include <utility>
#include <variant>

#include "browser/reference.h"
#include "browser/request.h"
#include "output/acceptance_words.h"
#include "output/characters.h"
#include "output/json.h"
#include "plan/json.h"
#include "quantity/local_time.h"
#include "rules/catalogue.h"

namespace starter {
namespace {

PracticeResult practice_in(std::string_view bytes) {
  return read_practice(bytes, {catalogue(), cautions()});
}

Practice practice_of(std::string_view bytes) {
  PracticeResult read = practice_in(bytes);
  if (const auto* errors = std::get_if<std::vector<PlanError>>(&read))
    throw Refused{"the practice file cannot be used: " + errors->front().says};
  return std::get<Practice>(std::move(read));
}

AcceptancesResult acceptances_of(const std::string& plan, std::string_view bytes) {
  AcceptancesResult read = read_acceptances(bytes);
  if (auto* errors = std::get_if<std::vector<PlanError>>(&read))
    return in_file(plan, acceptance_file_name(plan), std::move(*errors));
  return read;
}

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

/// What the club's practice file says, in words, or why it cannot be used.
Json practice(const Request& request) {
  const PracticeResult read = practice_in(request.practice_bytes());
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

AcceptancesResult accepted_in(const Request& request) {
  return request.has("accepted") ? read_acceptances(request.accepted_bytes())
                                 : AcceptancesResult(std::vector<AcceptanceRecord>());
}

/// Which findings the acceptances are of, or why they cannot be used.
Json accepted(const Request& request) {
  const AcceptancesResult read = accepted_in(request);
  if (const auto* errors = std::get_if<std::vector<PlanError>>(&read))
    return errors_json(request.name(), *errors);
  Json list = Json::array();
  for (const AcceptanceRecord& r : std::get<std::vector<AcceptanceRecord>>(read))
    list.push_back(Json({{"rule", r.rule}, {"where", r.where}}));
  return {{"records", list}};
}

/// A mentor's name or reason.
std::string word_of(const Request& request, const char* name, const char* missing) {
  std::string text = request.text(name);
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
  AcceptancesResult read = accepted_in(request);
  auto* records = std::get_if<std::vector<AcceptanceRecord>>(&read);
  if (records == nullptr) throw Refused{"the acceptances cannot be read"};
  const auto taken = std::erase_if(*records, [&](const AcceptanceRecord& r) {
    return r.rule == request.text("rule") && r.where == request.text("where");
  });
  if (taken == 0) throw Refused{"there is no such acceptance to take back"};
  return {{"accepted", write_acceptances(*records)}};
}

constexpr Service services[] = {
    {"practice", practice},
    {"accepted", accepted},
    {"accept", accept},
    {"withdraw", withdraw},
    {"measure", tell_measures},
    {"schedule", tell_schedule},
    {"explain", explain},
    {"rows", tell_rows},
    {"cautions", tell_cautions},
    {"draw_rule", draw_rule},
    {"draw_process", draw_process},
};
static_assert(std::equal(std::begin(services), std::end(services), std::begin(club_words),
                         std::end(club_words),
                         [](const Service& s, std::string_view word) { return s.word == word; }));
constexpr Club all = {practice_of, acceptances_of, apply_acceptances, words_json, services};

}  // namespace

const Club* club() {
  return &all;
}

}  // namespace starter
