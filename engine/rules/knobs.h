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

/// The largest flask that anybody is told to buy, L: heavier ones are hard to lift full, to boil
/// and to chill. Common practice, no source. A larger one that the member has may be used.
inline constexpr double largest_flask = 5;
/// The largest pot that anybody is told to buy, L. Common practice, no source.
inline constexpr double largest_pot = 10;
/// How full the water of a stage makes its vessel at most, as a share, where a size is proposed.
/// Common practice, no source.
inline constexpr double most_filled = 0.6;

/// The largest vessel that one starter can grow in: one of the plan's, or the largest flask.
Volume largest_grower(const Plan& plan);

/// Whether a starter may be put to grow in it. A pot is left for the boil.
bool may_grow(const Vessel& vessel);

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
  /// What to do once it is so, where the number is a fact, such as the day on a pack or what was
  /// lost in a boil: such a turn is told, and never written into a plan. Empty for what is chosen.
  std::string_view fact = "";
  /// The least and the most of a kitchen at home, in this plan; nothing where not set.
  double (*least_in)(const Plan&, int stage) = nullptr;
  double (*most_in)(const Plan&, int stage) = nullptr;
  /// Shows the turn by the calendar of the plan, already turned; instead of show.
  std::string (*show_in)(const Plan& turned, double, UnitSystem) = nullptr;
};

std::span<const Knob> knobs();
const Knob* find_knob(std::string_view name);

}  // namespace starter
