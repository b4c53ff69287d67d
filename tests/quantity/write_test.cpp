#include "quantity/write.h"

#include <boost/test/unit_test.hpp>
#include <cmath>
#include <cstring>
#include <functional>
#include <limits>
#include <random>
#include <string>
#include <vector>

#include "quantity/read.h"

using namespace starter;
using namespace starter::literals;

namespace {
constexpr auto metric = UnitSystem::metric;
constexpr auto us = UnitSystem::us;
}  // namespace

BOOST_AUTO_TEST_SUITE(write_quantities)

BOOST_AUTO_TEST_CASE(metric_texts) {
  BOOST_TEST(write(110_g, metric) == "110 g");
  BOOST_TEST(write(110.4_g, metric) == "110 g");
  BOOST_TEST(write(9.94_g, metric) == "9.9 g");
  BOOST_TEST(write(9.96_g, metric) == "10 g");
  BOOST_TEST(write(999.4_g, metric) == "999 g");
  BOOST_TEST(write(999.7_g, metric) == "1 kg");
  BOOST_TEST(write(1200_g, metric) == "1.2 kg");
  BOOST_TEST(write(0_g, metric) == "0 g");
  BOOST_TEST(write(0.03_g, metric) == "0.03 g");
  BOOST_TEST(write(-(5_g), metric) == "\u22125 g");
  BOOST_TEST(write(1.15_L, metric) == "1.15 L");
  BOOST_TEST(write(20_L, metric) == "20 L");
  BOOST_TEST(write(80_mL, metric) == "80 mL");
  BOOST_TEST(write(99.4_mL, metric) == "99 mL");
  BOOST_TEST(write(99.7_mL, metric) == "0.1 L");
  BOOST_TEST(write(100_mL, metric) == "0.1 L");
  BOOST_TEST(write(0_L, metric) == "0 L");
  BOOST_TEST(write(21_degC, metric) == "21 °C");
  BOOST_TEST(write(99.2_degC, metric) == "99.2 °C");
  BOOST_TEST(write(99.97_degC, metric) == "100 °C");
  BOOST_TEST(write(Temperature::celsius(-5), metric) == "\u22125 °C");
  BOOST_TEST(write(Temperature::celsius(-0.01), metric) == "0 °C");
  BOOST_TEST(write(8_K, metric) == "8 °C");
  BOOST_TEST(write(250_m, metric) == "250 m");
  BOOST_TEST(write(0_m, metric) == "0 m");
  BOOST_TEST(write(40_mm, metric) == "4 cm");
  BOOST_TEST(write(8_mm, metric) == "8 mm");
  BOOST_TEST(write(212_billion, metric) == "212 billion");
  BOOST_TEST(write(CellCount::billion(1250), metric) == "1.25 trillion");
  BOOST_TEST(write(CellCount::billion(0.5), metric) == "500 million");
  BOOST_TEST(write(75_million_per_mL, metric) == "75 million/mL");
  BOOST_TEST(write(1500_million_per_mL, metric) == "1.5 billion/mL");
  BOOST_TEST(write(85_percent, metric) == "85 %");
  BOOST_TEST(write(95.2_g_per_L, metric) == "95.2 g/L");
  BOOST_TEST(write(BoilOffRate::litres_per_hour(0.3), metric) == "0.3 L/h");
  BOOST_TEST(write(9.23_degP, metric) == "9.2 °P");
  BOOST_TEST(write(1.04_SG, metric) == "1.040");
  BOOST_TEST(write(Gravity::of(1.037_SG), metric) == "1.037 SG");
  BOOST_TEST(write(Gravity::of(9.2_degP), us) == "9.2 °P");
}

BOOST_AUTO_TEST_CASE(durations_choose_their_unit_by_size) {
  BOOST_TEST(write(0_h, metric) == "0 h");
  BOOST_TEST(write(45_s, metric) == "45 s");
  BOOST_TEST(write(89_s, metric) == "89 s");
  BOOST_TEST(write(90_s, metric) == "1.5 min");
  BOOST_TEST(write(12_min, metric) == "12 min");
  BOOST_TEST(write(119_min, metric) == "119 min");
  BOOST_TEST(write(119.6_min, metric) == "2 h");
  BOOST_TEST(write(120_min, metric) == "2 h");
  BOOST_TEST(write(2.5_h, metric) == "2.5 h");
  BOOST_TEST(write(36_h, us) == "36 h");
  BOOST_TEST(write(71.9_h, metric) == "71.9 h");
  BOOST_TEST(write(71.96_h, metric) == "3 days");
  BOOST_TEST(write(72_h, metric) == "3 days");
  BOOST_TEST(write(5_d, metric) == "5 days");
  BOOST_TEST(write(-(36_h), metric) == "\u221236 h");
}

BOOST_AUTO_TEST_CASE(a_last_bit_does_not_decide_which_way_half_is_rounded) {
  for (const double half : {5.45, 5.55, 2.25, 7.15}) {
    const std::string text = write(Duration::minutes(half), metric);
    for (const double toward : {0.0, 10.0})
      BOOST_TEST(write(Duration::minutes(std::nextafter(half, toward)), metric) == text);
  }
}

BOOST_AUTO_TEST_CASE(us_texts) {
  BOOST_TEST(write(4.2_oz, us) == "4.2 oz");
  BOOST_TEST(write(Mass::ounces(15.996), us) == "1 lb");
  BOOST_TEST(write(Mass::pounds(1.25), us) == "1.25 lb");
  BOOST_TEST(write(11_g, us) == "0.39 oz");
  BOOST_TEST(write(Volume::us_fluid_ounces(16), us) == "16 fl oz");
  BOOST_TEST(write(1.2_qt, us) == "1.2 qt");
  BOOST_TEST(write(5_gal, us) == "5 gal");
  BOOST_TEST(write(20_L, us) == "5.28 gal");
  BOOST_TEST(write(70_degF, us) == "70 °F");
  BOOST_TEST(write(21_degC, us) == "69.8 °F");
  BOOST_TEST(write(TemperatureDifference::fahrenheit_degrees(15), us) == "15 °F");
  BOOST_TEST(write(10_K, us) == "18 °F");
  BOOST_TEST(write(Length::feet(5280), us) == "5280 ft");
  BOOST_TEST(write(Length::inches(1.5), us) == "1.5 in");
  BOOST_TEST(write(0_m, us) == "0 ft");
  BOOST_TEST(write(95_g_per_L, us) == "12.7 oz/gal");
  BOOST_TEST(write(BoilOffRate::litres_per_hour(0.3), us) == "0.32 qt/h");
  BOOST_TEST(write(BoilOffRate::litres_per_hour(3.785411784), us) == "1 gal/h");
}

BOOST_AUTO_TEST_CASE(handbook_44_conversions) {
  // Published: NIST Handbook 44, appendix C, exact values.
  namespace tt = boost::test_tools;
  BOOST_TEST(Mass::pounds(1).grams() == 453.59237, tt::tolerance(1e-15));
  BOOST_TEST(Mass::ounces(16).pounds() == 1.0, tt::tolerance(1e-15));
  BOOST_TEST(Volume::us_gallons(1).litres() == 3.785411784, tt::tolerance(1e-15));
  BOOST_TEST(Volume::us_quarts(4).us_gallons() == 1.0, tt::tolerance(1e-15));
  BOOST_TEST(Volume::us_pints(8).us_gallons() == 1.0, tt::tolerance(1e-15));
  BOOST_TEST(Volume::us_fluid_ounces(128).us_gallons() == 1.0, tt::tolerance(1e-15));
  BOOST_TEST(Length::feet(1).inches() == 12.0, tt::tolerance(1e-15));
  BOOST_TEST(Temperature::fahrenheit(212).celsius() == 100.0, tt::tolerance(1e-15));
  BOOST_TEST(Temperature::celsius(-40).fahrenheit() == -40.0, tt::tolerance(1e-15));
}

BOOST_AUTO_TEST_CASE(contract_values) {
  BOOST_TEST(write_value(110, "g", metric) == "110 g");
  BOOST_TEST(write_value(1.2, "kg", metric) == "1.2 kg");
  BOOST_TEST(write_value(0.5, "kg", metric) == "500 g");
  BOOST_TEST(write_value(1.15, "L", metric) == "1.15 L");
  BOOST_TEST(write_value(1.15, "L", us) == "1.22 qt");
  BOOST_TEST(write_value(20, "°C", us) == "68 °F");
  BOOST_TEST(write_value(20, "K", us) == "36 °F");
  BOOST_TEST(write_value(20, "K", metric) == "20 °C");
  BOOST_TEST(write_value(12, "min", us) == "12 min");
  BOOST_TEST(write_value(180, "min", us) == "3 h");
  BOOST_TEST(write_value(36, "h", metric) == "36 h");
  BOOST_TEST(write_value(120, "d", metric) == "120 days");
  BOOST_TEST(write_value(1, "d", metric) == "24 h");
  BOOST_TEST(write_value(212, "billion", us) == "212 billion");
  BOOST_TEST(write_value(75, "million/mL", us) == "75 million/mL");
  BOOST_TEST(write_value(9.2, "°P", us) == "9.2 °P");
  BOOST_TEST(write_value(95.2, "g/L", metric) == "95.2 g/L");
  BOOST_TEST(write_value(85, "%", metric) == "85 %");
  BOOST_TEST(write_value(240, "m", us) == "787 ft");
  BOOST_TEST(write_value(12, "cm", us) == "4.72 in");
  BOOST_TEST(write_value(0.58, "ratio", us) == "0.58");
  BOOST_TEST(write_value(812, "PU", metric) == "810 PU");
  BOOST_TEST(write_value(4600, "PU", metric) == "4600 PU");
  BOOST_TEST(write_value(46123, "PU", metric) == "46,000 PU");
  BOOST_TEST(write_value(4612300, "PU", metric) == "4.6 million PU");
  BOOST_TEST(write_value(999600, "PU", metric) == "1 million PU");
  BOOST_TEST(write_value(3, "eggs", metric) == "3 eggs");
  BOOST_TEST(write_value(3, "", us) == "3");
  BOOST_TEST(write_value(std::numeric_limits<double>::infinity(), "h", us) == "infinite h");
  // Below zero stands a minus sign, no hyphen, which stays in plan files.
  BOOST_TEST(write_value(-13, "h", us) == "\u221213 h");
  BOOST_TEST(write_value(-46123, "PU", metric) == "\u221246,000 PU");
  BOOST_TEST(write_value(-3, "eggs", metric) == "\u22123 eggs");
  BOOST_TEST(write_uncertain(-13, -14, -12, "h", metric) == "\u221213 h (\u221214 to \u221212 h)");
  BOOST_TEST(write_number(-3) == "-3");
}

BOOST_AUTO_TEST_CASE(ranges_share_one_unit) {
  const std::string dash = "\u2013";
  BOOST_TEST(write_range(80, 110, "g/L", metric) == "80" + dash + "110 g/L");
  BOOST_TEST(write_range(110, 80, "g/L", metric) == "80" + dash + "110 g/L");
  BOOST_TEST(write_range(80, 110, "g/L", us) == "10.7" + dash + "14.7 oz/gal");
  BOOST_TEST(write_range(0.5, 1.2, "L", metric) == "0.5" + dash + "1.2 L");
  BOOST_TEST(write_range(0.05, 1.2, "L", metric) == "0.05" + dash + "1.2 L");
  BOOST_TEST(write_range(17, 25, "°C", us) == "62.6" + dash + "77 °F");
  BOOST_TEST(write_range(17, 25, "°C", metric) == "17" + dash + "25 °C");
  BOOST_TEST(write_range(-5, 3, "°C", metric) == "\u22125 to 3 °C");
  BOOST_TEST(write_range(95, 95, "g/L", metric) == "95 g/L");
  BOOST_TEST(write_range(94.999, 95.001, "g/L", metric) == "95 g/L");
  BOOST_TEST(write_range(0, 15, "min", metric) == "0" + dash + "15 min");
  BOOST_TEST(write_range(12, 96, "h", metric) == "0.5" + dash + "4 days");
  BOOST_TEST(write_range(0.5, 2, "ratio", metric) == "0.5" + dash + "2");
  BOOST_TEST(write_range(1, 2, "eggs", us) == "1" + dash + "2 eggs");
  BOOST_TEST(write_range(46000, 4.6e6, "PU", us) == "0.05" + dash + "4.6 million PU");
}

namespace {

/// A kind of quantity as numbers in its base unit.
struct RoundTrip {
  std::string name;
  double least, most;
  std::function<std::string(double, UnitSystem)> write;
  std::function<double(std::string_view)> read;
};

template <class Q>
RoundTrip round_trip(std::string name, double least, double most,
                     Read<Q> (*read)(std::string_view)) {
  return {std::move(name), least, most, [](double v, UnitSystem u) { return write(Q::of(v), u); },
          [read](std::string_view text) {
            const auto got = read(text);
            return got ? (*got).base() : std::numeric_limits<double>::quiet_NaN();
          }};
}

/// "1.25 qt" -> "0.005 qt": half of the last decimal printed.
std::string half_of_last_place(std::string_view text) {
  const std::size_t end = text.find(' ');
  const std::size_t point = text.substr(0, end).find('.');
  const std::size_t decimals = point == std::string_view::npos ? 0 : end - point - 1;
  return "0." + std::string(decimals, '0') + "5" + std::string(text.substr(end));
}

}  // namespace

BOOST_AUTO_TEST_CASE(what_is_written_can_be_read_back) {
  const std::vector<RoundTrip> kinds = {
      round_trip("mass", 1e-3, 1e6, read_mass),
      round_trip("volume", 1e-5, 1e4, read_volume),
      round_trip("duration", 1e-3, 1e4, read_duration),
      round_trip("length", 1e-4, 1e4, read_length),
      round_trip("cells", 1e-4, 1e6, read_cell_count),
      round_trip("density", 1e-2, 1e5, read_cell_density),
      round_trip("share", 1e-4, 1, read_share),
      round_trip("concentration", 0.1, 1e3, read_concentration),
      round_trip("boil-off", 1e-3, 100, read_boil_off_rate),
  };
  std::mt19937_64 random(5);
  for (const RoundTrip& kind : kinds) {
    std::uniform_real_distribution<double> logs(std::log(kind.least), std::log(kind.most));
    for (int i = 0; i < 1000; ++i) {
      const double v = std::exp(logs(random)) * (i % 7 == 0 ? -1 : 1);
      for (const UnitSystem units : {metric, us}) {
        const std::string text = kind.write(v, units);
        const double back = kind.read(text);
        const double three_digits = 0.005 * std::abs(v);
        const double printed = std::max(three_digits, kind.read(half_of_last_place(text)));
        BOOST_TEST_REQUIRE(std::abs(back - v) <= printed * 1.000001,
                           kind.name << ' ' << v << " as " << text);
        // Writing what was read changes nothing more.
        BOOST_TEST_REQUIRE(kind.write(back, units) == text,
                           kind.name << ' ' << v << " as " << text);
      }
    }
  }
}

BOOST_AUTO_TEST_CASE(temperatures_and_gravities_can_be_read_back) {
  for (double v = -40; v <= 130; v += 0.137)
    for (const UnitSystem units : {metric, us}) {
      const auto back = read_temperature(write(Temperature::celsius(v), units));
      BOOST_TEST_REQUIRE(static_cast<bool>(back));
      BOOST_TEST_REQUIRE(std::abs((*back).celsius() - v) <= 0.0501);
    }
  for (double v = 0.99; v <= 1.15; v += 0.00017) {
    const auto back = read_gravity(write(Gravity::of(SpecificGravity::sg(v)), metric));
    BOOST_TEST_REQUIRE(static_cast<bool>(back));
    BOOST_TEST_REQUIRE(((*back).scale == Gravity::Scale::specific_gravity));
    BOOST_TEST_REQUIRE(std::abs((*back).value - v) <= 0.000501);
    BOOST_TEST_REQUIRE(static_cast<bool>(read_gravity(write(SpecificGravity::sg(v), us))));
  }
  for (double v = 0; v <= 30; v += 0.037) {
    const auto back = read_gravity(write(Plato::degrees(v), metric));
    BOOST_TEST_REQUIRE(static_cast<bool>(back));
    BOOST_TEST_REQUIRE(((*back).scale == Gravity::Scale::plato));
    BOOST_TEST_REQUIRE(std::abs((*back).value - v) <= 0.0501);
  }
}

BOOST_AUTO_TEST_CASE(any_double_can_be_written) {
  std::mt19937_64 random(9);
  std::uniform_int_distribution<std::uint64_t> bits;
  for (int i = 0; i < 1000; ++i) {
    const std::uint64_t pattern = bits(random);
    double v = 0;
    static_assert(sizeof v == sizeof pattern);
    std::memcpy(&v, &pattern, sizeof v);
    for (const std::string_view unit : {"g", "L", "°C", "K", "h", "billion", "PU", "ratio", "x"})
      for (const UnitSystem units : {metric, us}) {
        BOOST_TEST_REQUIRE(!write_value(v, unit, units).empty());
        BOOST_TEST_REQUIRE(!write_range(v, -v, unit, units).empty());
      }
  }
}

BOOST_AUTO_TEST_CASE(a_range_is_in_the_unit_of_its_likely_value) {
  const std::string dash = "\u2013";
  BOOST_TEST(write_uncertain(1.7, 1.2, 2.6, "h", metric) == "102 min (72" + dash + "156 min)");
  BOOST_TEST(write_uncertain(22.4, 15.6, 31.3, "h", metric) == "22.4 h (15.6" + dash + "31.3 h)");
  BOOST_TEST(write_uncertain(-32.2, -32.8, -31.7, "h", metric) ==
             "\u221232.2 h (\u221232.8 to \u221231.7 h)");
  BOOST_TEST(write_uncertain(0.4, 0.3, 0.6, "L", us) == "13.5 fl oz (10.1" + dash + "20.3 fl oz)");
  // Ends that print like the value say nothing.
  BOOST_TEST(write_uncertain(36, 36, 36, "h", metric) == "36 h");
  BOOST_TEST(write_uncertain(7, 6, 8, "furlong", metric) == "7 furlong (6" + dash + "8 furlong)");
}

BOOST_AUTO_TEST_SUITE_END()
