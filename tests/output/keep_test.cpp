// Yeast that is grown on top, to keep: from the plan's field to every text that speaks of it.

#include <boost/test/unit_test.hpp>

#include "../plan_of.h"
#include "output/calendar.h"
#include "output/calendar_json.h"
#include "output/calendar_text.h"
#include "output/cautions_of.h"
#include "output/icalendar.h"
#include "output/key_numbers.h"
#include "output/step_words.h"
#include "output/text.h"
#include "rules/catalogue.h"

using namespace starter;

namespace {

Judgement with(const std::string& patch) {
  JudgeOptions quick;
  quick.fixes = false;
  return judge(harvest_amber(patch), catalogue(), quick);
}

Judgement keeping(const std::string& cells) {
  return with(R"([{"op": "add", "path": "/beer/keep_cells", "value": ")" + cells + R"("}])");
}

const Measure& number(const Judgement& j, const char* name) {
  const Measure* m = find_measure(j.measures, name, -1);
  BOOST_REQUIRE_MESSAGE(m != nullptr, name);
  return *m;
}

bool holds(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

std::string row(const Judgement& j, const std::string& name) {
  for (const KeyNumbers& table : key_numbers(j, UnitSystem::metric))
    for (const auto& [title, text] : table.rows)
      if (title == name) return text;
  return "";
}

}  // namespace

BOOST_AUTO_TEST_SUITE(keep)

BOOST_AUTO_TEST_CASE(what_is_kept_is_needed_on_top_and_the_beer_comes_first) {
  const Judgement without = with("[]"), j = keeping("10 billion");
  const double needs = number(without, "cells_needed").value;
  BOOST_TEST(number(j, "cells_needed").value == needs + 10, boost::test_tools::tolerance(1e-5));
  BOOST_TEST(holds(number(j, "cells_needed").how, "for the beer, and 10 billion to keep"));
  BOOST_TEST(!holds(number(without, "cells_needed").how, "keep"));
  BOOST_TEST(number(j, "cells_coverage").value == number(j, "cells_at_pitch").value / (needs + 10),
             boost::test_tools::tolerance(1e-4));
  const double spare = number(j, "cells_at_pitch").value - needs;
  BOOST_REQUIRE(spare > 10);
  BOOST_TEST(number(j, "cells_kept").value == 10);
  // The share of the loosened slurry, 150 mL, that these cells are.
  BOOST_TEST(number(j, "slurry_kept").value == 0.150 * 10 / number(j, "cells_at_pitch").value,
             boost::test_tools::tolerance(1e-4));
  // More than is there to spare cannot be kept, and that is told as cells missing.
  const Judgement greedy = keeping("900 billion");
  BOOST_TEST(number(greedy, "cells_kept").value == spare, boost::test_tools::tolerance(1e-3));
  bool told = false;
  for (const Finding& f : greedy.findings) told |= f.rule->id == "cells-enough";
  BOOST_TEST(told);
  BOOST_TEST(find_measure(without.measures, "cells_kept", -1) == nullptr);
  BOOST_TEST(find_measure(without.measures, "slurry_kept", -1) == nullptr);
}

BOOST_AUTO_TEST_CASE(a_starter_that_goes_in_whole_is_kept_by_the_same_share) {
  const Judgement j = with(R"([
    {"op": "add", "path": "/beer/keep_cells", "value": "10 billion"},
    {"op": "remove", "path": "/steps/10"}])");
  const double share = number(j, "slurry_kept").value / j.workings.starter_volume.litres();
  BOOST_TEST(share == 10 / number(j, "cells_at_pitch").value, boost::test_tools::tolerance(1e-4));
  BOOST_TEST(holds(row(j, "To keep"), "of the starter"));
}

BOOST_AUTO_TEST_CASE(the_step_that_pitches_says_how_much_to_keep_back) {
  const Judgement j = keeping("10 billion");
  const int last = static_cast<int>(j.plan.steps.size()) - 1;
  const std::string volume = write(j.workings.slurry_kept, UnitSystem::metric);
  const std::string words = keep_in_words(j, last, UnitSystem::metric);
  BOOST_TEST(words ==
             "keep back " + volume + " of the slurry, 10 billion cells, for another batch");
  for (int i = 0; i < last; ++i) BOOST_TEST(keep_in_words(j, i, UnitSystem::metric) == "");
  BOOST_TEST(keep_in_words(with("[]"), last, UnitSystem::metric) == "");
  // What goes into the beer is the rest.
  BOOST_TEST(step_key(j, last, UnitSystem::metric) ==
             write(j.workings.cells_at_pitch - CellCount::billion(10), UnitSystem::metric) +
                 " cells");
  const Calendar c = calendar_of(j, UnitSystem::metric);
  BOOST_TEST(holds(c.rows.back().words, words));
  BOOST_TEST(holds(calendar_json("x", c, j).dump(), words));
  BOOST_TEST(holds(calendar_text(c, j, {}), "keep back " + volume));
  BOOST_TEST(holds(icalendar(c, j), "keep back " + volume));
}

BOOST_AUTO_TEST_CASE(key_numbers_and_check_say_it) {
  const Judgement j = keeping("10 billion");
  BOOST_TEST(holds(row(j, "Cells needed"), "10 billion of them to keep"));
  BOOST_TEST(holds(row(j, "To keep"), "10 billion"));
  BOOST_TEST(holds(row(j, "To keep"), write(j.workings.slurry_kept, UnitSystem::metric)));
  BOOST_TEST(holds(row(j, "To keep"), "of the loosened slurry"));
  BOOST_TEST(holds(check_text(j, {}), "To keep"));
  BOOST_TEST(row(with("[]"), "To keep") == "");
  const Judgement none = with(R"([
    {"op": "add", "path": "/beer/keep_cells", "value": "10 billion"},
    {"op": "replace", "path": "/beer/volume", "value": "60 L"}])");
  BOOST_TEST(holds(row(none, "To keep"), "the beer needs all there is"));
}

BOOST_AUTO_TEST_CASE(live_yeast_that_is_kept_is_not_sealed) {
  const auto steps_of_pressure = [](const Judgement& j) {
    for (const NeededCaution& n : cautions_of(j))
      if (n.caution->id == "pressure") return n.steps;
    return std::set<int>{};
  };
  const Judgement j = keeping("10 billion");
  const int last = static_cast<int>(j.plan.steps.size()) - 1;
  BOOST_TEST(steps_of_pressure(j).count(last) == 1u);
  BOOST_TEST(steps_of_pressure(with("[]")).count(last) == 0u);
}

BOOST_AUTO_TEST_SUITE_END()
