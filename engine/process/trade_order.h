#pragma once

/// \file
/// What the trade itself knows of the order of a starter: which step needs which, whatever order a
/// plan is written in. Common practice, no source.

#include <span>
#include <string_view>

#include "plan/words.h"

namespace starter {

/// The part of the work a step belongs to; diagrams group by it.
enum class Phase { wort, cleaning, yeast, growth, cold, brew_day };

std::string_view phase_name(Phase phase);
Phase phase_of(Do step);

/// Within a stage, `then` needs what `first` makes.
struct TradeOrder {
  Do first;
  Do then;
  std::string_view because;
};

std::span<const TradeOrder> trade_orders();

/// Whether the work needs a person at the kettle or only a clock.
bool hands_on(Do step);

}  // namespace starter
