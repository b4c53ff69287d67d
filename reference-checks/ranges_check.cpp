// Whether a range holds what it promises.
//
// Every unknown's place between its ends is drawn from a normal distribution with a standard
// deviation of 1/1.96, so that its span low..high holds 95 % of cases, as science/uncertain.h says
// it does. The tails beyond ±1.5 are cut off: there some unknowns leave the possible (at 1.67 all
// the yeast and more would stay when decanting). That leaves out one case in 300. Drawing is by
// Latin hypercube (McKay, Beckman and Conover, Technometrics 21, 1979): of 10,000 slices of equal
// chance each is met once by every unknown, in shuffled order, with a fixed seed. Each draw goes
// through the whole of the science; a measure's outcomes, rounded as measures are, are then held
// against its low..high. A draw in which a measure does not exist (a target that the bath does not
// reach has no chilling time) is no outcome.

#include <random>
#include <vector>

#include "check.h"
#include "measures/measures.h"
#include "outside.h"
#include "plan/read.h"
#include "process/process.h"
#include "quantity/write.h"

using namespace starter;
using namespace reference;

namespace {

int draws() {
  // The sanitizers slow the science twentyfold; there this only looks for faults.
#if defined(__SANITIZE_ADDRESS__)
  return 1000;
#elif defined(__has_feature)
#if __has_feature(address_sanitizer)
  return 1000;
#endif
#endif
  return 10000;
}

/// 95 %; where only a few draws are made, less what chance may take from them, four standard
/// errors.
double least_inside() {
  const double n = draws();
  return n < 10000 ? 95 - 400 * std::sqrt(0.95 * 0.05 / n) : 95;
}

double chance_below(double place) {
  return std::erfc(-1.96 * place / std::sqrt(2.0)) / 2;
}

/// The place below which that share of the cut distribution lies.
double place_at(double share) {
  constexpr double end = 1.5;
  const double chance = chance_below(-end) + share * (chance_below(end) - chance_below(-end));
  double low = -end, high = end;
  for (int i = 0; i < 50; ++i) {
    const double middle = (low + high) / 2;
    (chance_below(middle) < chance ? low : high) = middle;
  }
  return low;
}

/// The draws, the same on every system (std::shuffle is not).
std::vector<Draw> hypercube(int count) {
  std::mt19937 random{20270316};
  const auto n = static_cast<std::size_t>(count);
  std::vector<double> places(n);
  std::vector<Draw> all(n);
  for (std::size_t u = 0; u < unknown_count; ++u) {
    for (std::size_t i = 0; i < n; ++i)
      places[i] = place_at((static_cast<double>(i) + 0.5) / static_cast<double>(n));
    for (std::size_t i = n - 1; i > 0; --i) std::swap(places[i], places[random() % (i + 1)]);
    for (std::size_t i = 0; i < n; ++i) all[i].set(static_cast<Unknown>(u), places[i]);
  }
  return all;
}

struct Outcomes {
  const MeasureKind* kind;
  Measure measure;
  std::vector<double> values;
};

double place_in(std::vector<double>& values, double share) {
  const auto i = static_cast<std::size_t>(share * static_cast<double>(values.size() - 1));
  std::nth_element(values.begin(), values.begin() + static_cast<std::ptrdiff_t>(i), values.end());
  return values[i];
}

const char* const source = "10,000 draws of every unknown, see the head of ranges_check.cpp";

void draw_and_compare(const std::string& name) {
  const auto read = read_plan(text_of("plans/" + name + ".plan.json"));
  BOOST_TEST_REQUIRE(std::holds_alternative<Plan>(read));
  const Plan& plan = std::get<Plan>(read);
  const Process process = unfold(plan);
  std::vector<Outcomes> all;
  for (const Measure& m : measure(plan, process))
    if (!m.certain()) all.push_back({find_measure_kind(m.name), m, {}});

  static const std::vector<Draw> all_draws = hypercube(draws());
  for (const Draw& draw : all_draws) {
    const Workings workings = work_out(plan, process, draw);
    for (Outcomes& o : all) {
      const auto value = o.kind->value({plan, process, workings}, o.measure.stage);
      if (value)
        o.values.push_back(round_to_digits(std::clamp(*value, o.kind->least, o.kind->most), 6));
    }
  }

  Check inside{"ranges", "Outcomes inside low..high, the least of all measures: " + name, source,
               Label::practice, at_least(least_inside(), "%")};
  Check width{"ranges", "Width over the span of 99 % of outcomes, the most: " + name, source,
              Label::practice, at_most(2, "")};
  for (Outcomes& o : all) {
    const Measure& m = o.measure;
    const std::string label = m.name + " of stage " + std::to_string(m.stage);
    double held = 0;
    for (double v : o.values) held += v >= m.low && v <= m.high;
    const double share = 100 * held / static_cast<double>(o.values.size());
    const double span = place_in(o.values, 0.995) - place_in(o.values, 0.005);
    BOOST_TEST_MESSAGE(name << '\t' << label << '\t' << o.values.size() << '\t' << share << '\t'
                            << (m.high - m.low) / span << '\t' << m.low << '\t' << m.value << '\t'
                            << m.high);
    inside.bounded(share, label);
    width.bounded((m.high - m.low) / span, label);
  }
}

}  // namespace

BOOST_AUTO_TEST_CASE(each_plan_that_is_worked_by_hand) {
  for (const char* name : {"meadow-pale", "quarry-lager", "summit-bitter", "ridge-lager",
                           "plateau-porter", "harbour-lager"})
    draw_and_compare(name);
}
