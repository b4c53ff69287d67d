#include "output/suggest_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <functional>
#include <set>

#include "output/json.h"
#include "output/places.h"
#include "output/plan_parts.h"
#include "output/text.h"
#include "output/verdict.h"
#include "plan/json.h"
#include "quantity/local_time.h"

namespace starter {
namespace {

constexpr std::size_t label_room = 8;  ///< of "Before", "Clears", ...

std::string counted(std::size_t count, const char* one, const char* more) {
  return fmt::format("{} {}", count, count == 1 ? one : more);
}

Ink ink_of_verdict(const Judgement& j) {
  const auto found = worst(j.findings);
  return !found || *found == Severity::note ? Ink::good : ink_of(*found);
}

/// A value as it stands in the plan, without the quotes of a text, and a day as people say it.
std::string in_words(const Json& value) {
  if (value.is_string()) return spoken_if_time(value.get<std::string>());
  if (value.is_array()) {
    std::string out;
    for (const Json& item : value) out += (out.empty() ? "" : ", ") + in_words(item);
    return out.empty() ? "nothing" : out;
  }
  if (!value.is_object()) return value.dump(-1, ' ', false, Json::error_handler_t::replace);
  std::string out;
  for (const auto& item : value.items()) {
    std::string name = item.key();
    std::replace(name.begin(), name.end(), '_', ' ');
    out += out.empty() ? "" : ", ";
    if (item.value().is_boolean())
      out += (item.value().get<bool>() ? "" : "no ") + name;  // "swirl", "no swirl"
    else
      out += name + " " + in_words(item.value());
  }
  return out;
}

/// The steps of the plan that a change meets, each as the member knows it: numbers are those of the
/// plan that was handed in. They follow the operations of the change.
class StepNames {
 public:
  explicit StepNames(const Change& change) {
    if (!change.before.wrote("/steps/0")) return;
    for (std::size_t i = 0; i < change.before.steps.size(); ++i) {
      const std::string& verb = change.before.steps[i].verb;
      const int was = i < change.step_was.size() ? change.step_was[i] : -1;
      names_.push_back(was < 0 ? new_step(verb) : fmt::format("step {}, {}", was + 1, verb));
    }
  }

  /// "step 4, chill"; "the end" behind the last.
  std::string at(std::size_t index) const {
    return index < names_.size() ? names_[index] : "the end";
  }
  /// "before step 4, chill"; "at the end".
  std::string before(std::size_t index) const {
    return index < names_.size() ? "before " + names_[index] : "at the end";
  }
  void insert(std::size_t index, const std::string& verb) {
    names_.insert(names_.begin() + place(index), new_step(verb));
  }
  void erase(std::size_t index) {
    if (index < names_.size()) names_.erase(names_.begin() + place(index));
  }
  void move(std::size_t from, std::size_t to) {
    if (from >= names_.size()) return;
    const std::string name = names_[from];
    erase(from);
    names_.insert(names_.begin() + place(to), name);
  }

 private:
  static std::string new_step(const std::string& verb) { return "the new step “" + verb + "”"; }
  std::ptrdiff_t place(std::size_t index) const {
    return static_cast<std::ptrdiff_t>(std::min(index, names_.size()));
  }

  std::vector<std::string> names_;
};

bool is_number(const std::string& text) {
  return !text.empty() &&
         std::all_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; });
}

std::string field_name(const std::string& path) {
  std::string name = path.substr(path.rfind('/') + 1);
  std::replace(name.begin(), name.end(), '_', ' ');
  return name;
}

/// The index in "/steps/3" and whether the path ends there.
std::optional<std::size_t> whole_step(const std::string& path) {
  const std::string index = path.rfind("/steps/", 0) == 0 ? path.substr(7) : "";
  if (index == "-") return static_cast<std::size_t>(-1);
  return is_number(index) && index.size() < 7 ? std::optional<std::size_t>(std::stoul(index))
                                              : std::nullopt;
}

std::string step_told(const Json& step) {
  Json rest = step;
  const std::string verb = rest.value("do", std::string("step"));
  rest.erase("do");
  return "“" + verb + "”" + (rest.empty() ? "" : ": " + in_words(rest));
}

/// Where a field stands, in words.
std::string place_told(const Change& change, const StepNames& steps, const std::string& path) {
  constexpr std::string_view of_steps = "/steps/";
  if (path.rfind(of_steps, 0) == 0) {
    const std::string index =
        path.substr(of_steps.size(), path.find('/', of_steps.size()) - of_steps.size());
    if (is_number(index) && index.size() < 7) return steps.at(std::stoul(index));
  }
  return place_in_words(change.before, path);
}

std::string verb_of(const Json& step) {
  return step.value("do", std::string("step"));
}

/// The operations from `first` that put steps in one behind the other; at least one.
std::size_t steps_in_a_row(const Json& patch, std::size_t first) {
  const auto index = [&](std::size_t i) -> std::optional<std::size_t> {
    if (i >= patch.size() || patch[i].at("op") != "add") return std::nullopt;
    return whole_step(patch[i].at("path").get<std::string>());
  };
  const auto start = index(first);
  if (!start) return 1;
  std::size_t count = 1;
  const std::size_t nowhere = static_cast<std::size_t>(-1);
  for (auto next = index(first + 1); next; next = index(first + count)) {
    if (*next != (*start == nowhere ? nowhere : *start + count)) break;
    ++count;
  }
  return count;
}

/// Whether a path is that of a vessel that the plan does not have.
bool new_vessel(const Change& change, const std::string& path) {
  return path.rfind("/vessels/", 0) == 0 && path.find('/', 9) == std::string::npos &&
         !change.before.wrote(path);
}

/// One operation of a change in words; `document` is the plan it meets.
Pieces operation(const Change& change, StepNames& steps, const Json& op, const Json& document) {
  const std::string what = op.at("op").get<std::string>();
  const std::string path = op.at("path").get<std::string>();
  if (const auto to = whole_step(path)) {
    if (what == "remove") {
      const std::string name = steps.at(*to);
      steps.erase(*to);
      return {{"out: " + name}};
    }
    if (what == "add") {
      const std::string place = steps.before(*to);
      steps.insert(*to, verb_of(op.at("value")));
      return {{"new: ", Ink::good}, {step_told(op.at("value")) + ", " + place}};
    }
    const auto from = whole_step(op.at("from").get<std::string>()).value_or(0);
    const std::string name = steps.at(from);
    const std::string place = steps.before(from < *to ? *to + 1 : *to);
    steps.move(from, *to);
    return {{name + " goes " + place}};
  }
  if (path == "/steps" || path == "/stages" || path == "/vessels")
    return {{place_in_words(change.before, path) + " ", Ink::faint},
            {document.contains(path.substr(1)) ? "written anew" : "written down", Ink::good}};
  if (path == "/stages/-") return {{"new: ", Ink::good}, {"a stage: " + in_words(op.at("value"))}};
  const Json::json_pointer pointer(path);
  const bool list_end = path.size() > 2 && path.substr(path.size() - 2) == "/-";
  const Json::json_pointer shown = list_end ? pointer.parent_pointer() : pointer;
  const std::string place = place_told(change, steps, shown.to_string());
  const std::string name = field_name(shown.to_string());
  const bool said = place.size() >= name.size() &&
                    place.compare(place.size() - name.size(), name.size(), name) == 0;
  Pieces told = {{place, Ink::faint},
                 {said || new_vessel(change, path) ? ": " : ", " + name + ": "}};
  const bool there = document.contains(shown);
  const std::string was = there ? in_words(document.at(shown)) : "";
  if (what == "remove") {
    told.push_back({was, Ink::faint});
    told.push_back({" → left out"});
    return told;
  }
  Json now = op.at("value");
  if (list_end && there) {
    now = document.at(shown);
    now.push_back(op.at("value"));
  }
  if (there) told.push_back({was + " → "});
  told.push_back({in_words(now), Ink::strong});
  return told;
}

/// Whole lists, an item a line.
void list_told(Page& page, const Json& op) {
  const std::string path = op.at("path").get<std::string>();
  if (!op.contains("value")) return;
  const Json& value = op.at("value");
  if (path == "/steps")
    for (const Json& step : value) page.item({"+"}, {{step_told(step)}}, 5, 2);
  else if (path == "/stages")
    for (const Json& stage : value) page.item({"+"}, {{in_words(stage)}}, 5, 2);
  else if (path == "/vessels")
    for (const auto& item : value.items())
      page.item({"+"}, {{"“" + item.key() + "”: " + in_words(item.value())}}, 5, 2);
}

/// The rules of those that `wanted` wants, each once.
std::string rules_of(const Change& change, const std::function<bool(const Cleared&)>& wanted) {
  std::string out;
  for (std::size_t i = 0; i < change.clears.size(); ++i) {
    if (!wanted(change.clears[i])) continue;
    const std::string& id = change.clears[i].rule->id;
    const auto same = [&](const Cleared& t) { return t.rule->id == id && wanted(t); };
    const auto first = std::find_if(change.clears.begin(), change.clears.end(), same);
    if (first != change.clears.begin() + static_cast<std::ptrdiff_t>(i)) continue;
    const auto count = std::count_if(change.clears.begin(), change.clears.end(), same);
    out += (out.empty() ? "" : ", ") + id + (count > 1 ? fmt::format(" (×{})", count) : "");
  }
  return out;
}

std::string asked(Asks asks) {
  switch (asks) {
    case Asks::nothing:
      return "";
    case Asks::time:
      return "another time than you planned; is it free?";
    case Asks::taste:
      return "another way of working; is it yours?";
    case Asks::purchase:
      return "something your plan does not have; buy or borrow it, or choose another way";
  }
  return "";
}

/// What of the member's own plan it mends, and what of the changes before it makes up for.
void mends_told(Page& page, const Change& change) {
  const auto own = [&](bool to_a_note) {
    return rules_of(change,
                    [=](const Cleared& c) { return c.since == 0 && c.to_a_note == to_a_note; });
  };
  if (const std::string cleared = own(false); !cleared.empty())
    page.item({"Clears", Ink::good}, {{cleared}}, 5, label_room);
  if (const std::string eased = own(true); !eased.empty())
    page.item({"Eases", Ink::good}, {{eased + " to a note"}}, 5, label_room);
  std::set<int> since;
  for (const Cleared& c : change.clears)
    if (c.since > 0) since.insert(c.since);
  for (const int number : since)
    page.item({"Needed", Ink::faint},
              {{fmt::format("since change {}: ", number) +
                rules_of(change, [=](const Cleared& c) { return c.since == number; })}},
              5, label_room);
}

void change_told(Page& page, const Change& change, std::size_t number) {
  page.blank();
  page.item({fmt::format("{:>2}", number), Ink::strong}, {{sentence(change.says), Ink::strong}}, 0,
            5);
  Json document = try_parse_json(*change.before.source);
  StepNames steps(change);
  for (std::size_t i = 0; i < change.patch.size();) {
    const std::size_t row = steps_in_a_row(change.patch, i);
    const Json& first = change.patch[i];
    if (row > 1) {
      const std::size_t slot =
          whole_step(first.at("path").get<std::string>()).value_or(static_cast<std::size_t>(-1));
      page.paragraph({{"new: ", Ink::good}, {fmt::format("{} steps, {}", row, steps.before(slot))}},
                     5);
    }
    for (const std::size_t end = i + row; i < end; ++i) {
      const Json& op = change.patch[i];
      Pieces told = operation(change, steps, op, document);
      if (row > 1)
        page.item({"+"}, {{step_told(op.at("value"))}}, 5, 2);
      else
        page.paragraph(told, 5);
      list_told(page, op);
      document = document.patch(Json::array({op}));
    }
  }
  mends_told(page, change);
  if (change.on_the_way)
    page.item({"Clears", Ink::faint}, {{"nothing by itself; the other changes need it"}}, 5,
              label_room);
  if (change.asks != Asks::nothing)
    page.item({"Asks", Ink::weakens}, {{asked(change.asks)}}, 5, label_room);
}

/// Operations carry the numbers of steps as they are then, so text tells those of the first plan.
void changes_told(Page& page, const Suggestion& s) {
  if (s.changes.empty()) return;
  page.blank();
  page.ruled(s.changes.size() == 1 ? "1 change"
                                   : fmt::format("{} changes, in this order", s.changes.size()));
  for (std::size_t i = 0; i < s.changes.size(); ++i) change_told(page, s.changes[i], i + 1);
}

void decisions_told(Page& page, const Suggestion& s) {
  const bool asks = std::any_of(s.changes.begin(), s.changes.end(),
                                [](const Change& c) { return c.asks != Asks::nothing; });
  if (!asks && s.decisions.empty()) return;
  page.blank();
  page.ruled("For you to decide");
  for (std::size_t i = 0; i < s.changes.size(); ++i) {
    const Change& c = s.changes[i];
    if (c.asks == Asks::nothing) continue;
    page.item({"–"}, {{fmt::format("Change {}: ", i + 1), Ink::strong}, {sentence(c.says)}}, 2, 2);
    for (const std::string& other : c.instead)
      page.item("Or", other + (other.back() == '.' ? "" : "."), 4, 4);
  }
  for (const Decision& d : s.decisions) {
    page.item({"–"}, {{d.says}}, 2, 2);
    if (!d.write.empty()) page.item({"Write", Ink::good}, {{d.write}}, 4, label_room);
  }
}

void left_told(Page& page, const Suggestion& s) {
  if (s.left.empty()) return;
  page.blank();
  page.ruled("What is left, and why");
  for (const Left& left : s.left) {
    page.blank();
    page.item({std::string(badge(left.told.severity)), ink_of(left.told.severity)},
              {{place_in_words(s.after.plan, left.told.where), Ink::strong},
               {" · " + left.told.rule->title, Ink::faint}},
              0, 11);
    page.paragraph(left.says, 2);
    page.item("Left", sentence(left.why_not), 2, label_room);
    page.item({"Do", Ink::good}, {{left.advice}}, 2, label_room);
    page.item("Rule", left.told.rule->id + " – more: starter-plan explain " + left.told.rule->id, 2,
              label_room);
  }
}

void stands_told(Page& page, const Suggestion& s) {
  if (s.stands.empty()) return;
  page.blank();
  page.ruled("Accepted, so left alone");
  for (const Stands& one : s.stands) {
    page.blank();
    page.item({std::string(badge(one.told.severity)), ink_of(one.told.severity)},
              {{place_in_words(s.after.plan, one.told.where), Ink::strong},
               {" · " + one.told.rule->title, Ink::faint}},
              0, 11);
    page.paragraph(one.says, 2);
    page.item("Stands", fmt::format("with {}’s word: {}", one.accepted.by, one.accepted.because), 2,
              label_room);
  }
}

void patch_told(Page& page, const Suggestion& s) {
  page.blank();
  page.ruled("The same as a JSON Patch (RFC 6902)");
  page.paragraph("[");
  for (std::size_t i = 0; i < s.patch.size(); ++i)
    page.line({{"  " + s.patch[i].dump(-1, ' ', false, Json::error_handler_t::replace) +
                (i + 1 < s.patch.size() ? "," : "")}});
  page.paragraph("]");
}

}  // namespace

std::string suggest_text(const Suggestion& s, const Look& look, const SuggestText& how) {
  Page page(look);
  plan_head(page, s.after.plan);
  if (!s.first.empty()) page.item({"First", Ink::strong}, {{s.first}}, 0, label_room);
  if (s.before)
    page.item({"Now", Ink::faint}, {{verdict_of(s.before->findings), ink_of_verdict(*s.before)}}, 0,
              label_room);
  else
    page.item({"Now", Ink::faint}, {{"Your plan has no stages yet."}}, 0, label_room);
  if (s.changes.empty())
    page.item(
        {"Then", Ink::faint},
        {{s.left.empty() ? "Nothing to change." : "Nothing that could be changed would mend it."}},
        0, label_room);
  else
    page.item({"Then", Ink::faint},
              {{verdict_of(s.after.findings), ink_of_verdict(s.after)},
               {" With " + counted(s.changes.size(), "change", "changes") + "."}},
              0, label_room);
  changes_told(page, s);
  decisions_told(page, s);
  left_told(page, s);
  stands_told(page, s);
  if (how.patch) patch_told(page, s);
  if (!s.changes.empty()) take_care(page, s.after);
  return std::move(page).text();
}

}  // namespace starter
