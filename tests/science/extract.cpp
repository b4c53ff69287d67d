#include "science/extract.h"

#include <cmath>

#include "near.h"

using namespace starter;
using namespace starter::literals;
using namespace starter::science;

BOOST_AUTO_TEST_SUITE(extract)

BOOST_AUTO_TEST_CASE(whole_degrees_are_the_tables_own) {
  const struct {
    double degrees, sg;
  } rows[] = {{0, 1.00000},  {1, 1.00390},  {9, 1.03590},  {12, 1.04837},
              {20, 1.08297}, {30, 1.12913}, {45, 1.20491}, {60, 1.28909}};
  for (const auto& r : rows) {
    check_close(sg(Plato::degrees(r.degrees)).sg(), r.sg, 1e-14);
    check_within(plato(SpecificGravity::sg(r.sg)).degrees(), r.degrees, 1e-10);
  }
}

// A cubic fitted to the same table by others, within 0.001 °P of it from 0 to 40.
BOOST_AUTO_TEST_CASE(between_entries_it_follows_a_smooth_fit_of_the_table) {
  for (double g = 1.0005; g < 1.17; g += 0.00137) {
    const double fit = 182.46007 * g * g * g - 775.68212 * g * g + 1262.7794 * g - 669.56218;
    check_within(plato(SpecificGravity::sg(g)).degrees(), fit, 0.005);
  }
}

BOOST_AUTO_TEST_CASE(the_two_directions_undo_each_other) {
  for (double p = -4; p < 75; p += 0.0371)
    check_within(plato(sg(Plato::degrees(p))).degrees(), p, 1e-9);
  for (double g = 0.985; g < 1.32; g += 0.000173)
    check_within(sg(plato(SpecificGravity::sg(g))).sg(), g, 1e-9);
}

BOOST_AUTO_TEST_CASE(heavier_is_stronger_without_a_break) {
  for (double p = -3; p < 70; p += 0.01)
    BOOST_TEST((sg(Plato::degrees(p)) < sg(Plato::degrees(p + 0.01))));
}

BOOST_AUTO_TEST_CASE(beyond_the_table_the_end_pieces_run_on) {
  check_close(sg(Plato::degrees(-1)).sg(), 1.00000 - 0.00390, 1e-14);
  check_close(sg(Plato::degrees(62)).sg(), 1.28909 + 2 * (1.28909 - 1.28320), 1e-14);
}

BOOST_AUTO_TEST_CASE(a_stated_gravity_on_either_scale) {
  BOOST_TEST(plato(Gravity::of(9.2_degP)).degrees() == 9.2);
  BOOST_TEST(sg(Gravity::of(1.037_SG)).sg() == 1.037);
  check_close(sg(Gravity::of(9.2_degP)).sg(), 1.03590 + 0.2 * (1.04003 - 1.03590), 1e-14);
  check_close(plato(Gravity::of(1.03590_SG)).degrees(), 9.0, 1e-12);
}

BOOST_AUTO_TEST_CASE(true_density_takes_the_air_off) {
  check_close(true_density(0_degP).kilograms_per_litre(), 0.99820, 1e-14);
  // By hand: 1.04003 · 0.9970 + 0.0012.
  check_close(true_density(10_degP).kilograms_per_litre(), 1.03810991, 1e-9);
  check_close(concentration(10_degP).grams_per_litre(), 103.810991, 1e-9);
  BOOST_TEST(concentration(0_degP).grams_per_litre() == 0);
  BOOST_TEST(concentration(Plato::degrees(-2)).grams_per_litre() == 0);
}

BOOST_AUTO_TEST_CASE(dissolved_sugar_takes_its_room) {
  // By hand at 10 °P: 1000 g of wort hold 100 g in 1/1.03810991 L, their water 900/998.2 L.
  check_close(displacement(100_g, 10_degP).litres(), 1 / 1.03810991 - 0.9 / 0.99820, 1e-9);
  for (const double p : {0.0, 2.0, 10.0, 20.0, 30.0}) {
    const double mL_per_g = displacement(1_g, Plato::degrees(p)).millilitres();
    BOOST_TEST(mL_per_g > 0.610);
    BOOST_TEST(mL_per_g < 0.621);
  }
  check_within(displacement(1_kg, 0_degP).litres(), displacement(1_kg, 0.5_degP).litres(), 2e-3);
  BOOST_TEST(displacement(Mass::grams(-5), 10_degP).litres() == 0);
}

BOOST_AUTO_TEST_CASE(volume_is_water_and_displacement) {
  const Wort w = dissolve(110_g, 96_percent, 1.15_L);
  check_close(volume(w).litres(),
              w.water.kilograms() / 0.99820 + displacement(w.extract, plato(w)).litres(), 1e-12);
}

// SG of a litre of finished wort that holds so much extract.
double sg_of_a_litre(double extract_grams) {
  double low = 0, high = 60;
  for (int i = 0; i < 60; ++i) {
    const double middle = (low + high) / 2;
    (concentration(Plato::degrees(middle)).grams_per_litre() < extract_grams ? low : high) = middle;
  }
  return sg(Plato::degrees(low)).sg();
}

BOOST_AUTO_TEST_CASE(the_trades_own_sums) {
  check_within(sg_of_a_litre(100 * dry_malt_solids.low), 1.0366, 1e-4);
  check_within(sg_of_a_litre(100 * dry_malt_solids.high), 1.0374, 1e-4);
  check_within(sg_of_a_litre(108 * dry_malt_solids.likely), 1.040, 2e-4);

  const Wort rich = dissolve(180_g, 96_percent, 1.2_L);
  check_within(plato(rich).degrees(), 12.5, 0.05);
  check_within(sg(plato(rich)).sg(), 1.0507, 1e-4);
  check_within(dry_malt_equivalent(rich).grams_per_litre(), 137, 0.5);

  // Points·gallon per pound: a pound in a finished gallon.
  const double grams_per_litre = Mass::pounds(1).grams() / Volume::us_gallons(1).litres();
  check_within(1000 * (sg_of_a_litre(grams_per_litre * dry_malt_solids.low) - 1), 43.9, 0.1);
  check_within(1000 * (sg_of_a_litre(grams_per_litre * dry_malt_solids.high) - 1), 44.8, 0.1);
}

BOOST_AUTO_TEST_CASE(dissolving_is_a_mass_balance) {
  const Wort w = dissolve(150_g, 80_percent, 1_L);
  check_close(w.extract.grams(), 120, 1e-12);
  check_close(w.water.grams(), 998.20 + 30, 1e-12);
  check_close(mass(w).grams(), 1148.20, 1e-12);
  check_close(plato(w).degrees(), 12000 / 1148.20, 1e-12);
}

BOOST_AUTO_TEST_CASE(odd_amounts_stay_sane) {
  BOOST_TEST(dissolve(Mass::grams(-10), 96_percent, 1_L).extract.grams() == 0);
  BOOST_TEST(dissolve(10_g, Share::ratio(1.5), 1_L).extract.grams() == 10);
  BOOST_TEST(dissolve(10_g, Share::ratio(-1), 1_L).extract.grams() == 0);
  BOOST_TEST(dissolve(10_g, 100_percent, Volume::litres(-1)).water.grams() == 0);
  const Wort none;
  BOOST_TEST(plato(none).degrees() == 0);
  BOOST_TEST(volume(none).litres() == 0);
  BOOST_TEST(extract_ratio(none).grams_per_litre() == 0);
  BOOST_TEST(std::isfinite(sg(Plato::degrees(1e12)).sg()));
  BOOST_TEST(std::isfinite(plato(SpecificGravity::sg(-1e12)).degrees()));
}

BOOST_AUTO_TEST_CASE(ready_wort_has_the_volume_and_strength_it_was_made_with) {
  for (const double p : {0.0, 7.5, 18.0}) {
    const Wort w = wort_of(1.3_L, Plato::degrees(p));
    check_close(volume(w).litres(), 1.3, 1e-12);
    check_within(plato(w).degrees(), p, 1e-12);
    check_within(extract_ratio(w).grams_per_litre(),
                 concentration(Plato::degrees(p)).grams_per_litre(), 1e-9);
  }
}

BOOST_AUTO_TEST_CASE(boiling_away_water_leaves_the_extract) {
  const Wort before = dissolve(110_g, 96_percent, 1.2_L);
  const Wort after = boil_down(before, 0.1_L);
  BOOST_TEST(after.extract.grams() == before.extract.grams());
  check_close(after.water.grams(), before.water.grams() - 99.82, 1e-12);
  BOOST_TEST((plato(after) > plato(before)));
  BOOST_TEST((volume(after) < volume(before)));
  BOOST_TEST(boil_down(before, 5_L).water.grams() == 0);
  check_within(plato(boil_down(before, 5_L)).degrees(), 100, 1e-12);
  // Topped up again it is what it was.
  check_close(boil_down(after, Volume::litres(-0.1)).water.grams(), before.water.grams(), 1e-12);
}

BOOST_AUTO_TEST_CASE(a_warm_hydrometer_reads_low) {
  check_close(hydrometer_at_20C(1.030_SG, 20_degC).sg(), 1.030, 1e-14);
  // 998.207/992.216, densities of IAPWS-95.
  check_within(hydrometer_at_20C(1.030_SG, 40_degC).sg(), 1.030 * 998.207 / 992.216, 1e-5);
  BOOST_TEST(hydrometer_at_20C(1.030_SG, 10_degC).sg() < 1.030);
}

BOOST_AUTO_TEST_CASE(a_hot_hydrometer_is_not_trusted) {
  BOOST_TEST(hydrometer_trusted(40_degC));
  BOOST_TEST(!hydrometer_trusted(40.1_degC));
  BOOST_TEST(hydrometer_trusted(0_degC));
  BOOST_TEST(!hydrometer_trusted(Temperature::celsius(-0.1)));
}

BOOST_AUTO_TEST_SUITE_END()
