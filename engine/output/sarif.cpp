#include "output/sarif.h"

#include <fmt/format.h>

#include <map>

#include "plan/where.h"
#include "rules/catalogue.h"

namespace starter {
namespace {

constexpr std::string_view unusable_plan = "unusable-plan";

/// A file's name as a URI reference (RFC 3986): every byte but letters, digits, "-._~" and the
/// slash is percent-encoded, a colon too, since it could look like a scheme.
std::string uri_of(std::string_view name) {
  std::string out;
  for (const char c : name) {
    const auto byte = static_cast<unsigned char>(c);
    const bool letter = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
    if (letter || (c >= '0' && c <= '9') ||
        std::string_view("-._~/").find(c) != std::string_view::npos)
      out += c;
    else
      out += fmt::format("%{:02X}", byte);
  }
  return out;
}

std::string_view level_of(Severity severity) {
  switch (severity) {
    case Severity::danger:
    case Severity::spoils:
      return "error";
    case Severity::weakens:
      return "warning";
    case Severity::note:
      break;
  }
  return "note";
}

Json location(const std::string& name, int line, const std::string& where) {
  Json physical = {{"artifactLocation", {{"uri", uri_of(name)}}}};
  if (line > 0) physical["region"] = {{"startLine", line}};
  Json out = {{"physicalLocation", std::move(physical)}};
  if (!where.empty())
    out["logicalLocations"] =
        Json::array({Json({{"fullyQualifiedName", where}, {"kind", "value"}})});
  return out;
}

Json message(std::string text) {
  return {{"text", std::move(text)}};
}

/// A mentor's word. A danger is never suppressed: its word stays under review, which SARIF (section
/// 3.35.3) counts as not suppressed.
Json suppressions(const Finding& f) {
  Json all = Json::array();
  if (f.accepted)
    all.push_back({{"kind", "external"},
                   {"status", f.counts() ? "underReview" : "accepted"},
                   {"justification", f.accepted->by + ": " + f.accepted->because}});
  return all;
}

Json rule_json(const std::string& id) {
  if (id == unusable_plan)
    return {{"id", id},
            {"shortDescription", message("The plan cannot be used")},
            {"defaultConfiguration", {{"level", "error"}}}};
  const Rule* rule = find_rule(id);
  if (!rule) return {{"id", id}};
  return {{"id", id},
          {"shortDescription", message(rule->title)},
          {"fullDescription", message(rule->why)},
          {"help", message(rule->advice)}};
}

}  // namespace

Json sarif_results(const std::string& name, const Judgement& judgement) {
  Json results = Json::array();
  const std::string& bytes = judgement.plan.source ? *judgement.plan.source : std::string();
  for (const Finding& f : judgement.findings) {
    Json result;
    result["ruleId"] = f.rule->id;
    result["level"] = level_of(f.severity);
    std::string says = f.fix ? f.says + " " + f.fix->says : f.says;
    if (!f.narrow.empty()) says += " To be surer, " + f.narrow + ".";
    result["message"] = message(std::move(says));
    result["locations"] = Json::array({location(name, line_of(bytes, f.where), f.where)});
    Json properties = {{"severity", spelling(f.severity)}, {"certainty", spelling(f.certainty)}};
    if (!f.narrow.empty()) properties["narrow"] = f.narrow;
    result["properties"] = std::move(properties);
    result["suppressions"] = suppressions(f);
    if (!f.narrow_where.empty()) {
      Json related = location(name, line_of(bytes, f.narrow_where), f.narrow_where);
      result["relatedLocations"] = Json::array();
      result["relatedLocations"].push_back(std::move(related));
    }
    results.push_back(std::move(result));
  }
  return results;
}

Json sarif_results(const std::string& name, std::span<const PlanError> errors) {
  Json results = Json::array();
  for (const PlanError& error : errors) {
    Json result;
    result["ruleId"] = unusable_plan;
    result["level"] = "error";
    result["message"] = message(
        error.write.empty() ? error.says : fmt::format("{}; write {}", error.says, error.write));
    result["locations"] = Json::array({location(name, error.line, error.where)});
    result["suppressions"] = Json::array();
    results.push_back(std::move(result));
  }
  return results;
}

Json sarif_log(std::span<const Json> results, std::string_view version) {
  std::map<std::string, std::size_t> index_of;
  Json rules = Json::array(), all = Json::array();
  for (const Json& of_plan : results) {
    for (Json result : of_plan) {
      const std::string id = result.at("ruleId");
      const auto [known, fresh] = index_of.emplace(id, rules.size());
      if (fresh) rules.push_back(rule_json(id));
      result["ruleIndex"] = known->second;
      all.push_back(std::move(result));
    }
  }
  Json run;
  run["tool"]["driver"] = {{"name", "starter-plan"}, {"version", version}, {"rules", rules}};
  run["results"] = std::move(all);
  Json log;
  log["$schema"] =
      "https://docs.oasis-open.org/sarif/sarif/v2.1.0/os/schemas/sarif-schema-2.1.0.json";
  log["version"] = "2.1.0";
  log["runs"] = Json::array({std::move(run)});
  return log;
}

}  // namespace starter
