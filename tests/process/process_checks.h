#pragma once

// What holds of every process, and short ways to look into one.

#include <algorithm>
#include <bitset>
#include <boost/test/unit_test.hpp>
#include <vector>

#include "process/process.h"

inline std::size_t at(int i) {
  return static_cast<std::size_t>(i);
}

inline bool waits(const starter::Process& process, int from, int to, starter::Dependency::Why why) {
  return std::any_of(process.dependencies.begin(), process.dependencies.end(),
                     [&](const starter::Dependency& arrow) {
                       return arrow.from == from && arrow.to == to && arrow.why == why;
                     });
}

inline bool waits(const starter::Process& process, int from, int to) {
  using Why = starter::Dependency::Why;
  return waits(process, from, to, Why::written_order) || waits(process, from, to, Why::after) ||
         waits(process, from, to, Why::during) || waits(process, from, to, Why::trade);
}

/// The order holds every step once and obeys every arrow; what precedes() says follows from the
/// arrows and from nothing else.
inline bool is_sound(const starter::Plan& plan, const starter::Process& process) {
  const std::size_t count = plan.steps.size();
  std::vector<int> place(count, -1);
  if (process.order.size() != count || process.inside.size() != count) return false;
  for (std::size_t k = 0; k < count; ++k) {
    const int step = process.order[k];
    if (step < 0 || at(step) >= count || place[at(step)] >= 0) return false;
    place[at(step)] = static_cast<int>(k);
  }
  std::vector<std::bitset<starter::most_steps>> follows(count);
  for (const auto& arrow : process.dependencies) {
    if (place[at(arrow.from)] >= place[at(arrow.to)]) return false;
    follows[at(arrow.from)].set(at(arrow.to));
  }
  for (std::size_t via = 0; via < count; ++via)
    for (std::size_t from = 0; from < count; ++from)
      if (follows[from].test(via)) follows[from] |= follows[via];
  for (std::size_t a = 0; a < count; ++a)
    for (std::size_t b = 0; b < count; ++b)
      if (process.precedes(static_cast<int>(a), static_cast<int>(b)) != follows[a].test(b))
        return false;
  for (const auto& ring : process.loops)
    if (ring.empty() || *std::min_element(ring.begin(), ring.end()) != ring.front()) return false;
  return true;
}

/// Unfolds, and checks what holds of every process.
inline starter::Process unfolded(const starter::Plan& plan) {
  starter::Process process = starter::unfold(plan);
  BOOST_TEST(is_sound(plan, process));
  return process;
}

inline std::vector<const starter::Touch*> touches_in(const starter::Process& process, int step) {
  std::vector<const starter::Touch*> found;
  for (const auto& touch : process.touches)
    if (touch.step == step) found.push_back(&touch);
  return found;
}

/// The one touch of that item in that step.
inline const starter::Touch& touch_of(const starter::Process& process, const std::string& item,
                                      int step) {
  const starter::Touch* found = nullptr;
  for (const auto* touch : touches_in(process, step)) {
    if (touch->item != item) continue;
    BOOST_REQUIRE_MESSAGE(!found, item << " touches twice in step " << step);
    found = touch;
  }
  BOOST_REQUIRE_MESSAGE(found, item << " does not touch in step " << step);
  return *found;
}
