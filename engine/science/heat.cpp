#include "science/heat.h"

#include <algorithm>
#include <cmath>

#include "science/water.h"

namespace starter::science {
namespace {

double capacity_of(Body b) {
  return std::max(b.capacity.kilojoules_per_kelvin(), 1e-9);
}

}  // namespace

double specific_heat(Plato extract, Temperature temperature) {
  const double share = std::clamp(extract.degrees() / 100, 0.0, 1.0);
  const double t = std::clamp(temperature.celsius(), 0.0, 110.0);
  const double water = 4.1762 + t * (-9.0864e-5 + t * 5.4731e-6);
  const double taken_off_by_sugar = 2.511 - 0.0075 * t;
  return water - share * taken_off_by_sugar;
}

HeatCapacity heat_capacity(Wort wort, Temperature t) {
  return HeatCapacity::kilojoules_per_kelvin(mass(wort).kilograms() *
                                             specific_heat(plato(wort), t));
}

HeatCapacity bath_heat_capacity(Volume bath, Temperature t) {
  const Mass water = std::max(bath, Volume()) * water_density(t);
  return HeatCapacity::kilojoules_per_kelvin(water.kilograms() * water_specific_heat);
}

Mass empty_mass(Volume capacity, double kilograms_per_litre) {
  return Mass::kilograms(std::max(capacity.litres(), 0.0) * std::max(kilograms_per_litre, 0.0));
}

HeatCapacity heat_capacity(const VesselMaterial& material, Mass empty) {
  return HeatCapacity::kilojoules_per_kelvin(std::max(empty.kilograms(), 0.0) *
                                             material.specific_heat);
}

Temperature equilibrium(Body a, Body b) {
  const double share_of_b = capacity_of(b) / (capacity_of(a) + capacity_of(b));
  return a.temperature + (b.temperature - a.temperature) * share_of_b;
}

double evening_rate_per_hour(Body a, Body b, Conductance ua) {
  const double watts_per_kelvin = std::max(ua.watts_per_kelvin(), 1e-9);
  constexpr double kilojoules_per_watt_hour = 3.6;
  return kilojoules_per_watt_hour * watts_per_kelvin * (1 / capacity_of(a) + 1 / capacity_of(b));
}

Temperature temperature_after(Body a, Body b, Conductance ua, Duration contact) {
  const Temperature end = equilibrium(a, b);
  const double hours = std::max(contact.hours(), 0.0);
  return end + (a.temperature - end) * std::exp(-evening_rate_per_hour(a, b, ua) * hours);
}

std::optional<Duration> time_to_reach(Body a, Body b, Conductance ua, Temperature target) {
  if (a.temperature == target) return Duration();
  const Temperature end = equilibrium(a, b);
  const double to_go = (target - end).kelvins();
  const double whole_way = (a.temperature - end).kelvins();
  const bool on_the_way =
      whole_way > 0 ? 0 < to_go && to_go < whole_way : whole_way < to_go && to_go < 0;
  if (!on_the_way) return std::nullopt;
  return Duration::hours(std::log(whole_way / to_go) / evening_rate_per_hour(a, b, ua));
}

}  // namespace starter::science
