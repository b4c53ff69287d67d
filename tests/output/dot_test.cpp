#include "output/dot.h"

#include "output/support.h"
#include "output/svg.h"

using starter::dot_of;
using starter::Drawing;

namespace {

int count(const std::string& text, const std::string& part) {
  int found = 0;
  for (auto at = text.find(part); at != std::string::npos; at = text.find(part, at + part.size()))
    ++found;
  return found;
}

Drawing long_drawing(int steps) {
  Drawing d;
  d.title = "Long";
  for (int i = 0; i < steps; ++i) {
    starter::DrawnStep node;
    node.step = i;
    node.number = std::to_string(i + 1);
    node.words = "Boil in flask";
    node.key = "12 min";
    node.phase = i % 5 == 0 ? starter::Phase::yeast : starter::Phase::wort;
    d.nodes.push_back(node);
    if (i > 0) d.arrows.push_back({i - 1, i, starter::Arrow::Kind::then, false, std::nullopt});
  }
  return d;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(dot)

BOOST_AUTO_TEST_CASE(every_step_is_a_node_of_its_own) {
  const auto j = judged("harvest-amber");
  const std::string text = dot_of(starter::drawing_of(j));
  for (std::size_t i = 1; i <= j.plan.steps.size(); ++i)
    BOOST_TEST(holds(text, "\"step " + std::to_string(i) + "\" [pos="), i);
  BOOST_TEST(holds(text, "\ndigraph process {"));
}

BOOST_AUTO_TEST_CASE(the_same_drawing_is_the_same_text) {
  const auto j = judged("faulty/many-at-once");
  BOOST_TEST(dot_of(starter::drawing_of(j)) == dot_of(starter::drawing_of(j)));
}

BOOST_AUTO_TEST_CASE(what_a_member_typed_is_only_text) {
  Drawing d = long_drawing(2);
  d.title = "<B>\"];}\\N</B> &amp;";
  d.member = "</TABLE>>]; evil [";
  d.nodes[0].words = "a<BR/>b -> c";
  d.nodes[0].joins.push_back(
      {starter::Joining::Kind::clean, "<IMG SRC=\"x\"/>", "", "", false, {}});
  const std::string text = dot_of(d);
  BOOST_TEST(holds(text, R"(&lt;B&gt;&quot;];}\\N&lt;/B&gt;)"));
  BOOST_TEST(holds(text, "&amp;amp;"));
  BOOST_TEST(!holds(text, "</TABLE>>]; evil"));
  BOOST_TEST(!holds(text, "a<BR/>b"));
  BOOST_TEST(!holds(text, "<IMG"));
}

BOOST_AUTO_TEST_CASE(severity_shows_without_colour) {
  Drawing d = long_drawing(4);
  using starter::Severity;
  for (int i = 0; i < 4; ++i)
    d.nodes[static_cast<std::size_t>(i)].badges.push_back(
        {static_cast<Severity>(i), 1, "Title", "", ""});
  const std::string text = dot_of(d);
  // The sign and the word stand in the note and in the legend.
  for (const char* sign : {"▲ DANGER", "■ spoils", "◆ weakens", "○ note"})
    BOOST_TEST(count(text, sign) == 2, sign);
  BOOST_TEST(holds(text, "peripheries=2"));
}

BOOST_AUTO_TEST_CASE(the_legend_tells_only_what_is_there) {
  const std::string text = dot_of(long_drawing(3));
  BOOST_TEST(!holds(text, "DANGER"));
  BOOST_TEST(!holds(text, "runs against the order"));
}

BOOST_AUTO_TEST_CASE(a_fault_and_a_ghost_look_like_it) {
  const std::string fault = dot_of(starter::drawing_of(judged("faulty/decant-last")));
  BOOST_TEST(holds(fault, "belongs before step"));
  BOOST_TEST(holds(fault, "runs against the order"));
  const std::string ghost = dot_of(starter::drawing_of(judged("good/unknown-step")));
  BOOST_TEST(holds(ghost, "missing: "));
  BOOST_TEST(holds(ghost, "filled,dashed"));
}

BOOST_AUTO_TEST_CASE(an_empty_drawing_is_a_graph_too) {
  BOOST_TEST(holds(dot_of(Drawing{}), "digraph"));
}

BOOST_AUTO_TEST_CASE(a_picture_stands_alone) {
  const std::string svg =
      "<?xml version=\"1.0\"?>\n<!DOCTYPE svg PUBLIC \"-//W3C//DTD SVG 1.1//EN\" \"http://x\">\n"
      "<!-- Title: a -->\n<svg width=\"1pt\">\n<!-- step 1 -->\n<g>x</g>\n</svg>\n";
  const std::string alone = starter::stand_alone_svg(svg, "A <b> & c", "One \"step\".");
  BOOST_TEST(!holds(alone, "DOCTYPE"));
  BOOST_TEST(!holds(alone, "http://x"));
  BOOST_TEST(!holds(alone, "<!--"));
  BOOST_TEST(holds(alone, "role=\"img\""));
  BOOST_TEST(holds(alone, "<title id=\"picture-title\">A &lt;b&gt; &amp; c</title>"));
  BOOST_TEST(holds(alone, "<g>x</g>\n</svg>"));
  BOOST_TEST(starter::stand_alone_svg("nothing", "a", "b") == "nothing");
}

BOOST_AUTO_TEST_CASE(each_page_of_a_sheet_shows_its_own_steps) {
  const Drawing d = long_drawing(60);
  starter::SheetOptions sheet;
  sheet.inset = starter::Inset{538, 730, 785, 480, 7.5};
  const starter::Layout layout = starter::layout_of(d, sheet);
  BOOST_REQUIRE(layout.pages.size() > 1u);
  std::vector<int> shown(d.nodes.size(), 0);
  for (std::size_t page = 0; page < layout.pages.size(); ++page) {
    const std::string text = dot_of(d, sheet, layout, page);
    for (std::size_t i = 0; i < shown.size(); ++i)
      shown[i] += count(text, "\n  \"step " + std::to_string(i + 1) + "\" [pos=");
    // It goes on elsewhere, which the legend on every page explains.
    BOOST_TEST(holds(text, "goes on at the step of that number"));
    BOOST_TEST(!holds(text, "\"title 1\""));
  }
  for (std::size_t i = 0; i < shown.size(); ++i) BOOST_TEST(shown[i] == 1, "step " << i + 1);
}

BOOST_AUTO_TEST_CASE(a_sign_and_its_words_stand_apart) {
  const std::string text = dot_of(starter::drawing_of(judged("faulty/many-at-once")));
  BOOST_TEST(holds(text, "</B></FONT>&#160;can hurt a person"));
  BOOST_TEST(holds(text, "</B>&#160;critical: a delay here"));
}

BOOST_AUTO_TEST_SUITE_END()
