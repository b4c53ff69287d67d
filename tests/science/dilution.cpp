#include "science/dilution.h"

#include <boost/test/unit_test.hpp>

using namespace starter;
using namespace starter::literals;
using namespace starter::science;

namespace tt = boost::test_tools;

BOOST_AUTO_TEST_SUITE(dilution)

BOOST_AUTO_TEST_CASE(real_extract_by_balling) {
  // 0.1808 × 12 + 0.8192 × 2.5 = 2.1696 + 2.048
  BOOST_TEST(real_extract(12_degP, 2.5_degP).degrees() == 4.2176, tt::tolerance(1e-12));
  // The coefficients add up to one, so unfermented wort is itself.
  BOOST_TEST(real_extract(12_degP, 12_degP).degrees() == 12.0, tt::tolerance(1e-12));
  BOOST_TEST(real_extract(9_degP, Plato::degrees(-0.5)).degrees() == 1.2176, tt::tolerance(1e-12));
  BOOST_TEST(real_extract(0_degP, Plato::degrees(-3)).degrees() == 0.0);
}

BOOST_AUTO_TEST_CASE(share_of_the_batch) {
  BOOST_TEST(starter_share(1_L, 20_L).percent() == 5.0, tt::tolerance(1e-12));
  BOOST_TEST(starter_share(1_L, 0_L).percent() == 0.0);
  BOOST_TEST(starter_share(Volume::litres(-1), 20_L).percent() == 0.0);
}

BOOST_AUTO_TEST_CASE(mixing_by_mass) {
  // Masses with densities by the ASBC cubic: 20 L of 12 °P weigh 20.92 kg, 1.5 L at an apparent
  // 2 °P 1.509 kg of which 3.2656 % are extract.
  BOOST_TEST(gravity_with_starter(20_L, 12_degP, 1.5_L, 9_degP, 2_degP).degrees() == 11.4126,
             tt::tolerance(1e-4));
  BOOST_TEST(original_gravity_equivalent(20_L, 12_degP, 1.5_L, 9_degP).degrees() == 11.7930,
             tt::tolerance(1e-4));
}

BOOST_AUTO_TEST_CASE(limits_of_mixing) {
  // No starter, no wort, the same wort twice, an unfermented starter.
  BOOST_TEST(gravity_with_starter(20_L, 12_degP, 0_L, 9_degP, 2_degP).degrees() == 12.0,
             tt::tolerance(1e-9));
  BOOST_TEST(gravity_with_starter(0_L, 12_degP, 1_L, 9_degP, 2_degP).degrees() == 3.2656,
             tt::tolerance(1e-9));
  BOOST_TEST(original_gravity_equivalent(3_L, 10_degP, 5_L, 10_degP).degrees() == 10.0,
             tt::tolerance(1e-9));
  BOOST_TEST(gravity_with_starter(20_L, 12_degP, 1.5_L, 9_degP, 9_degP).degrees() ==
                 original_gravity_equivalent(20_L, 12_degP, 1.5_L, 9_degP).degrees(),
             tt::tolerance(1e-9));
  BOOST_TEST(gravity_with_starter(0_L, 12_degP, 0_L, 9_degP, 2_degP).degrees() == 0.0);
  BOOST_TEST(original_gravity_equivalent(Volume::litres(-2), 12_degP, Volume::litres(-1), 9_degP)
                 .degrees() == 0.0);
}

BOOST_AUTO_TEST_CASE(more_starter_dilutes_more) {
  for (double v = 0; v < 5; v += 0.1)
    BOOST_REQUIRE(gravity_with_starter(20_L, 12_degP, Volume::litres(v), 9_degP, 2_degP) >
                  gravity_with_starter(20_L, 12_degP, Volume::litres(v + 0.1), 9_degP, 2_degP));
}

BOOST_AUTO_TEST_SUITE_END()
