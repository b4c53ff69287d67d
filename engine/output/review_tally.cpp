#include "output/review_tally.h"

#include <algorithm>
#include <map>
#include <numeric>
#include <set>

#include "output/characters.h"

namespace starter {
namespace {

std::size_t at(Severity s) {
  return static_cast<std::size_t>(s);
}

const Rule* rule_of(std::span<const Rule> rules, const std::string& id) {
  const auto found =
      std::find_if(rules.begin(), rules.end(), [&](const Rule& r) { return r.id == id; });
  return found == rules.end() ? nullptr : &*found;
}

void count_rules(std::span<const ReviewRow> rows, std::span<const Rule> rules, ReviewTally& tally) {
  for (const Rule& rule : rules) {
    RuleTally t;
    t.rule = &rule;
    for (const ReviewRow& row : rows) {
      bool breaks = false, noted = false;
      for (const ReviewFinding& f : row.findings) {
        if (f.rule != rule.id || !f.counts) continue;
        ++t.by_severity[at(f.severity)];
        (f.severity == Severity::note ? noted : breaks) = true;
        t.worst = std::max(t.worst.value_or(Severity::note), f.severity);
      }
      t.plans += breaks;
      t.noted += noted && !breaks;
    }
    if (t.findings() > 0) tally.rules.push_back(t);
  }
  std::stable_sort(tally.rules.begin(), tally.rules.end(),
                   [](const RuleTally& a, const RuleTally& b) {
                     if (a.plans != b.plans) return a.plans > b.plans;
                     if (a.worst != b.worst) return a.worst > b.worst;
                     return a.noted > b.noted;
                   });
}

void count_lessons(std::span<const ReviewRow> rows, ReviewTally& tally) {
  std::map<std::string, LessonTally> lessons;
  std::map<std::string, std::string> lesson_of;
  for (const RuleTally& t : tally.rules) {
    if (t.plans == 0 || t.rule->lesson.empty()) continue;
    LessonTally& lesson = lessons[t.rule->lesson];
    lesson.lesson = t.rule->lesson;
    lesson.rules.push_back(t.rule);
    lesson_of[t.rule->id] = t.rule->lesson;
  }
  for (const ReviewRow& row : rows) {
    std::set<std::string> helped;
    for (const ReviewFinding& f : row.findings)
      if (f.counts && f.severity > Severity::note)
        if (const auto found = lesson_of.find(f.rule); found != lesson_of.end())
          helped.insert(found->second);
    for (const std::string& lesson : helped) ++lessons[lesson].plans;
  }
  for (auto& [name, lesson] : lessons) tally.lessons.push_back(std::move(lesson));
  std::stable_sort(tally.lessons.begin(), tally.lessons.end(),
                   [](const LessonTally& a, const LessonTally& b) { return a.plans > b.plans; });
}

void count_members(std::span<const ReviewRow> rows, std::span<const Rule> rules,
                   ReviewTally& tally) {
  std::map<std::string, MemberTally> members;
  std::map<std::string, std::map<std::string, int>> plans_by_rule;
  for (const ReviewRow& row : rows) {
    if (!row.usable()) continue;
    const std::string name = visible(row.member);
    MemberTally& m = members[name];
    m.member = name;
    ++m.plans;
    m.to_mend += row.to_mend();
    m.worst = std::max(m.worst, row.worst());
    std::set<std::string> broken;
    for (const ReviewFinding& f : row.findings)
      if (f.counts && f.severity > Severity::note) broken.insert(f.rule);
    for (const std::string& rule : broken) ++plans_by_rule[name][rule];
  }
  for (auto& [name, m] : members) {
    const auto& by_rule = plans_by_rule[name];
    const auto most =
        std::max_element(by_rule.begin(), by_rule.end(),
                         [](const auto& a, const auto& b) { return a.second < b.second; });
    if (most != by_rule.end()) m.most = rule_of(rules, most->first);
    tally.members.push_back(std::move(m));
  }
  std::stable_sort(
      tally.members.begin(), tally.members.end(),
      [](const MemberTally& a, const MemberTally& b) { return a.to_mend > b.to_mend; });
}

void count_spreads(std::span<const ReviewRow> rows, std::span<const Rule> rules,
                   ReviewTally& tally) {
  constexpr int comfortable = 2;  // index of it in Spread::by_level
  std::map<std::string, Spread> spreads;
  for (const ReviewRow& row : rows)
    for (const ReviewNumber& n : row.numbers) {
      Spread& s = spreads[n.rule];
      s.values.push_back({n.value, n.level != 0});
      ++s.by_level[static_cast<std::size_t>(comfortable + std::clamp(n.level, -2, 2))];
    }
  for (auto& [id, s] : spreads) {
    s.rule = rule_of(rules, id);
    if (!s.rule || s.values.size() < 2) continue;
    std::stable_sort(
        s.values.begin(), s.values.end(),
        [](const PlottedNumber& a, const PlottedNumber& b) { return a.value < b.value; });
    tally.spreads.push_back(std::move(s));
  }
  std::stable_sort(tally.spreads.begin(), tally.spreads.end(),
                   [](const Spread& a, const Spread& b) { return a.off() > b.off(); });
}

}  // namespace

int RuleTally::findings() const {
  return std::accumulate(by_severity.begin(), by_severity.end(), 0);
}

ReviewTally tally_of(std::span<const ReviewRow> rows, std::span<const Rule> rules) {
  ReviewTally tally;
  for (const ReviewRow& row : rows) {
    ++tally.plans;
    if (!row.usable())
      ++tally.unusable;
    else if (const auto worst = row.worst())
      ++tally.by_worst[at(*worst)];
    else
      ++tally.sound;
  }
  count_rules(rows, rules, tally);
  count_lessons(rows, tally);
  count_members(rows, rules, tally);
  count_spreads(rows, rules, tally);
  return tally;
}

}  // namespace starter
