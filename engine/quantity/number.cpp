#include "quantity/number.h"

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <limits>
#include <vector>

#include "quantity/read.h"

namespace starter {
namespace {

/// Powers of ten that a double holds exactly.
constexpr std::array<double, 23> exact_tens = {1e0,  1e1,  1e2,  1e3,  1e4,  1e5,  1e6,  1e7,
                                               1e8,  1e9,  1e10, 1e11, 1e12, 1e13, 1e14, 1e15,
                                               1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22};
constexpr std::uint64_t exact_integers = std::uint64_t{1} << 53;

/// A whole number of any size: 32-bit digits, least first, no leading zeros.
class BigWhole {
 public:
  explicit BigWhole(std::uint64_t v) {
    for (; v != 0; v >>= 32) digits_.push_back(static_cast<std::uint32_t>(v));
  }

  void times(std::uint32_t factor) {
    std::uint64_t carry = 0;
    for (auto& digit : digits_) {
      carry += std::uint64_t{digit} * factor;
      digit = static_cast<std::uint32_t>(carry);
      carry >>= 32;
    }
    if (carry != 0) digits_.push_back(static_cast<std::uint32_t>(carry));
  }

  void shift_left(std::size_t bits) {
    digits_.insert(digits_.begin(), bits / 32, 0);
    if (bits % 32 != 0) times(std::uint32_t{1} << (bits % 32));
  }

  std::size_t bit_length() const {
    if (digits_.empty()) return 0;
    return digits_.size() * 32 - static_cast<std::size_t>(std::countl_zero(digits_.back()));
  }

  /// Negative, zero or positive as *this is less than, equal to or more than `other`.
  int compare(const BigWhole& other) const {
    if (digits_.size() != other.digits_.size())
      return digits_.size() < other.digits_.size() ? -1 : 1;
    for (std::size_t i = digits_.size(); i-- > 0;)
      if (digits_[i] != other.digits_[i]) return digits_[i] < other.digits_[i] ? -1 : 1;
    return 0;
  }

  /// \pre `other` is not more than *this.
  void minus(const BigWhole& other) {
    std::uint64_t borrow = 0;
    for (std::size_t i = 0; i < digits_.size(); ++i) {
      const std::uint64_t taken = (i < other.digits_.size() ? other.digits_[i] : 0) + borrow;
      borrow = digits_[i] < taken ? 1 : 0;
      digits_[i] = static_cast<std::uint32_t>(digits_[i] + (borrow << 32) - taken);
    }
    while (!digits_.empty() && digits_.back() == 0) digits_.pop_back();
  }

 private:
  std::vector<std::uint32_t> digits_;
};

void times_ten_to(BigWhole& n, std::int64_t power) {
  for (; power > 0; --power) n.times(10);
}

/// above / below rounded to the nearest double by long division, bit by bit.
double nearest_quotient(BigWhole above, BigWhole below) {
  // Scale by 2^exponent so that the quotient lies in [1, 2).
  auto exponent = static_cast<int>(above.bit_length()) - static_cast<int>(below.bit_length());
  if (exponent > 0) below.shift_left(static_cast<std::size_t>(exponent));
  if (exponent < 0) above.shift_left(static_cast<std::size_t>(-exponent));
  if (above.compare(below) < 0) {
    above.shift_left(1);
    --exponent;
  }
  constexpr int lowest = std::numeric_limits<double>::min_exponent - 1;  // of a normal double
  const int bits = 53 - std::max(0, lowest - exponent);
  if (bits < 0) return 0;
  std::uint64_t quotient = 0;
  for (int i = 0; i < bits; ++i) {
    const bool one = above.compare(below) >= 0;
    quotient = quotient * 2 + (one ? 1 : 0);
    if (one) above.minus(below);
    above.shift_left(1);
  }
  const int rest = above.compare(below);  // against half of the last bit
  if (rest > 0 || (rest == 0 && quotient % 2 == 1)) ++quotient;
  return std::ldexp(static_cast<double>(quotient), exponent - bits + 1);
}

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

std::size_t digits_from(std::string_view text, std::size_t at) {
  std::size_t end = at;
  while (end < text.size() && is_digit(text[end])) ++end;
  return end;
}

/// The significant digits of a number as they are read, left to right.
struct Mantissa {
  std::uint64_t value = 0;
  std::int64_t exponent = 0;

  void take(char digit, bool after_point) {
    constexpr std::uint64_t room_for_one_more = 1'000'000'000'000'000'000;
    if (value < room_for_one_more) {
      value = value * 10 + static_cast<std::uint64_t>(digit - '0');
      if (after_point) --exponent;
    } else if (!after_point) {
      ++exponent;
    }
  }
};

/// "e11", "E-3" at `at`: its value and end. No exponent: 0 and `at`.
std::pair<std::int64_t, std::size_t> exponent_from(std::string_view text, std::size_t at) {
  std::size_t p = at;
  if (p >= text.size() || (text[p] != 'e' && text[p] != 'E')) return {0, at};
  ++p;
  const bool negative = p < text.size() && text[p] == '-';
  if (p < text.size() && (text[p] == '-' || text[p] == '+')) ++p;
  const std::size_t end = digits_from(text, p);
  if (end == p) return {0, at};
  constexpr std::int64_t far = 1'000'000'000;  // no text in memory has that many digits before it
  std::int64_t value = 0;
  for (; p < end; ++p) value = std::min(far, value * 10 + (text[p] - '0'));
  return {negative ? -value : value, end};
}

}  // namespace

double nearest_double(std::uint64_t mantissa, std::int64_t exponent) {
  if (mantissa == 0) return 0;
  // One correctly rounded operation on two exact doubles is correctly rounded. Published:
  // Clinger, "How to read floating point numbers accurately", 1990 (cited from memory).
  if (mantissa < exact_integers && exponent >= -22 && exponent <= 22) {
    const auto exact = static_cast<double>(mantissa);
    return exponent < 0 ? exact / exact_tens[static_cast<std::size_t>(-exponent)]
                        : exact * exact_tens[static_cast<std::size_t>(exponent)];
  }
  // 10^309 is above the largest double; 2^64 · 10^-345 is below half the smallest.
  if (exponent > 308) return std::numeric_limits<double>::infinity();
  if (exponent < -344) return 0;
  BigWhole above(mantissa);
  BigWhole below(1);
  times_ten_to(exponent > 0 ? above : below, exponent > 0 ? exponent : -exponent);
  return nearest_quotient(std::move(above), std::move(below));
}

std::optional<LeadingDecimal> leading_decimal(std::string_view text) {
  Mantissa mantissa;
  const std::size_t whole_end = digits_from(text, 0);
  for (std::size_t i = 0; i < whole_end; ++i) mantissa.take(text[i], false);
  std::size_t end = whole_end;
  if (end < text.size() && text[end] == '.') {
    const std::size_t part_end = digits_from(text, end + 1);
    for (std::size_t i = end + 1; i < part_end; ++i) mantissa.take(text[i], true);
    if (whole_end == 0 && part_end == end + 1) return std::nullopt;  // a lone point
    end = part_end;
  } else if (whole_end == 0) {
    return std::nullopt;
  }
  const auto [exponent, exponent_end] = exponent_from(text, end);
  return LeadingDecimal{nearest_double(mantissa.value, mantissa.exponent + exponent), exponent_end};
}

std::optional<double> read_number(std::string_view text) {
  constexpr std::string_view minus_sign = "\u2212";
  bool negative = false;
  if (text.starts_with(minus_sign)) {
    negative = true;
    text.remove_prefix(minus_sign.size());
  } else if (text.starts_with('-') || text.starts_with('+')) {
    negative = text.front() == '-';
    text.remove_prefix(1);
  }
  const auto found = leading_decimal(text);
  if (!found || found->length != text.size() || !std::isfinite(found->value)) return std::nullopt;
  return negative ? -found->value : found->value;
}

}  // namespace starter
