#pragma once

/// \file
/// Stages and steps for a plan that has none, or one stage too few.

#include <nlohmann/json.hpp>
#include <optional>
#include <span>
#include <string>
#include <variant>
#include <vector>

#include "rules/fixes.h"

namespace starter {

/// A document that lacks its stages, with what sizing adds to make it a plan.
struct Sized {
  Plan plan;                     ///< as it is with the patch
  nlohmann::ordered_json patch;  ///< RFC 6902, on the document as it was
  std::string says;              ///< "grow in 1.2 L of water with 115 g of extract"
  Asks asks = Asks::nothing;
};

/// Whether nothing but its stages keeps this document from being a plan.
bool lacks_only_stages(const nlohmann::ordered_json& document, const Defaults& defaults);

/// A plan of a document with some stage or other, in which its beer, yeast and vessels are known;
/// nothing where the document lacks more than its stages.
std::optional<Plan> with_any_stage(const nlohmann::ordered_json& document,
                                   const Defaults& defaults);

/// The document with the fewest stages (three at most) that bring the beer its cells, in the
/// member's own vessels where they hold them, else in a flask to be bought.
/// \pre lacks_only_stages(document, defaults)
/// \return nothing when no size will do, or the document cannot be used even then.
std::optional<Sized> size_stages(const nlohmann::ordered_json& document,
                                 std::span<const Rule> rules, UnitSystem units,
                                 const Defaults& defaults);

/// The fewest packs, up to `most_packs_tried`, with which size_stages would find a size.
/// \pre lacks_only_stages(document, defaults)
/// \return nothing for slurry, and where no number does.
std::optional<int> packs_for_one_starter(const nlohmann::ordered_json& document,
                                         std::span<const Rule> rules, const Defaults& defaults);
inline constexpr int most_packs_tried = 8;

/// A stage after the last, as large as it takes to bring the beer its cells, with its steps where
/// the plan has steps. Nothing where that makes no difference or the plan is full.
std::optional<Way> step_up(const Plan& plan, UnitSystem units);

/// The usual process written out, for a plan that has no steps, with a measured bath and its ice.
std::optional<Way> written_steps(const Plan& plan);

/// The latest evening, at 18:00, on which the plan may begin; for a plan with a brew day and
/// without a start.
std::optional<Way> evening_start(const Plan& plan);

}  // namespace starter
