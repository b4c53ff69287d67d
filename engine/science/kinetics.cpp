#include "science/kinetics.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <vector>

#include "science/extract.h"
#include "science/recent.h"

namespace starter::science {
namespace {

constexpr double grams_per_billion_cells = 0.03;  // 30 pg each
constexpr double lag_share = 0.96;
constexpr double longest_hours = 480;
constexpr double enough = 0.95;

/// The Arrhenius terms at one temperature, 1/h; `half_sugar` is k_s over S₀.
struct Rates {
  double birth, settling, waking, sugar, alcohol, half_sugar;
};

Rates rates_at(Temperature t, double extract_g_per_L) {
  const double k = t.kelvins();
  return {.birth = std::exp(108.31 - 31934.09 / k),
          .settling = std::exp(130.16 - 38313 / k),
          .waking = std::exp(30.72 - 9501.54 / k),
          .sugar = std::exp(-41.92 + 11654.64 / k),
          .alcohol = std::exp(3.27 - 1267.24 / k),
          .half_sugar = std::exp(-119.63 + 34203.95 / k) / extract_g_per_L};
}

/// All masses over S₀, so that one scale fits every wort.
struct State {
  double lag, active, sugar, alcohol, born;
};

State change(const Rates& r, const State& y) {
  const double s = std::max(y.sugar, 0.0);  // a step may end a hair below nothing
  const double fed = s / (r.half_sugar + s) * y.active;
  const double born = r.birth * s / (0.5 + y.alcohol) * y.active;
  const double woken = r.waking * y.lag;
  return {.lag = -woken,
          .active = born - r.settling * y.active + woken,
          .sugar = -r.sugar * fed,
          .alcohol = r.alcohol * (1 - 2 * y.alcohol) * fed,
          .born = born};
}

State moved(const State& y, const State& d, double h) {
  return {.lag = y.lag + h * d.lag,
          .active = y.active + h * d.active,
          .sugar = y.sugar + h * d.sugar,
          .alcohol = y.alcohol + h * d.alcohol,
          .born = y.born + h * d.born};
}

/// One step of the classical fourth-order Runge-Kutta method; `k1` is the change at `y`.
State step(const Rates& r, const State& y, const State& k1, double h) {
  const State k2 = change(r, moved(y, k1, h / 2));
  const State k3 = change(r, moved(y, k2, h / 2));
  const State k4 = change(r, moved(y, k3, h));
  return moved(moved(moved(moved(y, k1, h / 6), k2, h / 3), k3, h / 3), k4, h / 6);
}

/// New cells so far, and how fast they come, at every step.
struct Curve {
  double hours_a_step = 0;
  std::vector<double> born, rate;
  bool finished = false;

  double at(double hours) const {
    const double place = hours / hours_a_step;
    const std::size_t last = born.size() - 1;
    if (place >= static_cast<double>(last)) return born[last];
    const auto i = static_cast<std::size_t>(place);
    return between(i, place - static_cast<double>(i));
  }

  /// Cubic Hermite interpolation within step `i`.
  double between(std::size_t i, double part) const {
    const double u = part, v = 1 - part;
    return born[i] * v * v * (1 + 2 * u) + born[i + 1] * u * u * (1 + 2 * v) +
           hours_a_step * u * v * (rate[i] * v - rate[i + 1] * u);
  }

  double hours_until(double wanted) const {
    const auto after = std::lower_bound(born.begin(), born.end(), wanted);
    if (after == born.begin()) return 0;
    if (after == born.end()) return hours_a_step * static_cast<double>(born.size() - 1);
    const auto i = static_cast<std::size_t>(after - born.begin()) - 1;
    double low = 0, high = 1;
    for (int n = 0; n < 40; ++n) {
      const double middle = (low + high) / 2;
      (between(i, middle) < wanted ? low : high) = middle;
    }
    return hours_a_step * (static_cast<double>(i) + high);
  }
};

Curve integrate(const Rates& r, double pitched, double step_scale) {
  // Short against the quickest thing that happens; depends on the temperature alone.
  const double h = step_scale * 0.4 / (1 + 2 * r.birth + r.settling);
  const auto most_steps = static_cast<std::size_t>(longest_hours / h);
  State y{.lag = lag_share * pitched,
          .active = (1 - lag_share) * pitched,
          .sugar = 1,
          .alcohol = 0,
          .born = 0};
  State d = change(r, y);
  Curve c{.hours_a_step = h, .born = {y.born}, .rate = {d.born}, .finished = false};
  c.born.reserve(512);
  c.rate.reserve(512);
  while (!c.finished && c.born.size() <= most_steps) {
    y = step(r, y, d, h);
    d = change(r, y);
    c.born.push_back(y.born);
    c.rate.push_back(d.born);
    c.finished = y.sugar < 1e-4 || d.born < 1e-7 * y.born;
  }
  return c;
}

/// The curve does not depend on when somebody looks at it, nor on the pace.
const Curve& curve_of(Temperature t, double extract_g_per_L, double pitched, double step_scale) {
  thread_local Recent<4, Curve, 12> recent;
  return recent.answer({t.celsius(), extract_g_per_L, pitched, step_scale}, [&] {
    return integrate(rates_at(t, extract_g_per_L), pitched, step_scale);
  });
}

double positive_hours(Duration t) {
  return std::max(t.hours(), 0.0);
}

Temperature within_measured(Temperature t) {
  return std::clamp(t, coldest_growth, warmest_growth);
}

}  // namespace

GrowthCourse published_growth_course(CellDensity living, Plato wort, Temperature temperature,
                                     Duration at, double step_scale) {
  const Temperature t = within_measured(temperature);
  const bool clamped = t != temperature;
  const double cells = std::min(living.million_per_mL(), 1000.0);
  if (cells <= 1e-6 || wort.degrees() <= 0)
    return {Duration::hours(0), Share::ratio(1), clamped, true};
  const double extract =
      concentration(std::clamp(wort, Plato::degrees(0.5), Plato::degrees(40))).grams_per_litre();
  // Above half a gram of yeast a gram of extract the model has nothing left to tell.
  const double pitched = std::min(cells * grams_per_billion_cells / extract, 0.5);
  const Curve& c = curve_of(t, extract, pitched, std::clamp(step_scale, 0.1, 1.0));
  const double all = c.born.back();
  const double share = std::clamp(c.at(positive_hours(at)) / all, 0.0, 1.0);
  return {Duration::hours(c.hours_until(enough * all)), Share::ratio(share), clamped, c.finished};
}

double warm_stretch(Temperature temperature) {
  return 1 +
         0.2 * (within_measured(std::max(temperature, Temperature::celsius(20))).celsius() - 20);
}

GrowthCourse growth_course(CellDensity living, Plato wort, Temperature temperature, Duration at,
                           double pace) {
  const double stretch = std::clamp(pace, 0.05, 20.0) * warm_stretch(temperature);
  GrowthCourse c = published_growth_course(living, wort, temperature, at / stretch);
  c.needed = c.needed * stretch;
  return c;
}

double share_grown(CellDensity living, Plato wort, Temperature temperature, Duration at,
                   double pace) {
  return growth_course(living, wort, temperature, at, pace).grown.ratio();
}

Duration growth_time_needed(CellDensity living, Plato wort, Temperature temperature, double pace) {
  return growth_course(living, wort, temperature, Duration::hours(0), pace).needed;
}

}  // namespace starter::science
