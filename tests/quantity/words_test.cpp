#include "quantity/words.h"

#include <boost/test/unit_test.hpp>
#include <string>
#include <vector>

using namespace starter;

namespace {
const std::vector<std::string_view> fields = {"volume", "gravity", "brew_day", "kind", "yeast"};
std::string nearest(std::string_view typed) {
  return nearest_word(typed, fields).value_or("-");
}
}  // namespace

BOOST_AUTO_TEST_SUITE(words)

BOOST_AUTO_TEST_CASE(nearest_finds_slips_of_the_fingers) {
  BOOST_TEST(nearest("volme") == "volume");    // one left out
  BOOST_TEST(nearest("vollume") == "volume");  // one too many
  BOOST_TEST(nearest("volune") == "volume");   // one wrong
  BOOST_TEST(nearest("ovlume") == "volume");   // neighbours swapped: one edit
  BOOST_TEST(nearest("VOLUME") == "volume");   // case is no edit
  BOOST_TEST(nearest("brewday") == "brew_day");
  BOOST_TEST(nearest("gravity") == "gravity");
}

BOOST_AUTO_TEST_CASE(nearest_leaves_strangers_alone) {
  BOOST_TEST(nearest("") == "-");
  BOOST_TEST(nearest("temperature") == "-");
  BOOST_TEST(nearest("xx") == "-");
  BOOST_TEST(nearest(std::string(100000, 'v')) == "-");
  BOOST_TEST(!nearest_word("volume", {}).has_value());
}

BOOST_AUTO_TEST_CASE(nearest_allows_a_third_of_the_longer_word_rounded_up) {
  const std::vector<std::string_view> known = {"abcdef"};
  BOOST_TEST(nearest_word("abcdxy", known).has_value());   // 2 of 6
  BOOST_TEST(!nearest_word("abcxyz", known).has_value());  // 3 of 6
  const std::vector<std::string_view> seven = {"abcdefg"};
  BOOST_TEST(nearest_word("abcdxyz", seven).has_value());   // 3 of 7: a third is 2.33
  BOOST_TEST(!nearest_word("abcwxyz", seven).has_value());  // 4 of 7
}

BOOST_AUTO_TEST_CASE(a_swap_is_one_edit_only_of_untouched_neighbours) {
  // Optimal string alignment: "ca" to "abc" takes three edits, as no part is edited twice.
  const std::vector<std::string_view> known = {"abc"};
  BOOST_TEST(!nearest_word("ca", known).has_value());
  BOOST_TEST(nearest_word("acb", known).has_value());
}

BOOST_AUTO_TEST_CASE(nearest_prefers_the_fewest_edits_then_the_first) {
  const std::vector<std::string_view> known = {"boil", "bowl", "bowls"};
  BOOST_TEST(nearest_word("bowls", known).value() == "bowls");
  BOOST_TEST(nearest_word("bool", known).value() == "boil");
}

BOOST_AUTO_TEST_CASE(nearest_counts_characters_not_bytes) {
  const std::vector<std::string_view> known = {"k\u00fchl", "kalt"};
  BOOST_TEST(nearest_word("kuhl", known).value() == "k\u00fchl");
  BOOST_TEST(nearest_word("k\xffhl", known).value() == "k\u00fchl");
}

BOOST_AUTO_TEST_CASE(lower_case_is_that_of_ascii) {
  BOOST_TEST(lower_ascii("AbZ09@[`{\u00c4") == "abz09@[`{\u00c4");
}

BOOST_AUTO_TEST_CASE(knows_well_formed_utf8) {
  for (const std::string good :
       {"", "plain", "\u00b0", "\u20ac", "\U0001F37A", "\x7f", "\xed\x9f\xbf", "\xee\x80\x80",
        "\xf4\x8f\xbf\xbf", "\xf0\x90\x80\x80"})
    BOOST_TEST(valid_utf8(good), good);
  BOOST_TEST(valid_utf8(std::string(1, '\0')));
  for (const std::string bad :
       {"\x80", "\xc0\x80", "\xc1\xbf", "\xc2", "\xe0\x80\x80", "\xe0\x9f\xbf", "\xed\xa0\x80",
        "\xed\xbf\xbf", "\xf0\x8f\xbf\xbf", "\xf4\x90\x80\x80", "\xf5\x80\x80\x80", "\xff",
        "\xe2\x82", "a\xe2\x82z", "\xc2\x41"})
    BOOST_TEST(!valid_utf8(bad));
}

BOOST_AUTO_TEST_CASE(quotes_any_bytes_safely) {
  BOOST_TEST(starter::quoted("1.2 L") == "\"1.2 L\"");
  BOOST_TEST(starter::quoted("") == "\"\"");
  BOOST_TEST(starter::quoted("68 °F") == "\"68 °F\"");
  BOOST_TEST(starter::quoted("a\nb\tc\r") == "\"a\\nb\\tc\\r\"");
  BOOST_TEST(starter::quoted("\x1b[31m") == "\"\\u{1b}[31m\"");
  BOOST_TEST(starter::quoted(std::string(1, '\0')) == "\"\\u{0}\"");
  BOOST_TEST(starter::quoted("\u202egnp") == "\"\\u{202e}gnp\"");
  BOOST_TEST(starter::quoted("\xff\xfe") == "\"\\xff\\xfe\"");
  BOOST_TEST(starter::quoted("12\" pot \\") == "\"12\\\" pot \\\\\"");
}

BOOST_AUTO_TEST_CASE(quotes_cut_long_text_at_a_character) {
  BOOST_TEST(starter::quoted(std::string(60, 'a')) == "\"" + std::string(60, 'a') + "\"");
  BOOST_TEST(starter::quoted(std::string(61, 'a')) == "\"" + std::string(60, 'a') + "\u2026\"");
  BOOST_TEST(starter::quoted("\u00e4\u00e4\u00e4", 2) == "\"\u00e4\u00e4\u2026\"");
  BOOST_TEST(starter::quoted("abc", 0) == "\"\u2026\"");
}

BOOST_AUTO_TEST_SUITE_END()
