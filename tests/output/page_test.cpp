#include "output/page.h"

#include "output/characters.h"
#include "support.h"

using namespace starter;

namespace {

std::string paragraph(const std::string& text, std::size_t width, std::size_t indent = 0) {
  Look look;
  look.width = width;
  Page page(look);
  page.paragraph(text, indent);
  return std::move(page).text();
}

}  // namespace

BOOST_AUTO_TEST_SUITE(page)

BOOST_AUTO_TEST_CASE(visible_shows_what_would_steer_a_terminal) {
  BOOST_TEST(visible("a\x1b[31mb") == "a\\u{1b}[31mb");
  BOOST_TEST(visible("a\nb\tc\rd") == "a b c d");
  BOOST_TEST(visible("\x7f") == "\\u{7f}");
  BOOST_TEST(visible("\u009b") == "\\u{9b}");
  BOOST_TEST(visible("\u0085") == " ");
  BOOST_TEST(visible("\u202e") == "\\u{202e}");
  BOOST_TEST(visible("\u2066x\u2069") == "\\u{2066}x\\u{2069}");
  BOOST_TEST(visible(std::string_view("\0", 1)) == "\\u{0}");
  BOOST_TEST(visible("\xff\xc3") == "\\xff\\xc3");
  BOOST_TEST(visible("\xe2\x82") == "\\xe2\\x82");
}

BOOST_AUTO_TEST_CASE(visible_leaves_what_people_write) {
  for (const char* text : {"21 °C", "“flask”", "אלה", "ẹ́", "🍺🏽", "麦汁", "a–b · ▲"})
    BOOST_TEST(visible(text) == text);
}

BOOST_AUTO_TEST_CASE(columns_count_what_a_terminal_gives) {
  BOOST_TEST(columns("") == 0u);
  BOOST_TEST(columns("21 °C") == 5u);
  BOOST_TEST(columns("e\u0301") == 1u);
  BOOST_TEST(columns("麦汁") == 4u);
  BOOST_TEST(columns("🍺") == 2u);
  BOOST_TEST(columns("אלה") == 3u);
}

BOOST_AUTO_TEST_CASE(a_character_keeps_its_marks) {
  BOOST_TEST(first_character("e\u0301\u0323x") == 5u);
  BOOST_TEST(first_character("ex") == 1u);
  BOOST_TEST(first_character("°C") == 2u);
}

BOOST_AUTO_TEST_CASE(paragraphs_wrap_at_words) {
  BOOST_TEST(paragraph("one two three", 13) == "one two three\n");
  BOOST_TEST(paragraph("one two three", 12) == "one two\nthree\n");
  BOOST_TEST(paragraph("one two three", 20, 2) == "  one two three\n");
  BOOST_TEST(paragraph("", 20) == "\n");
}

BOOST_AUTO_TEST_CASE(a_unit_stays_with_its_number) {
  BOOST_TEST(paragraph("pour in 110 g", 12) == "pour in\n110 g\n");
  BOOST_TEST(paragraph("pour in 110 x", 12) == "pour in 110\nx\n");
  BOOST_TEST(paragraph("pour in 1.2 L.", 12) == "pour in\n1.2 L.\n");
}

BOOST_AUTO_TEST_CASE(a_word_longer_than_the_line_is_cut) {
  BOOST_TEST(paragraph(std::string(25, 'x'), 20) ==
             std::string(20, 'x') + "\n" + std::string(5, 'x') + "\n");
  BOOST_TEST(paragraph("麦麦麦麦麦麦麦", 12) == "麦麦麦麦麦麦\n麦\n");
}

BOOST_AUTO_TEST_CASE(items_hang_and_stack_when_narrow) {
  Look look;
  look.width = 36;
  Page page(look);
  page.item("Fix", "use less of the extract, or more water", 2, 8);
  BOOST_TEST(std::move(page).text() ==
             "  Fix     use less of the extract,\n          or more water\n");
  look.width = 30;
  Page narrow(look);
  narrow.item("Fix", "use less of the extract", 2, 8);
  BOOST_TEST(std::move(narrow).text() == "  Fix\n    use less of the extract\n");
}

BOOST_AUTO_TEST_CASE(colour_comes_only_when_asked_for_and_ends_on_its_line) {
  const auto drawn = [](bool colour) {
    Look look;
    look.colour = colour;
    look.width = 20;
    Page page(look);
    page.paragraph({{"red red red red red", Ink::danger}, {" plain"}});
    return std::move(page).text();
  };
  BOOST_TEST(!holds(drawn(false), "\x1b"));
  BOOST_TEST(drawn(true) == "\x1b[1;31mred red red red red\x1b[0m\nplain\n");
}

BOOST_AUTO_TEST_SUITE_END()
