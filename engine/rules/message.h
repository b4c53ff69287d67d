#pragma once

/// \file
/// Messages with places in braces: "Your extract comes to {value} (comfortable: {comfortable})."

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace starter {

/// What stands in a place; nothing when the place cannot be filled in this plan.
using FillPlace = std::function<std::optional<std::string>(std::string_view place)>;

/// `text` with its places filled; a place that cannot be filled is written as "—".
std::string fill_places(std::string_view text, const FillPlace& fill);

/// The names in braces, in order.
std::vector<std::string> places_in(std::string_view text);

}  // namespace starter
