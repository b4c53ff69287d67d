#pragma once

/// \file
/// The register of named measures: what a plan comes to, in numbers, with ranges and their making.
///
/// Adding a measure is adding a row to the table in register.cpp; the names are part of the
/// contract of the plan's JSON output. Units are always metric and one of: g, kg, L, °C, K, min, h,
/// d, billion, million/mL, °P, g/L, PU, %, m, ratio.

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "measures/workings.h"

namespace starter {

/// A plan with its process and its likely workings: what a row of the register looks at.
struct Case {
  const Plan& plan;
  const Process& process;
  const Workings& workings;
};

/// What a measure belongs to; gives its place in the plan.
enum class Of { stage, yeast, beer, plan };

struct MeasureKind {
  std::string_view name;
  std::string_view unit;
  std::string_view title;  ///< for people: "finished wort", "cells needed"
  Of of = Of::stage;
  double least = 0;  ///< ends of a range are kept inside these
  double most = 0;
  /// The value; nothing where the plan has no such thing.
  std::optional<double> (*value)(const Case&, int stage) = nullptr;
  /// How it was computed, with this plan's numbers.
  std::string (*how)(const Case&, int stage) = nullptr;
  /// The JSON pointer a finding about it points at.
  std::string (*where)(const Case&, int stage) = nullptr;
};

std::span<const MeasureKind> measure_kinds();
const MeasureKind* find_measure_kind(std::string_view name);

struct Measure {
  std::string name;
  std::string of;  ///< JSON pointer of the part of the plan it belongs to
  int stage = -1;  ///< index of the stage, or −1
  double value = 0;
  double low = 0;
  double high = 0;
  std::string unit;
  std::string how;
  std::string where;              ///< JSON pointer that a finding about it points at
  std::optional<Unknown> widest;  ///< the unknown that moves it most; nothing when it is certain
  std::vector<Unknown> movers;    ///< every unknown that moves it, that which moves it most first

  bool certain() const { return low == high; }
};

/// All measures of a plan with their ranges, rounded to six significant digits, in the order of the
/// register, stage by stage.
std::vector<Measure> measure(const Plan& plan, const Process& process);

/// All measures at the likely draw only: no ranges and no `how`. For judging a changed plan
/// quickly.
std::vector<Measure> likely_measures(const Case& c);

/// One measure at the likely draw only, rounded; for solving fixes.
std::optional<double> likely_value(const MeasureKind& kind, const Plan& plan,
                                   const Process& process, int stage);

const Measure* find_measure(std::span<const Measure> measures, std::string_view name, int stage);

}  // namespace starter
