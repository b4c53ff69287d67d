#include "output/label.h"

#include <boost/test/unit_test.hpp>

#include "output/characters.h"

using starter::label_lines;
using starter::label_text;

BOOST_AUTO_TEST_SUITE(label)

BOOST_AUTO_TEST_CASE(short_text_is_one_line) {
  BOOST_TEST(label_lines("Boil in pot", 20, 3) == std::vector<std::string>{"Boil in pot"},
             boost::test_tools::per_element());
  BOOST_TEST(label_lines("", 20, 3) == std::vector<std::string>{""},
             boost::test_tools::per_element());
}

BOOST_AUTO_TEST_CASE(lines_break_at_spaces_and_hold_the_width) {
  const std::vector<std::string> two = {"thermometer,", "pack"};
  BOOST_TEST(label_lines("thermometer, pack", 12, 3) == two, boost::test_tools::per_element());
  BOOST_TEST(label_lines("thermometer, pack", 17, 3).size() == 1);
  BOOST_TEST(label_lines("thermometer, pack", 16, 3).size() == 2);
}

BOOST_AUTO_TEST_CASE(a_word_too_long_is_broken_anywhere) {
  const std::vector<std::string> parts = {"abcde", "fghij", "k"};
  BOOST_TEST(label_lines("abcdefghijk", 5, 9) == parts, boost::test_tools::per_element());
}

BOOST_AUTO_TEST_CASE(spaces_inside_a_line_stay) {
  BOOST_TEST(label_lines("a   b", 20, 1).front() == "a   b");
}

BOOST_AUTO_TEST_CASE(too_many_lines_end_in_an_ellipsis) {
  const auto lines = label_lines("one two three four", 5, 2);
  BOOST_REQUIRE(lines.size() == 2);
  BOOST_TEST(lines[1] == "two…");
  const auto full = label_lines("aaaaabbbbbccccc", 5, 2);
  BOOST_TEST(full[1] == "bbbb…");
  for (const auto& line : full) BOOST_TEST(starter::columns(line) <= 5u);
}

BOOST_AUTO_TEST_CASE(wide_characters_and_marks_are_not_torn) {
  for (const auto& line : label_lines("日本語の酵母スターター", 6, 9))
    BOOST_TEST(starter::columns(line) <= 6u);
  // e with a mark that joins it
  const auto lines = label_lines(
      "ae\xCC\x81"
      "ae\xCC\x81",
      2, 9);
  BOOST_REQUIRE(lines.size() == 2);
  BOOST_TEST(lines[0] == "ae\xCC\x81");
}

BOOST_AUTO_TEST_CASE(a_new_line_is_a_space_and_controls_are_escapes) {
  BOOST_TEST(label_lines("a\nb", 20, 1).front() == "a b");
  BOOST_TEST(label_lines("a\x1b[31m", 20, 1).front() == "a\\u{1b}[31m");
}

BOOST_AUTO_TEST_CASE(markup_is_text) {
  BOOST_TEST(label_text("<B>&amp; \"x\" 'y'</B>") ==
             "&lt;B&gt;&amp;amp; &quot;x&quot; &#39;y&#39;&lt;/B&gt;");
  BOOST_TEST(label_text("\\N \\G \\l {a|b}") == "\\N \\G \\l {a|b}");
}

BOOST_AUTO_TEST_CASE(what_xml_does_not_allow_is_an_escape) {
  BOOST_TEST(label_text("a\xEF\xBF\xBE"
                        "b\xEF\xBF\xBF") == "a\\u{fffe}b\\u{ffff}");
  BOOST_TEST(label_text(std::string("a\0b", 3)) == "a\\u{0}b");
  BOOST_TEST(label_text("\xff") == "\\xff");
}

BOOST_AUTO_TEST_CASE(a_label_is_never_empty) {
  BOOST_TEST(label_text("") == "&#160;");
  BOOST_TEST(label_text("  ") == "&#160;&#160;");
  BOOST_TEST(label_text(" a ") == " a ");
}

BOOST_AUTO_TEST_SUITE_END()
