#include "output/layout.h"

#include <algorithm>
#include <random>

#include "output/support.h"

using starter::Arrow;
using starter::Box;
using starter::Drawing;
using starter::Layout;
using starter::layout_of;
using starter::Paper;
using starter::PlacedLine;
using starter::SheetOptions;

namespace {

Drawing chain_of(int steps) {
  Drawing d;
  d.title = "Long";
  for (int i = 0; i < steps; ++i) {
    starter::DrawnStep node;
    node.step = i;
    node.number = std::to_string(i + 1);
    node.words = node.verb = "Boil in flask";
    node.key = "12 min";
    node.phase = i % 5 == 0 ? starter::Phase::yeast : starter::Phase::wort;
    d.nodes.push_back(node);
    if (i > 0) d.arrows.push_back({i - 1, i, Arrow::Kind::then, false, std::nullopt});
  }
  return d;
}

/// Every box but the frames, with a name.
std::vector<std::pair<std::string, Box>> boxes_of(const Layout& l) {
  std::vector<std::pair<std::string, Box>> boxes;
  for (std::size_t i = 0; i < l.steps.size(); ++i)
    boxes.emplace_back("row " + std::to_string(i + 1), l.steps[i].box);
  for (const auto& j : l.joinings) boxes.emplace_back("joins " + std::to_string(j.row + 1), j.box);
  for (const auto& n : l.notes) boxes.emplace_back("notes " + std::to_string(n.row + 1), n.box);
  for (const auto& c : l.connectors) boxes.emplace_back("connector " + c.number, c.box);
  for (const auto& t : l.title) boxes.emplace_back("title", t.box);
  if (!l.legend.empty()) boxes.emplace_back("legend", l.legend_box);
  return boxes;
}

bool apart(const Box& a, const Box& b) {
  return a.right() <= b.left || b.right() <= a.left || a.bottom() <= b.top || b.bottom() <= a.top;
}

void well_laid(const Drawing& d, const std::string& what, const SheetOptions& options = {}) {
  const Layout l = layout_of(d, options);
  BOOST_TEST_CONTEXT(what) {
    BOOST_TEST(l.steps.size() == d.nodes.size());
    const auto boxes = boxes_of(l);
    for (std::size_t i = 0; i < boxes.size(); ++i) {
      const Box& box = boxes[i].second;
      BOOST_TEST((box.left >= -0.01 && box.top >= -0.01 && box.right() <= l.width + 0.01 &&
                  box.bottom() <= l.height + 0.01),
                 boxes[i].first << " leaves the sheet");
      for (std::size_t k = i + 1; k < boxes.size(); ++k)
        BOOST_TEST(apart(box, boxes[k].second), boxes[i].first << " lies on " << boxes[k].first);
    }
    for (std::size_t i = 0; i < l.groups.size(); ++i)
      for (std::size_t k = i + 1; k < l.groups.size(); ++k)
        BOOST_TEST(apart(l.groups[i].box, l.groups[k].box), "frames lie on each other");
    // The drawing with its margin is within the page.
    BOOST_TEST((l.width + 2 * l.margin) * l.scale <= l.page_width + 0.1);
    BOOST_TEST((l.height + 2 * l.margin) * l.scale <= l.page_height + 0.1);
    // A straight line goes through no step that it does not join.
    for (const PlacedLine& line : l.lines) {
      if (line.look == PlacedLine::Look::note || line.look == PlacedLine::Look::joins ||
          line.look == PlacedLine::Look::unclean)
        continue;
      for (std::size_t i = 1; i < line.way.size(); ++i) {
        const auto &a = line.way[i - 1], &b = line.way[i];
        const Box hair{std::min(a.x, b.x) + 0.1, std::min(a.y, b.y) + 0.1,
                       std::max(std::abs(a.x - b.x) - 0.2, 0.0),
                       std::max(std::abs(a.y - b.y) - 0.2, 0.0)};
        for (std::size_t row = 0; row < l.steps.size(); ++row)
          BOOST_TEST(apart(hair, l.steps[row].box),
                     line.from << " → " << line.to << " crosses row " << row + 1);
      }
    }
  }
}

double type_of(const Layout& l) {
  return starter::step_type * l.scale;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(layout)

BOOST_AUTO_TEST_CASE(nothing_lies_on_anything_else) {
  for (const char* name :
       {"harvest-amber", "faulty/many-at-once", "faulty/decant-last", "faulty/bar-never-clean",
        "good/unknown-step", "good/step-up", "good/long-texts", "good/slurry", "good/ready-wort",
        "good/empty-steps", "good/after-nothing"}) {
    const auto j = judged(name);
    for (const bool blank : {false, true})
      for (const bool large : {false, true}) {
        const Drawing d = starter::drawing_of(j, {starter::UnitSystem::metric, blank});
        well_laid(d, name, {Paper::a4, large, false});
        well_laid(d, name, {Paper::letter, large, true});
      }
  }
  well_laid(starter::standard_drawing(), "the standard process");
  for (const starter::Rule& rule : starter::catalogue())
    well_laid(starter::rule_drawing(rule), rule.id);
}

BOOST_AUTO_TEST_CASE(any_drawing_at_all_is_well_laid) {
  std::mt19937 random(7);
  const auto up_to = [&random](int n) {
    return static_cast<int>(random() % static_cast<unsigned>(n));
  };
  const int rounds = std::getenv("STARTER_PLAN_DEEP") != nullptr ? 500 : 40;
  for (int round = 0; round < rounds; ++round) {
    Drawing d = chain_of(1 + up_to(70));
    const int rows = static_cast<int>(d.nodes.size());
    d.blank = up_to(6) == 0;
    for (int i = 0; i < rows; ++i) {
      auto& node = d.nodes[static_cast<std::size_t>(i)];
      node.phase = static_cast<starter::Phase>(up_to(6));
      node.words = std::string(static_cast<std::size_t>(up_to(90)), 'w');
      node.missing = up_to(9) == 0;
      for (int k = up_to(4); k > 0; --k)
        node.joins.push_back({static_cast<starter::Joining::Kind>(up_to(5)),
                              std::string(static_cast<std::size_t>(up_to(60)), 'x'), "1 L",
                              up_to(2) ? "not clean" : "", false, std::nullopt});
      for (int k = up_to(4); k > 0 && !d.blank; --k)
        node.badges.push_back({static_cast<starter::Severity>(up_to(4)), 1,
                               "Nothing into boiling wort", up_to(2) ? "12 g/L" : "",
                               up_to(2) ? "80–110 g/L" : ""});
    }
    for (int k = up_to(5); k > 0; --k)
      d.arrows.push_back({up_to(rows), up_to(rows),
                          up_to(2) ? Arrow::Kind::fault : Arrow::Kind::trade, false, std::nullopt});
    d.arrows.erase(std::remove_if(d.arrows.begin(), d.arrows.end(),
                                  [](const Arrow& a) {
                                    return a.kind == Arrow::Kind::trade && a.from >= a.to;
                                  }),
                   d.arrows.end());
    well_laid(d, "round " + std::to_string(round), {Paper::a4, up_to(2) == 0, false});
  }
}

BOOST_AUTO_TEST_CASE(a_page_is_the_paper_asked_for) {
  const Drawing d = chain_of(12);
  const Layout a4 = layout_of(d, {Paper::a4, false, true});
  BOOST_TEST(std::max(a4.page_width, a4.page_height) == 841.89);
  BOOST_TEST(std::min(a4.page_width, a4.page_height) == 595.28);
  const Layout letter = layout_of(d, {Paper::letter, false, true});
  BOOST_TEST(std::max(letter.page_width, letter.page_height) == 792);
  BOOST_TEST(std::min(letter.page_width, letter.page_height) == 612);
  const Layout large = layout_of(d, {Paper::a4, true, true});
  BOOST_TEST(large.page_width * 9 == large.page_height * 16);
}

BOOST_AUTO_TEST_CASE(type_is_large_enough_to_read) {
  BOOST_TEST(type_of(layout_of(starter::drawing_of(judged("harvest-amber")))) >= 8);
  BOOST_TEST(type_of(layout_of(chain_of(20))) >= 8);
  // A picture that is no page grows with its plan; a page cannot, and is laid tighter.
  BOOST_TEST(type_of(layout_of(chain_of(200))) >= 8);
  BOOST_TEST(type_of(layout_of(chain_of(60), {Paper::a4, false, true})) >= 6);
  const SheetOptions large{Paper::a4, true, false};
  BOOST_TEST(type_of(layout_of(starter::drawing_of(judged("harvest-amber")), large)) >=
             13);  // 26 points high on a screen of 1080
}

BOOST_AUTO_TEST_CASE(long_plans_stand_in_columns_and_short_ones_in_one) {
  BOOST_TEST(layout_of(chain_of(5)).columns == 1);
  const Layout l = layout_of(chain_of(60));
  BOOST_TEST(l.columns > 1);
  // Column by column, downwards and then to the right.
  for (std::size_t row = 1; row < l.steps.size(); ++row) {
    const Box &a = l.steps[row - 1].box, &b = l.steps[row].box;
    BOOST_TEST((b.top >= a.bottom() || b.left > a.right()));
  }
  BOOST_TEST(l.connectors.size() == 2u * static_cast<std::size_t>(l.columns - 1));
}

BOOST_AUTO_TEST_CASE(a_number_and_its_unit_stay_in_one_line) {
  Drawing d = chain_of(2);
  for (const char* what :
       {"malt", "light malt", "light dry malt", "a light dry malt", "hopped malt"})
    d.nodes[0].joins.push_back(
        {starter::Joining::Kind::material, what, "340 g", "", false, std::nullopt});
  for (const auto& joining : layout_of(d).joinings)
    BOOST_TEST(holds(joining.what.back(), "340\u00A0g"), joining.what.front());
}

BOOST_AUTO_TEST_CASE(on_a_screen_findings_stand_in_the_step) {
  Drawing d = chain_of(3);
  d.nodes[1].badges.push_back({starter::Severity::danger, 2, "Glass", "70 °C", "at most 30 °C"});
  const Layout l = layout_of(d, {Paper::a4, true, false});
  BOOST_TEST(l.notes.empty());
  BOOST_REQUIRE(l.steps[1].entries.size() == 1u);
  BOOST_TEST((l.steps[1].entries[0].severity == starter::Severity::danger));
  BOOST_TEST(l.steps[1].entries[0].lines.front() == "Glass (×2)");
  BOOST_TEST(l.steps[1].box.height > l.steps[0].box.height);
  const Layout paper = layout_of(d);
  BOOST_REQUIRE(paper.notes.size() == 1u);
  BOOST_TEST(holds(paper.notes[0].entries[0].lines.back(), "want at most 30\u00A0°C"));
}

BOOST_AUTO_TEST_CASE(a_fault_runs_up_the_page) {
  const Layout l = layout_of(starter::drawing_of(judged("faulty/decant-last")));
  const auto fault = std::find_if(l.lines.begin(), l.lines.end(), [](const PlacedLine& line) {
    return line.look == PlacedLine::Look::fault;
  });
  BOOST_REQUIRE((fault != l.lines.end()));
  BOOST_TEST(fault->way.back().y < fault->way.front().y);
}

BOOST_AUTO_TEST_CASE(in_a_sheet_type_is_never_small_and_pages_are_as_many_as_that_takes) {
  SheetOptions sheet;
  sheet.inset = starter::Inset{538, 730, 785, 480, 7.5};
  const auto pages_of = [&](const Drawing& d, const std::string& what) {
    const Layout l = layout_of(d, sheet);
    BOOST_TEST_CONTEXT(what) {
      BOOST_TEST(starter::small_type * l.scale > 7.5 - 1e-6);
      BOOST_TEST((l.height + 2 * l.margin) * l.scale <= l.page_height + 0.1);
      BOOST_TEST((l.width + 2 * l.margin) * l.scale <= l.page_width + 0.1);
      const auto boxes = boxes_of(l);
      for (std::size_t page = 0; page < l.pages.size(); ++page) {
        const double left = l.pages[page];
        const bool last = page + 1 == l.pages.size();
        std::size_t here = 0;
        for (const auto& [name, box] : boxes) {
          if (name == "legend" || box.left < left || (!last && box.left >= l.pages[page + 1]))
            continue;
          ++here;
          BOOST_TEST(box.right() <= left + l.width + 0.01, name << " leaves page " << page + 1);
          BOOST_TEST(box.bottom() <= l.legend_box.top + 0.01, name << " lies on the legend");
        }
        BOOST_TEST(here > 0u, "page " << page + 1 << " is empty");
      }
      for (std::size_t i = 0; i < boxes.size(); ++i)
        for (std::size_t k = i + 1; k < boxes.size(); ++k)
          if (boxes[i].first != "legend" && boxes[k].first != "legend")
            BOOST_TEST(apart(boxes[i].second, boxes[k].second),
                       boxes[i].first << " lies on " << boxes[k].first);
    }
    return l.pages.size();
  };
  BOOST_TEST(pages_of(chain_of(8), "short") == 1u);
  BOOST_TEST(pages_of(chain_of(90), "long") > 1u);
  BOOST_TEST(pages_of(starter::drawing_of(judged("harvest-amber")), "sound") == 1u);
  BOOST_TEST(pages_of(starter::drawing_of(judged("good/step-up")), "two stages") > 1u);
  BOOST_TEST(layout_of(chain_of(8), sheet).title.empty());
}

BOOST_AUTO_TEST_CASE(an_empty_drawing_has_a_page) {
  const Layout l = layout_of(Drawing{});
  BOOST_TEST(l.page_width > 0);
  BOOST_TEST(l.scale > 0);
  SheetOptions sheet;
  sheet.inset = starter::Inset{538, 730, 785, 480, 7.5};
  BOOST_TEST(layout_of(Drawing{}, sheet).pages.size() == 1u);
}

BOOST_AUTO_TEST_SUITE_END()
