#include "lesson/difference.h"

#include <algorithm>
#include <cstddef>
#include <optional>
#include <string_view>
#include <utility>

#include "output/places.h"
#include "plan/json.h"
#include "plan/pointer.h"
#include "process/process.h"

namespace starter {
namespace {

using Kind = PlanChange::Kind;

std::size_t at(int i) {
  return static_cast<std::size_t>(i);
}

std::string spaced(std::string text) {
  std::replace(text.begin(), text.end(), '_', ' ');
  return text;
}

/// A value as a person would say it: a text without its quotes, a list with commas, an object
/// member by member ("kind: jug, capacity: 2 L").
std::string said(const Json& value) {
  if (value.is_string()) return value.get<std::string>();
  if (value.is_boolean()) return value.get<bool>() ? "yes" : "no";
  if (!value.is_structured()) return value.dump();
  std::string out;
  for (const auto& [key, member] : value.items()) {
    if (!out.empty()) out += ", ";
    if (value.is_object()) out += spaced(key) + ": ";
    out += said(member);
  }
  return out;
}

/// A step without its verb, which its label says already.
std::string step_details(Json step) {
  step.erase("do");
  return said(step);
}

/// How many steps of `a` and `b` are equal, keeping the order: the table of the longest common
/// subsequence, from the ends.
std::vector<std::vector<int>> common_lengths(const Json& a, const Json& b) {
  std::vector<std::vector<int>> length(a.size() + 1, std::vector<int>(b.size() + 1, 0));
  for (std::size_t i = a.size(); i-- > 0;)
    for (std::size_t j = b.size(); j-- > 0;)
      length[i][j] =
          a[i] == b[j] ? length[i + 1][j + 1] + 1 : std::max(length[i + 1][j], length[i][j + 1]);
  return length;
}

struct Pairing {
  std::vector<std::optional<std::size_t>> partner;  ///< per step before: its index after
  std::vector<bool> in_place;  ///< per step before: kept its place in the order
  std::vector<bool> taken;     ///< per step after: has a partner
};

std::size_t equal_members(const Json& a, const Json& b) {
  std::size_t count = 0;
  for (const auto& [key, value] : a.items()) count += b.contains(key) && b[key] == value;
  return count;
}

/// Steps that are equal and in order; then equal ones that moved; then those of one verb; then
/// those of different verbs with something in common ("simmer" and "boil" for 12 min).
Pairing paired(const Json& before, const Json& after) {
  Pairing p{std::vector<std::optional<std::size_t>>(before.size()),
            std::vector<bool>(before.size(), false), std::vector<bool>(after.size(), false)};
  const auto join = [&p](std::size_t i, std::size_t j) {
    p.partner[i] = j;
    p.taken[j] = true;
  };
  const auto length = common_lengths(before, after);
  for (std::size_t i = 0, j = 0; i < before.size() && j < after.size();) {
    if (before[i] == after[j]) {
      p.in_place[i] = true;
      join(i++, j++);
    } else if (length[i + 1][j] >= length[i][j + 1]) {
      ++i;
    } else {
      ++j;
    }
  }
  const auto match = [&](auto alike) {
    for (std::size_t i = 0; i < before.size(); ++i)
      for (std::size_t j = 0; j < after.size() && !p.partner[i]; ++j)
        if (!p.taken[j] && alike(before[i], after[j])) join(i, j);
  };
  match([](const Json& a, const Json& b) { return a == b; });
  match([](const Json& a, const Json& b) { return a["do"] == b["do"]; });
  match([](const Json& a, const Json& b) { return equal_members(a, b) >= 2; });
  return p;
}

/// Whether step `i` still stands between the same neighbours: all paired steps before it have
/// partners before its own, counting only those that kept their place.
bool kept_place(const Pairing& p, std::size_t i) {
  for (std::size_t k = 0; k < p.partner.size(); ++k)
    if (p.in_place[k] && (k < i) != (*p.partner[k] < *p.partner[i]) && k != i) return false;
  return true;
}

class Differences {
 public:
  Differences(const Plan& before, const Plan& after) : before_(before), after_(after) {
    objects(parse_json(*before.source), parse_json(*after.source), "");
  }

  std::vector<PlanChange> found;

 private:
  /// A step of both plans: by its number in the earlier one and, where that differs, in the later.
  static std::string in_both(std::size_t before, std::size_t after, const std::string& verb) {
    const std::string now = before == after ? "" : " (now step " + std::to_string(after + 1) + ")";
    return "step " + std::to_string(before + 1) + now + ", " + verb;
  }

  /// `pointer` in words; what lies deeper than places_in_words() tells is added as it is.
  std::string label(const Plan& plan, const std::string& pointer) const {
    std::vector<std::size_t> slashes;
    for (std::size_t i = 0; i < pointer.size(); ++i)
      if (pointer[i] == '/') slashes.push_back(i);
    const std::size_t told = pointer.rfind("/stages/", 0) == 0 ? 3 : 2;
    const auto step = step_at(before_, pointer);
    const auto words = [&](const std::string& place) {
      return step && now_ ? in_both(at(*step), *now_, before_.steps[at(*step)].verb)
                          : place_in_words(plan, place);
    };
    if (slashes.size() <= told) return words(pointer);
    std::string rest = spaced(pointer.substr(slashes[told] + 1));
    std::replace(rest.begin(), rest.end(), '/', ' ');
    return words(pointer.substr(0, slashes[told])) + ", " + rest;
  }

  void objects(const Json& a, const Json& b, const std::string& pointer) {
    for (const auto& [key, value] : a.items()) {
      const std::string at = pointer_to(pointer, key);
      if (b.contains(key))
        values(value, b[key], at);
      else
        found.push_back({Kind::taken_out, label(before_, at), said(value), ""});
    }
    for (const auto& [key, value] : b.items())
      if (!a.contains(key))
        found.push_back({Kind::put_in, label(after_, pointer_to(pointer, key)), "", said(value)});
  }

  void values(const Json& a, const Json& b, const std::string& at) {
    if (a == b) return;
    if (at == "/steps") return steps(a, b);
    if (a.is_object() && b.is_object()) return objects(a, b, at);
    if (at == "/stages" && a.size() == b.size()) {
      for (std::size_t i = 0; i < a.size(); ++i) values(a[i], b[i], pointer_to(at, i));
      return;
    }
    found.push_back({Kind::changed, label(before_, at), said(a), said(b)});
  }

  void steps(const Json& a, const Json& b) {
    const Pairing p = paired(a, b);
    for (std::size_t i = 0; i < a.size(); ++i) {
      const std::string& verb = before_.steps[i].verb;
      if (!p.partner[i]) {
        found.push_back({Kind::taken_out, "old " + step_label(before_, static_cast<int>(i)),
                         step_details(a[i]), ""});
        continue;
      }
      if (!kept_place(p, i))
        found.push_back({Kind::moved, verb, "old step " + std::to_string(i + 1),
                         "new step " + std::to_string(*p.partner[i] + 1)});
      now_ = *p.partner[i];
      objects(a[i], b[*p.partner[i]], pointer_to("/steps", i));
      now_.reset();
    }
    for (std::size_t j = 0; j < b.size(); ++j)
      if (!p.taken[j])
        found.push_back({Kind::put_in, "new " + step_label(after_, static_cast<int>(j)), "",
                         step_details(b[j])});
  }

  const Plan& before_;
  const Plan& after_;
  std::optional<std::size_t> now_;  ///< of the step that is gone through: its index in `after_`
};

}  // namespace

std::vector<PlanChange> changes_between(const Plan& before, const Plan& after) {
  return Differences(before, after).found;
}

}  // namespace starter
