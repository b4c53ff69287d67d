#pragma once

/// \file
/// The last answers of a function that is asked the same over and over.
///
/// One plan is carried through the science for some thirty draws that differ in one unknown each,
/// and for many more where fixes are worked out. Most unknowns move neither the growth's course nor
/// the chill's films, which cost more than all the rest.

#include <array>
#include <cstddef>
#include <cstdint>
#include <cstring>
#include <utility>

namespace starter::science {

/// Holds `Kept` answers to questions of `Numbers` numbers. Only the very same numbers, to the last
/// bit, count as asked before, so that what is told never depends on what was asked earlier.
template <std::size_t Numbers, class Answer, std::size_t Kept>
class Recent {
 public:
  using Question = std::array<double, Numbers>;

  /// The answer kept, or that of `work_out()`, which then takes the place of the oldest. It stays
  /// where it is until the next question.
  template <class WorkOut>
  const Answer& answer(const Question& question, WorkOut work_out) {
    Bits asked;  // std::bit_cast() is not in every library that this is compiled with
    std::memcpy(asked.data(), question.data(), sizeof asked);
    for (std::size_t i = 0; i < used_; ++i)
      if (kept_[i].first == asked) return kept_[i].second;
    auto& place = kept_[next_];
    place.second = work_out();
    place.first = asked;
    next_ = (next_ + 1) % Kept;
    if (used_ < Kept) ++used_;
    return place.second;
  }

 private:
  using Bits = std::array<std::uint64_t, Numbers>;

  std::array<std::pair<Bits, Answer>, Kept> kept_{};
  std::size_t used_ = 0;
  std::size_t next_ = 0;
};

}  // namespace starter::science
