#pragma once

/// \file
/// Sorting lists as short as those that people read.

#include <utility>

namespace starter {

/// Sorts as std::stable_sort does: equal items keep their order. By insertion, so for some hundred
/// items at most; it is a tenth of the code of std::stable_sort, of which each kind of item has a
/// copy of its own in the engine that is loaded over a telephone.
/// \param before whether its first item must stand before its second.
template <class List, class Before>
void sort_short(List& list, Before before) {
  for (auto next = list.begin(); next != list.end(); ++next) {
    auto item = std::move(*next);
    auto to = next;
    for (; to != list.begin() && before(item, *(to - 1)); --to) *to = std::move(*(to - 1));
    *to = std::move(item);
  }
}

}  // namespace starter
