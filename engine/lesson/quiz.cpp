#include "lesson/quiz.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdint>
#include <set>

#include "output/process_graph.h"
#include "output/step_words.h"
#include "quantity/words.h"
#include "rules/catalogue.h"
#include "rules/telling.h"

namespace starter {
namespace {

/// The 32-bit FNV-1a hash: an order that looks like none and is the same on every computer.
std::uint32_t shuffled_place(std::string_view lesson, std::string_view rule) {
  std::uint32_t hash = 2166136261u;
  for (const std::string_view text : {lesson, std::string_view("/"), rule})
    for (const char c : text) {
      hash ^= static_cast<unsigned char>(c);
      hash *= 16777619u;
    }
  return hash;
}

bool has_step(const Plan& plan, Do what) {
  return std::any_of(plan.steps.begin(), plan.steps.end(),
                     [what](const Step& step) { return step.does == what; });
}

bool has_measure(const Judgement& j, const std::string& name) {
  return std::any_of(j.measures.begin(), j.measures.end(),
                     [&](const Measure& m) { return m.name == name; });
}

/// Whether the plan has what the rule looks at, so that a reader may well expect it to speak.
bool could_speak(const Rule& rule, const Judgement& j) {
  switch (rule.kind) {
    case RuleKind::range:
      return has_measure(j, rule.measure);
    case RuleKind::consistent:
      return has_measure(j, rule.measures[0]) && has_measure(j, rule.measures[1]);
    case RuleKind::order:
      return has_step(j.plan, rule.first) && has_step(j.plan, rule.then);
    case RuleKind::contact:
    case RuleKind::present:
      break;
  }
  return true;
}

bool speaks_at_all(const Rule& rule, const Judgement& j) {
  return std::any_of(j.findings.begin(), j.findings.end(),
                     [&](const Finding& f) { return f.rule == &rule; });
}

std::string counted(std::size_t n, const char* one, const char* many) {
  return fmt::format("{} {}", n, n == 1 ? one : many);
}

}  // namespace

std::string without_title(std::string text) {
  if (!text.starts_with("# ")) return text;
  const std::size_t end = text.find('\n');
  if (end == std::string::npos) return "";
  const std::size_t next = text.find_first_not_of('\n', end);
  return next == std::string::npos ? "" : text.substr(next);
}

std::vector<std::string> steps_to_judge(const Judgement& j, UnitSystem units) {
  std::vector<std::string> list;
  for (std::size_t i = 0; i < j.plan.steps.size(); ++i) {
    const Step& step = j.plan.steps[i];
    const int index = static_cast<int>(i);
    std::string words = step_in_words(j.plan, step, units, Said::drawn);
    const bool yeast = step.does && (*step.does == Do::pitch || *step.does == Do::pitch_to_beer ||
                                     *step.does == Do::krausen_pitch);
    // How many cells a pitch is comes of the plan; the numbers of other steps are in it.
    const std::string key = yeast ? "" : step_key(j, index, units);
    const auto joins = joinings_of(j, index, units);
    const bool joined = std::any_of(joins.begin(), joins.end(),
                                    [&key](const Joining& one) { return one.key == key; });
    if (!key.empty() && !joined) words += ", " + key;
    for (const Joining& one : joins) {
      const bool told = words.find(one.what) != std::string::npos;
      if (one.kind == Joining::Kind::yeast || one.assumed || told) continue;
      words += fmt::format("; {}{}", one.what, one.key.empty() ? "" : " " + one.key);
    }
    list.push_back(std::move(words));
  }
  return list;
}

std::vector<Choice> choices_of(const Lesson& lesson, const Judgement& j) {
  constexpr std::size_t fewest_others = 4;
  std::vector<Choice> choices;
  for (const ExpectedFinding& f : lesson.findings) {
    const Rule* rule = find_rule(f.rule);
    const bool told = std::any_of(choices.begin(), choices.end(),
                                  [rule](const Choice& c) { return c.rule == rule; });
    if (rule && !told) choices.push_back({rule, true});
  }
  // Of the same subjects first: those are the likelier to be taken for true.
  std::set<std::string> subjects;
  for (const Choice& c : choices) subjects.insert(c.rule->lesson);
  std::vector<const Rule*> others;
  for (const Rule& rule : catalogue())
    if (!speaks_at_all(rule, j) && could_speak(rule, j)) others.push_back(&rule);
  std::sort(others.begin(), others.end(), [&](const Rule* a, const Rule* b) {
    const bool a_far = subjects.count(a->lesson) == 0, b_far = subjects.count(b->lesson) == 0;
    if (a_far != b_far) return b_far;
    return shuffled_place(lesson.name, a->id) < shuffled_place(lesson.name, b->id);
  });
  others.resize(std::min(others.size(), std::max(fewest_others, choices.size())));
  for (const Rule* rule : others) choices.push_back({rule, false});
  std::sort(choices.begin(), choices.end(),
            [](const Choice& a, const Choice& b) { return a.rule->title < b.rule->title; });
  return choices;
}

std::variant<std::vector<const Rule*>, AnswerProblem> read_answers(
    std::string_view typed, std::span<const Choice> choices) {
  std::vector<const Rule*> answers;
  constexpr std::string_view between = ", ;\t\r\n";
  while (true) {
    typed.remove_prefix(std::min(typed.find_first_not_of(between), typed.size()));
    if (typed.empty()) return answers;
    const std::string word = lower_ascii(typed.substr(0, typed.find_first_of(between)));
    typed.remove_prefix(word.size());
    const bool number =
        word.size() < 4 && word.find_first_not_of("0123456789") == std::string::npos;
    const Rule* rule = number ? nullptr : find_rule(word);
    if (number) {
      const std::size_t index = std::stoul(word);
      if (index < 1 || index > choices.size())
        return AnswerProblem{
            fmt::format("There is no number {}; they go from 1 to {}.", word, choices.size())};
      rule = choices[index - 1].rule;
    }
    if (!rule) {
      std::vector<std::string_view> ids;
      for (const Rule& known : catalogue()) ids.push_back(known.id);
      const auto nearest = nearest_word(word, ids);
      return AnswerProblem{"There is no rule " + starter::quoted(word) + "." +
                           (nearest ? " Did you mean " + *nearest + "?" : "")};
    }
    if (std::find(answers.begin(), answers.end(), rule) == answers.end()) answers.push_back(rule);
  }
}

Score score_of(std::span<const Rule* const> answers, std::span<const Choice> choices) {
  Score score;
  const auto answered = [&](const Rule* rule) {
    return std::find(answers.begin(), answers.end(), rule) != answers.end();
  };
  for (const Choice& c : choices)
    if (c.speaks) (answered(c.rule) ? score.right : score.missed).push_back(c.rule);
  for (const Rule* rule : answers)
    if (std::find(score.right.begin(), score.right.end(), rule) == score.right.end())
      score.wrong.push_back(rule);
  return score;
}

std::string score_in_words(const Score& s) {
  const std::size_t all = s.right.size() + s.missed.size();
  std::string words = fmt::format("You found {} of {}", s.right.size(), all);
  if (!s.wrong.empty())
    words += ", and named " + counted(s.wrong.size(), "that is not there", "that are not there");
  return words + (s.missed.empty() && s.wrong.empty() ? ". All right!" : ".");
}

std::string what_is_found(const Rule& rule, const Judgement& j) {
  for (const Finding& f : j.findings)
    if (f.rule == &rule && f.severity > Severity::note) return f.says;
  return "";
}

std::string why_silent(const Rule& rule, const Judgement& j, UnitSystem units) {
  for (const Finding& f : j.findings)
    if (f.rule == &rule) return "It is only a note here: " + f.says;
  if (rule.kind != RuleKind::range || !rule.by_fact.empty()) return "";
  for (const Measure& m : j.measures) {
    if (m.name != rule.measure) continue;
    const Telling telling = telling_of(rule, m.unit);
    const Measure told = telling.of(m);
    return fmt::format("{}: {} (comfortable: {}).", find_measure_kind(m.name)->title,
                       value_text(told, units),
                       bounds_text(telling.of(rule.bounds.comfortable), telling.unit, units));
  }
  return "";
}

}  // namespace starter
