#pragma once

/// \file
/// How much of each thing a plan may hold: far more than any real plan, and little enough that the
/// work of judging it stays short. Beyond these the reader refuses, saying so.

#include <cstddef>

namespace starter {

inline constexpr int most_packs = 100;
inline constexpr int most_cells_counted = 1'000'000;
inline constexpr std::size_t most_stages = 10;
inline constexpr std::size_t most_steps = 500;
inline constexpr std::size_t most_items = 300;  ///< named in all steps together
inline constexpr std::size_t most_vessels = 200;
inline constexpr std::size_t most_characters = 2000;  ///< in one text

}  // namespace starter
