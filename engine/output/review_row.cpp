#include "output/review_row.h"

#include <algorithm>
#include <utility>

#include "output/sheet_view.h"
#include "output/verdict.h"
#include "rules/evaluate.h"

namespace starter {
namespace {

Json counts_json(const ReviewRow& row) {
  Json counts;
  for (const Severity s : {Severity::danger, Severity::spoils, Severity::weakens, Severity::note})
    counts[std::string(spelling(s))] = row.count(s);
  counts["accepted"] = row.accepted();
  return counts;
}

Json finding_json(const ReviewFinding& f) {
  return {
      {"rule", f.rule},   {"severity", spelling(f.severity)}, {"certainty", spelling(f.certainty)},
      {"where", f.where}, {"accepted", f.accepted},           {"counts", f.counts}};
}

std::optional<Certainty> certainty_from(std::string_view text) {
  for (const Certainty c : {Certainty::certain, Certainty::likely, Certainty::possible})
    if (spelling(c) == text) return c;
  return std::nullopt;
}

ReviewFinding finding_from(const Json& document) {
  ReviewFinding f;
  f.rule = document.at("rule").get<std::string>();
  f.severity = severity_from(document.at("severity").get<std::string>()).value();
  f.certainty = certainty_from(document.at("certainty").get<std::string>()).value();
  f.where = document.at("where").get<std::string>();
  f.accepted = document.at("accepted").get<bool>();
  f.counts = document.at("counts").get<bool>();
  return f;
}

void read_usable(const Json& document, ReviewRow& row) {
  row.title = document.at("title").get<std::string>();
  row.member = document.at("member").get<std::string>();
  row.beer = document.at("beer").get<std::string>();
  const Json& day = document.at("brew_day");
  if (!day.is_null()) row.brew_day = day.get<std::string>();
  row.verdict = document.at("verdict").get<std::string>();
  for (const Json& f : document.at("findings")) row.findings.push_back(finding_from(f));
  for (const Json& n : document.at("numbers"))
    row.numbers.push_back(
        {n.at("rule").get<std::string>(), n.at("value").get<double>(), n.at("level").get<int>()});
}

}  // namespace

int ReviewRow::count(Severity severity) const {
  return static_cast<int>(std::count_if(
      findings.begin(), findings.end(),
      [severity](const ReviewFinding& f) { return f.counts && f.severity == severity; }));
}

int ReviewRow::accepted() const {
  return static_cast<int>(std::count_if(findings.begin(), findings.end(),
                                        [](const ReviewFinding& f) { return f.accepted; }));
}

int ReviewRow::to_mend() const {
  return count(Severity::danger) + count(Severity::spoils) + count(Severity::weakens);
}

std::optional<Severity> ReviewRow::worst() const {
  for (const Severity s : {Severity::danger, Severity::spoils, Severity::weakens})
    if (count(s) > 0) return s;
  return std::nullopt;
}

ReviewRow review_row(const Judgement& j, std::span<const Rule> rules, UnitSystem units) {
  ReviewRow row;
  row.title = title_in_words(j.plan);
  row.member = j.plan.member;
  row.beer = beer_in_words(j.plan.beer, units);
  if (j.plan.beer.brew_day) row.brew_day = iso(*j.plan.beer.brew_day);
  row.verdict = verdict_of(j.findings);
  for (const Finding& f : j.findings)
    row.findings.push_back(
        {f.rule->id, f.severity, f.certainty, f.where, f.accepted.has_value(), f.counts()});
  for (const Standing& s : standings(rules, j.measures, j.facts))
    row.numbers.push_back({s.rule->id, s.measure->value, s.level});
  return row;
}

ReviewRow review_row(std::vector<PlanError> errors) {
  ReviewRow row;
  row.errors = std::move(errors);
  return row;
}

Json row_json(const ReviewRow& row) {
  Json out;
  out["plan"] = row.plan;
  out["sheet"] = row.sheet;
  if (!row.usable()) {
    out["errors"] = errors_json(row.plan, row.errors).at("errors");
    return out;
  }
  out["title"] = row.title;
  out["member"] = row.member;
  out["beer"] = row.beer;
  out["brew_day"] = row.brew_day.empty() ? Json(nullptr) : Json(row.brew_day);
  out["verdict"] = row.verdict;
  out["worst"] = row.worst() ? Json(spelling(*row.worst())) : Json(nullptr);
  out["counts"] = counts_json(row);
  out["findings"] = Json::array();
  for (const ReviewFinding& f : row.findings) out["findings"].push_back(finding_json(f));
  out["numbers"] = Json::array();
  for (const ReviewNumber& n : row.numbers)
    out["numbers"].push_back(Json({{"rule", n.rule}, {"value", n.value}, {"level", n.level}}));
  return out;
}

std::optional<ReviewRow> row_from_json(const Json& document) {
  try {
    ReviewRow row;
    row.plan = document.at("plan").get<std::string>();
    row.sheet = document.at("sheet").get<std::string>();
    if (!document.contains("errors")) {
      read_usable(document, row);
      return row;
    }
    for (const Json& e : document.at("errors"))
      row.errors.push_back({e.at("where").get<std::string>(), e.at("line").get<int>(),
                            e.at("says").get<std::string>(), e.at("write").get<std::string>()});
    return row.errors.empty() ? std::nullopt : std::optional(row);
  } catch (const Json::exception&) {
    return std::nullopt;
  } catch (const std::bad_optional_access&) {
    return std::nullopt;
  }
}

}  // namespace starter
