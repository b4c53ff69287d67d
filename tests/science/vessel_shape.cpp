#include "science/vessel_shape.h"

#include <cmath>
#include <numbers>

#include "near.h"

using namespace starter;
using namespace starter::literals;
using namespace starter::science;

BOOST_AUTO_TEST_SUITE(vessel_shape)

BOOST_AUTO_TEST_CASE(the_brim_holds_a_tenth_more_than_the_mark) {
  for (const Shape s : {Shape::cone, Shape::tall_cylinder, Shape::squat_cylinder}) {
    const Outline o = outline(s, 2_L);
    check_close(volume_to(o, o.height).litres(), 2.2, 1e-12);
  }
}

BOOST_AUTO_TEST_CASE(a_two_litre_flask_is_as_big_as_one) {
  const Outline o = outline(Shape::cone, 2_L);
  check_within(2 * o.base_radius.millimetres(), 162, 2);
  check_within(2 * o.mouth_radius.millimetres(), 50, 2);
  check_within(o.height.millimetres(), 230, 3);
}

BOOST_AUTO_TEST_CASE(depth_undoes_volume) {
  for (const Shape s : {Shape::cone, Shape::tall_cylinder, Shape::squat_cylinder}) {
    const Outline o = outline(s, 2_L);
    for (double v = 0.01; v < 2.2; v += 0.11)
      check_close(volume_to(o, depth_of(o, Volume::litres(v))).litres(), v, 1e-9);
    BOOST_TEST(depth_of(o, 0_L).metres() == 0);
    BOOST_TEST(depth_of(o, Volume::litres(-1)).metres() == 0);
    BOOST_TEST((depth_of(o, 9_L) == o.height));
    BOOST_TEST((volume_to(o, 9_m) == volume_to(o, o.height)));
  }
}

BOOST_AUTO_TEST_CASE(measured_sizes_replace_the_usual_ones) {
  const Outline by_both = outline(Shape::squat_cylinder, 5_L, 200_mm, 150_mm);
  check_close(volume_to(by_both, by_both.height).litres(), std::numbers::pi * 1.5, 1e-12);
  const Outline by_width = outline(Shape::squat_cylinder, 5_L, 200_mm);
  check_close(by_width.base_radius.millimetres(), 100, 1e-12);
  check_close(volume_to(by_width, by_width.height).litres(), 5.5, 1e-12);
  const Outline by_depth = outline(Shape::cone, 2_L, std::nullopt, 250_mm);
  check_close(by_depth.height.millimetres(), 250, 1e-12);
  check_close(volume_to(by_depth, by_depth.height).litres(), 2.2, 1e-12);
}

BOOST_AUTO_TEST_CASE(wetted_surface_of_a_cylinder_by_hand) {
  const Outline o = outline(Shape::squat_cylinder, 5_L, 200_mm, 150_mm);
  const Wetted w = wetted(o, Volume::litres(std::numbers::pi));  // 10 cm deep
  check_close(w.depth.millimetres(), 100, 1e-12);
  check_close(w.base_m2, std::numbers::pi * 0.01, 1e-12);
  check_close(w.side_m2, std::numbers::pi * 0.2 * 0.1, 1e-12);
  BOOST_TEST(wetted(o, 0_L).base_m2 == 0);
}

BOOST_AUTO_TEST_CASE(wetted_surface_of_a_cone_is_the_slope_of_its_volume) {
  // dV/dz is the free surface; the side is its circumference along the slant.
  const Outline o = outline(Shape::cone, 2_L);
  const double dz = 1e-5;
  const double z = wetted(o, 1.2_L).depth.metres();
  const double ring = wetted(o, volume_to(o, Length::metres(z + dz))).side_m2 -
                      wetted(o, volume_to(o, Length::metres(z))).side_m2;
  const double surface =
      (volume_to(o, Length::metres(z + dz)).litres() - volume_to(o, Length::metres(z)).litres()) /
      1000 / dz;
  const double radius = std::sqrt(surface / std::numbers::pi);
  const double lean = (o.base_radius - o.mouth_radius) / o.height;
  check_close(ring, 2 * std::numbers::pi * radius * dz * std::sqrt(1 + lean * lean), 1e-4);
}

BOOST_AUTO_TEST_CASE(displaced_is_inside_and_shell) {
  const Outline o = outline(Shape::squat_cylinder, 5_L, 200_mm, 150_mm);
  // 10 cm deep with 1 mm walls: π L inside, π · 0.2 · 0.1 m² of side and π · 0.01 m² of base.
  check_close(displaced(o, 100_mm, 1_mm).litres(), std::numbers::pi * (1 + 0.02 + 0.01), 1e-12);
  BOOST_TEST(displaced(o, 0_mm, 1_mm).litres() == 0);
  BOOST_TEST((displaced(o, 9_m, 1_mm) == displaced(o, 150_mm, 1_mm)));
}

BOOST_AUTO_TEST_CASE(archimedes) {
  BOOST_TEST(floats(998_g, 1_L));
  BOOST_TEST(!floats(999_g, 1_L));
  check_close(holding_down(1200_g, 1_L).grams(), 201.8, 1e-9);
  // A flask with water outside up to its wort stands; with half the wort it would lift off.
  const Outline o = outline(Shape::cone, 2_L);
  const Volume to_the_wort = displaced(o, depth_of(o, 1.2_L), 2_mm);
  BOOST_TEST(!floats(1245_g + 440_g, to_the_wort));
  BOOST_TEST(floats(622_g + 440_g, to_the_wort));
}

BOOST_AUTO_TEST_CASE(how_full_the_tub_gets) {
  check_close(bath_fill(8_L, Mass::grams(998.2), 1_L, 20_L).ratio(), 0.5, 1e-12);
  BOOST_TEST(bath_fill(10_L, 1_kg, 1.3_L, 12_L).ratio() > 1);
  BOOST_TEST(std::isfinite(bath_fill(10_L, 1_kg, 1.3_L, 0_L).ratio()));
  BOOST_TEST(bath_fill(Volume::litres(-1), Mass::grams(-1), 1_L, 10_L).ratio() == 0.1);
}

BOOST_AUTO_TEST_CASE(sizes_of_nought_stay_finite) {
  for (const Shape s : {Shape::cone, Shape::tall_cylinder, Shape::squat_cylinder}) {
    const Outline o = outline(s, 0_L, 0_mm, Length::metres(-1));
    BOOST_TEST(std::isfinite(wetted(o, 1_L).side_m2));
    BOOST_TEST(std::isfinite(displaced(o, 1_m, 1_mm).litres()));
  }
  const Wetted in_nothing = wetted(Outline{}, 1_L);
  BOOST_TEST(std::isfinite(in_nothing.side_m2));
  BOOST_TEST(std::isfinite(depth_of(Outline{}, 1_L).metres()));
}

BOOST_AUTO_TEST_SUITE_END()
