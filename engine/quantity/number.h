#pragma once

/// \file
/// Decimal digits to the nearest double, the same on every platform: no locale, no C library.

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string_view>

namespace starter {

/// An unsigned decimal number found at the front of a text.
struct LeadingDecimal {
  double value = 0;        ///< infinite when the digits say more than a double can hold
  std::size_t length = 0;  ///< bytes it takes up
};

/// The longest "12", "1.2", ".5", "5." or "1e11" that `text` starts with, without a sign; nothing
/// when there is none. Of more than 19 significant digits the rest is cut off, not rounded.
std::optional<LeadingDecimal> leading_decimal(std::string_view text);

/// `mantissa` · 10^`exponent` rounded to the nearest double, ties to even. Infinite when too large,
/// zero when too small.
double nearest_double(std::uint64_t mantissa, std::int64_t exponent);

}  // namespace starter
