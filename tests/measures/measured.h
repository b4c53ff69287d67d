#pragma once

// A plan and all that comes of it.

#include <boost/test/unit_test.hpp>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "../plan_of.h"
#include "measures/facts.h"
#include "measures/measures.h"

/// A plan carried through to its likely measures and its facts; quick.
struct Likely {
  explicit Likely(starter::Plan p, const starter::Draw& draw = {})
      : plan(std::move(p)),
        process(starter::unfold(plan)),
        workings(starter::work_out(plan, process, draw)),
        measures(starter::likely_measures({plan, process, workings})),
        facts(starter::facts_of({plan, process, workings})) {}

  std::optional<double> maybe(const std::string& name, int stage = 0) const {
    const auto* found = starter::find_measure(measures, name, stage);
    return found ? std::optional(found->value) : std::nullopt;
  }
  double value(const std::string& name, int stage = 0) const {
    const auto found = maybe(name, stage);
    BOOST_REQUIRE_MESSAGE(found.has_value(), "there is no " << name);
    return *found;
  }
  std::string fact(const std::string& name, int stage = 0) const {
    const auto* found = starter::find_fact(facts, name, stage);
    return found ? found->value : "";
  }

  starter::Plan plan;
  starter::Process process;
  starter::Workings workings;
  std::vector<starter::Measure> measures;
  std::vector<starter::Fact> facts;
};

/// The example changed by an RFC 6902 patch.
inline Likely amber(const std::string& patch = "[]") {
  return Likely(harvest_amber(patch));
}

/// A patch that replaces or adds one value; `json` is the value as JSON.
inline std::string set(const std::string& path, const std::string& json) {
  return R"([{"op": "add", "path": ")" + path + R"(", "value": )" + json + "}]";
}

/// One value of the example changed to that text.
inline Likely amber_with(const std::string& path, const std::string& text) {
  return amber(set(path, "\"" + text + "\""));
}
