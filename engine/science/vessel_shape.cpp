#include "science/vessel_shape.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "science/water.h"

namespace starter::science {
namespace {

constexpr double pi = std::numbers::pi;
constexpr double brim_over_mark = 1.1;

// Usual proportions of a shape, by the base radius.
struct Proportions {
  double mouth;
  double height;
};
constexpr Proportions proportions(Shape shape) {
  switch (shape) {
    case Shape::cone:
      return {0.31, 2.84};
    case Shape::tall_cylinder:
      return {1.0, 3.2};
    case Shape::squat_cylinder:
      return {1.0, 1.4};
  }
  return {1.0, 1.4};
}

// Volume of a frustum over base radius squared times height.
double roundness(double mouth) {
  return pi * (1 + mouth + mouth * mouth) / 3;
}

double positive(Length l) {
  return std::max(l.metres(), 1e-4);
}
double cubic_metres(Volume v) {
  return std::max(v.litres(), 1e-6) / 1000;
}

// How much the radius shrinks per metre of height.
double taper(const Outline& o) {
  return (o.base_radius - o.mouth_radius).metres() / positive(o.height);
}

double radius_at(const Outline& o, double depth) {
  return o.base_radius.metres() - taper(o) * depth;
}

}  // namespace

Outline outline(Shape shape, Volume capacity, std::optional<Length> diameter,
                std::optional<Length> depth) {
  const Proportions usual = proportions(shape);
  const double full = cubic_metres(capacity) * brim_over_mark;
  const double round = roundness(usual.mouth);
  double radius = std::pow(full / (round * usual.height), 1.0 / 3);
  if (diameter)
    radius = positive(*diameter) / 2;
  else if (depth)
    radius = std::sqrt(full / (round * positive(*depth)));
  const double height = depth ? positive(*depth) : full / (round * radius * radius);
  return {Length::metres(radius), Length::metres(radius * usual.mouth), Length::metres(height)};
}

Volume volume_to(const Outline& o, Length depth) {
  const double z = std::clamp(depth.metres(), 0.0, positive(o.height));
  const double base = o.base_radius.metres();
  const double top = radius_at(o, z);
  return Volume::litres(1000 * pi * z * (base * base + base * top + top * top) / 3);
}

Length depth_of(const Outline& o, Volume held) {
  if (held <= Volume()) return {};
  if (held >= volume_to(o, o.height)) return o.height;
  const double v = held.litres() / 1000;
  const double base = o.base_radius.metres();
  const double narrowing = taper(o);
  if (narrowing < 1e-9) return Length::metres(v / (pi * base * base));
  // A frustum is a whole cone less the cone above it: base³ − top³ = 3·v·taper/π.
  const double top = std::pow(base * base * base - 3 * v * narrowing / pi, 1.0 / 3);
  return Length::metres((base - top) / narrowing);
}

Wetted wetted(const Outline& o, Volume held) {
  const Length depth = depth_of(o, held);
  if (depth <= Length()) return {};
  const double z = depth.metres();
  const double base = o.base_radius.metres();
  const double top = radius_at(o, z);
  const double slant = std::sqrt(z * z + (base - top) * (base - top));
  return {depth, pi * (base + top) * slant, pi * base * base};
}

Volume displaced(const Outline& o, Length water_depth, Length wall) {
  const Length depth = std::clamp(water_depth, Length(), o.height);
  const Volume inside = volume_to(o, depth);
  const Wetted touched = wetted(o, inside);
  const double shell_m3 = (touched.side_m2 + touched.base_m2) * std::max(wall.metres(), 0.0);
  return inside + Volume::litres(1000 * shell_m3);
}

Mass holding_down(Mass flask_and_wort, Volume displaced_to_water_line) {
  return flask_and_wort - displaced_to_water_line * water_density_20C;
}

bool floats(Mass flask_and_wort, Volume displaced_to_water_line) {
  return holding_down(flask_and_wort, displaced_to_water_line) < Mass();
}

Share bath_fill(Volume bath, Mass ice, Volume displaced_by_flask, Volume tub_capacity) {
  const Volume melted = std::max(ice, Mass()) / water_density_20C;
  const Volume all = std::max(bath, Volume()) + melted + std::max(displaced_by_flask, Volume());
  return Share::ratio(all / std::max(tub_capacity, Volume::litres(1e-6)));
}

}  // namespace starter::science
