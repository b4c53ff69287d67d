#include "quantity/read.h"

#include <boost/test/unit_test.hpp>
#include <cmath>
#include <functional>
#include <random>
#include <string>
#include <vector>

using namespace starter;

namespace {

/// A reader as a function from text to the number in the base unit, or to the problem.
struct Outcome {
  bool good = false;
  double value = 0;
  ReadProblem problem;
};
using Reader = std::function<Outcome(std::string_view)>;

template <class Q, class Number>
Reader reader(Read<Q> (*read)(std::string_view), Number number) {
  return [read, number](std::string_view text) {
    const Read<Q> r = read(text);
    if (r) return Outcome{true, number(*r), {}};
    return Outcome{false, 0, r.problem()};
  };
}

const Reader mass = reader(read_mass, [](Mass q) { return q.grams(); });
const Reader volume = reader(read_volume, [](Volume q) { return q.litres(); });
const Reader temperature = reader(read_temperature, [](Temperature q) { return q.celsius(); });
const Reader duration = reader(read_duration, [](Duration q) { return q.hours(); });
const Reader length = reader(read_length, [](Length q) { return q.metres(); });
const Reader cells = reader(read_cell_count, [](CellCount q) { return q.billion(); });
const Reader density = reader(read_cell_density, [](CellDensity q) { return q.million_per_mL(); });
const Reader share = reader(read_share, [](Share q) { return q.percent(); });
const Reader gravity = reader(read_gravity, [](Gravity q) { return q.value; });
const Reader concentration =
    reader(read_concentration, [](Concentration q) { return q.grams_per_litre(); });
const Reader boil_off =
    reader(read_boil_off_rate, [](BoilOffRate q) { return q.litres_per_hour(); });

const std::vector<std::pair<std::string, Reader>> all_readers = {{"mass", mass},
                                                                 {"volume", volume},
                                                                 {"temperature", temperature},
                                                                 {"duration", duration},
                                                                 {"length", length},
                                                                 {"cells", cells},
                                                                 {"density", density},
                                                                 {"share", share},
                                                                 {"gravity", gravity},
                                                                 {"concentration", concentration},
                                                                 {"boil-off", boil_off}};

struct Good {
  std::string text;
  double value;
};

void check_good(const Reader& read, const std::vector<Good>& cases) {
  for (const Good& c : cases) {
    const Outcome got = read(c.text);
    BOOST_TEST_REQUIRE(got.good, c.text << ": " << got.problem.says);
    BOOST_TEST(std::abs(got.value - c.value) <= 1e-13 * std::abs(c.value),
               c.text << " is " << got.value << ", not " << c.value);
  }
}

/// Every alternative of a hint can be read by the reader that gave it.
bool hint_reads(const Reader& read, const std::string& write) {
  if (write.empty()) return false;
  for (std::size_t at = 0; at != std::string::npos;) {
    const std::size_t end = write.find(" or ", at);
    if (!read(write.substr(at, end == std::string::npos ? end : end - at)).good) return false;
    at = end == std::string::npos ? end : end + 4;
  }
  return true;
}

struct Bad {
  std::string text;
  std::string write;      ///< the hint
  std::string says = "";  ///< something the message says
};

void check_bad(const Reader& read, const std::vector<Bad>& cases) {
  for (const Bad& c : cases) {
    const Outcome got = read(c.text);
    BOOST_TEST_REQUIRE(!got.good, c.text << " was read as " << got.value);
    BOOST_TEST(got.problem.write == c.write, c.text << " -> " << got.problem.write);
    BOOST_TEST(got.problem.says.find(c.says) != std::string::npos,
               c.text << ": " << got.problem.says);
    BOOST_TEST(!got.problem.says.empty());
    BOOST_TEST(hint_reads(read, got.problem.write), c.text << " -> " << got.problem.write);
  }
}

}  // namespace

BOOST_AUTO_TEST_SUITE(read_quantities)

BOOST_AUTO_TEST_CASE(masses) {
  check_good(mass, {{"120 g", 120},
                    {"120g", 120},
                    {"  120   g  ", 120},
                    {"120\u00a0g", 120},
                    {"120\u202fg", 120},
                    {"120\tg\n", 120},
                    {"120 G", 120},
                    {"120 grams", 120},
                    {"0 g", 0},
                    {"-5 g", -5},
                    {"\u22125 g", -5},
                    {"+5 g", 5},
                    {"0.12 kg", 120},
                    {"0.12 KG", 120},
                    {".12 kg", 120},
                    {"1.2e2 g", 120},
                    {"1.2E2g", 120},
                    {"500 mg", 0.5},
                    {"4.2 oz", 4.2 * 28.349523125},
                    {"4.2 oz.", 4.2 * 28.349523125},
                    {"1 ounce", 28.349523125},
                    {"1 lb", 453.59237},
                    {"2 LBS", 907.18474},
                    {"1/2 lb", 226.796185},
                    {"\u00bd lb", 226.796185},
                    {"1\u00bd lb", 680.388555},
                    {"1 \u00bd lb", 680.388555},
                    {"1 1/2 lb", 680.388555},
                    {"1-1/2 lb", 680.388555},
                    {"-1 1/2 lb", -680.388555},
                    {"4 lb 2 oz", 66 * 28.349523125},
                    {"4lb2oz", 66 * 28.349523125},
                    {"1 kg 200 g", 1200}});
}

BOOST_AUTO_TEST_CASE(volumes_by_handbook_44) {
  // Published: NIST Handbook 44, appendix C: one US gallon is 231 cubic inches.
  constexpr double gallon = 231 * 0.254 * 0.254 * 0.254;
  check_good(volume, {{"1.2 L", 1.2},
                      {"1.2 l", 1.2},
                      {"1.2 litres", 1.2},
                      {"1.2 Liter", 1.2},
                      {"800 mL", 0.8},
                      {"800ml", 0.8},
                      {"80 cL", 0.8},
                      {"8 dL", 0.8},
                      {"1 gal", gallon},
                      {"5 gallons", 5 * gallon},
                      {"5 US gal", 5 * gallon},
                      {"5 U.S. gallons", 5 * gallon},
                      {"1 qt", gallon / 4},
                      {"1 1/2 qt", gallon * 1.5 / 4},
                      {"1.5 quarts", gallon * 1.5 / 4},
                      {"1 pt", gallon / 8},
                      {"1 Pint", gallon / 8},
                      {"1 cup", gallon / 16},
                      {"\u00be cup", gallon / 16 * 0.75},
                      {"1 fl oz", gallon / 128},
                      {"16 fl. oz.", gallon / 8},
                      {"16 FL OZ", gallon / 8},
                      {"16floz", gallon / 8},
                      {"16 fluid ounces", gallon / 8},
                      {"2 tbsp", gallon / 128},
                      {"6 tsp", gallon / 128},
                      {"1 gal 2 qt", gallon * 1.5},
                      {"5. L", 5},
                      {"-1 L", -1}});
}

BOOST_AUTO_TEST_CASE(temperatures) {
  check_good(temperature, {{"20 C", 20},        {"20C", 20},       {"20 c", 20},
                           {"20 °C", 20},       {"20°C", 20},      {"20 ° C", 20},
                           {"20 ºC", 20},       {"20 \u2103", 20}, {"20 degrees C", 20},
                           {"20 deg C", 20},    {"20 degC", 20},   {"20 degrees Celsius", 20},
                           {"20 Celsius", 20},  {"-5 °C", -5},     {"\u22125 °C", -5},
                           {"-40 °F", -40},     {"68F", 20},       {"68 °F", 20},
                           {"68\u00a0°F", 20},  {"68 \u2109", 20}, {"68 degrees Fahrenheit", 20},
                           {"212 °F", 100},     {"273.15 K", 0},   {"293.15 kelvin", 20},
                           {"0 °F", -160.0 / 9}});
}

BOOST_AUTO_TEST_CASE(durations) {
  check_good(duration, {{"48 h", 48},
                        {"48h", 48},
                        {"48 hours", 48},
                        {"1 hr", 1},
                        {"10 min", 1.0 / 6},
                        {"10 MINUTES", 1.0 / 6},
                        {"90 s", 0.025},
                        {"90 sec", 0.025},
                        {"2 d", 48},
                        {"2 days", 48},
                        {"1 week", 168},
                        {"1 h 30 min", 1.5},
                        {"1h30min", 1.5},
                        {"1 h 30", 1.5},
                        {"1h30", 1.5},
                        {"2 d 4 h", 52},
                        {"1 week 1 day 1 h 30", 193.5},
                        {"1 1/2 h", 1.5},
                        {"1 h 1 1/2 min", 1.025},
                        {"-1 h 30 min", -1.5},
                        {"-2 h", -2}});
}

BOOST_AUTO_TEST_CASE(lengths) {
  check_good(length, {{"100 m", 100},
                      {"40 cm", 0.4},
                      {"38 mm", 0.038},
                      {"1.6 km", 1600},
                      {"5280 ft", 1609.344},
                      {"1 in", 0.0254},
                      {"1 1/2 inches", 0.0381},
                      {"5 ft 3 in", 1.6002},
                      {"5' 3\"", 1.6002},
                      {"-20 metres", -20}});
}

BOOST_AUTO_TEST_CASE(cell_counts_and_densities) {
  check_good(cells, {{"100 billion", 100},
                     {"100 Billion cells", 100},
                     {"100bn", 100},
                     {"0.1 trillion", 100},
                     {"200 million", 0.2},
                     {"1e11", 100},
                     {"100e9 cells", 100},
                     {"100000000000", 100},
                     {"1000000", 0.001},
                     {"500 thousand cells", 0.0005}});
  check_good(density, {{"1.5 billion/mL", 1500},
                       {"1.5 billion / mL", 1500},
                       {"1500 million/mL", 1500},
                       {"1500 million per mL", 1500},
                       {"1500 million cells per ml", 1500},
                       {"1e9/mL", 1000},
                       {"1e9 cells/mL", 1000},
                       {"1e9 per mL", 1000},
                       {"75 billion/L", 75},
                       {"2 trillion/L", 2000}});
}

BOOST_AUTO_TEST_CASE(shares_concentrations_rates) {
  check_good(share, {{"85 %", 85},
                     {"85%", 85},
                     {"85 percent", 85},
                     {"85 per cent", 85},
                     {"0 %", 0},
                     {"100 %", 100},
                     {"-3 %", -3}});
  check_good(concentration, {{"95 g/L", 95},
                             {"95g/l", 95},
                             {"95 g per litre", 95},
                             {"12 oz/gal", 12 * 28.349523125 / 3.785411784},
                             {"1 lb / gal", 453.59237 / 3.785411784},
                             {"0.095 kg/L", 95}});
  check_good(boil_off, {{"0.3 L/h", 0.3},
                        {"0.3 litres per hour", 0.3},
                        {"5 mL/min", 0.3},
                        {"1 gal/h", 3.785411784},
                        {"1 qt/hr", 0.946352946},
                        {"16 fl oz/h", 0.473176473}});
}

BOOST_AUTO_TEST_CASE(gravities_keep_their_scale) {
  using Scale = Gravity::Scale;
  struct Case {
    std::string text;
    Scale scale;
    double value;
  };
  for (const Case& c :
       {Case{"1.037", Scale::specific_gravity, 1.037},
        Case{"1.037 SG", Scale::specific_gravity, 1.037},
        Case{"1.037sg", Scale::specific_gravity, 1.037},
        Case{"0.98", Scale::specific_gravity, 0.98}, Case{"1.2", Scale::specific_gravity, 1.2},
        Case{"9.2 °P", Scale::plato, 9.2}, Case{"9.2P", Scale::plato, 9.2},
        Case{"9.2 Plato", Scale::plato, 9.2}, Case{"9.2 degrees Plato", Scale::plato, 9.2},
        Case{"9.2 ºP", Scale::plato, 9.2}, Case{"0 °P", Scale::plato, 0}}) {
    const auto read = read_gravity(c.text);
    BOOST_TEST_REQUIRE(static_cast<bool>(read), c.text);
    BOOST_TEST(((*read).scale == c.scale), c.text);
    BOOST_TEST((*read).value == c.value);
  }
}

BOOST_AUTO_TEST_CASE(a_named_unit_reads_as_its_constructor_makes) {
  BOOST_TEST((*read_mass("4.2 oz") == Mass::ounces(4.2)));
  BOOST_TEST((*read_volume("1.3 qt") == Volume::us_quarts(1.3)));
  BOOST_TEST((*read_temperature("70 F") == Temperature::fahrenheit(70)));
  BOOST_TEST((*read_length("7 in") == Length::inches(7)));
  BOOST_TEST((*read_duration("10 min") == Duration::minutes(10)));
}

BOOST_AUTO_TEST_CASE(refuses_commas_with_what_they_may_mean) {
  check_bad(volume, {{"1,2 L", "1.2 L", "\"1,2 L\" has a comma"},
                     {"1,200 L", "1.2 L or 1200 L", "comma"},
                     {"1,234 L", "1.234 L or 1234 L", "comma"},
                     {"0,250 L", "0.250 L", "comma"},
                     {"1,234.5 L", "1234.5 L", "comma"},
                     {"1.234,5 L", "1234.5 L", "comma"},
                     {"1,200,000 mL", "1200000 mL", "comma"},
                     {"1,2", "1.2 L", "comma"},
                     {"1,2 foo", "1.2 L", "comma"},
                     {"-1,5 L", "-1.5 L", "comma"},
                     {",5 L", ".5 L", "comma"},
                     {"1,2.3,4 L", "1.2 L", "comma"},
                     {"1,", "1. L", "comma"}});
  check_bad(temperature, {{"20,5 °C", "20.5 °C", "comma"}, {"20,5", "20.5 °C", "comma"}});
  check_bad(gravity, {{"1,037", "1.037", "comma"}, {"9,2 °P", "9.2 °P", "comma"}});
  check_bad(duration, {{"1,5 h", "1.5 h", "comma"}, {"1 h 2,5 min", "1 h 2.5 min", "comma"}});
}

BOOST_AUTO_TEST_CASE(asks_for_a_missing_unit) {
  check_bad(mass, {{"120", "120 g", "\"120\" has no unit"}, {"1/2", "1/2 g", "no unit"}});
  check_bad(volume, {{"1.2", "1.2 L", "no unit"}, {"1 1/2", "1 1/2 L", "no unit"}});
  check_bad(temperature, {{"68", "68 °F or 20 °C", "no unit"},
                          {"68°", "68 °F or 20 °C", "no unit"},
                          {"20", "20 °C or 68 °F", "no unit"},
                          {"4 degrees", "4 °C or 39.2 °F", "no unit"},
                          {"100", "100 °C or 100 °F", "no unit"},
                          {"-5", "-5 °C or -5 °F", "no unit"}});
  check_bad(duration, {{"48", "48 h", "no unit"}, {"2 d 4", "2 d 4 h", "no unit"}});
  check_bad(length, {{"100", "100 m", "no unit"}});
  check_bad(cells, {{"100", "100 billion", "no unit"}, {"999999", "999999 billion", "no unit"}});
  check_bad(density, {{"1500", "1500 million/mL", "no unit"}});
  check_bad(share, {{"85", "85 %", "no unit"},
                    {"0.85", "85 %", "no unit"},
                    {"1", "100 % or 1 %", "no unit"},
                    {"0", "0 %", "no unit"}});
  check_bad(gravity, {{"9.2", "9.2 °P", "no unit"},
                      {"1037", "1.037 SG", "no unit"},
                      {"0.97", "0.97 °P", "no unit"},
                      {"1.21", "1.21 °P", "no unit"},
                      {"55", "1.037 SG or 9.2 °P", "no unit"},
                      {"1037 SG", "1.037 SG", "decimal point"}});
  check_bad(concentration, {{"95", "95 g/L", "no unit"}});
  check_bad(boil_off, {{"0.3", "0.3 L/h", "no unit"}});
}

BOOST_AUTO_TEST_CASE(tells_what_a_wrong_unit_measures) {
  check_bad(volume, {{"120 g", "120 mL", "\"g\" in \"120 g\" measures mass; a volume is wanted"},
                     {"1.2 kg", "1.2 L", "measures mass"},
                     {"16 oz", "16 fl oz", "measures mass"},
                     {"20 C", "20 cup", "measures a temperature"},
                     {"1 h", "1 L", "measures a duration"}});
  check_bad(mass, {{"100 mL", "100 g", "measures a volume"},
                   {"4 fl oz", "4 oz", "measures a volume"},
                   {"68 °F", "68 g", "measures a temperature"}});
  check_bad(duration, {{"10 m", "10 min", "measures a length"}, {"5 °P", "5 h", "a gravity"}});
  check_bad(temperature, {{"20 g", "20 °C", "measures mass"}, {"20 %", "20 °C", "a share"}});
  check_bad(cells,
            {{"100 g", "100 billion", "mass"}, {"100 million/mL", "100 billion", "density"}});
  check_bad(density, {{"1.5 billion", "1.5 billion/L", "number of cells"}});
  check_bad(boil_off, {{"0.3 L", "0.3 L/h", "a volume"}});
  check_bad(concentration, {{"95 g", "95 g/L", "mass"}});
}

BOOST_AUTO_TEST_CASE(tells_ambiguous_units_and_megas) {
  check_bad(mass, {{"5 Mg", "5 mg", "capital M"}, {"5 MG", "5 mg", "capital M"}});
  check_bad(volume, {{"500 ML", "500 mL", "capital M"}, {"500 Ml", "500 mL", "capital M"}});
  check_bad(length, {{"100 M", "100 m", "capital M"}, {"10 MM", "10 mm", "capital M"}});
  check_bad(cells, {{"100 B", "100 billion", "more than one"},
                    {"100 M", "100 million", "more than one"},
                    {"1 T", "1 trillion", "more than one"}});
}

BOOST_AUTO_TEST_CASE(offers_the_nearest_unit) {
  check_bad(mass, {{"120 gramms", "120 g", "not a known unit"}, {"1 kilgram", "1 kg", "known"}});
  check_bad(volume, {{"1.2 litrs", "1.2 L", "use L, mL"}, {"5 galons", "5 gal", "known"}});
  check_bad(duration, {{"48 huors", "48 h", "known"},
                       {"1 h 30 mim", "1 h 30 min", "known"},
                       {"10 minuts", "10 min", "known"},
                       {"12 foo", "12 h", "known"}});
  check_bad(cells, {{"100 bilion", "100 billion", "known"}});
  check_bad(mass, {{"120 x", "120 g", "known"}});
  check_bad(density, {{"1.5 bilion/mL", "1.5 billion/mL", "known"},
                      {"1.5 billion per litr", "1.5 billion/L", "known"},
                      {"1.5 B/mL", "1.5 billion/mL", "more than one"},
                      {"5 billion/parsec", "5 million/mL", "known"}});
  check_bad(boil_off, {{"2 quort/h", "2 qt/h", "known"}});
  check_bad(duration, {{"3 months", "90 days", "more than one"},
                       {"1:30", "1 h 30", "more than one number"},
                       {"1:30 h", "1 h or 30 h", "more than one number"}});
  check_bad(gravity, {{"37 points", "1.037 SG", "known"},
                      {"1.037 g/mL", "1.037 SG", "concentration"},
                      {"9.2 °C", "9.2 °P", "temperature"},
                      {"9.2 plto", "9.2 °P", "known"}});
}

BOOST_AUTO_TEST_CASE(refuses_imperial_with_the_litres) {
  check_bad(volume, {{"1 imp gal", "4.55 L", "imperial"},
                     {"1 imperial gallon", "4.55 L", "imperial"},
                     {"2 imp. gal", "9.09 L", "imperial"},
                     {"1 UK pint", "0.568 L", "imperial"},
                     {"1 imperial pint", "0.568 L", "imperial"},
                     {"1 qt (imp)", "1.14 L", "imperial"},
                     {"10 imp. fl oz", "0.284 L", "imperial"},
                     {"1 gal imp", "4.55 L", "imperial"}});
  check_bad(boil_off, {{"1 imp gal/h", "4.55 L/h", "imperial"}});
}

BOOST_AUTO_TEST_CASE(refuses_what_is_no_quantity) {
  check_bad(volume, {{"", "1.2 L", "nothing"},
                     {"   ", "1.2 L", "nothing"},
                     {"L", "1.2 L", "does not start with a number"},
                     {"about 10 L", "10 L", "does not start with a number"},
                     {"inf L", "1.2 L", "number"},
                     {"nan", "1.2 L", "number"},
                     {"-", "1.2 L", "number"},
                     {"0x10 L", "0 L or 10 L", "more than one number"},
                     {"1 200 L", "1200 L", "more than one number"},
                     {"10-12 L", "10 L or 12 L", "more than one number"},
                     {"10\u201312 L", "10 L or 12 L", "more than one number"},
                     {"10 to 12 L", "10 L or 12 L", "more than one number"},
                     {"1.2.3 L", "1.2 L", "number"},
                     {"1/0 L", "1.2 L", "divides by zero"},
                     {"1 1/0 L", "1.2 L", "divides by zero"},
                     {"1e16 L", "1.2 L", "too large"},
                     {"1e400 L", "1.2 L", "too large"},
                     {"-1e400 L", "1.2 L", "too large"},
                     {"1 qt 1 gal", "1.2 L", "larger to smaller"},
                     {"1 L 1 L", "1.2 L", "larger to smaller"}});
  check_bad(duration, {{"10-12 min", "10 min or 12 min", "more than one number"},
                       {"1 h -30 min", "1 h 30 min", "known"},
                       {"1 h 30 min 5", "36 h", "no unit"}});
  check_bad(cells, {{"1e16", "100 billion", "too large"}});
}

BOOST_AUTO_TEST_CASE(bounds_of_size) {
  BOOST_TEST(volume("1e15 L").good);
  BOOST_TEST(!volume("1.0000001e15 L").good);
  BOOST_TEST(volume("-1e15 L").good);
  BOOST_TEST(volume("1e-300 L").good);
  BOOST_TEST(cells("1e15").good);
}

BOOST_AUTO_TEST_CASE(every_problem_quotes_safely_and_helps) {
  const std::vector<std::string> texts = {"",
                                          " ",
                                          "x",
                                          "\xff\xfe",
                                          "12 \xff",
                                          "1,2,3,",
                                          ",",
                                          "1/",
                                          "/",
                                          "½",
                                          "½½",
                                          "1 ½ ½ g",
                                          "°",
                                          "%",
                                          "1 °",
                                          "1 %%",
                                          "-",
                                          "--5 g",
                                          "5 g g",
                                          "1e",
                                          "1e5",
                                          "999999999999999999999",
                                          "1/3/4 g",
                                          "1 /2 L",
                                          "10000000000/3 L",
                                          "1 imp",
                                          "1 imp parsec",
                                          "5 L/",
                                          "5 /",
                                          "5 / h",
                                          "5 g//L",
                                          "1 h, 30 min",
                                          "1 and 2 g",
                                          "5 per",
                                          "5 per per mL",
                                          "1 . 2 L",
                                          "1 us",
                                          "1 us us gal",
                                          "5 degrees",
                                          std::string(5000, '9'),
                                          std::string(5000, 'g'),
                                          "1 " + std::string(5000, 'g'),
                                          "1" + std::string(5000, ' ') + "q",
                                          std::string("1\0g", 3),
                                          "1\u202e g",
                                          "1 ''",
                                          "' 1"};
  for (const auto& [name, read] : all_readers)
    for (const std::string& text : texts) {
      const Outcome got = read(text);
      if (got.good) continue;
      BOOST_TEST(!got.problem.says.empty(), name << ": " << text);
      BOOST_TEST(hint_reads(read, got.problem.write),
                 name << ": " << text << " -> " << got.problem.write);
      BOOST_TEST(got.problem.says.size() < 1000U);
      BOOST_TEST(got.problem.write.size() < 100U, name << ": " << got.problem.write);
      for (const char c : got.problem.says) BOOST_TEST((c & 0x80 || c >= ' '));
    }
}

BOOST_AUTO_TEST_CASE(random_texts_never_crash) {
  std::mt19937 random(20270316);
  const std::vector<std::string> pieces = {
      "1",   "2.5",     ".",      ",",     "/",  " ",       "-",       "+",      "e9",    "1/2",
      "½",   "\u00a0",  "\u2212", "°",     "C",  "F",       "P",       "SG",     "g",     "kg",
      "oz",  "lb",      "L",      "mL",    "qt", "gal",     "imp",     "UK",     "fl oz", "h",
      "min", "d",       "m",      "ft",    "in", "billion", "million", "cells",  "/mL",   " per ",
      "%",   "degrees", "(",      ")",     "x",  "to",      "0",       "999999", "K",     "\xff",
      "\n",  "us ",     "M",      "1.037", "'",  "\""};
  std::uniform_int_distribution<std::size_t> pick(0, pieces.size() - 1);
  std::uniform_int_distribution<int> counts(0, 8);
  std::uniform_int_distribution<int> bytes(0, 255);
  std::size_t good = 0;
  for (int i = 0; i < 20000; ++i) {
    std::string text;
    for (int n = counts(random); n > 0; --n) {
      if (i % 4 == 0)
        text += static_cast<char>(bytes(random));
      else
        text += pieces[pick(random)];
    }
    for (const std::size_t which :
         {static_cast<std::size_t>(i), static_cast<std::size_t>(i) * 5 + 1}) {
      const auto& [name, read] = all_readers[which % all_readers.size()];
      const Outcome got = read(text);
      good += got.good ? 1 : 0;
      if (got.good)
        BOOST_TEST_REQUIRE(std::isfinite(got.value), name << ": " << text);
      else
        BOOST_TEST_REQUIRE((!got.problem.says.empty() && hint_reads(read, got.problem.write)),
                           name << ": " << text << " -> " << got.problem.write);
    }
  }
  BOOST_TEST(good > 20U);  // the pieces do make quantities now and then
}

BOOST_AUTO_TEST_SUITE_END()
