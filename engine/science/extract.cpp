#include "science/extract.h"

#include <algorithm>
#include <array>

#include "science/water.h"

namespace starter::science {
namespace {

// NBS Circular 440, Table 114: apparent SG 20/20 °C of sucrose at 0, 1, 2, ... 60 °Brix.
constexpr std::array<double, 61> sg_by_degree = {
    1.00000, 1.00390, 1.00780, 1.01173, 1.01569, 1.01968, 1.02369, 1.02773, 1.03180,
    1.03590, 1.04003, 1.04418, 1.04837, 1.05259, 1.05683, 1.06111, 1.06542, 1.06976,
    1.07413, 1.07853, 1.08297, 1.08744, 1.09194, 1.09647, 1.10104, 1.10564, 1.11027,
    1.11493, 1.11963, 1.12436, 1.12913, 1.13394, 1.13877, 1.14364, 1.14855, 1.15350,
    1.15847, 1.16349, 1.16853, 1.17362, 1.17874, 1.18390, 1.18910, 1.19434, 1.19961,
    1.20491, 1.21026, 1.21564, 1.22106, 1.22652, 1.23202, 1.23756, 1.24313, 1.24874,
    1.25439, 1.26007, 1.26580, 1.27156, 1.27736, 1.28320, 1.28909,
};
constexpr int last_piece = static_cast<int>(sg_by_degree.size()) - 2;

// The straight piece of the table that starts at that whole degree.
struct Piece {
  int degree;
  double sg;
  double slope;
};

constexpr Piece piece(int degree) {
  const auto i = static_cast<std::size_t>(degree);
  return {degree, sg_by_degree[i], sg_by_degree[i + 1] - sg_by_degree[i]};
}

Piece piece_at_degree(double degrees) {
  return piece(static_cast<int>(std::clamp(degrees, 0.0, static_cast<double>(last_piece))));
}

Piece piece_at_sg(double sg) {
  const auto above = std::upper_bound(sg_by_degree.begin(), sg_by_degree.end(), sg);
  const auto found = static_cast<int>(above - sg_by_degree.begin()) - 1;
  return piece(std::clamp(found, 0, last_piece));
}

constexpr double air_density = 0.0012;  // kg/L, as the Circular takes it

Mass at_least_zero(Mass m) {
  return std::max(m, Mass());
}

}  // namespace

SpecificGravity sg(Plato p) {
  const Piece at = piece_at_degree(p.degrees());
  return SpecificGravity::sg(at.sg + at.slope * (p.degrees() - at.degree));
}

Plato plato(SpecificGravity g) {
  const Piece at = piece_at_sg(g.sg());
  return Plato::degrees(at.degree + (g.sg() - at.sg) / at.slope);
}

Plato plato(Gravity g) {
  return g.scale == Gravity::Scale::plato ? Plato::degrees(g.value)
                                          : plato(SpecificGravity::sg(g.value));
}

SpecificGravity sg(Gravity g) {
  return g.scale == Gravity::Scale::plato ? sg(Plato::degrees(g.value))
                                          : SpecificGravity::sg(g.value);
}

Density true_density(Plato p) {
  const double water = water_density_20C.kilograms_per_litre();
  return Density::kilograms_per_litre(sg(p).sg() * (water - air_density) + air_density);
}

Concentration concentration(Plato p) {
  const double degrees = std::max(p.degrees(), 0.0);
  const double grams_per_kg = 10 * degrees;
  return Concentration::grams_per_litre(
      grams_per_kg * true_density(Plato::degrees(degrees)).kilograms_per_litre());
}

Volume displacement(Mass extract, Plato p) {
  // The table is straight below 1 °P, so a little above nought stands for the limit there, where
  // the formula is 0/0.
  const Plato strength = Plato::degrees(std::clamp(p.degrees(), 0.01, 100.0));
  const double share = strength.degrees() / 100;
  const double litres_per_kg = (1 / true_density(strength).kilograms_per_litre() -
                                (1 - share) / water_density_20C.kilograms_per_litre()) /
                               share;
  return Volume::litres(at_least_zero(extract).kilograms() * litres_per_kg);
}

Wort dissolve(Mass weighed, Share solids, Volume water_at_20C) {
  const Mass put_in = at_least_zero(weighed);
  const double extract = std::clamp(solids.ratio(), 0.0, 1.0);
  return {put_in * extract,
          put_in * (1 - extract) + at_least_zero(water_at_20C * water_density_20C)};
}

Wort wort_of(Volume at_20C, Plato strength) {
  const Plato p = Plato::degrees(std::clamp(strength.degrees(), 0.0, 100.0));
  const Mass whole = at_least_zero(at_20C * true_density(p));
  return {whole * (p.degrees() / 100), whole * (1 - p.degrees() / 100)};
}

Wort boil_down(Wort wort, Volume water_lost) {
  return {wort.extract, at_least_zero(wort.water - water_lost * water_density_20C)};
}

Mass mass(Wort wort) {
  return wort.extract + wort.water;
}

Plato plato(Wort wort) {
  const Mass whole = mass(wort);
  return whole > Mass() ? Plato::degrees(100 * (wort.extract / whole)) : Plato();
}

Volume volume(Wort wort) {
  return mass(wort) / true_density(plato(wort));
}

Concentration extract_ratio(Wort wort) {
  return mass(wort) > Mass() ? wort.extract / volume(wort) : Concentration();
}

Concentration dry_malt_equivalent(Wort wort) {
  return extract_ratio(wort) / dry_malt_solids.likely;
}

SpecificGravity hydrometer_at_20C(SpecificGravity reading, Temperature sample) {
  return reading * expansion(sample);
}

bool hydrometer_trusted(Temperature sample) {
  return sample >= Temperature::celsius(0) && sample <= Temperature::celsius(40);
}

}  // namespace starter::science
