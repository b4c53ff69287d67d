// One of "own_rules" in a practice file: a rule of the club's own, over any measure, step or fact.

#include <algorithm>

#include "measures/facts.h"
#include "plan/json.h"
#include "plan/pointer.h"
#include "rules/fixes.h"
#include "rules/knobs.h"
#include "rules/practice_parts.h"

namespace starter::practice {
namespace {

using Names = std::vector<std::string_view>;

constexpr std::string_view kinds[] = {"range", "order", "contact", "present"};

std::optional<RuleKind> kind_from(std::string_view word) {
  for (const RuleKind kind :
       {RuleKind::range, RuleKind::order, RuleKind::contact, RuleKind::present})
    if (spelling(kind) == word) return kind;
  return std::nullopt;
}

Names fields_for(std::optional<RuleKind> kind) {
  Names names = {"id",      "title",   "kind",      "why",  "do",
                 "because", "sources", "caution",   "when", "yields_to",
                 "lesson",  "example", "objection", "fix",  "severity"};
  const auto add = [&](std::initializer_list<std::string_view> more) {
    for (const std::string_view name : more)
      if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
  };
  if (!kind || kind == RuleKind::range)
    add({"measure", "told_as", "comfortable", "hard", "by", "low", "high"});
  if (!kind || kind == RuleKind::order) add({"first", "then", "until", "items", "says"});
  if (!kind || kind == RuleKind::contact) add({"items", "says"});
  if (!kind || kind == RuleKind::present) add({"fact", "fine", "others", "otherwise", "says"});
  if (kind == RuleKind::present) names.erase(std::find(names.begin(), names.end(), "severity"));
  return names;
}

Json as_json(const Node& node) {
  switch (node.kind) {
    case Node::Kind::null:
      return nullptr;
    case Node::Kind::boolean:
      return node.truth;
    case Node::Kind::number:
      return node.number;
    case Node::Kind::text:
      return node.text;
    case Node::Kind::list: {
      Json list = Json::array();
      for (const Node& item : node.items) list.push_back(as_json(item));
      return list;
    }
    case Node::Kind::object: {
      Json object = Json::object();
      for (const Member& member : node.members) object[member.name] = as_json(member.value);
      return object;
    }
  }
  return nullptr;
}

/// Words of small letters and digits, joined by dashes, the first beginning with a letter.
bool is_id(std::string_view text) {
  constexpr std::size_t most = 60;
  if (text.empty() || text.size() > most || text.front() < 'a' || text.front() > 'z') return false;
  char before = 'a';
  for (const char c : text) {
    const bool in_word = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
    if (!in_word && (c != '-' || before == '-')) return false;
    before = c;
  }
  return before != '-';
}

/// Checks one rule part by part, so that each fault is told where it stands; what reads it in the
/// end is what reads the catalogue.
class Checker {
 public:
  Checker(const Node& node, std::string where, const PracticeBase& base,
          const std::vector<std::string>& taken, Report& report)
      : node_(node),
        where_(std::move(where)),
        kind_(kind_of(node)),
        names_(fields_for(kind_)),
        fields_(fields_of(&node, where_, names_, report)),
        base_(base),
        taken_(taken),
        report_(report) {}

  void check() {
    id();
    line("title", "what it looks at, in two to six words", R"("title": "Water from the tap")");
    kind();
    fields_.ask_for("why", "what happens and why it matters", R"("why": "...")");
    fields_.name("why");
    fields_.ask_for("do", "the practical next step", R"("do": "...")");
    fields_.name("do");
    fields_.name("because");
    one_line(fields_, "objection");
    lesson();
    words("caution", "caution", caution_ids());
    std::vector<std::string_view> ids(taken_.begin(), taken_.end());
    words("yields_to", "rule", ids);
    conditions();
    example();
    sources();
    if (kind_ == RuleKind::range) range();
    if (kind_ == RuleKind::order) order();
    if (kind_ == RuleKind::contact) contact();
    if (kind_ == RuleKind::present) present();
    fixes();
  }

 private:
  static std::optional<RuleKind> kind_of(const Node& node) {
    const Node* kind = node.find("kind");
    return kind != nullptr && kind->kind == Node::Kind::text ? kind_from(kind->text) : std::nullopt;
  }

  std::optional<std::string> line(std::string_view name, std::string_view is,
                                  std::string_view example) {
    fields_.ask_for(name, is, std::string(example));
    return one_line(fields_, name);
  }

  static std::optional<std::string> one_line(const Fields& fields, std::string_view name) {
    auto text = fields.name(name);
    if (text && text->find('\n') != std::string::npos) {
      fields.wrong(name, "this goes over several lines", "it in one line");
      return std::nullopt;
    }
    return text;
  }

  void id() {
    const auto id = line("id", "what the rule is called in commands", R"("id": "our-tap-water")");
    if (!id) return;
    if (!is_id(*id))
      fields_.wrong("id", "an id is small letters and digits, in words joined by dashes",
                    "our-tap-water");
    else if (std::find(taken_.begin(), taken_.end(), *id) != taken_.end())
      fields_.wrong("id",
                    "there is a rule " + starter::quoted(*id) +
                        " already; a change of one in the catalogue stands under \"rules\"",
                    "our-" + *id);
  }

  void kind() {
    const auto word = line("kind", "range, order, contact or present", R"("kind": "range")");
    if (!word || kind_from(*word)) return;
    if (*word == spelling(RuleKind::consistent))
      fields_.wrong("kind", "a club’s own rule cannot compare two measures", one_of(kinds));
    else
      unknown(fields_.where("kind"), fields_.find("kind")->at, "kind of rule", *word, kinds,
              report_);
  }

  Names caution_ids() const {
    Names ids;
    for (const Caution& c : base_.cautions) ids.push_back(c.id);
    return ids;
  }

  void lesson() {
    const auto word = fields_.name("lesson");
    if (!word) return;
    Names known;
    for (const Rule& rule : base_.catalogue)
      if (std::find(known.begin(), known.end(), rule.lesson) == known.end())
        known.push_back(rule.lesson);
    if (std::find(known.begin(), known.end(), *word) == known.end())
      unknown(fields_.where("lesson"), fields_.find("lesson")->at, "lesson", *word, known, report_);
  }

  /// A list of words of a known set; an empty set lets any pass.
  void words(const Fields& fields, std::string_view name, std::string_view kind,
             const Names& known) {
    const Node* list = fields.list(name, "[\"...\"]");
    if (list == nullptr) return;
    if (list->items.empty() && name != "fine")
      fields.wrong(name, "this list is empty", "take it out, or name something");
    for (std::size_t i = 0; i < list->items.size(); ++i) {
      const Node& item = list->items[i];
      const std::string place = pointer_to(fields.where(name), i);
      if (item.kind != Node::Kind::text)
        report_.add(place, item.at, described(item) + " stands here; wanted is a text", "\"...\"");
      else if (item.text.find('\n') != std::string::npos)
        report_.add(place, item.at, "this goes over several lines", "it in one line");
      else if (check_name(item.text, place, item.at, report_) && !known.empty() &&
               std::find(known.begin(), known.end(), item.text) == known.end())
        unknown(place, item.at, kind, item.text, known, report_);
    }
  }
  void words(std::string_view name, std::string_view kind, const Names& known) {
    words(fields_, name, kind, known);
  }

  static Names values_of(std::string_view fact) {
    for (const FactKind& kind : fact_kinds())
      if (kind.name == fact) return {kind.values.begin(), kind.values.end()};
    return {};
  }

  bool known_fact(std::string_view fact, const std::string& where, Position at) {
    const Names names = fact_names();
    if (std::find(names.begin(), names.end(), fact) != names.end()) return true;
    unknown(where, at, "fact", fact, names, report_);
    return false;
  }

  void conditions() {
    const Node* node = fields_.object("when");
    if (node == nullptr) return;
    Names names;
    for (const Member& m : node->members) {
      names.push_back(m.name);
      known_fact(m.name, pointer_to(fields_.where("when"), m.name), m.at);
    }
    const Fields when = fields_of(node, fields_.where("when"), names, report_);
    for (const Member& m : node->members)
      words(when, m.name, "value of " + m.name, values_of(m.name));
  }

  void example() {
    const Node* node = fields_.object("example");
    if (node == nullptr) return;
    constexpr std::string_view both[] = {"wrong", "right"};
    const Fields each = fields_of(node, fields_.where("example"), both, report_);
    for (const std::string_view name : both) {
      each.ask_for(name, "an example of it", '"' + std::string(name) + R"(": "...")");
      one_line(each, name);
    }
  }

  void sources() {
    const Node* list = fields_.list("sources", "[]");
    if (list == nullptr) return;
    constexpr std::string_view parts[] = {"label", "text"};
    constexpr std::string_view labels[] = {"published", "practice", "memory"};
    if (list->items.empty()) fields_.wrong("sources", "this list is empty", "take it out");
    for (std::size_t i = 0; i < list->items.size(); ++i) {
      const Node& item = list->items[i];
      const std::string place = pointer_to(fields_.where("sources"), i);
      if (!is_object(item, place, R"({"label": "practice", "text": "..."})")) continue;
      const Fields source = fields_of(&item, place, parts, report_);
      source.ask_for("label", one_of(labels), R"("label": "practice")");
      source.ask_for("text", "where it comes from", R"("text": "...")");
      source.name("text");
      const auto label = source.name("label");
      if (label && std::find(std::begin(labels), std::end(labels), *label) == std::end(labels))
        unknown(source.where("label"), source.find("label")->at, "label of a source", *label,
                labels, report_);
    }
  }

  bool is_object(const Node& node, const std::string& where, std::string example) {
    if (node.kind == Node::Kind::object) return true;
    report_.add(where, node.at, described(node) + " stands here; wanted is an object, in braces",
                std::move(example));
    return false;
  }

  /// As much of the rule as messages and bounds are judged by.
  Rule sketch() const {
    Rule rule;
    if (kind_) rule.kind = *kind_;
    if (const Node* measure = node_.find("measure")) rule.measure = measure->text;
    if (const Node* fact = node_.find("fact")) rule.fact = fact->text;
    if (const Node* by = node_.find("by"))
      if (const Node* fact = by->find("fact")) rule.by_fact = fact->text;
    return rule;
  }

  void range() {
    fields_.ask_for("measure", "the number that it looks at; starter-plan measure lists them",
                    R"("measure": "boil_time")");
    if (const auto measure = fields_.name("measure")) {
      const Names names = measure_names();
      if (std::find(names.begin(), names.end(), *measure) == names.end())
        unknown(fields_.where("measure"), fields_.find("measure")->at, "measure", *measure, names,
                report_);
    }
    if (const auto form = fields_.name("told_as"); form && *form != "share")
      fields_.wrong("told_as",
                    starter::quoted(*form) + " is no form to tell a number in; it is share",
                    "share");
    const Rule rule = sketch();
    fields_.ask_for("comfortable", "the lowest and the highest value that are fine",
                    R"("comfortable": [5, 20])");
    RuleBounds own = both(fields_, rule);
    bool low = own.comfortable.low || own.hard.low, high = own.comfortable.high || own.hard.high;
    bool hard = fields_.has("hard");
    if (const Node* by = fields_.object("by")) by_fact(*by, rule, low, high, hard);
    if (!low && !high && fields_.has("comfortable"))
      fields_.wrong("comfortable", "both ends are null, so the rule would never speak", "[5, 20]");
    side(low, "low", rule);
    side(high, "high", rule);
    two_severities(hard);
  }

  RuleBounds both(const Fields& fields, const Rule& rule) {
    RuleBounds made;
    const auto comfortable = read_bounds(fields, "comfortable", rule, report_);
    const auto hard = read_bounds(fields, "hard", rule, report_);
    made.comfortable = comfortable.value_or(Bounds{});
    made.hard = hard.value_or(Bounds{});
    if (comfortable) check_bounds(made, rule, fields, "comfortable");
    return made;
  }

  void by_fact(const Node& node, const Rule& rule, bool& low, bool& high, bool& hard) {
    constexpr std::string_view parts[] = {"fact", "bounds"}, ends[] = {"comfortable", "hard"};
    const Fields by = fields_of(&node, fields_.where("by"), parts, report_);
    by.ask_for("fact", "what the bounds differ by", R"("fact": "glass_kind")");
    by.ask_for("bounds", "the bounds for each of its values", R"("bounds": {})");
    const auto fact = by.name("fact");
    const bool known = fact && known_fact(*fact, by.where("fact"), by.find("fact")->at);
    const Node* bounds = by.object("bounds");
    if (bounds == nullptr) return;
    if (bounds->members.empty()) by.wrong("bounds", "no value is named here", "take \"by\" out");
    for (const Member& m : bounds->members) {
      const std::string place = pointer_to(by.where("bounds"), m.name);
      if (known) check_value(place, m.at, *fact, m.name, report_);
      if (!is_object(m.value, place, R"({"comfortable": [null, 30]})")) continue;
      const Fields each = fields_of(&m.value, place, ends, report_);
      each.ask_for("comfortable", "the lowest and the highest value that are fine",
                   R"("comfortable": [null, 30])");
      const RuleBounds made = both(each, rule);
      low |= made.comfortable.low || made.hard.low;
      high |= made.comfortable.high || made.hard.high;
      hard |= each.has("hard");
    }
  }

  void side(bool bound, const char* name, const Rule& rule) {
    if (bound)
      fields_.ask_for(name, "what is said of a value beyond that end",
                      std::string("\"") + name + R"(": "… {value} (comfortable: {comfortable}).")");
    else if (fields_.has(name))
      fields_.wrong(name, "the rule has no bound at that end, so this is never said",
                    "take it out");
    read_message(fields_, name, rule, true);
  }

  void two_severities(bool hard) {
    fields_.ask_for("severity", "how bad it is outside the bounds",
                    R"("severity": {"comfortable": "weakens", "hard": "spoils"})");
    const Node* node = fields_.object("severity");
    if (node == nullptr) return;
    constexpr std::string_view sides[] = {"comfortable", "hard"};
    const Fields each = fields_of(node, fields_.where("severity"), sides, report_);
    each.ask_for("comfortable", "how bad it is outside the comfortable bounds",
                 R"("comfortable": "weakens")");
    if (hard) each.ask_for("hard", "how bad it is outside the hard bounds", R"("hard": "spoils")");
    const auto mild = read_severity(each, "comfortable"), worse = read_severity(each, "hard");
    if (mild && worse && *worse < *mild)
      each.wrong("hard",
                 "outside the hard bounds would be milder than outside the comfortable ones",
                 std::string(spelling(*mild)));
  }

  void one_severity() {
    fields_.ask_for("severity", "how bad it is: note, weakens, spoils or danger",
                    R"("severity": "weakens")");
    read_severity(fields_, "severity");
  }

  void step(std::string_view name, bool needed) {
    if (needed)
      fields_.ask_for(name, "a step of the process", '"' + std::string(name) + R"(": "boil")");
    const auto word = fields_.name(name);
    if (!word || from_spelling<Do>(*word)) return;
    Names known;
    for (const auto& row : spellings<Do>()) known.push_back(row.text);
    unknown(fields_.where(name), fields_.find(name)->at, "step", *word, known, report_);
  }

  void order() {
    step("first", true);
    step("then", true);
    step("until", false);
    words("items", "item", {});
    one_severity();
    fields_.ask_for("says", "what is said when they are the wrong way round",
                    R"("says": "{then} comes before {first}.")");
    read_message(fields_, "says", sketch(), false);
  }

  void contact() {
    words("items", "item", {});
    one_severity();
    constexpr std::string_view states[] = {"never", "late", "stale"};
    fields_.ask_for("says", "what is said of things never, too late or long ago cleaned",
                    R"("says": {"never": "...", "late": "...", "stale": "..."})");
    const Node* node = fields_.object("says");
    if (node == nullptr) return;
    const Fields says = fields_of(node, fields_.where("says"), states, report_);
    for (const std::string_view state : states) {
      says.ask_for(state, "what is said of that", '"' + std::string(state) + R"(": "...")");
      read_message(says, state, sketch(), false);
    }
  }

  void present() {
    fields_.ask_for("fact", "what it looks at", R"("fact": "cover")");
    fields_.ask_for("fine", "the values that are fine", R"("fine": ["covered"])");
    const auto fact = fields_.name("fact");
    const bool known = fact && known_fact(*fact, fields_.where("fact"), fields_.find("fact")->at);
    const Names values = known ? values_of(*fact) : Names{};
    words("fine", "value of " + fact.value_or("it"), values);
    const Node* others = fields_.object("others");
    std::vector<std::string> told;
    if (others != nullptr) {
      Names names;
      for (const Member& m : others->members) names.push_back(m.name);
      const Fields each = fields_of(others, fields_.where("others"), names, report_);
      for (const Member& m : others->members) {
        if (known) check_value(each.where(m.name), m.at, *fact, m.name, report_);
        read_severity(each, m.name);
        told.push_back(m.name);
      }
    }
    read_severity(fields_, "otherwise");
    if (fields_.has("otherwise")) told.push_back("otherwise");
    if (told.empty())
      fields_.ask_for("others", "how bad each other value is",
                      R"("others": {"left open": "weakens"})");
    if (told.empty() && fields_.has("others"))
      fields_.wrong("others", "no value is named, so the rule would never speak",
                    R"({"left open": "weakens"})");
    present_says(told, values);
  }

  void present_says(const std::vector<std::string>& told, const Names& values) {
    fields_.ask_for("says", "what is said of each value", R"("says": {"left open": "..."})");
    const Node* node = fields_.object("says");
    if (node == nullptr) return;
    Names names(values);
    for (const Member& m : node->members)
      if (values.empty()) names.push_back(m.name);
    names.push_back("otherwise");
    const Fields says = fields_of(node, fields_.where("says"), names, report_);
    for (const Member& m : node->members) read_message(says, m.name, sketch(), false);
    for (const std::string& value : told)
      if (!says.has(value) && !says.has("otherwise"))
        fields_.wrong("says", "nothing is said of " + starter::quoted(value),
                      starter::quoted(value) + ": \"...\"");
  }

  void fixes() {
    const Node* list = fields_.list("fix", R"([{"change": "water", "says": "..."}])");
    if (list == nullptr) return;
    constexpr std::string_view parts[] = {"change", "put", "says"};
    Names knob_names;
    for (const Knob& knob : knobs()) knob_names.push_back(knob.name);
    if (list->items.empty()) fields_.wrong("fix", "this list is empty", "take it out");
    for (std::size_t i = 0; i < list->items.size(); ++i) {
      const Node& item = list->items[i];
      const std::string place = pointer_to(fields_.where("fix"), i);
      if (!is_object(item, place, R"({"change": "water", "says": "..."})")) continue;
      const Fields fix = fields_of(&item, place, parts, report_);
      fix.ask_for("says", "the fix in words", R"("says": "use {new} of water, not {old}")");
      fix.name("says");
      const auto change = fix.name("change"), put = fix.name("put");
      if (fix.has("change") == fix.has("put"))
        report_.add(place, item.at,
                    "a fix either turns a knob (\"change\") or makes an edit (\"put\")",
                    R"("change": "water")");
      if (change && !find_knob(*change) && !known_edit(*change))
        unknown(fix.where("change"), fix.find("change")->at, "knob", *change, knob_names, report_);
      if (change && find_knob(*change) && kind_ && kind_ != RuleKind::range)
        fix.wrong("change", "a knob can only be turned for a rule with a number", "\"put\"");
      if (put && !known_edit(*put))
        unknown(fix.where("put"), fix.find("put")->at, "edit", *put, edit_names(), report_);
    }
  }

  const Node& node_;
  std::string where_;
  std::optional<RuleKind> kind_;
  Names names_;
  Fields fields_;
  const PracticeBase& base_;
  const std::vector<std::string>& taken_;
  Report& report_;
};

}  // namespace

std::optional<Rule> read_own_rule(const Node& node, const std::string& where,
                                  const std::string& club, const PracticeBase& base,
                                  const std::vector<std::string>& taken, Report& report) {
  if (node.kind != Node::Kind::object) {
    report.add(where, node.at, described(node) + " stands here; wanted is a rule, in braces",
               R"({"id": "our-tap-water", "kind": "range"})");
    return std::nullopt;
  }
  Report own;
  Checker(node, where, base, taken, own).check();
  for (const PlanError& e : own.in_file_order())
    report.add(e.where, {e.line, node.at.offset}, e.says, e.write);
  if (!own.empty()) return std::nullopt;

  Json document = as_json(node);
  const std::string because = document.value("because", "");
  document.erase("because");
  const bool no_lesson = !document.contains("lesson");
  if (no_lesson) document["lesson"] = "of the club";
  if (!document.contains("sources"))
    document["sources"] = {
        {{"label", "practice"},
         {"text", club + ", a rule of its own" + (because.empty() ? "" : " – " + because)}}};
  RuleFile file = read_rule(document.dump());
  for (const std::string& fault : file.faults) report.add(where, node.at, fault, "");
  if (!file.faults.empty()) return std::nullopt;
  if (no_lesson) file.rule.lesson.clear();
  file.rule.club = ClubWord{club, because, true, {}};
  return std::move(file.rule);
}

}  // namespace starter::practice
