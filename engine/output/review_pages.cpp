#include "output/review_pages.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <string>
#include <vector>

#include "output/html.h"
#include "output/plots.h"
#include "output/review_index.h"
#include "output/sheet_view.h"
#include "rules/telling.h"

namespace starter {
namespace {

constexpr std::size_t most_lessons = 3, rules_a_lesson = 2, most_spreads = 8;
constexpr int much_of_it = 4;  // a quarter

const RuleTally& tally_of_rule(const ReviewTally& tally, const Rule* rule) {
  return *std::find_if(tally.rules.begin(), tally.rules.end(),
                       [rule](const RuleTally& t) { return t.rule == rule; });
}

/// "15, crash and decant" for the lesson "15-crash-and-decant".
std::string lesson_in_words(std::string lesson) {
  std::replace(lesson.begin(), lesson.end(), '-', ' ');
  const std::size_t space = lesson.find(' ');
  if (space != std::string::npos &&
      std::all_of(lesson.begin(), lesson.begin() + static_cast<std::ptrdiff_t>(space),
                  [](char c) { return c >= '0' && c <= '9'; }))
    lesson.insert(space, ",");
  return lesson;
}

/// The lessons in the order of the workshop, and the rules of each: what gave a danger first, then
/// most plans first, as the tally has them.
std::vector<LessonTally> for_workshop(const ReviewTally& tally) {
  const auto gave_danger = [&](const Rule* rule) {
    return tally_of_rule(tally, rule).worst == Severity::danger;
  };
  std::vector<LessonTally> lessons = tally.lessons;
  for (LessonTally& lesson : lessons)
    std::stable_partition(lesson.rules.begin(), lesson.rules.end(), gave_danger);
  std::stable_partition(lessons.begin(), lessons.end(), [&](const LessonTally& lesson) {
    return !lesson.rules.empty() && gave_danger(lesson.rules.front());
  });
  return lessons;
}

/// The topics that would help most plans, each with the rules that made it so.
Json topics_view(const ReviewTally& tally) {
  const int usable = tally.plans - tally.unusable;
  const std::vector<LessonTally> lessons = for_workshop(tally);
  Json topics = Json::array();
  for (std::size_t i = 0; i < lessons.size() && i < most_lessons; ++i) {
    const LessonTally& lesson = lessons[i];
    Json rules = Json::array();
    for (std::size_t k = 0; k < lesson.rules.size() && k < rules_a_lesson; ++k) {
      const Rule& rule = *lesson.rules[k];
      // The first stands for the lesson; another is worth a word where it did much of it.
      if (k > 0 && tally_of_rule(tally, &rule).plans * much_of_it < lesson.plans) break;
      rules.push_back(
          Json({{"title", rule.title},
                {"share", share_in_words(tally_of_rule(tally, &rule).plans, usable, "plans")},
                {"why", rule.why},
                {"advice", rule.advice}}));
    }
    topics.push_back(Json({{"lesson", lesson_in_words(lesson.lesson)},
                           {"share", share_in_words(lesson.plans, usable, "plans")},
                           {"rules", std::move(rules)}}));
  }
  return topics;
}

std::vector<BarPart> parts_of(const RuleTally& t, int most) {
  std::vector<BarPart> parts;
  for (const Severity s : {Severity::danger, Severity::spoils, Severity::weakens, Severity::note})
    parts.push_back({static_cast<double>(t.by_severity[static_cast<std::size_t>(s)]) / most,
                     std::string(spelling(s))});
  return parts;
}

std::string count_text(int count) {
  return count == 0 ? "–" : std::to_string(count);
}

Json rules_view(const ReviewTally& tally) {
  int most = 1;
  for (const RuleTally& t : tally.rules) most = std::max(most, t.findings());
  Json rows = Json::array();
  for (const RuleTally& t : tally.rules) {
    const auto of = [&t](Severity s) {
      return count_text(t.by_severity[static_cast<std::size_t>(s)]);
    };
    rows.push_back(Json({{"title", t.rule->title},
                         {"rule", t.rule->id},
                         {"plans", count_text(t.plans)},
                         {"danger", of(Severity::danger)},
                         {"spoils", of(Severity::spoils)},
                         {"weakens", of(Severity::weakens)},
                         {"note", of(Severity::note)},
                         {"lesson", lesson_in_words(t.rule->lesson)},
                         {"bar", {{"markup", bar_svg(parts_of(t, most))}}}}));
  }
  return rows;
}

Json members_view(const ReviewTally& tally) {
  Json rows = Json::array();
  for (const MemberTally& m : tally.members)
    rows.push_back(Json({{"member", m.member.empty() ? "(no name given)" : m.member},
                         {"plans", m.plans},
                         {"to_mend", m.to_mend},
                         {"severity", severity_view(m.worst)},
                         {"most", m.most ? m.most->title : ""}}));
  return rows;
}

/// "9 far below, 3 below, 20 comfortable, 1 above"
std::string levels_in_words(const Spread& s) {
  constexpr const char* words[] = {"far below", "below", "comfortable", "above", "far above"};
  std::string out;
  for (std::size_t i = 0; i < s.by_level.size(); ++i)
    if (s.by_level[i] > 0)
      out += fmt::format("{}{} {}", out.empty() ? "" : ", ", s.by_level[i], words[i]);
  return out;
}

double middle_of(const std::vector<PlottedNumber>& sorted) {
  const std::size_t half = sorted.size() / 2;
  return sorted.size() % 2 ? sorted[half].value : (sorted[half - 1].value + sorted[half].value) / 2;
}

Json tick(const Histogram& h, double value, const std::string& text) {
  return {{"left", fmt::format("{:.1f}", 100 * h.place(value))}, {"text", text}};
}

Json spread_view(const Spread& s, UnitSystem units) {
  const MeasureKind* kind = find_measure_kind(s.rule->measure);
  const Telling telling = telling_of(*s.rule, kind->unit);
  const auto told = [&](double value) {
    return write_value(value * telling.factor, telling.unit, units);
  };
  const Bounds& comfortable =
      s.rule->bounds.comfortable.any() ? s.rule->bounds.comfortable : s.rule->bounds.hard;
  const bool differs = !s.rule->by_fact.empty();
  const Histogram h = histogram_of(s.values, comfortable);
  Json ticks = Json::array();
  if (comfortable.low) ticks.push_back(tick(h, *comfortable.low, told(*comfortable.low)));
  if (comfortable.high) ticks.push_back(tick(h, *comfortable.high, told(*comfortable.high)));
  return {{"title", s.rule->title},
          {"measure", kind->title},
          {"comfortable", comfortable.any() && !differs
                              ? bounds_text(telling.of(comfortable), telling.unit, units)
                              : ""},
          {"differs", differs},
          {"levels", levels_in_words(s)},
          {"off", share_in_words(s.off(), static_cast<int>(s.values.size()), "starters")},
          {"least", told(s.values.front().value)},
          {"middle", told(middle_of(s.values))},
          {"most", told(s.values.back().value)},
          {"plot", differs ? Json(nullptr)  // one band would be wrong for some of the starters
                           : Json({{"markup", histogram_svg(h)},
                                   {"ticks", std::move(ticks)},
                                   {"from", told(h.from)},
                                   {"to", told(h.to)}})}};
}

Json spreads_view(const ReviewTally& tally, UnitSystem units) {
  Json list = Json::array();
  for (const Spread& s : tally.spreads) {
    if (s.off() == 0 || list.size() == most_spreads) break;
    if (find_measure_kind(s.rule->measure)) list.push_back(spread_view(s, units));
  }
  return list;
}

ReviewPage common_page(const Review& review, const ReviewTally& tally) {
  Json data;
  data["page_title"] = "What goes wrong most often: " + review.name;
  data["folder"] = review.name;
  data["club"] = review.club;
  data["total"] = counted(tally.plans, "plan", "plans");
  data["standing"] = standing_view(tally);
  data["has_plans"] = tally.plans > 0;
  data["topics"] = topics_view(tally);
  data["has_topics"] = !data["topics"].empty();
  data["rules"] = rules_view(tally);
  data["has_rules"] = !data["rules"].empty();
  data["members"] = members_view(tally);
  data["has_members"] = !data["members"].empty();
  data["spreads"] = spreads_view(tally, review.units);
  data["has_spreads"] = !data["spreads"].empty();
  return {"common.html", fill_page("review-common", data)};
}

}  // namespace

std::vector<ReviewPage> review_pages(const Review& review, const ReviewTally& tally) {
  std::vector<ReviewPage> pages = index_pages(review, tally);
  pages.push_back(common_page(review, tally));
  return pages;
}

}  // namespace starter
