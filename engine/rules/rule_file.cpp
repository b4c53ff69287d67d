#include "rules/rule_file.h"

#include <algorithm>

#include "measures/facts.h"
#include "plan/json.h"
#include "rules/fixes.h"
#include "rules/knobs.h"
#include "rules/message.h"

namespace starter {
namespace {

constexpr std::string_view severity_words[] = {"note", "weakens", "spoils", "danger"};
constexpr std::string_view kind_words[] = {"range", "order", "contact", "present", "consistent"};
constexpr std::string_view known_members[] = {
    "id",          "title",     "kind",     "why",     "do",        "sources", "caution",
    "when",        "yields_to", "lesson",   "example", "objection", "fix",     "measure",
    "comfortable", "hard",      "severity", "by",      "low",       "high",    "first",
    "then",        "until",     "items",    "says",    "fact",      "fine",    "others",
    "otherwise",   "measures",  "relative", "told_as", "since"};

/// Places any message may have, beside the names of measures.
constexpr std::string_view common_places[] = {"stage", "stage_s", "step"};
constexpr std::string_view number_places[] = {"value", "likely", "comfortable", "hard", "beyond"};
constexpr std::string_view order_places[] = {"first", "then"};
constexpr std::string_view contact_places[] = {"item", "cleaned", "idle"};
constexpr std::string_view fix_places[] = {"new",  "old",  "new_extract", "item",  "first",
                                           "then", "word", "step",        "vessel"};

template <class List>
bool has(const List& list, std::string_view word) {
  return std::find(std::begin(list), std::end(list), word) != std::end(list);
}

const FactKind* find_fact_kind(std::string_view name) {
  for (const FactKind& kind : fact_kinds())
    if (kind.name == name) return &kind;
  return nullptr;
}

/// The places of a message that are none of `allowed`, common, a measure or a fact's own text.
std::vector<std::string> places_beyond(std::string_view message,
                                       std::span<const std::string_view> allowed,
                                       const FactKind* fact) {
  std::vector<std::string> beyond;
  for (std::string place : places_in(message)) {
    if (const auto dot = place.rfind(".range"); dot != std::string::npos) place.resize(dot);
    if (has(allowed, place) || has(common_places, place) || find_measure_kind(place)) continue;
    if (fact && has(fact->about, place)) continue;
    beyond.push_back(std::move(place));
  }
  return beyond;
}

std::optional<Do> from_do(const std::string& word) {
  return from_spelling<Do>(word);
}

/// Reads one rule, noting every fault.
class Reader {
 public:
  Reader(const Json& document, RuleFile& file) : in_(document), file_(file), rule_(file.rule) {}

  void read() {
    for (const auto& [name, unused] : in_.items())
      if (!has(known_members, name)) fault("unknown member “" + name + "”");
    rule_.id = text(in_, "id");
    rule_.title = text(in_, "title");
    rule_.why = text(in_, "why");
    rule_.advice = text(in_, "do");
    rule_.lesson = text(in_, "lesson");
    const std::string kind = text(in_, "kind");
    if (!has(kind_words, kind))
      fault("unknown kind “" + kind + "”");
    else
      rule_.kind = static_cast<RuleKind>(
          std::find(std::begin(kind_words), std::end(kind_words), kind) - std::begin(kind_words));
    if (in_.contains("example")) {
      rule_.wrong = text(in_.at("example"), "wrong");
      rule_.right = text(in_.at("example"), "right");
    }
    if (in_.contains("objection")) rule_.objection = text(in_, "objection");
    rule_.cautions = texts(in_, "caution");
    rule_.yields_to = texts(in_, "yields_to");
    sources();
    conditions();
    switch (rule_.kind) {
      case RuleKind::range:
        range();
        break;
      case RuleKind::order:
        order();
        break;
      case RuleKind::contact:
        contact();
        break;
      case RuleKind::present:
        present();
        break;
      case RuleKind::consistent:
        consistent();
        break;
    }
    fixes();
  }

 private:
  void fault(std::string says) { file_.faults.push_back(std::move(says)); }

  std::string text(const Json& object, const char* name) {
    if (!object.is_object() || !object.contains(name) || !object.at(name).is_string()) {
      fault(std::string("“") + name + "” is missing or is not a text");
      return "";
    }
    std::string found = object.at(name).get<std::string>();
    if (found.find_first_not_of(" \n\t") == std::string::npos)
      fault(std::string("“") + name + "” is empty");
    return found;
  }

  std::vector<std::string> texts(const Json& object, const char* name) {
    std::vector<std::string> found;
    if (!object.contains(name)) return found;
    const Json& list = object.at(name);
    if (!list.is_array()) {
      fault(std::string("“") + name + "” is not a list");
      return found;
    }
    for (const Json& item : list)
      if (item.is_string())
        found.push_back(item.get<std::string>());
      else
        fault(std::string("“") + name + "” holds something that is not a text");
    return found;
  }

  Severity severity(const Json& object, const char* name) {
    const std::string word = text(object, name);
    const auto found = severity_from(word);
    if (!found) fault("unknown severity “" + word + "”");
    return found.value_or(Severity::note);
  }

  Bounds bounds(const Json& object, const char* name) {
    Bounds made;
    if (!object.contains(name)) return made;
    const Json& pair = object.at(name);
    const bool sound = pair.is_array() && pair.size() == 2 &&
                       (pair[0].is_null() || pair[0].is_number()) &&
                       (pair[1].is_null() || pair[1].is_number());
    if (!sound) {
      fault(std::string("“") + name + "” is not a pair of numbers or nulls");
      return made;
    }
    if (pair[0].is_number()) made.low = pair[0].get<double>();
    if (pair[1].is_number()) made.high = pair[1].get<double>();
    if (made.low && made.high && *made.low > *made.high)
      fault(std::string("“") + name + "” has its ends the wrong way round");
    return made;
  }

  RuleBounds both_bounds(const Json& object) {
    RuleBounds made{bounds(object, "comfortable"), bounds(object, "hard")};
    if (made.hard.low && (!made.comfortable.low || *made.hard.low > *made.comfortable.low))
      fault("the hard low end lies inside the comfortable one");
    if (made.hard.high && (!made.comfortable.high || *made.hard.high < *made.comfortable.high))
      fault("the hard high end lies inside the comfortable one");
    return made;
  }

  void sources() {
    if (!in_.contains("sources") || !in_.at("sources").is_array() || in_.at("sources").empty()) {
      fault("“sources” is missing or empty");
      return;
    }
    constexpr std::string_view labels[] = {"published", "practice", "memory"};
    for (const Json& source : in_.at("sources")) {
      RuleSource made{text(source, "label"), text(source, "text")};
      if (!has(labels, made.label)) fault("unknown source label “" + made.label + "”");
      rule_.sources.push_back(std::move(made));
    }
  }

  void known_fact(const std::string& name, const std::vector<std::string>& values) {
    const FactKind* kind = find_fact_kind(name);
    if (!kind) {
      fault("unknown fact “" + name + "”");
      return;
    }
    for (const std::string& value : values)
      if (!kind->values.empty() && !has(kind->values, value))
        fault("fact “" + name + "” never has the value “" + value + "”");
  }

  void known_measure(const std::string& name) {
    if (!find_measure_kind(name)) fault("unknown measure “" + name + "”");
  }

  void conditions() {
    if (!in_.contains("when")) return;
    for (const auto& [fact, unused] : in_.at("when").items()) {
      rule_.when[fact] = texts(in_.at("when"), fact.c_str());
      known_fact(fact, rule_.when[fact]);
    }
  }

  template <class List>
  void places(const std::string& message, const List& allowed, const FactKind* fact = nullptr) {
    for (const std::string& place : places_beyond(message, allowed, fact))
      fault("unknown place {" + place + "}");
  }

  void range() {
    rule_.measure = text(in_, "measure");
    known_measure(rule_.measure);
    rule_.bounds = both_bounds(in_);
    bool low = rule_.bounds.comfortable.low || rule_.bounds.hard.low;
    bool high = rule_.bounds.comfortable.high || rule_.bounds.hard.high;
    bool hard = rule_.bounds.hard.any();
    const FactKind* by = nullptr;
    if (in_.contains("by")) {
      const Json& by_json = in_.at("by");
      rule_.by_fact = text(by_json, "fact");
      by = find_fact_kind(rule_.by_fact);
      known_fact(rule_.by_fact, {});
      for (const auto& [value, unused] : by_json.at("bounds").items()) {
        known_fact(rule_.by_fact, {value});
        const RuleBounds made = both_bounds(by_json.at("bounds").at(value));
        low |= made.comfortable.low.has_value() || made.hard.low.has_value();
        high |= made.comfortable.high.has_value() || made.hard.high.has_value();
        hard |= made.hard.any();
        rule_.by_value[value] = made;
      }
    }
    if (!low && !high) fault("a range rule needs a bound");
    if (in_.contains("told_as")) {
      const std::string form = text(in_, "told_as");
      if (form != "share") fault("“told_as” knows only “share”, not “" + form + "”");
      rule_.told_as_share = true;
    }
    severities(hard);
    auto message = [&](const char* side) {
      std::string made = text(in_, side);
      places(made, number_places, by);
      const auto said = places_in(made);
      if (!has(said, "value") && !has(said, "beyond"))
        fault(std::string("“") + side + "” does not say {value}");
      if (!has(said, "comfortable"))
        fault(std::string("“") + side + "” does not say {comfortable}");
      return made;
    };
    if (low) rule_.low = message("low");
    if (high) rule_.high = message("high");
  }

  void severities(bool hard) {
    if (!in_.contains("severity") || !in_.at("severity").is_object()) {
      fault("“severity” does not name one for outside comfortable and one for outside hard");
      return;
    }
    rule_.outside_comfortable = severity(in_.at("severity"), "comfortable");
    rule_.outside_hard = hard ? severity(in_.at("severity"), "hard") : rule_.outside_comfortable;
  }

  Do do_word(const char* name) {
    const std::string word = text(in_, name);
    const auto found = from_do(word);
    if (!found) fault("no step is called “" + word + "”");
    return found.value_or(Do::weigh);
  }

  void order() {
    rule_.first = do_word("first");
    rule_.then = do_word("then");
    if (in_.contains("until")) rule_.until = do_word("until");
    rule_.items = texts(in_, "items");
    rule_.severity = severity(in_, "severity");
    rule_.says[""] = text(in_, "says");
    places(rule_.says[""], order_places);
  }

  void contact() {
    rule_.severity = severity(in_, "severity");
    rule_.items = texts(in_, "items");
    for (const char* state : {"never", "late", "stale"}) {
      rule_.says[state] = text(in_.contains("says") ? in_.at("says") : in_, state);
      places(rule_.says[state], contact_places);
    }
  }

  void present() {
    rule_.fact = text(in_, "fact");
    rule_.fine = texts(in_, "fine");
    const FactKind* kind = find_fact_kind(rule_.fact);
    known_fact(rule_.fact, kind && kind->values.empty() ? std::vector<std::string>{} : rule_.fine);
    if (in_.contains("others"))
      for (const auto& [value, unused] : in_.at("others").items()) {
        rule_.others[value] = severity(in_.at("others"), value.c_str());
        known_fact(rule_.fact, {value});
      }
    if (in_.contains("otherwise")) rule_.otherwise = severity(in_, "otherwise");
    if (rule_.others.empty() && !rule_.otherwise) fault("no value of the fact is ever told");
    const Json none = Json::object();
    const Json& says = in_.contains("says") ? in_.at("says") : none;
    for (const auto& [value, unused] : says.items()) {
      rule_.says[value] = text(says, value.c_str());
      places(rule_.says[value], common_places, kind);
    }
    for (const auto& [value, unused] : rule_.others)
      if (!rule_.says.count(value) && !rule_.says.count("otherwise"))
        fault("nothing is said of “" + value + "”");
    if (rule_.otherwise && !rule_.says.count("otherwise")) fault("nothing is said otherwise");
  }

  void consistent() {
    const auto names = texts(in_, "measures");
    if (names.size() != 2) {
      fault("“measures” does not name two");
      return;
    }
    for (std::size_t i = 0; i < 2; ++i) {
      rule_.measures[i] = names[i];
      known_measure(names[i]);
    }
    rule_.relative = in_.value("relative", false);
    if (!in_.contains("comfortable") || !in_.at("comfortable").is_number())
      fault("“comfortable” is not a number");
    else
      rule_.comfortable_gap = in_.at("comfortable").get<double>();
    if (in_.contains("hard")) {
      if (in_.at("hard").is_number())
        rule_.hard_gap = in_.at("hard").get<double>();
      else
        fault("“hard” is not a number");
    }
    if (rule_.hard_gap && *rule_.hard_gap < rule_.comfortable_gap)
      fault("the hard gap lies inside the comfortable one");
    severities(rule_.hard_gap.has_value());
    rule_.says[""] = text(in_, "says");
    places(rule_.says[""], common_places);
  }

  void fixes() {
    if (!in_.contains("fix")) return;
    for (const Json& fix : in_.at("fix")) {
      FixSpec made;
      if (fix.contains("change")) made.change = text(fix, "change");
      if (fix.contains("put")) made.put = text(fix, "put");
      made.says = text(fix, "says");
      if (made.change.empty() == made.put.empty())
        fault("a fix either changes a knob or puts an edit");
      if (!made.change.empty() && !find_knob(made.change) && !known_edit(made.change))
        fault("unknown knob “" + made.change + "”");
      if (!made.put.empty() && !known_edit(made.put)) fault("unknown edit “" + made.put + "”");
      const bool number = rule_.kind == RuleKind::range || rule_.kind == RuleKind::consistent;
      if (find_knob(made.change) && !number)
        fault("“" + made.change + "” can only be turned for a rule with a number");
      places(made.says, fix_places, find_fact_kind(rule_.fact));
      rule_.fixes.push_back(std::move(made));
    }
  }

  const Json& in_;
  RuleFile& file_;
  Rule& rule_;
};

}  // namespace

std::string_view spelling(Severity severity) {
  return severity_words[static_cast<std::size_t>(severity)];
}
std::string_view spelling(RuleKind kind) {
  return kind_words[static_cast<std::size_t>(kind)];
}

std::optional<Severity> severity_from(std::string_view text) {
  for (std::size_t i = 0; i < std::size(severity_words); ++i)
    if (severity_words[i] == text) return static_cast<Severity>(i);
  return std::nullopt;
}

std::vector<std::string> unknown_places(std::string_view message, RuleKind kind,
                                        std::string_view by_fact) {
  const FactKind* fact = find_fact_kind(by_fact);
  switch (kind) {
    case RuleKind::range:
      return places_beyond(message, number_places, fact);
    case RuleKind::order:
      return places_beyond(message, order_places, fact);
    case RuleKind::contact:
      return places_beyond(message, contact_places, fact);
    case RuleKind::present:
    case RuleKind::consistent:
      break;
  }
  return places_beyond(message, common_places, fact);
}

RuleFile read_rule(std::string_view bytes) {
  RuleFile file;
  const Json document = try_parse_json(bytes);
  if (document.is_discarded() || !document.is_object()) {
    file.faults.push_back("this is not a JSON object");
    return file;
  }
  try {
    Reader(document, file).read();
  } catch (const Json::exception& problem) {
    file.faults.push_back(std::string("its shape is not that of a rule: ") + problem.what());
  }
  return file;
}

CautionFile read_cautions(std::string_view bytes) {
  CautionFile file;
  const Json document = try_parse_json(bytes);
  if (document.is_discarded() || !document.is_object()) {
    file.faults.push_back("this is not a JSON object");
    return file;
  }
  for (const auto& [id, body] : document.items()) {
    if (!body.is_object() || !body.contains("title") || !body.contains("text") ||
        !body.at("title").is_string() || !body.at("text").is_string() ||
        body.at("text").get<std::string>().empty()) {
      file.faults.push_back("caution “" + id + "” lacks a title or a text");
      continue;
    }
    file.cautions.push_back(
        {id, body.at("title").get<std::string>(), body.at("text").get<std::string>()});
  }
  std::sort(file.cautions.begin(), file.cautions.end(),
            [](const Caution& a, const Caution& b) { return a.id < b.id; });
  return file;
}

}  // namespace starter
