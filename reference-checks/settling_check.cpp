// Settling: Stokes, clumps, shapes of vessels, slurry.

#include "science/settling.h"

#include "check.h"
#include "outside.h"
#include "science/slurry.h"
#include "science/vessel_shape.h"

using namespace starter;
using namespace starter::science;
using namespace reference;

BOOST_AUTO_TEST_CASE(stokes) {
  Check check{"settling", "A sphere falling slowly: weight, lift and drag 3πμdv in balance",
              "G. G. Stokes, 1851; force balance by hand", Label::published, share_of_value(1e-9)};
  const double pi = std::acos(-1.0);
  for (double micrometres : {2.0, 5.0, 8.0, 50.0})
    for (double viscosity : {0.0010016, 0.0016, 1.41}) {
      const double d = micrometres * 1e-6;
      const double v =
          stokes_velocity(Length::metres(d), Density::kilograms_per_litre(1.65), viscosity);
      check.point(3 * pi * viscosity * d * v, pi / 6 * d * d * d * 1650 * 9.80665);
    }
  Check textbook{"settling", "Quartz of 50 µm in water of 20 °C falls 2.24 mm/s",
                 "worked by hand: 1650 × 9.80665 × (50e-6)² / (18 × 1.0016e-3)", Label::identity,
                 share_of_value(0.002)};
  textbook.point(1000 * stokes_velocity(Length::millimetres(0.050),
                                        Density::kilograms_per_litre(1.65), 1.0016e-3),
                 2.2437);
  const auto water = ask("water.py", {{4}, {20}});
  Check cell{"settling", "A cell in fermented wort at 4 and 20 °C",
             "Stokes with viscosity by IAPWS R12-08; cell and beer from memory", Label::memory,
             share_of_value(0.001)};
  for (int i = 0; i < 2; ++i)
    cell.point(cell_velocity(Temperature::celsius(i == 0 ? 4 : 20), 1.3),
               72 * 9.80665 * 25e-12 / (18 * 1.3 * water[static_cast<std::size_t>(i)][3] / 1000));
  Check slow{"settling", "Single cells in water of 20 °C: about 3.5 mm an hour", "the trade facts",
             Label::memory, share_of_value(0.02)};
  slow.point(3600000 * cell_velocity(Temperature::celsius(20), 1), 3.5);
}

BOOST_AUTO_TEST_CASE(clumps) {
  struct Class {
    Clumping clumping;
    double factor, keeps_low, keeps, keeps_high;
  };
  const Class classes[] = {{Clumping::low, 1.3, 0.70, 0.80, 0.90},
                           {Clumping::medium, 2.6, 0.90, 0.95, 0.98},
                           {Clumping::high, 5.0, 0.90, 0.95, 0.98}};
  const double viscosity = ask("water.py", {{4}})[0][3] / 1000;
  Check factor{"settling", "How much faster clumps fall than cells", "the trade", Label::practice,
               share_of_value(1e-9)};
  Check keeps{"settling", "Share of the cells that decanting keeps: 70–90 and 90–98 %", "the trade",
              Label::practice, share_of_value(1e-9)};
  Check hours{"settling", "Hours through 10 cm at 4 °C, by Stokes and clump factor",
              "the trade, and Stokes by hand with IAPWS viscosity", Label::practice,
              share_of_value(0.001)};
  Check span{"settling", "The same, against the trade's 12–48 h", "the trade", Label::practice,
             inside_the_span()};
  for (const Class& c : classes) {
    factor.point(clump_factor(c.clumping).likely, c.factor);
    factor.point(clump_factor(c.clumping).low, 0.64 * c.factor);
    factor.point(clump_factor(c.clumping).high, 1.6 * c.factor);
    keeps.point(decanting_keeps(c.clumping).low, c.keeps_low);
    keeps.point(decanting_keeps(c.clumping).likely, c.keeps);
    keeps.point(decanting_keeps(c.clumping).high, c.keeps_high);
    const double v = 72 * 9.80665 * 25e-12 / (18 * 1.3 * viscosity);
    const double computed =
        crash_time_needed(c.clumping, Length::centimetres(10), Temperature::celsius(4), 1).hours();
    hours.point(computed, 0.1 / (v * c.factor) / 3600);
    span.between(computed, 11.5, 48);
  }
}

BOOST_AUTO_TEST_CASE(shapes) {
  struct Vessel {
    Shape shape;
    double capacity;
  };
  std::vector<Row> questions;
  std::vector<Outline> outlines;
  for (const Vessel& v : {Vessel{Shape::cone, 2}, Vessel{Shape::cone, 5},
                          Vessel{Shape::tall_cylinder, 2}, Vessel{Shape::squat_cylinder, 18}}) {
    const Outline o = outline(v.shape, Volume::litres(v.capacity));
    for (double part : {0.1, 0.33, 0.6, 0.9, 1.0}) {
      outlines.push_back(o);
      questions.push_back({o.base_radius.metres(), o.mouth_radius.metres(), o.height.metres(),
                           part * o.height.metres()});
    }
  }
  const auto answers = ask("shapes.py", questions);
  Check volume{"settling", "Volume of a vessel up to a depth, and depth of a volume",
               "slices summed by scipy", Label::identity, share_of_value(1e-9)};
  Check wall{"settling", "Side and base that liquid wets", "slices summed by scipy",
             Label::identity, share_of_value(1e-9)};
  Check brim{"settling", "A vessel's brim holds a tenth more than its mark", "the trade",
             Label::practice, share_of_value(1e-9)};
  Check shape{"settling", "Proportions: mouth over base, height over base", "common ware",
              Label::practice, share_of_value(1e-9)};
  for (std::size_t i = 0; i < questions.size(); ++i) {
    const auto depth = Length::metres(questions[i][3]);
    const auto held = Volume::litres(answers[i][0]);
    volume.point(volume_to(outlines[i], depth).litres(), answers[i][0]);
    volume.point(depth_of(outlines[i], held).metres(), questions[i][3]);
    const Wetted w = wetted(outlines[i], held);
    volume.point(w.depth.metres(), questions[i][3]);
    wall.point(w.side_m2, answers[i][1]);
    wall.point(w.base_m2, answers[i][2]);
    wall.point(displaced(outlines[i], depth, Length::millimetres(2)).litres(),
               answers[i][0] + 2 * (answers[i][1] + answers[i][2]));
    if (i % 5 == 4) brim.point(answers[i][0], 1.1 * (i < 5 ? 2 : i < 10 ? 5 : i < 15 ? 2 : 18));
    const bool cone = i < 10;
    shape.point(questions[i][1] / questions[i][0], cone ? 0.31 : 1);
    shape.point(questions[i][2] / questions[i][0], cone ? 2.84 : i < 15 ? 3.2 : 1.4);
  }
  Check depth{"settling", "Depth in a flask of which only the capacity is known",
              "slices summed by scipy", Label::identity, share_of_value(1e-9)};
  for (std::size_t i = 0; i < 5; ++i)
    depth.point(liquid_depth(Volume::litres(answers[i][0]), Volume::litres(2)).metres(),
                questions[i][3]);
  // 1 m² × 10 cm; 5 L in 10 cm.
  Check measured{"settling", "A vessel measured: the other side follows from its capacity",
                 "geometry", Label::identity, share_of_value(1e-9)};
  const double pi = std::acos(-1.0);
  const Outline wide = outline(Shape::squat_cylinder, Volume::litres(10), Length::centimetres(30));
  measured.point(wide.height.metres(), 0.011 / (pi * 0.0225));
  const Outline deep =
      outline(Shape::tall_cylinder, Volume::litres(10), std::nullopt, Length::centimetres(40));
  measured.point(deep.base_radius.metres(), std::sqrt(0.011 / (pi * 0.4)));
}

BOOST_AUTO_TEST_CASE(floating) {
  Check check{"settling", "What holds a flask down; how full the tub gets",
              "Archimedes; ice counts as the water it melts to", Label::identity,
              share_of_value(1e-9)};
  check.point(holding_down(Mass::kilograms(1.7), Volume::litres(1.5)).kilograms(),
              1.7 - 1.5 * 0.99820);
  check.point(
      bath_fill(Volume::litres(10), Mass::kilograms(1), Volume::litres(1.5), Volume::litres(18))
          .ratio(),
      (10 + 1 / 0.99820 + 1.5) / 18);
  Check lifts{"settling", "Whether it floats, on both sides of balance", "Archimedes",
              Label::identity, within(0, "")};
  for (double litres : {1.0, 1.5, 2.5}) {
    const double displaced_kg = litres * 0.99820;
    lifts.point(floats(Mass::kilograms(displaced_kg * 1.002), Volume::litres(litres)), 0);
    lifts.point(floats(Mass::kilograms(displaced_kg * 0.998), Volume::litres(litres)), 1);
  }
}

BOOST_AUTO_TEST_CASE(slurry) {
  Check check{"settling", "Room of slurry, its temperature when mixed, its gap to the beer",
              "arithmetic and conservation of energy", Label::identity, share_of_value(1e-9)};
  check.point(slurry_volume(CellCount::billion(200), 1.5, Share::percent(17)).millilitres(),
              200 / (1.5 * 0.83));
  check.point(mixed_temperature(Volume::litres(0.5), Temperature::celsius(4), Volume::litres(1.5),
                                Temperature::celsius(20))
                  .celsius(),
              16);
  check.point(slurry_gap(Temperature::celsius(4), Temperature::celsius(19)).kelvins(), 15);
  check.point(slurry_gap(Temperature::celsius(19), Temperature::celsius(12)).kelvins(), 7);
}
