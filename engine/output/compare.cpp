#include "output/compare.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>
#include <utility>

#include "output/places.h"
#include "plan/json.h"
#include "plan/pointer.h"
#include "plan/shape.h"
#include "quantity/read.h"
#include "rules/evaluate.h"
#include "rules/telling.h"

namespace starter {
namespace {

using Json = nlohmann::ordered_json;

std::size_t at(int i) {
  return static_cast<std::size_t>(i);
}

// --- which steps belong together --------------------------------------------------------------

bool same_deed(const Step& a, const Step& b) {
  return a.stage == b.stage && (a.does ? a.does == b.does : !b.does && a.verb == b.verb);
}

/// How much two steps that do the same have in common; enough to tell one cover from another, and
/// never worth more than that another pair stays together.
int likeness(const Step& a, const Step& b) {
  return 100 + 5 * (a.in == b.in) + 5 * (a.with == b.with && a.items == b.items) +
         3 * (a.from == b.from) + 3 * (a.into == b.into) + 2 * (a.lasts == b.lasts) +
         2 * (a.to == b.to) + (a.during == b.during) + (a.heat == b.heat) + (a.bath == b.bath);
}

// --- what the plans say -----------------------------------------------------------------------

Json document_of(const Plan& plan) {
  if (!plan.source) return Json::object();
  std::string_view bytes = *plan.source;
  constexpr std::string_view mark = "\xEF\xBB\xBF";
  if (bytes.substr(0, mark.size()) == mark) bytes.remove_prefix(mark.size());
  Json document = try_parse_json(bytes);
  return document.is_object() ? document : Json::object();
}

bool is_leaf(const Json& value) {
  if (value.is_object()) return false;
  return !value.is_array() || std::none_of(value.begin(), value.end(),
                                           [](const Json& item) { return item.is_object(); });
}

using Reader = bool (*)(const std::string&, const std::string&);
template <auto read>
bool read_alike(const std::string& a, const std::string& b) {
  const auto first = read(a), second = read(b);
  return first && second && *first == *second;
}
constexpr Reader readers[] = {
    read_alike<read_mass>,         read_alike<read_volume>, read_alike<read_temperature>,
    read_alike<read_duration>,     read_alike<read_length>, read_alike<read_cell_count>,
    read_alike<read_cell_density>, read_alike<read_share>,  read_alike<read_gravity>};

/// Whether two written values say the same: "1.2 L" and "1200 mL", "foil" and ["foil"].
bool says_the_same(const Json& a, const Json& b) {
  if (a == b) return true;
  if (a.is_string() && b.is_array() && b.size() == 1) return says_the_same(a, b[0]);
  if (b.is_string() && a.is_array() && a.size() == 1) return says_the_same(a[0], b);
  if (!a.is_string() || !b.is_string()) return false;
  const auto& first = a.get_ref<const std::string&>();
  const auto& second = b.get_ref<const std::string&>();
  return std::any_of(std::begin(readers), std::end(readers),
                     [&](Reader alike) { return alike(first, second); });
}

std::string assumed_at(const Plan& plan, const std::string& where) {
  for (const Assumption& a : plan.assumed)
    if (a.where == where) return a.value;
  return "";
}

/// Goes through both documents together.
class Differences {
 public:
  Differences(const Plan& first, const Plan& second) : first_(first), second_(second) {}

  std::vector<ComparedField> all() {
    const Json a = document_of(first_), b = document_of(second_);
    for (const std::string_view name : shape::plan) {
      if (name == "plan") continue;
      const std::string key(name);
      const Json* in_a = a.contains(key) ? &a[key] : nullptr;
      const Json* in_b = b.contains(key) ? &b[key] : nullptr;
      if (name == "steps")
        steps(in_a, in_b);
      else
        compare(in_a, in_b, pointer_to("", name), pointer_to("", name));
    }
    return std::move(found_);
  }

 private:
  void compare(const Json* a, const Json* b, const std::string& at_a, const std::string& at_b) {
    if (a == nullptr && b == nullptr) return;
    if ((a != nullptr && is_leaf(*a)) || (b != nullptr && is_leaf(*b)) ||
        (a != nullptr && b != nullptr && a->type() != b->type())) {
      if (a == nullptr || b == nullptr || !says_the_same(*a, *b)) tell(a, b, at_a, at_b);
      return;
    }
    const Json& any = a != nullptr ? *a : *b;
    if (any.is_array())
      lists(a, b, at_a, at_b);
    else
      objects(a, b, at_a, at_b);
  }

  void objects(const Json* a, const Json* b, const std::string& at_a, const std::string& at_b) {
    std::set<std::string> seen;
    for (const Json* of : {a, b}) {
      if (of == nullptr) continue;
      for (const auto& [name, unused] : of->items()) {
        if (!seen.insert(name).second) continue;
        const auto in = [&name = name](const Json* o) {
          return o != nullptr && o->contains(name) ? &(*o)[name] : nullptr;
        };
        const Json *in_a = in(a), *in_b = in(b);
        // A vessel that only one of them has is one thing, not a field each.
        if (at_a == "/vessels" && (in_a == nullptr || in_b == nullptr))
          tell(in_a, in_b, pointer_to(at_a, name), pointer_to(at_b, name));
        else
          compare(in_a, in_b, pointer_to(at_a, name), pointer_to(at_b, name));
      }
    }
  }

  void lists(const Json* a, const Json* b, const std::string& at_a, const std::string& at_b) {
    const std::size_t in_a = a != nullptr ? a->size() : 0, in_b = b != nullptr ? b->size() : 0;
    for (std::size_t i = 0; i < std::max(in_a, in_b); ++i) {
      const Json* item_a = i < in_a ? &(*a)[i] : nullptr;
      const Json* item_b = i < in_b ? &(*b)[i] : nullptr;
      const std::string where_a = pointer_to(at_a, i), where_b = pointer_to(at_b, i);
      if (item_a == nullptr || item_b == nullptr)
        tell(item_a, item_b, where_a, where_b);
      else
        compare(item_a, item_b, where_a, where_b);
    }
  }

  void steps(const Json* a, const Json* b) {
    const bool listed_a = a != nullptr && a->is_array() && a->size() == first_.steps.size();
    const bool listed_b = b != nullptr && b->is_array() && b->size() == second_.steps.size();
    if (!listed_a || !listed_b) {
      // The one without gets the usual process, which the member did not write.
      if (listed_a || listed_b)
        tell(listed_a ? a : nullptr, listed_b ? b : nullptr, "/steps", "/steps");
      return;
    }
    const auto match = steps_that_match(first_, second_);
    std::vector<bool> taken(b->size(), false);
    for (const auto& j : match)
      if (j) taken[at(*j)] = true;
    for (std::size_t i = 0; i < a->size(); ++i) {
      const std::string at_a = pointer_to("/steps", i);
      if (match[i]) {
        objects(&(*a)[i], &(*b)[at(*match[i])], at_a, pointer_to("/steps", at(*match[i])));
        continue;
      }
      const auto moved = same_step((*a)[i], *b, taken);
      if (moved) taken[*moved] = true;
      tell(&(*a)[i], moved ? &(*b)[*moved] : nullptr, at_a,
           moved ? pointer_to("/steps", *moved) : "");
      if (moved) found_.back().how = ComparedField::How::moved;
    }
    for (std::size_t j = 0; j < b->size(); ++j)
      if (!taken[j]) tell(nullptr, &(*b)[j], "", pointer_to("/steps", j));
  }

  static std::optional<std::size_t> same_step(const Json& step, const Json& among,
                                              const std::vector<bool>& taken) {
    for (std::size_t j = 0; j < among.size(); ++j)
      if (!taken[j] && among[j] == step) return j;
    return std::nullopt;
  }

  void tell(const Json* a, const Json* b, const std::string& at_a, const std::string& at_b) {
    ComparedField field;
    field.how = a == nullptr   ? ComparedField::How::added
                : b == nullptr ? ComparedField::How::removed
                               : ComparedField::How::changed;
    field.first_where = a != nullptr ? at_a : "";
    field.second_where = b != nullptr ? at_b : "";
    field.place = b != nullptr ? field_in_words(second_, at_b) : field_in_words(first_, at_a);
    if (a != nullptr) field.first = *a;
    if (b != nullptr) field.second = *b;
    if (a == nullptr) field.first_assumed = assumed_at(first_, at_a);
    if (b == nullptr) field.second_assumed = assumed_at(second_, at_b);
    found_.push_back(std::move(field));
  }

  const Plan& first_;
  const Plan& second_;
  std::vector<ComparedField> found_;
};

// --- findings ---------------------------------------------------------------------------------

/// How far a number lies outside what is comfortable for its rule; nothing for other rules.
std::optional<double> beyond_comfortable(const Finding& f, const Judgement& j) {
  if (f.rule->kind != RuleKind::range || f.numbers.empty()) return std::nullopt;
  const RuleBounds bounds = bounds_at(*f.rule, j.facts, f.stage);
  const Bounds& b = bounds.comfortable.any() ? bounds.comfortable : bounds.hard;
  const double value = f.numbers.front().value;
  if (b.low && value < *b.low) return *b.low - value;
  if (b.high && value > *b.high) return value - *b.high;
  return 0;
}

FindingChange change_of(const Finding& a, const Finding& b, const Comparison& c) {
  if (a.severity != b.severity)
    return b.severity > a.severity ? FindingChange::worse : FindingChange::milder;
  const auto was = beyond_comfortable(a, c.first), is = beyond_comfortable(b, c.second);
  if (!was || !is) return FindingChange::same;
  const Measure &before = a.numbers.front(), &after = b.numbers.front();
  const auto likely = [](const Measure& m) {
    return write_value(m.value, m.unit, UnitSystem::metric);
  };
  if (likely(before) == likely(after) || *was == *is) return FindingChange::same;
  return *is > *was ? FindingChange::worse : FindingChange::milder;
}

/// A pointer of the first plan as the second has that place; empty where its step is gone.
std::string place_in_second(const Plan& first, const std::string& where,
                            const std::vector<std::optional<int>>& match) {
  const auto step = step_at(first, where);
  if (!step) return where;
  const auto& now = match[at(*step)];
  if (!now) return "";
  const std::string head = pointer_to("/steps", at(*step));
  return pointer_to("/steps", at(*now)) + where.substr(std::min(where.size(), head.size()));
}

std::vector<ComparedFinding> match_findings(const Comparison& c) {
  const auto match = steps_that_match(c.first.plan, c.second.plan);
  std::vector<ComparedFinding> all;
  std::vector<bool> taken(c.second.findings.size(), false);
  for (const Finding& a : c.first.findings) {
    const std::string where = place_in_second(c.first.plan, a.where, match);
    ComparedFinding one{FindingChange::gone, &a, nullptr};
    for (std::size_t j = 0; j < taken.size() && !one.second; ++j) {
      const Finding& b = c.second.findings[j];
      const bool lost = where.empty() && !a.where.empty();
      if (taken[j] || lost || a.rule->id != b.rule->id || b.where != where || a.item != b.item)
        continue;
      taken[j] = true;
      one.second = &b;
      one.change = change_of(a, b, c);
    }
    all.push_back(one);
  }
  for (std::size_t j = 0; j < taken.size(); ++j)
    if (!taken[j]) all.push_back({FindingChange::fresh, nullptr, &c.second.findings[j]});
  const auto order = [](const ComparedFinding& f) {
    const int rank = f.change == FindingChange::fresh || f.change == FindingChange::worse ? 0
                     : f.change == FindingChange::same                                    ? 2
                                                                                          : 1;
    const Finding& shown = f.second ? *f.second : *f.first;
    return std::pair(rank, -static_cast<int>(shown.severity));
  };
  std::stable_sort(all.begin(), all.end(), [&](const ComparedFinding& a, const ComparedFinding& b) {
    return order(a) < order(b);
  });
  return all;
}

// --- measures ---------------------------------------------------------------------------------

const Measure* exactly(const std::vector<Measure>& measures, const Measure& like) {
  for (const Measure& m : measures)
    if (m.name == like.name && m.stage == like.stage) return &m;
  return nullptr;
}

ComparedMeasure compared(const Measure* a, const Measure* b) {
  ComparedMeasure m{a, b, true, false};
  if (a == nullptr || b == nullptr) return m;
  m.differs = value_text(*a, UnitSystem::metric) != value_text(*b, UnitSystem::metric);
  m.beyond = m.differs && (a->high < b->low || b->high < a->low);
  return m;
}

std::vector<ComparedMeasure> match_measures(const Comparison& c) {
  std::vector<ComparedMeasure> all;
  const auto add = [&](const MeasureKind& kind, int stage) {
    Measure like;
    like.name = kind.name;
    like.stage = stage;
    const Measure *a = exactly(c.first.measures, like), *b = exactly(c.second.measures, like);
    if (a != nullptr || b != nullptr) all.push_back(compared(a, b));
  };
  const std::size_t stages = std::max(c.first.plan.stages.size(), c.second.plan.stages.size());
  for (int stage = 0; at(stage) < stages; ++stage)
    for (const MeasureKind& kind : measure_kinds())
      if (kind.of == Of::stage) add(kind, stage);
  for (const MeasureKind& kind : measure_kinds())
    if (kind.of != Of::stage) add(kind, -1);
  return all;
}

std::string listed(const std::vector<std::string>& words) {
  std::string out;
  for (const std::string& word : words) out += (out.empty() ? "" : ", ") + word;
  return out;
}

/// The worst that is left at or above what weakens; nothing for a plan that is good to go.
std::optional<Severity> to_mend(const Judgement& j) {
  const auto found = worst(j.findings);
  return found && *found >= Severity::weakens ? found : std::nullopt;
}

long serious(const Judgement& j, Severity severity) {
  return std::count_if(j.findings.begin(), j.findings.end(),
                       [=](const Finding& f) { return f.severity == severity; });
}

/// Which plan is better: the one with fewer of the worst findings, then of the next, notes aside.
int better(const Comparison& c) {
  for (const Severity s : {Severity::danger, Severity::spoils, Severity::weakens}) {
    const long a = serious(c.first, s), b = serious(c.second, s);
    if (a != b) return b < a ? 1 : -1;
  }
  return 0;
}

}  // namespace

std::string_view spelling(FindingChange change) {
  switch (change) {
    case FindingChange::gone:
      return "gone";
    case FindingChange::fresh:
      return "new";
    case FindingChange::worse:
      return "worse";
    case FindingChange::milder:
      return "milder";
    case FindingChange::same:
      break;
  }
  return "same";
}

std::string_view spelling(ComparedField::How how) {
  switch (how) {
    case ComparedField::How::added:
      return "added";
    case ComparedField::How::removed:
      return "removed";
    case ComparedField::How::moved:
      return "moved";
    case ComparedField::How::changed:
      break;
  }
  return "changed";
}

long Comparison::count(FindingChange change) const {
  return std::count_if(findings.begin(), findings.end(),
                       [=](const ComparedFinding& f) { return f.change == change; });
}

/// The alignment of two sequences with the largest sum (published: S. B. Needleman and C. D.
/// Wunsch, "A general method applicable to the search for similarities in the amino acid sequence
/// of two proteins", J. Mol. Biol. 48, 1970), gaps costing nothing.
std::vector<std::optional<int>> steps_that_match(const Plan& first, const Plan& second) {
  const std::size_t n = first.steps.size(), m = second.steps.size();
  std::vector<std::vector<int>> best(n + 1, std::vector<int>(m + 1, 0));
  for (std::size_t i = n; i-- > 0;)
    for (std::size_t j = m; j-- > 0;) {
      best[i][j] = std::max(best[i + 1][j], best[i][j + 1]);
      if (same_deed(first.steps[i], second.steps[j]))
        best[i][j] =
            std::max(best[i][j], best[i + 1][j + 1] + likeness(first.steps[i], second.steps[j]));
    }
  std::vector<std::optional<int>> match(n);
  for (std::size_t i = 0, j = 0; i < n && j < m;) {
    const bool together =
        same_deed(first.steps[i], second.steps[j]) &&
        best[i][j] == best[i + 1][j + 1] + likeness(first.steps[i], second.steps[j]);
    if (together)
      match[i++] = static_cast<int>(j++);
    else if (best[i][j] == best[i + 1][j])
      ++i;
    else
      ++j;
  }
  return match;
}

Comparison compare_plans(const Judgement& first, const Judgement& second, UnitSystem units) {
  Comparison c{first, second, {}, {}, {}, {}, {}};
  c.findings = match_findings(c);
  c.measures = match_measures(c);
  c.fields = Differences(first.plan, second.plan).all();
  c.first_calendar = calendar_of(first, units);
  c.second_calendar = calendar_of(second, units);
  return c;
}

std::string comparison_in_words(const Comparison& c) {
  std::vector<std::string> parts;
  for (const FindingChange change :
       {FindingChange::gone, FindingChange::milder, FindingChange::worse, FindingChange::fresh})
    if (const long n = c.count(change)) parts.push_back(fmt::format("{} {}", n, spelling(change)));
  const int which = better(c);
  std::string text = which > 0            ? "The second is better"
                     : which < 0          ? "The first is better"
                     : !to_mend(c.second) ? "Both are good to go"
                                          : "Neither is better by what is left to mend";
  if (which > 0 && to_mend(c.second)) text += ", and not good to go yet";
  if (which > 0 && !to_mend(c.second)) text += ", and good to go";
  if (which < 0 && to_mend(c.first)) text += ", and not good to go yet";
  if (which < 0 && !to_mend(c.first)) text += ", and good to go";
  if (parts.empty()) return text + "; the findings are the same.";
  return text + ". Findings from the first to the second: " + listed(parts) + ".";
}

std::string written_in_words(const Json& value) {
  if (value.is_string()) return spoken_if_time(value.get<std::string>());
  if (value.is_boolean()) return value.get<bool>() ? "yes" : "no";
  if (value.is_null()) return "";
  if (!value.is_structured()) return value.dump();
  std::string out;
  for (const auto& [name, held] : value.items()) {
    if (!out.empty()) out += value.is_object() ? "; " : ", ";
    if (value.is_object()) {
      std::string spaced = name;
      std::replace(spaced.begin(), spaced.end(), '_', ' ');
      out += spaced + ": ";
    }
    out += held.is_structured() && value.is_object() && held.is_object()
               ? "(" + written_in_words(held) + ")"
               : written_in_words(held);
  }
  return out;
}

}  // namespace starter
