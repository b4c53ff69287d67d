// One member of "rules" in a practice file: what a club changes of a rule of the catalogue.

#include <fmt/format.h>

#include <algorithm>

#include "measures/facts.h"
#include "plan/pointer.h"
#include "rules/practice_parts.h"
#include "rules/telling.h"

namespace starter::practice {
namespace {

using Names = std::vector<std::string_view>;

constexpr std::string_view stricter_only =
    "this rule can tell of danger, and a club may only make such rules stricter";

/// The fields that a change of this kind of rule may have.
Names fields_for(RuleKind kind) {
  Names names = {"because", "off", "why", "do", "severity"};
  const auto add = [&](std::initializer_list<std::string_view> more) {
    names.insert(names.end(), more);
  };
  switch (kind) {
    case RuleKind::range:
      add({"comfortable", "hard", "by", "low", "high"});
      break;
    case RuleKind::order:
    case RuleKind::contact:
    case RuleKind::present:
      add({"says"});
      break;
    case RuleKind::consistent:
      add({"comfortable", "hard", "says"});
      break;
  }
  return names;
}

/// Whether every value that `after` lets pass, `before` let pass too.
bool as_strict(const Bounds& after, const Bounds& before) {
  return !(before.low && (!after.low || *after.low < *before.low)) &&
         !(before.high && (!after.high || *after.high > *before.high));
}

std::string in_quotes(std::string_view word) {
  return "“" + std::string(word) + "”";
}

/// Lays one change over one rule.
class Changer {
 public:
  Changer(const Member& member, const std::string& club, Rule& rule, Report& report)
      : where_(pointer_to("/rules", member.name)),
        node_(member.value),
        names_(fields_for(rule.kind)),
        fields_(fields_of(&member.value, where_, names_, report)),
        before_(rule),
        rule_(rule),
        report_(report),
        dangerous_(can_endanger(rule)) {
    word_.club = club;
  }

  /// \return whether the rule stays on
  bool change(std::vector<SwitchedOff>& off) {
    fields_.ask_for("because", "why the club does this, for its members to read",
                    R"("because": "our tap water is hard")");
    word_.because = fields_.name("because").value_or("");
    if (fields_.yes_or_no("off").value_or(false)) return !switch_off(off);
    texts();
    switch (rule_.kind) {
      case RuleKind::range:
        bounds();
        two_severities();
        break;
      case RuleKind::consistent:
        gaps();
        two_severities();
        message("says", "");
        break;
      case RuleKind::order:
        one_severity();
        message("says", "");
        break;
      case RuleKind::contact:
        one_severity();
        messages();
        break;
      case RuleKind::present:
        severities_by_value();
        messages();
        break;
    }
    if (word_.changes.empty() && report_.empty())
      report_.add(where_, node_.at,
                  "this changes nothing of the rule; name what to change, such as its bounds, or "
                  "switch it off",
                  one_of(names_));
    sign();
    return true;
  }

 private:
  bool switch_off(std::vector<SwitchedOff>& off) {
    if (dangerous_) {
      fields_.wrong("off", std::string(stricter_only) + ", not switch them off",
                    "leave it on; a mentor can acknowledge a single finding with starter-plan "
                    "accept");
      return false;
    }
    for (const Member& m : node_.members)
      if (m.name != "off" && m.name != "because" && has(m.name))
        report_.add(pointer_to(where_, m.name), m.at,
                    "the rule is switched off here, so this would do nothing",
                    "take it out, or take \"off\" out");
    off.push_back({rule_.id, rule_.title, word_.because});
    return true;
  }

  bool has(std::string_view name) const {
    return std::find(names_.begin(), names_.end(), name) != names_.end();
  }

  void note(std::string change) { word_.changes.push_back(std::move(change)); }

  void refuse(const Fields& fields, std::string_view name, const std::string& what,
              std::string write) {
    fields.wrong(name, std::string(stricter_only) + ", not " + what, std::move(write));
  }

  // --- texts ------------------------------------------------------------------------------------

  bool text_may_change(const Fields& fields, std::string_view name) {
    if (!fields.has(name)) return false;
    if (!dangerous_) return true;
    refuse(fields, name, "replace their texts", "take it out; say it in \"because\"");
    return false;
  }

  void texts() {
    if (text_may_change(fields_, "why"))
      if (const auto text = fields_.name("why")) {
        rule_.why = *text;
        note("the reason in the club’s words");
      }
    if (text_may_change(fields_, "do"))
      if (const auto text = fields_.name("do")) {
        rule_.advice = *text;
        note("the advice in the club’s words");
      }
  }

  void message(std::string_view field, const std::string& state) {
    if (!text_may_change(fields_, field)) return;
    if (const auto text = read_message(fields_, field, rule_, false)) {
      rule_.says[state] = *text;
      note("the message in the club’s words");
    }
  }

  /// Messages by state or value.
  void messages() {
    const Node* node = fields_.object("says");
    if (node == nullptr) return;
    Names known;
    for (const auto& [state, unused] : before_.says) known.push_back(state);
    const Fields says = fields_of(node, fields_.where("says"), known, report_);
    for (const auto& [state, unused] : before_.says) {
      if (!text_may_change(says, state)) continue;
      if (const auto text = read_message(says, state, rule_, false)) {
        rule_.says[state] = *text;
        note("the message on " + in_quotes(state) + " in the club’s words");
      }
    }
  }

  // --- severities -------------------------------------------------------------------------------

  /// \param place what it is the severity of, for the words.
  void severity(const Fields& fields, std::string_view name, Severity& into,
                const std::string& place) {
    const auto read = read_severity(fields, name);
    if (!read || *read == into) return;
    if (dangerous_ && *read < into) {
      refuse(fields, name, "lower their severities", '"' + std::string(spelling(into)) + '"');
      return;
    }
    note(fmt::format("{}: {}, not {}", place, spelling(*read), spelling(into)));
    into = *read;
  }

  void one_severity() { severity(fields_, "severity", rule_.severity, "if broken"); }

  void two_severities() {
    const Node* node = fields_.object("severity");
    if (node == nullptr) return;
    constexpr std::string_view sides[] = {"comfortable", "hard"};
    const Fields both = fields_of(node, fields_.where("severity"), sides, report_);
    severity(both, "comfortable", rule_.outside_comfortable, "outside the comfortable bounds");
    severity(both, "hard", rule_.outside_hard, "outside the hard bounds");
    bool any_hard = rule_.bounds.hard.any() || rule_.hard_gap;
    for (const auto& [value, b] : rule_.by_value) any_hard |= b.hard.any();
    if (!any_hard) rule_.outside_hard = rule_.outside_comfortable;
    if (rule_.outside_hard < rule_.outside_comfortable)
      fields_.wrong("severity",
                    "outside the hard bounds would be milder than outside the comfortable ones",
                    fmt::format("\"hard\": \"{}\"", spelling(rule_.outside_comfortable)));
  }

  void severities_by_value() {
    const Node* node = fields_.object("severity");
    if (node == nullptr) return;
    Names known;
    for (const auto& [value, unused] : before_.others) known.push_back(value);
    if (before_.otherwise) known.push_back("otherwise");
    const Fields each = fields_of(node, fields_.where("severity"), known, report_);
    for (auto& [value, held] : rule_.others) severity(each, value, held, in_quotes(value));
    if (rule_.otherwise) severity(each, "otherwise", *rule_.otherwise, "anything else");
  }

  // --- bounds -----------------------------------------------------------------------------------

  void bounds() {
    both_ends(fields_, rule_.bounds, "");
    by_value();
    side_message("low");
    side_message("high");
    bool low = rule_.bounds.comfortable.low || rule_.bounds.hard.low;
    bool high = rule_.bounds.comfortable.high || rule_.bounds.hard.high;
    for (const auto& [value, b] : rule_.by_value) {
      low |= b.comfortable.low || b.hard.low;
      high |= b.comfortable.high || b.hard.high;
    }
    need_message(low, rule_.low, "low", "below its lowest bound");
    need_message(high, rule_.high, "high", "above its highest bound");
    if (!low && !high)
      report_.add(where_, node_.at, "no bound is left, so the rule would never speak",
                  "a bound, or \"off\": true");
  }

  void need_message(bool bound, const std::string& text, const char* field, const char* side) {
    if (!bound || !text.empty() || fields_.has(field)) return;
    report_.add(where_, node_.at,
                std::string("the rule has nothing to say of a value ") + side + " yet; give " +
                    in_quotes(field) + " too",
                fmt::format("\"{}\": \"… {{value}} (comfortable: {{comfortable}}).\"", field));
  }

  void side_message(const char* field) {
    if (!text_may_change(fields_, field)) return;
    if (const auto text = read_message(fields_, field, rule_, true)) {
      (std::string_view(field) == "low" ? rule_.low : rule_.high) = *text;
      note(std::string("the message on too ") +
           (std::string_view(field) == "low" ? "little" : "much") + " in the club’s words");
    }
  }

  void by_value() {
    const Node* node = fields_.object("by");
    if (node == nullptr) return;
    if (rule_.by_fact.empty()) {
      fields_.wrong("by", "the bounds of this rule are the same everywhere",
                    "\"comfortable\" or \"hard\"");
      return;
    }
    constexpr std::string_view ends[] = {"comfortable", "hard"};
    for (const Member& m : node->members) {
      const std::string place = pointer_to(fields_.where("by"), m.name);
      check_value(place, m.at, rule_.by_fact, m.name, report_);
      if (m.value.kind != Node::Kind::object) {
        report_.add(place, m.value.at, described(m.value) + " stands here; wanted are bounds",
                    "{\"comfortable\": [null, 30]}");
        continue;
      }
      const auto found = rule_.by_value.find(m.name);
      RuleBounds b = found != rule_.by_value.end() ? found->second : rule_.bounds;
      both_ends(fields_of(&m.value, place, ends, report_), b, m.name);
      rule_.by_value[m.name] = b;
    }
  }

  void both_ends(const Fields& fields, RuleBounds& bounds, const std::string& value) {
    const RuleBounds before = bounds;
    const auto comfortable = read_bounds(fields, "comfortable", rule_, report_);
    const auto hard = read_bounds(fields, "hard", rule_, report_);
    if (comfortable) bounds.comfortable = *comfortable;
    if (hard) bounds.hard = *hard;
    if (!comfortable && !hard) return;
    if (!check_bounds(bounds, rule_, fields, comfortable ? "comfortable" : "hard")) return;
    tell_bounds(fields, "comfortable", before.comfortable, bounds.comfortable, value);
    tell_bounds(fields, "hard", before.hard, bounds.hard, value);
  }

  void tell_bounds(const Fields& fields, std::string_view name, const Bounds& before,
                   const Bounds& after, const std::string& value) {
    if (before.low == after.low && before.high == after.high) return;
    const MeasureKind* kind = find_measure_kind(rule_.measure);
    const Telling telling = telling_of(rule_, kind ? kind->unit : "");
    const auto told = [&](const Bounds& b) {
      return bounds_text(telling.of(b), telling.unit, UnitSystem::metric);
    };
    if (dangerous_ && !as_strict(after, before)) {
      refuse(fields, name, "widen their bounds", as_pair(before) + " or narrower");
      return;
    }
    note(fmt::format("{}{} {}, not {}", name == "hard" ? "hard bounds" : "comfortable",
                     value.empty() ? "" : " (" + value + ")", told(after), told(before)));
  }

  void gaps() {
    const auto read = [&](const char* name) -> std::optional<double> {
      const Node* node = fields_.find(name);
      if (node == nullptr) return std::nullopt;
      if (node->kind != Node::Kind::number || !(node->number > 0)) {
        fields_.wrong(name,
                      described(*node) +
                          " stands here; wanted is how far apart the two may be, a "
                          "number above 0",
                      write_number(rule_.comfortable_gap, 6));
        return std::nullopt;
      }
      return node->number;
    };
    const auto comfortable = read("comfortable"), hard = read("hard");
    const double new_gap = comfortable.value_or(rule_.comfortable_gap);
    const auto new_hard = hard ? hard : rule_.hard_gap;
    if ((comfortable || hard) && new_hard && *new_hard < new_gap) {
      fields_.wrong(comfortable ? "comfortable" : "hard",
                    "the comfortable gap " + write_number(new_gap, 6) +
                        " is larger than the hard one " + write_number(*new_hard, 6),
                    "\"hard\": " + write_number(new_gap, 6) + " or more");
      return;
    }
    tell_gap(comfortable, rule_.comfortable_gap, "comfortable");
    if (hard && !rule_.hard_gap) {
      rule_.outside_hard = std::max(rule_.outside_hard, rule_.outside_comfortable);
      note("hard: apart by at most " + write_number(*hard, 6));
      rule_.hard_gap = hard;
    } else if (rule_.hard_gap) {
      tell_gap(hard, *rule_.hard_gap, "hard");
    }
  }

  void tell_gap(const std::optional<double>& read, double& into, const char* name) {
    if (!read || *read == into) return;
    if (dangerous_ && *read > into) {
      refuse(fields_, name, "widen their bounds", write_number(into, 6));
      return;
    }
    note(fmt::format("{}: apart by at most {}, not {}", name, write_number(*read, 6),
                     write_number(into, 6)));
    into = *read;
  }

  /// The club stands among the rule's sources, first, since its word is what holds.
  void sign() {
    std::string changes;
    for (const std::string& change : word_.changes)
      changes += (changes.empty() ? "" : "; ") + change;
    std::string text = word_.club + ": " + changes;
    if (!word_.because.empty()) text += " – " + word_.because;
    rule_.sources.insert(rule_.sources.begin(), {"practice", std::move(text)});
    rule_.club = std::move(word_);
  }

  std::string where_;
  const Node& node_;
  Names names_;
  Fields fields_;
  const Rule before_;
  Rule& rule_;
  Report& report_;
  bool dangerous_;
  ClubWord word_;
};

}  // namespace

bool change_rule(const Member& member, const std::string& club, Rule& rule,
                 std::vector<SwitchedOff>& off, Report& report) {
  if (member.value.kind != Node::Kind::object) {
    report.add(pointer_to("/rules", member.name), member.value.at,
               described(member.value) + " stands here; wanted is what to change, in braces",
               R"({"off": true, "because": "..."})");
    return true;
  }
  return Changer(member, club, rule, report).change(off);
}

}  // namespace starter::practice
