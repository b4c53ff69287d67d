// What holds of every row of the register, over many plans.

#include <boost/test/unit_test.hpp>
#include <cmath>
#include <set>

#include "many_plans.h"
#include "quantity/write.h"

using starter::Draw;
using starter::Measure;
using starter::Unknown;

namespace {

struct Measured {
  std::string name;
  starter::Plan plan;
  std::vector<Measure> measures;
};

const std::vector<Measured>& all_measured() {
  static const std::vector<Measured> all = [] {
    std::vector<Measured> made;
    for (const auto& [name, document] : many_plans()) {
      BOOST_TEST_CONTEXT(name) {
        auto plan = plan_of(document);
        auto measures = starter::measure(plan, starter::unfold(plan));
        made.push_back({name, std::move(plan), std::move(measures)});
      }
    }
    return made;
  }();
  return all;
}

template <class Check>
void for_each_measure(Check check) {
  for (const auto& one : all_measured())
    for (const Measure& m : one.measures)
      BOOST_TEST_CONTEXT(one.name << ": " << m.name << " of stage " << m.stage) check(m, one.plan);
}

}  // namespace

BOOST_AUTO_TEST_SUITE(the_register)

BOOST_AUTO_TEST_CASE(names_are_unique_and_rows_complete) {
  const std::set<std::string_view> units = {"g",  "kg", "L",       "°C",         "K",  "min",
                                            "h",  "d",  "billion", "million/mL", "°P", "g/L",
                                            "PU", "%",  "m",       "ratio"};
  std::set<std::string_view> names;
  for (const auto& kind : starter::measure_kinds()) {
    BOOST_TEST_INFO(kind.name);
    BOOST_TEST(names.insert(kind.name).second);
    BOOST_TEST(!kind.title.empty());
    BOOST_TEST(units.count(kind.unit) == 1U);
    BOOST_TEST(kind.least < kind.most);
    BOOST_TEST((kind.value != nullptr && kind.how != nullptr));
    BOOST_TEST((starter::find_measure_kind(kind.name) == &kind));
  }
  BOOST_TEST((starter::find_measure_kind("no_such_measure") == nullptr));
}

BOOST_AUTO_TEST_CASE(every_row_is_brought_out_by_some_plan) {
  std::set<std::string> met;
  for_each_measure([&](const Measure& m, const starter::Plan&) { met.insert(m.name); });
  for (const auto& kind : starter::measure_kinds()) {
    BOOST_TEST_INFO(kind.name);
    BOOST_TEST(met.count(std::string(kind.name)) == 1U);
  }
}

BOOST_AUTO_TEST_CASE(a_range_contains_its_value_and_stays_in_bounds) {
  for_each_measure([](const Measure& m, const starter::Plan&) {
    const auto& kind = *starter::find_measure_kind(m.name);
    BOOST_TEST(std::isfinite(m.low));
    BOOST_TEST(std::isfinite(m.high));
    BOOST_TEST(m.low <= m.value);
    BOOST_TEST(m.value <= m.high);
    BOOST_TEST(kind.least <= m.low);
    BOOST_TEST(m.high <= kind.most);
    BOOST_TEST(m.unit == kind.unit);
    // Only what is uncertain has an unknown that moves it most.
    BOOST_TEST(m.certain() == !m.widest.has_value());
  });
}

BOOST_AUTO_TEST_CASE(what_the_plan_says_is_certain) {
  const std::set<std::string> certain = {
      "extract_mass",         "boil_time",      "chill_target",     "growth_time",
      "ice_wort_temperature", "stated_volume",  "stated_gravity",   "growth_temperature",
      "measured_volume",      "measured_cells", "measured_gravity", "count_error",
      "cells_needed"};
  for_each_measure([&](const Measure& m, const starter::Plan&) {
    if (certain.count(m.name) > 0) BOOST_TEST(m.certain());
  });
  // While what nobody knows is not.
  for (const Measure& m : all_measured().front().measures)
    for (const char* name : {"wort_volume", "boil_temperature", "chill_time", "viability",
                             "cells_at_pitch", "crash_time_needed"})
      if (m.name == name) {
        BOOST_TEST_INFO(name);
        BOOST_TEST(!m.certain());
      }
}

BOOST_AUTO_TEST_CASE(numbers_have_six_digits) {
  for_each_measure([](const Measure& m, const starter::Plan&) {
    for (const double x : {m.low, m.value, m.high}) BOOST_TEST(starter::round_to_digits(x, 6) == x);
  });
}

BOOST_AUTO_TEST_CASE(every_number_says_how) {
  for_each_measure([](const Measure& m, const starter::Plan&) {
    BOOST_TEST(!m.how.empty());
    for (const char* wrong : {"nan", "unknown", "infinite", "{}", "  "})
      BOOST_TEST(m.how.find(wrong) == std::string::npos, m.how);
  });
}

BOOST_AUTO_TEST_CASE(places_are_pointers_into_the_plan) {
  for_each_measure([](const Measure& m, const starter::Plan& plan) {
    BOOST_TEST((m.where.empty() || m.where[0] == '/'));
    const bool of_a_stage = m.of.rfind("/stages/", 0) == 0;
    BOOST_TEST(of_a_stage == (m.stage >= 0));
    if (of_a_stage) BOOST_TEST(m.of == "/stages/" + std::to_string(m.stage));
    if (m.where.rfind("/steps/", 0) == 0)
      BOOST_TEST(std::stoul(m.where.substr(7)) < plan.steps.size());
  });
}

BOOST_AUTO_TEST_CASE(likely_measures_have_no_ranges) {
  const Likely example = amber();
  for (const Measure& m : example.measures) {
    BOOST_TEST(m.certain());
    BOOST_TEST(m.how.empty());
  }
}

BOOST_AUTO_TEST_CASE(found_by_name_and_stage) {
  const Likely two(plan_of(two_stages()));
  BOOST_TEST(starter::find_measure(two.measures, "wort_volume", 1)->stage == 1);
  BOOST_TEST(starter::find_measure(two.measures, "viability", 1)->stage == -1);
  BOOST_TEST((starter::find_measure(two.measures, "wort_volume", 2) == nullptr));
  BOOST_TEST((starter::find_measure(two.measures, "stage_step", 0) == nullptr));
}

BOOST_AUTO_TEST_SUITE_END()

BOOST_AUTO_TEST_SUITE(unknowns)

BOOST_AUTO_TEST_CASE(each_has_its_text) {
  std::set<std::string_view> names;
  for (std::size_t u = 0; u < starter::unknown_count; ++u) {
    const auto& text = starter::text_of(static_cast<Unknown>(u));
    BOOST_TEST((text.unknown == static_cast<Unknown>(u)));
    BOOST_TEST(names.insert(text.name).second);
    BOOST_TEST(!text.narrow.empty());
  }
}

BOOST_AUTO_TEST_CASE(each_moves_a_measure_of_some_plan) {
  const std::vector<nlohmann::json> plans = {harvest_amber_json(), two_stages(), three_stages()};
  for (std::size_t u = 0; u < starter::unknown_count; ++u) {
    bool moved = false;
    for (const auto& document : plans) {
      const Likely likely(plan_of(document));
      for (const double end : {-1.0, 1.0}) {
        Draw draw;
        draw.set(static_cast<Unknown>(u), end);
        const Likely other(plan_of(document), draw);
        for (const Measure& m : likely.measures)
          moved |= other.maybe(m.name, m.stage) != std::optional(m.value);
      }
    }
    BOOST_TEST_INFO(starter::text_of(static_cast<Unknown>(u)).name);
    BOOST_TEST(moved);
  }
}

BOOST_AUTO_TEST_CASE(an_unknown_that_a_plan_never_asks_for_moves_nothing) {
  int unasked = 0;
  for (const auto& [name, document] : many_plans()) {
    const Draw middle;
    const Likely likely(plan_of(document), middle);
    for (std::size_t i = 0; i < starter::unknown_count; ++i) {
      const auto u = static_cast<Unknown>(i);
      if (middle.asked(u)) continue;
      ++unasked;
      for (const double end : {-1.0, 1.0}) {
        Draw draw;
        draw.set(u, end);
        const Likely other(plan_of(document), draw);
        for (const Measure& m : likely.measures)
          if (other.maybe(m.name, m.stage) != std::optional(m.value))
            BOOST_ERROR(name << ": " << m.name << " moves with " << starter::text_of(u).name);
      }
    }
  }
  BOOST_TEST(unasked > 100);
}

BOOST_AUTO_TEST_CASE(a_draw_runs_straight_from_low_to_likely_to_high) {
  const starter::science::Uncertain span{10, 20, 50};
  Draw draw;
  const auto value = [&](double z) {
    draw.set(Unknown::weather, z);
    return draw.value(Unknown::weather, span);
  };
  BOOST_TEST(value(-1) == 10.0);
  BOOST_TEST(value(-0.5) == 15.0);
  BOOST_TEST(value(0) == 20.0);
  BOOST_TEST(value(0.5) == 35.0);
  BOOST_TEST(value(1) == 50.0);
}

BOOST_AUTO_TEST_SUITE_END()
