#include "science/chill.h"

#include <algorithm>
#include <cmath>

#include "science/water.h"

namespace starter::science {
namespace {

// A moment of the chill.
struct Moment {
  Body wort;
  Body bath;
  Mass ice;
  Duration clock;
};

HeatCapacity of_water(Mass m) {
  return HeatCapacity::kilojoules_per_kelvin(m.kilograms() * water_specific_heat);
}
Heat to_melt(Mass ice) {
  return Heat::kilojoules(ice.kilograms() * ice_latent_heat);
}
Mass melted_by(Heat q) {
  return Mass::kilograms(q.kilojoules() / ice_latent_heat);
}

constexpr Temperature freezing = Temperature::celsius(0);

// The wort has come down to `t`; what it gave has warmed the bath.
Moment wort_at(Moment m, Temperature t, Duration took) {
  const Heat given = m.wort.capacity * (m.wort.temperature - t);
  m.wort.temperature = t;
  m.bath.temperature = m.bath.temperature + given / m.bath.capacity;
  m.clock += took;
  return m;
}

// Ice meets the bath water and takes from it what it can.
Moment ice_added(Moment m) {
  const Mass melts = std::min(m.ice, melted_by(m.bath.capacity * (m.bath.temperature - freezing)));
  const HeatCapacity now = m.bath.capacity + of_water(melts);
  const Heat held = m.bath.capacity * (m.bath.temperature - freezing) - to_melt(melts);
  m.bath = {now, freezing + std::max(held, Heat()) / now};
  m.ice = m.ice - melts;
  return m;
}

// While there is ice the bath stays at 0 °C and melts what the wort's heat melts.
Moment wort_at_over_ice(Moment m, Temperature t, Conductance ua) {
  const Mass melts = melted_by(m.wort.capacity * (m.wort.temperature - t));
  const double seconds_per_e_fold =
      1000 * m.wort.capacity.kilojoules_per_kelvin() / ua.watts_per_kelvin();
  m.clock += Duration::seconds(seconds_per_e_fold *
                               std::log((m.wort.temperature - freezing) / (t - freezing)));
  m.wort.temperature = t;
  m.bath.capacity = m.bath.capacity + of_water(melts);
  m.ice = std::max(m.ice - melts, Mass());
  return m;
}

Chilled reached(const Moment& m, Temperature lowest, std::optional<Duration> ice_in) {
  return {true, m.clock, lowest, ice_in, m.ice, m.bath.temperature};
}

Chilled short_of_it(Temperature lowest, std::optional<Duration> ice_in, Mass ice_left,
                    Temperature bath_end) {
  return {false, std::nullopt, lowest, ice_in, ice_left, bath_end};
}

// No ice, or none left: two bodies to the end.
Chilled to_the_end(const Moment& m, Conductance ua, Temperature target,
                   std::optional<Duration> ice_in) {
  const Temperature even = equilibrium(m.wort, m.bath);
  const Temperature lowest = std::min(even, m.wort.temperature);
  const auto took = time_to_reach(m.wort, m.bath, ua, target);
  if (!took) return short_of_it(lowest, ice_in, m.ice, even);
  return reached(wort_at(m, target, *took), lowest, ice_in);
}

// The ice is in the bath; some of it may have melted at once.
Chilled with_ice(Moment m, Conductance ua, Temperature target, std::optional<Duration> ice_in) {
  if (m.ice <= Mass()) return to_the_end(m, ua, target, ice_in);
  const Temperature all_melted = m.wort.temperature - to_melt(m.ice) / m.wort.capacity;
  if (target > freezing && target >= all_melted) {
    Chilled done = reached(wort_at_over_ice(m, target, ua), freezing, ice_in);
    if (all_melted > freezing)
      done.lowest =
          equilibrium({m.wort.capacity, all_melted}, {m.bath.capacity + of_water(m.ice), freezing});
    return done;
  }
  if (all_melted <= freezing) {
    const Heat above =
        m.wort.capacity * std::max(m.wort.temperature - freezing, TemperatureDifference());
    return short_of_it(std::min(freezing, m.wort.temperature), ice_in,
                       std::max(m.ice - melted_by(above), Mass()), freezing);
  }
  Moment water = wort_at_over_ice(m, all_melted, ua);
  water.ice = Mass();
  return to_the_end(water, ua, target, ice_in);
}

Moment begin(const ChillPlan& p) {
  const Temperature bath = std::clamp(p.bath_temperature, freezing, Temperature::celsius(110));
  const HeatCapacity least = HeatCapacity::kilojoules_per_kelvin(1e-9);
  return {{std::max(p.capacity, least), p.start},
          {std::max(bath_heat_capacity(p.bath, bath), least), bath},
          std::max(p.ice, Mass()),
          Duration()};
}

// What bath and all the ice can do, whenever the ice goes in.
Temperature lowest_of(const Moment& m) {
  const Heat above = m.wort.capacity * (m.wort.temperature - freezing) +
                     m.bath.capacity * (m.bath.temperature - freezing) - to_melt(m.ice);
  const HeatCapacity all = m.wort.capacity + m.bath.capacity + of_water(m.ice);
  const Temperature even = freezing + std::max(above, Heat()) / all;
  return std::min(even, m.wort.temperature);
}

}  // namespace

Chilled chill(const ChillPlan& plan) {
  const Conductance ua = std::max(plan.ua, Conductance::watts_per_kelvin(1e-9));
  Moment m = begin(plan);
  if (plan.start <= plan.target) return reached(m, lowest_of(m), std::nullopt);
  if (m.ice <= Mass()) return to_the_end(m, ua, plan.target, std::nullopt);

  const Temperature ice_at =
      std::min(std::max(plan.ice_from, equilibrium(m.wort, m.bath) + stalled), plan.start);
  const Temperature stop = std::max(ice_at, plan.target);
  const auto took = time_to_reach(m.wort, m.bath, ua, stop);
  const Temperature lowest = lowest_of(m);
  m = wort_at(m, stop, took.value_or(Duration()));
  if (plan.target >= ice_at) return reached(m, lowest, std::nullopt);
  return with_ice(ice_added(m), ua, plan.target, m.clock);
}

Mass ice_needed(Body wort, Body bath, Temperature target, TemperatureDifference margin) {
  const Temperature aim = std::max(target - margin, freezing);
  const Heat too_much =
      wort.capacity * (wort.temperature - aim) + bath.capacity * (bath.temperature - aim);
  const double kilojoules_per_kilogram =
      ice_latent_heat + water_specific_heat * (aim - freezing).kelvins();
  return std::max(Mass::kilograms(too_much.kilojoules() / kilojoules_per_kilogram), Mass());
}

}  // namespace starter::science
