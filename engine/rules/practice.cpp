#include "rules/practice.h"

#include <algorithm>
#include <array>

#include "plan/pointer.h"
#include "rules/practice_parts.h"

namespace starter {

/// The bytes of practice.schema.json, embedded at build.
extern const std::string_view practice_schema_text;

namespace {

constexpr std::size_t most_own_rules = 100;
constexpr auto top = std::to_array<std::string_view>(
    {"practice", "club", "about", "defaults", "rules", "own_rules"});

const Rule* find_in(std::span<const Rule> rules, std::string_view id) {
  for (const Rule& rule : rules)
    if (rule.id == id) return &rule;
  return nullptr;
}

void read_version(const Fields& fields) {
  fields.ask_for("practice", "the version of the file’s form, which is 1", R"("practice": 1)");
  const Node* version = fields.find("practice");
  if (version == nullptr || (version->kind == Node::Kind::number && version->number == 1)) return;
  const bool newer = version->kind == Node::Kind::number && version->number >= 2;
  fields.wrong("practice",
               newer ? "this file says version " + short_number(*version) +
                           ": this program is older than the file"
                     : described(*version) + " stands here; the version of the file’s form is 1",
               newer ? "get the newer program, or write the file for version 1" : "1");
}

/// Lays the file's changes over the catalogue.
void change_rules(const Node* node, const PracticeBase& base, Practice& made, Report& report) {
  std::vector<std::string_view> ids;
  for (const Rule& rule : base.catalogue) ids.push_back(rule.id);
  if (node != nullptr)
    for (const Member& member : node->members)
      if (!find_in(base.catalogue, member.name))
        practice::unknown(pointer_to("/rules", member.name), member.at, "rule", member.name, ids,
                          report);
  for (const Rule& rule : base.catalogue) {
    Rule copy = rule;
    bool on = true;
    if (node != nullptr)
      for (const Member& member : node->members)
        if (member.name == rule.id)
          on = practice::change_rule(member, made.club, copy, made.off, report);
    if (on) made.changed.push_back(std::move(copy));
  }
}

void add_own_rules(const Node* node, const PracticeBase& base, Practice& made, Report& report) {
  if (node == nullptr) return;
  if (node->items.size() > most_own_rules) {
    report.add("/own_rules", node->at,
               "there are " + std::to_string(node->items.size()) + " rules; at most " +
                   std::to_string(most_own_rules) + " are read",
               "keep those the club needs");
    return;
  }
  std::vector<std::string> taken;
  for (const Rule& rule : base.catalogue) taken.push_back(rule.id);
  for (std::size_t i = 0; i < node->items.size(); ++i) {
    auto rule = practice::read_own_rule(node->items[i], pointer_to("/own_rules", i), made.club,
                                        base, taken, report);
    if (!rule) continue;
    taken.push_back(rule->id);
    made.changed.push_back(std::move(*rule));
  }
}

}  // namespace

const Rule* Practice::find(std::string_view id) const {
  return find_in(rules(), id);
}

const SwitchedOff* Practice::find_off(std::string_view id) const {
  for (const SwitchedOff& rule : off)
    if (rule.rule == id) return &rule;
  return nullptr;
}

Practice usual_practice(std::span<const Rule> catalogue) {
  Practice made;
  made.catalogue = catalogue;
  return made;
}

PracticeResult read_practice(std::string_view bytes, const PracticeBase& base) {
  Report report;
  if (bytes.size() > largest_plan) {
    report.add("", {},
               "the file is " + std::to_string(bytes.size() / 1024) +
                   " kB large; a practice file has at most " + std::to_string(largest_plan / 1024) +
                   " kB",
               "");
    return report.in_file_order();
  }
  if (bytes.find_first_not_of(" \t\r\n") == std::string_view::npos) {
    report.add("", {1, 0}, "the file is empty; a practice file names the club and what it changes",
               R"({"practice": 1, "club": "..."})");
    return report.in_file_order();
  }
  const auto root = read_document(bytes, report);
  if (!root) return report.in_file_order();
  if (root->kind != Node::Kind::object) {
    report.add(
        "", root->at,
        described(*root) + " stands here; a practice file is an object, its fields in braces",
        R"({"practice": 1, "club": "..."})");
    return report.in_file_order();
  }
  Practice made = usual_practice(base.catalogue);
  const Fields fields = practice::fields_of(&*root, "", top, report);
  read_version(fields);
  fields.ask_for("club", "whose practice this is; findings name it",
                 R"("club": "Lantern Lane Brewers")");
  made.club = fields.name("club").value_or("");
  fields.text("about");
  made.defaults.club = made.club;
  practice::read_defaults(fields.object("defaults"), made.defaults, report);
  change_rules(fields.object("rules"), base, made, report);
  add_own_rules(fields.list("own_rules", "[]"), base, made, report);
  if (!report.empty()) return report.in_file_order();
  std::sort(made.changed.begin(), made.changed.end(),
            [](const Rule& a, const Rule& b) { return a.id < b.id; });
  return made;
}

std::string practice_schema() {
  return std::string(practice_schema_text);
}

bool can_endanger(const Rule& rule) {
  switch (rule.kind) {
    case RuleKind::range:
    case RuleKind::consistent:
      return std::max(rule.outside_comfortable, rule.outside_hard) == Severity::danger;
    case RuleKind::order:
    case RuleKind::contact:
      return rule.severity == Severity::danger;
    case RuleKind::present:
      break;
  }
  return rule.otherwise == Severity::danger ||
         std::any_of(rule.others.begin(), rule.others.end(),
                     [](const auto& other) { return other.second == Severity::danger; });
}

}  // namespace starter
