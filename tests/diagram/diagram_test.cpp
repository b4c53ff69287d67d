// Graphs laid out and rendered by Graphviz, in this process.

#include "command/diagram.h"

#include <boost/test/unit_test.hpp>
#include <cstdlib>
#include <fstream>
#include <random>
#include <sstream>

#include "output/characters.h"
#include "output/dot.h"
#include "output/svg.h"
#include "rules/catalogue.h"
#include "rules/judge.h"

using starter::DiagramMaker;
using starter::Drawing;
using starter::Picture;

namespace {

/// One for all tests, as the program has it.
DiagramMaker& maker() {
  static DiagramMaker one;
  return one;
}

std::string bytes_of(const std::variant<std::string, starter::DrawingProblem>& made) {
  if (const auto* problem = std::get_if<starter::DrawingProblem>(&made)) BOOST_FAIL(problem->says);
  return std::get<std::string>(made);
}

std::string picture(const Drawing& d, Picture form, const starter::SheetOptions& options = {}) {
  return bytes_of(maker().make(starter::dot_of(d, options), form));
}

Drawing drawing_of_plan(const std::string& name, bool blank = false) {
  std::ifstream file(STARTER_PLAN_SOURCE_DIR "/" + name + ".plan.json");
  std::ostringstream all;
  all << file.rdbuf();
  auto read = starter::read_plan(all.str());
  BOOST_REQUIRE_MESSAGE(std::holds_alternative<starter::Plan>(read), name);
  starter::JudgeOptions how;
  how.fixes = false;
  return starter::drawing_of(
      starter::judge(std::get<starter::Plan>(std::move(read)), starter::catalogue(), how),
      {starter::UnitSystem::metric, blank});
}

std::string plain_text(std::string xml) {
  for (const auto& [entity, text] : {std::pair<std::string, std::string>{"&lt;", "<"},
                                     {"&gt;", ">"},
                                     {"&quot;", "\""},
                                     {"&#39;", "'"},
                                     {"&#45;", "-"},
                                     {"&#160;", "\xC2\xA0"},
                                     {"&amp;", "&"}})
    for (auto at = xml.find(entity); at != std::string::npos; at = xml.find(entity, at + 1))
      xml.replace(at, entity.size(), text);
  return xml;
}

/// The texts of an SVG, in order, joined: what a reader sees.
std::string texts_of(const std::string& svg) {
  std::string all;
  for (auto at = svg.find("<text"); at != std::string::npos; at = svg.find("<text", at + 1)) {
    const auto begin = svg.find('>', at) + 1;
    all += plain_text(svg.substr(begin, svg.find("</text>", begin) - begin));
  }
  return all;
}

/// Spaces of every kind taken out: lines are broken at them.
std::string without_spaces(const std::string& text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == ' ') continue;
    if (text.compare(i, 2, "\xC2\xA0") == 0) {
      ++i;
      continue;
    }
    out += text[i];
  }
  return out;
}

Drawing with_texts(const std::string& title, const std::string& member, const std::string& words,
                   const std::string& item) {
  Drawing d;
  d.title = title;
  d.member = member;
  starter::DrawnStep node;
  node.step = 0;
  node.number = "1";
  node.words = words;
  node.joins.push_back({starter::Joining::Kind::unclean, item, "", "not clean", false, {}});
  d.nodes.push_back(node);
  return d;
}

void shows(const std::string& svg, const std::string& typed) {
  const std::string wanted = without_spaces(starter::visible(typed));
  const std::string seen = without_spaces(texts_of(svg));
  BOOST_TEST(seen.find(wanted) != std::string::npos,
             "«" << wanted << "» is not in «" << seen << "»");
}

std::string random_text(std::mt19937& random, int length) {
  static const std::vector<std::string> pieces = {"<",
                                                  ">",
                                                  "&",
                                                  "\"",
                                                  "'",
                                                  "\\",
                                                  "\\N",
                                                  "\\G",
                                                  "\\l",
                                                  "\n",
                                                  "\t",
                                                  "\r",
                                                  "{",
                                                  "}",
                                                  "|",
                                                  "[",
                                                  "]",
                                                  ";",
                                                  "->",
                                                  "--",
                                                  "<!--",
                                                  "-->",
                                                  "]]>",
                                                  "&amp;",
                                                  "&lt;",
                                                  "&#65;",
                                                  "<B>",
                                                  "</TABLE>",
                                                  "<BR/>",
                                                  "%",
                                                  "é",
                                                  "e\xCC\x81",
                                                  "שלום",
                                                  "日本",
                                                  "🍺",
                                                  "\xEF\xBF\xBE",
                                                  "\x01",
                                                  "\x7f",
                                                  " ",
                                                  "  ",
                                                  "a",
                                                  "Z",
                                                  "0",
                                                  "\xE2\x80\xAE",
                                                  "\xE2\x80\x8B",
                                                  "#",
                                                  "/*",
                                                  "//",
                                                  "$"};
  std::string text;
  for (int i = 0; i < length; ++i) {
    if (random() % 4 != 0) {
      text += pieces[random() % pieces.size()];
      continue;
    }
    // Any code point that UTF-8 can hold.
    unsigned c = static_cast<unsigned>(random() % 0x110000);
    if (c >= 0xD800 && c < 0xE000) c = 0x263A;
    if (c < 0x80) {
      text += static_cast<char>(c);
    } else if (c < 0x800) {
      text += static_cast<char>(0xC0 | (c >> 6));
      text += static_cast<char>(0x80 | (c & 0x3F));
    } else if (c < 0x10000) {
      text += static_cast<char>(0xE0 | (c >> 12));
      text += static_cast<char>(0x80 | ((c >> 6) & 0x3F));
      text += static_cast<char>(0x80 | (c & 0x3F));
    } else {
      text += static_cast<char>(0xF0 | (c >> 18));
      text += static_cast<char>(0x80 | ((c >> 12) & 0x3F));
      text += static_cast<char>(0x80 | ((c >> 6) & 0x3F));
      text += static_cast<char>(0x80 | (c & 0x3F));
    }
  }
  return text;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(diagram)

BOOST_AUTO_TEST_CASE(every_form_begins_as_it_should) {
  const Drawing d = drawing_of_plan("lessons/plans/sound");
  BOOST_TEST(picture(d, Picture::svg).find("<svg") != std::string::npos);
  BOOST_TEST(picture(d, Picture::pdf).rfind("%PDF-", 0) == 0);
  BOOST_TEST(picture(d, Picture::png).rfind("\x89PNG\r\n\x1a\n", 0) == 0);
  BOOST_TEST(picture(d, Picture::dot).find("digraph") != std::string::npos);
}

BOOST_AUTO_TEST_CASE(equal_drawings_are_equal_bytes) {
  const Drawing d = drawing_of_plan("lessons/plans/newcomer");
  for (const Picture form : {Picture::svg, Picture::png, Picture::pdf}) {
    const std::string first = picture(d, form);
    picture(drawing_of_plan("lessons/plans/sound"), form);
    BOOST_TEST((first == picture(d, form)), starter::spelling(form));
  }
  BOOST_TEST(picture(d, Picture::pdf).find("CreationDate") == std::string::npos);
}

BOOST_AUTO_TEST_CASE(graphviz_puts_every_box_where_it_is_told) {
  const Drawing d = drawing_of_plan("lessons/plans/newcomer");
  const auto layout = starter::layout_of(d);
  const std::string plain = bytes_of(maker().positions(starter::dot_of(d)));
  for (std::size_t row = 0; row < d.nodes.size(); ++row) {
    const auto at = plain.find("node \"step " + d.nodes[row].number + "\" ");
    BOOST_REQUIRE(at != std::string::npos);
    std::istringstream line(plain.substr(plain.find("\" ", at + 6) + 2));
    double x = 0, y = 0, width = 0, height = 0;
    line >> x >> y >> width >> height;
    const auto& box = layout.steps[row].box;
    // Graphviz makes whole points of sizes.
    const double rounded = 0.51;
    BOOST_TEST(std::abs(width * 72 - box.width * layout.scale) < rounded);
    BOOST_TEST(std::abs(height * 72 - box.height * layout.scale) < rounded);
    BOOST_TEST(std::abs(x * 72 - (box.middle().x + layout.margin) * layout.scale) < rounded);
  }
}

BOOST_AUTO_TEST_CASE(every_rule_can_be_drawn) {
  for (const starter::Rule& rule : starter::catalogue())
    BOOST_TEST(picture(starter::rule_drawing(rule), Picture::svg).find("<svg") !=
               std::string::npos);
}

BOOST_AUTO_TEST_CASE(texts_that_look_like_markup_are_shown_as_typed) {
  for (const char* typed :
       {"&lt;", "&amp;lt;", "<B>bold</B>", "a & b", "\\N \\G \\L \\l \\n", "\"quoted\" 'single'",
        "<!-- -->", "]]>", "{a|b}", "->", "é e\xCC\x81", "שלום", "&#60;", "a  b", "-- -"}) {
    const std::string svg = starter::stand_alone_svg(
        picture(with_texts(typed, typed, typed, typed), Picture::svg), typed, typed);
    shows(svg, typed);
    picture(with_texts(typed, typed, typed, typed), Picture::pdf);
  }
}

BOOST_AUTO_TEST_CASE(any_text_at_all_is_shown_as_typed) {
  std::mt19937 random(20270406);
  const int rounds = std::getenv("STARTER_PLAN_DEEP") != nullptr ? 2000 : 60;
  for (int round = 0; round < rounds; ++round) {
    const std::string title = random_text(random, 12), member = random_text(random, 8),
                      words = random_text(random, 6), item = random_text(random, 5);
    BOOST_TEST_CONTEXT("round " << round) {
      const std::string svg = picture(with_texts(title, member, words, item), Picture::svg);
      for (const std::string& typed : {title, member, words, item}) {
        // What XML cannot hold is an escape in the picture.
        if (typed.find("\xEF\xBF\xBE") == std::string::npos &&
            typed.find("\xEF\xBF\xBF") == std::string::npos)
          shows(svg, typed);
      }
    }
  }
}

BOOST_AUTO_TEST_CASE(a_graph_that_is_none_is_refused_and_the_next_is_drawn) {
  for (const char* bad : {"", "digraph {", "no graph", "digraph { a [label=<<B>>] }"}) {
    const auto made = maker().make(bad, Picture::svg);
    // An unclosed label is drawn as text with a complaint; the others are none.
    if (std::string(bad).find("label") == std::string::npos)
      BOOST_TEST(std::holds_alternative<starter::DrawingProblem>(made), bad);
  }
  BOOST_TEST(!picture(drawing_of_plan("lessons/plans/sound"), Picture::svg).empty());
}

BOOST_AUTO_TEST_SUITE_END()
