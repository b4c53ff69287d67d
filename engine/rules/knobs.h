#pragma once

/// \file
/// Knobs: the numbers of a plan that a fix may turn.

#include <nlohmann/json.hpp>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "plan/model.h"
#include "quantity/write.h"

namespace starter {

/// What a change asks of the member besides writing it down; mildest first.
enum class Asks {
  nothing,
  time,      ///< beginning, or brewing, at another time
  taste,     ///< doing it in another way than was chosen
  purchase,  ///< a vessel, a pack or a thing that the plan does not have
};
std::string_view spelling(Asks asks);

struct Knob {
  std::string_view name;
  double least = 0;  ///< the knob is never turned beyond these, in its own unit
  double most = 0;
  bool additive = false;  ///< tried in steps of its grain rather than by factors
  /// Present value; nothing where the plan has no such thing.
  std::optional<double> (*get)(const Plan&, int stage) = nullptr;
  void (*set)(Plan&, int stage, double) = nullptr;
  /// What a kitchen can measure out, at about this value.
  double (*grain)(double) = nullptr;
  std::string (*show)(double, UnitSystem) = nullptr;
  /// The fields it writes, after set(): JSON pointer and new text.
  std::vector<std::pair<std::string, nlohmann::ordered_json>> (*fields)(const Plan&,
                                                                        int stage) = nullptr;
  /// What turning it from one value to another asks; nothing where this is not set.
  Asks (*asks)(double from, double to) = nullptr;
};

std::span<const Knob> knobs();
const Knob* find_knob(std::string_view name);

}  // namespace starter
