// What heat kills.

#include "science/lethality.h"

#include "check.h"
#include "outside.h"
#include "science/boiling.h"

using namespace starter;
using namespace starter::science;
using namespace reference;

BOOST_AUTO_TEST_CASE(pasteurisation) {
  const char* const source =
      "H. W. Del Vecchio, C. A. Dayharsh, F. C. Baselt, 1951, PU = min × 1.393^(T − 60); "
      "the examples worked by hand";
  Check check{"lethality", "Pasteurisation units, worked examples", source, Label::published,
              share_of_value(0.0005)};
  // 1.393² = 1.940449; ^4 = 3.765342; ^5 = 5.245122; ^10 = 27.511301; ^20 = 756.87170;
  // ^40 = 572 854.77.
  check.point(pasteurisation_units(Temperature::celsius(60), Duration::minutes(15)), 15);
  check.point(pasteurisation_units(Temperature::celsius(62), Duration::minutes(10)), 19.40449);
  check.point(pasteurisation_units(Temperature::celsius(65), Duration::minutes(20)), 104.90244);
  check.point(pasteurisation_units(Temperature::celsius(70), Duration::seconds(30)), 13.755651);
  check.point(pasteurisation_units(Temperature::celsius(58), Duration::minutes(10)), 10 / 1.940449);
  check.point(pasteurisation_units_per_minute(Temperature::celsius(80)), 756.87170);
  check.point(pasteurisation_units_per_minute(Temperature::celsius(100)), 572854.77);
  Check tenfold{"lethality", "Kelvins in which pasteurisation quickens tenfold, against 7 K",
                "the z value that tunnel pasteurisers are set to", Label::practice,
                within(0.1, "K")};
  for (double t = 50; t <= 90; t += 10) {
    const double quicker = pasteurisation_units_per_minute(Temperature::celsius(t + 10)) /
                           pasteurisation_units_per_minute(Temperature::celsius(t));
    tenfold.point(10 / std::log10(quicker), 7);
  }
}

BOOST_AUTO_TEST_CASE(sterilisation) {
  // The table's digits are cut off, not rounded, and its 121.1 °C is 250 °F: with both it agrees in
  // every digit.
  const double hundredth = Temperature::fahrenheit(250).celsius() - 121.1;
  Check check{"lethality", "F₀ of a minute, 108–124 °C, in every digit printed",
              "J. E. Reichert, 1977, table, data/lethal-rate.csv", Label::published,
              inside_the_span()};
  for (const Row& row : table("lethal-rate.csv"))
    check.between(f0(Temperature::celsius(row[0] - hundredth), Duration::minutes(1)), row[1],
                  row[1] + 0.001, std::to_string(row[0]) + " °C");
  Check exact{"lethality", "F₀, a decade of temperature is a decade of time", "arithmetic",
              Label::identity, share_of_value(1e-9)};
  exact.point(f0(Temperature::celsius(121.1), Duration::minutes(10)), 10);
  exact.point(f0(Temperature::celsius(111.1), Duration::minutes(30)), 3);
  exact.point(f0(Temperature::celsius(101.1), Duration::minutes(12)), 0.12);
}

BOOST_AUTO_TEST_CASE(a_minute_of_boiling) {
  auto minute_at = [](double metres) {
    return pasteurisation_units(boiling_point(Altitude::metres(metres), Plato(), Pressure()),
                                Duration::minutes(1));
  };
  // Told in two digits, and the second one no better than the boiling point that is remembered
  // with it: 10 % of the units is 0.3 K.
  Check check{"lethality", "A minute of boiling, at 240 m and at 5000 m: 4.6 × 10⁵ and 2200 PU",
              "from memory", Label::memory, share_of_value(0.10)};
  check.point(minute_at(240), 4.6e5, "240 m");
  check.point(minute_at(5000), 2200, "5000 m");
}
