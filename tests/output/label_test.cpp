#include "output/label.h"

#include <boost/test/unit_test.hpp>

using starter::label_lines;
using starter::label_text;
using starter::text_width;

BOOST_AUTO_TEST_SUITE(label)

BOOST_AUTO_TEST_CASE(widths_are_those_of_the_font) {
  BOOST_TEST(text_width("m", 1000) == 974);
  BOOST_TEST(text_width("il", 1000) == 278 + 278);
  BOOST_TEST(text_width("\u00A0", 1000) == text_width(" ", 1000));
  BOOST_TEST(text_width("m", 1000, true) > 1042);  // the bold cut's own
  BOOST_TEST(text_width("e\xCC\x81", 1000) >= text_width("e", 1000));
  BOOST_TEST(text_width("日", 10) >= 10);
  BOOST_TEST(text_width("", 10) == 0);
}

BOOST_AUTO_TEST_CASE(short_text_is_one_line) {
  BOOST_TEST(label_lines("Boil in pot", 100, 3, 10) == std::vector<std::string>{"Boil in pot"},
             boost::test_tools::per_element());
  BOOST_TEST(label_lines("", 100, 3, 10) == std::vector<std::string>{""},
             boost::test_tools::per_element());
}

BOOST_AUTO_TEST_CASE(lines_break_at_spaces_and_hold_the_width) {
  const std::vector<std::string> two = {"thermometer,", "pack"};
  const std::string text = "thermometer, pack";
  BOOST_TEST(label_lines(text, 75, 3, 10) == two, boost::test_tools::per_element());
  const double whole = text_width(text, 10);
  BOOST_TEST(label_lines(text, whole + 0.01, 3, 10).size() == 1u);
  BOOST_TEST(label_lines(text, whole - 0.01, 3, 10).size() == 2u);
}

BOOST_AUTO_TEST_CASE(a_word_too_long_is_broken_anywhere) {
  const std::vector<std::string> parts = {"mmmmm", "mmmmm", "m"};
  BOOST_TEST(label_lines("mmmmmmmmmmm", 50, 9, 10) == parts, boost::test_tools::per_element());
}

BOOST_AUTO_TEST_CASE(a_character_wider_than_the_line_stands_alone) {
  BOOST_TEST(label_lines("mm", 1, 9, 10).size() == 2u);
}

BOOST_AUTO_TEST_CASE(spaces_inside_a_line_stay) {
  BOOST_TEST(label_lines("a   b", 200, 1, 10).front() == "a   b");
}

BOOST_AUTO_TEST_CASE(too_many_lines_end_in_an_ellipsis) {
  const auto lines = label_lines("one two three four", 32, 2, 10);
  BOOST_REQUIRE(lines.size() == 2u);
  BOOST_TEST(lines[1] == "two…");
  for (const auto& line : label_lines("mmmmmmmmmmmmmmm", 50, 2, 10))
    BOOST_TEST(text_width(line, 10) <= 50);
}

BOOST_AUTO_TEST_CASE(wide_characters_and_marks_are_not_torn) {
  for (const auto& line : label_lines("日本語の酵母スターター", 60, 9, 10))
    BOOST_TEST(text_width(line, 10) <= 60);
  // e with a mark that joins it
  const auto lines = label_lines(
      "ae\xCC\x81"
      "ae\xCC\x81",
      16, 9, 10);
  BOOST_REQUIRE(lines.size() == 2u);
  BOOST_TEST(lines[0] == "ae\xCC\x81");
}

BOOST_AUTO_TEST_CASE(a_new_line_is_a_space_and_controls_are_escapes) {
  BOOST_TEST(label_lines("a\nb", 200, 1, 10).front() == "a b");
  BOOST_TEST(label_lines("a\x1b[31m", 200, 1, 10).front() == "a\\u{1b}[31m");
}

BOOST_AUTO_TEST_CASE(markup_is_text) {
  BOOST_TEST(label_text("<B>&amp; \"x\" 'y'</B>") ==
             "&lt;B&gt;&amp;amp; &quot;x&quot; &#39;y&#39;&lt;/B&gt;");
}

BOOST_AUTO_TEST_CASE(a_backslash_is_doubled) {
  // Graphviz puts names for \N and \G, and takes one backslash of two.
  BOOST_TEST(label_text(R"(\N \\G \l {a|b})") == R"(\\N \\\\G \\l {a|b})");
}

BOOST_AUTO_TEST_CASE(what_xml_does_not_allow_is_an_escape) {
  BOOST_TEST(label_text("a\xEF\xBF\xBE"
                        "b\xEF\xBF\xBF") == R"(a\\u{fffe}b\\u{ffff})");
  BOOST_TEST(label_text(std::string("a\0b", 3)) == R"(a\\u{0}b)");
  BOOST_TEST(label_text("\xff") == R"(\\xff)");
}

BOOST_AUTO_TEST_CASE(a_label_is_never_empty) {
  BOOST_TEST(label_text("") == "&#160;");
  BOOST_TEST(label_text("  ") == "&#160;&#160;");
  BOOST_TEST(label_text(" a ") == " a ");
}

BOOST_AUTO_TEST_SUITE_END()
