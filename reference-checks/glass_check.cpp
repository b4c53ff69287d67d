// What sudden cold does to glass.

#include "science/glass.h"

#include "check.h"

using namespace starter;
using namespace starter::science;
using namespace reference;

BOOST_AUTO_TEST_CASE(properties) {
  Check boro{"glass", "Expansion and Poisson's ratio of borosilicate 3.3",
             "ISO 3585 (expansion) and makers' data sheets", Label::published,
             share_of_value(0.001)};
  boro.point(borosilicate_3_3.expansion_per_K, 3.3e-6);
  boro.point(borosilicate_3_3.poisson, 0.20);
  Check stiff{"glass", "Stiffness of borosilicate 3.3, 63–64 kN/mm²", "makers' data sheets",
              Label::published, inside_the_span()};
  stiff.between(borosilicate_3_3.youngs_N_per_mm2, 63000, 64000);
  Check soda{"glass", "Expansion of soda-lime glass", "a maker's comparison of glasses, 9.1e-6/K",
             Label::published, within(0.5e-6, "1/K")};
  soda.point(soda_lime.expansion_per_K, 9.1e-6);
}

BOOST_AUTO_TEST_CASE(what_it_bears) {
  Check check{"glass", "Sudden step at a given tension, ΔT = σ(1 − ν)/(Eα), worked by hand",
              "plate held from bending, textbook of strength of materials", Label::memory,
              share_of_value(0.0001)};
  // 30 × 0.80 / (64 000 × 3.3e-6) = 24 / 0.2112; 30 × 0.78 / (70 000 × 9e-6) = 23.4 / 0.63.
  check.point(sudden_step_limit(borosilicate_3_3, 30).kelvins(), 113.636);
  check.point(sudden_step_limit(soda_lime, 30).kelvins(), 37.143);
  check.point(sudden_step_limit(soda_lime, 50).kelvins(), 61.905);
  Check held{"glass", "Worn soda-lime glass against the 42 K that containers are held to",
             "ASTM C149", Label::memory, inside_the_span()};
  held.between(42, sudden_step_limit(soda_lime, worn_glass_strength.low).kelvins(),
               sudden_step_limit(soda_lime, worn_glass_strength.high).kelvins());
}

BOOST_AUTO_TEST_CASE(the_step_itself) {
  Check check{"glass", "Step between glass and what it meets, and which way", "arithmetic",
              Label::identity, share_of_value(1e-12)};
  const auto hot = thermal_shock(Temperature::celsius(99), Temperature::celsius(15));
  check.point(hot.step.kelvins(), 84);
  check.point(hot.cooling, 1);
  const auto cold = thermal_shock(Temperature::celsius(20), Temperature::celsius(99));
  check.point(cold.step.kelvins(), 79);
  check.point(1 + cold.cooling, 1);
}
