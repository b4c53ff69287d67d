#include "quantity/sorted.h"

#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <random>
#include <utility>
#include <vector>

using namespace starter;

BOOST_AUTO_TEST_SUITE(sorted)

BOOST_AUTO_TEST_CASE(short_lists_are_sorted_as_the_standard_library_sorts_stably) {
  std::mt19937 random(20260301);
  for (std::size_t length = 0; length < 60; ++length) {
    std::vector<std::pair<unsigned, std::size_t>> items;
    for (std::size_t i = 0; i < length; ++i)
      items.emplace_back(static_cast<unsigned>(random() % 7), i);
    const auto before = [](const auto& a, const auto& b) { return a.first > b.first; };
    auto expected = items;
    std::stable_sort(expected.begin(), expected.end(), before);
    sort_short(items, before);
    BOOST_TEST((items == expected), "a list of " << length);
  }
}

BOOST_AUTO_TEST_CASE(items_that_own_something_are_moved_whole) {
  std::vector<std::vector<int>> items = {{3, 3}, {1}, {}, {2, 2, 2}};
  sort_short(items, [](const auto& a, const auto& b) { return a.size() < b.size(); });
  const std::vector<std::vector<int>> expected = {{}, {1}, {3, 3}, {2, 2, 2}};
  BOOST_TEST((items == expected));
}

BOOST_AUTO_TEST_SUITE_END()
