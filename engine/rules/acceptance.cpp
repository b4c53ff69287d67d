#include "rules/acceptance.h"

#include <algorithm>
#include <array>
#include <functional>

#include "plan/fields.h"
#include "plan/json.h"
#include "plan/pointer.h"
#include "quantity/local_time.h"
#include "quantity/words.h"
#include "rules/readings.h"

namespace starter {

/// The bytes of accepted.schema.json, embedded at build.
extern const std::string_view acceptances_schema_text;

namespace {

constexpr std::size_t most_records = 1000;
constexpr std::size_t most_readings = 200;
constexpr auto top = std::to_array<std::string_view>({"accepted", "about", "findings"});
constexpr auto parts = std::to_array<std::string_view>(
    {"rule", "where", "by", "because", "on", "fingerprint", "read"});
constexpr auto reading_parts = std::to_array<std::string_view>({"what", "value", "says"});

const Reading* find_reading(std::span<const Reading> all, std::string_view what) {
  for (const Reading& r : all)
    if (r.what == what) return &r;
  return nullptr;
}

/// Two values that print alike for people are told exactly.
ReadingChange change(const Reading& was, const Reading& is) {
  if (was.says == is.says) return {is.what, was.value, is.value};
  return {is.what, was.says, is.says};
}

bool same_names(std::span<const Reading> a, std::span<const Reading> b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                    [](const Reading& x, const Reading& y) { return x.what == y.what; });
}

// --- reading ----------------------------------------------------------------------------------

constexpr std::string_view accept_again =
    "accept it again: starter-plan accept PLAN RULE --by NAME --because TEXT";

bool is_object(const Node& node, const std::string& where, Report& report) {
  if (node.kind == Node::Kind::object) return true;
  report.add(where, node.at, described(node) + " stands here; wanted is an object, in braces",
             "take it out");
  return false;
}

std::vector<Reading> read_readings(const Fields& fields, Report& report) {
  std::vector<Reading> read;
  fields.ask_for("read", "what the rule read when it was accepted", std::string(accept_again));
  const Node* list = fields.list("read", "[]");
  if (list == nullptr) return read;
  if (list->items.size() > most_readings) {
    fields.wrong("read", "this is longer than any rule reads", std::string(accept_again));
    return read;
  }
  for (std::size_t i = 0; i < list->items.size(); ++i) {
    const Node& item = list->items[i];
    const std::string place = pointer_to(fields.where("read"), i);
    if (!is_object(item, place, report)) continue;
    const Fields reading(&item, place, reading_parts, report, {});
    reading.ask_for("what", "what was read", R"("what": "...")");
    reading.ask_for("value", "its value then", R"("value": "...")");
    Reading made{reading.name("what").value_or(""), reading.text("value").value_or(""), ""};
    made.says = reading.text("says").value_or(made.value);
    read.push_back(std::move(made));
  }
  return read;
}

std::string read_day(const Fields& fields) {
  const auto day = fields.time("on");
  if (!day) return "";
  if (day->has_clock) fields.wrong("on", "a day is wanted, without a clock time", iso_day(day->at));
  return iso_day(day->at);
}

AcceptanceRecord read_record(const Node& node, const std::string& where, Report& report) {
  const Fields fields(&node, where, parts, report, {});
  AcceptanceRecord made;
  fields.ask_for("rule", "the rule whose finding is accepted", R"("rule": "ice-late")");
  fields.ask_for("where", "where it was found", R"("where": "/steps/4")");
  fields.ask_for("by", "who accepts it", R"("by": "Moss")");
  fields.ask_for("because", "why it may stand", R"("because": "...")");
  fields.ask_for("fingerprint", "that of what the rule read", std::string(accept_again));
  made.rule = fields.name("rule").value_or("");
  made.where = fields.text("where").value_or("");
  made.by = fields.name("by").value_or("");
  made.because = fields.name("because").value_or("");
  made.on = read_day(fields);
  made.fingerprint = fields.name("fingerprint").value_or("");
  made.read = read_readings(fields, report);
  if (!made.where.empty() && made.where.front() != '/')
    fields.wrong("where", "a place in the plan is a JSON pointer and begins with a slash",
                 "/" + made.where);
  return made;
}

}  // namespace

std::string acceptance_file_name(const std::string& plan) {
  if (plan == "-") return "";
  std::string stem = plan;
  for (const std::string_view ending : {".json", ".plan"}) {
    // Of a name that is nothing but the ending, it is no ending.
    const std::size_t name = stem.size() - (stem.rfind('/') + 1);
    if (name > ending.size() && std::string_view(stem).ends_with(ending))
      stem.resize(stem.size() - ending.size());
  }
  return stem + ".accepted.json";
}

std::string wrong_word(const std::string& text) {
  if (!valid_utf8(text)) return "the texts must be UTF-8.";
  if (count_characters(text) > most_characters)
    return "a text has at most " + std::to_string(most_characters) + " characters; shorten it.";
  Report report;
  if (check_text(text, "", {}, report)) return "";
  return report.in_file_order().front().says + "; take it out.";
}

AcceptedNow accept_findings(std::span<const AcceptanceRecord> kept,
                            std::span<const Finding* const> findings, const std::string& by,
                            const std::string& because, const std::string& on) {
  AcceptedNow now;
  if (findings.empty()) return {{kept.begin(), kept.end()}, {}};
  const Finding& first = *findings.front();
  for (const AcceptanceRecord& r : kept) {
    if (r.rule != first.rule->id || r.where != first.where)
      now.records.push_back(r);
    else if (r.by != by || r.because != because || r.on != on)
      now.replaced.push_back(r);
  }
  for (const Finding* f : findings) now.records.push_back(record_of(*f, by, because, on));
  return now;
}

AcceptanceRecord record_of(const Finding& finding, std::string by, std::string because,
                           std::string on) {
  return {finding.rule->id,   finding.where, std::move(by),
          std::move(because), std::move(on), fingerprint_of(finding.rule->id, finding.read),
          finding.read};
}

std::vector<ReadingChange> changes_between(std::span<const Reading> was,
                                           std::span<const Reading> is) {
  std::vector<ReadingChange> changes;
  for (const Reading& now : is) {
    const Reading* before = find_reading(was, now.what);
    if (!before)
      changes.push_back({now.what, "", now.says});
    else if (before->value != now.value)
      changes.push_back(change(*before, now));
  }
  for (const Reading& before : was)
    if (!find_reading(is, before.what)) changes.push_back({before.what, before.says, ""});
  return changes;
}

void apply_acceptances(Judgement& j, std::span<const AcceptanceRecord> records) {
  std::vector<std::string> prints;
  prints.reserve(j.findings.size());
  for (const Finding& f : j.findings) prints.push_back(fingerprint_of(f.rule->id, f.read));
  std::vector<bool> answered(j.findings.size(), false), used(records.size(), false);
  using Fits = std::function<bool(const AcceptanceRecord&, const Finding&, bool same)>;
  // Surest first, so that a record that still holds is never spent on a finding it does not fit.
  const std::array<Fits, 4> passes = {
      [](const AcceptanceRecord& r, const Finding& f, bool same) {
        return same && r.where == f.where;
      },
      [](const AcceptanceRecord&, const Finding&, bool same) { return same; },
      [](const AcceptanceRecord& r, const Finding& f, bool) { return r.where == f.where; },
      // A number of a stage is the same number wherever its step stands now; of things and steps
      // another one may be meant.
      [](const AcceptanceRecord& r, const Finding& f, bool) {
        return (f.rule->kind == RuleKind::range || f.rule->kind == RuleKind::consistent) &&
               same_names(r.read, f.read);
      }};
  for (const Fits& fits : passes)
    for (std::size_t r = 0; r < records.size(); ++r)
      for (std::size_t i = 0; i < j.findings.size() && !used[r]; ++i) {
        const AcceptanceRecord& record = records[r];
        Finding& f = j.findings[i];
        const bool same = record.fingerprint == prints[i];
        if (answered[i] || record.rule != f.rule->id || !fits(record, f, same)) continue;
        answered[i] = used[r] = true;
        const Acceptance word{record.by, record.because, record.on, f.severity == Severity::danger,
                              record.where};
        if (same)
          f.accepted = word;
        else
          f.reopened = Reopened{word, changes_between(record.read, f.read)};
      }
  for (std::size_t r = 0; r < records.size(); ++r)
    if (!used[r]) j.unused.push_back(records[r]);
}

AcceptancesResult read_acceptances(std::string_view bytes) {
  Report report;
  if (bytes.size() > largest_plan) {
    report.add("", {}, "the file is larger than any that this program writes", "");
    return report.in_file_order();
  }
  const auto root = read_document(bytes, report);
  if (!root) return report.in_file_order();
  if (!is_object(*root, "", report)) return report.in_file_order();
  const Fields fields(&*root, "", top, report, {});
  fields.ask_for("accepted", "the version of the file’s form, which is 1", R"("accepted": 1)");
  const Node* version = fields.find("accepted");
  if (version != nullptr && !(version->kind == Node::Kind::number && version->number == 1))
    fields.wrong("accepted",
                 described(*version) + " stands here; the version of the file’s form is 1", "1");
  fields.text("about");
  fields.ask_for("findings", "the list of accepted findings", R"("findings": [])");
  const Node* list = fields.list("findings", "[]");
  std::vector<AcceptanceRecord> records;
  if (list != nullptr && list->items.size() > most_records) {
    fields.wrong("findings",
                 "more than " + std::to_string(most_records) + " findings are accepted here",
                 "take out what is no longer needed");
    return report.in_file_order();
  }
  for (std::size_t i = 0; list != nullptr && i < list->items.size(); ++i) {
    const Node& item = list->items[i];
    const std::string where = pointer_to("/findings", i);
    if (!is_object(item, where, report)) continue;
    AcceptanceRecord record = read_record(item, where, report);
    if (!record.fingerprint.empty() && report.empty() &&
        record.fingerprint != fingerprint_of(record.rule, record.read))
      report.add(pointer_to(where, "fingerprint"), item.find("fingerprint")->at,
                 "this fingerprint does not belong to what stands under \"read\": one of them was "
                 "changed by hand",
                 std::string(accept_again));
    records.push_back(std::move(record));
  }
  if (!report.empty()) return report.in_file_order();
  return records;
}

std::string write_acceptances(std::span<const AcceptanceRecord> records) {
  Json out;
  out["accepted"] = 1;
  out["about"] =
      "Findings that stand with a mentor’s word. Written by starter-plan accept, and taken back by "
      "it with --withdraw.";
  out["findings"] = Json::array();
  for (const AcceptanceRecord& r : records) {
    Json one = {{"rule", r.rule}, {"where", r.where}, {"by", r.by}, {"because", r.because}};
    if (!r.on.empty()) one["on"] = r.on;
    one["fingerprint"] = r.fingerprint;
    one["read"] = Json::array();
    for (const Reading& reading : r.read) {
      Json kept = {{"what", reading.what}, {"value", reading.value}};
      if (reading.says != reading.value) kept["says"] = reading.says;
      one["read"].push_back(std::move(kept));
    }
    out["findings"].push_back(std::move(one));
  }
  return out.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

std::string acceptances_schema() {
  return std::string(acceptances_schema_text);
}

}  // namespace starter
