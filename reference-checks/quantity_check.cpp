// Units of the trade against GNU units, which takes them from the same legal definitions.

#include "check.h"
#include "outside.h"
#include "quantity/quantity.h"

using namespace starter;
using namespace reference;

BOOST_AUTO_TEST_CASE(conversions_agree_with_gnu_units) {
  struct Conversion {
    const char* have;
    const char* want;
    double ours;
  };
  const Conversion all[] = {
      {"1 oz", "g", Mass::ounces(1).grams()},
      {"1 lb", "g", Mass::pounds(1).grams()},
      {"1 kg", "oz", Mass::kilograms(1).ounces()},
      {"1 kg", "lb", Mass::kilograms(1).pounds()},
      {"1 gal", "L", Volume::us_gallons(1).litres()},
      {"1 qt", "L", Volume::us_quarts(1).litres()},
      {"1 pt", "L", Volume::us_pints(1).litres()},
      {"1 usfloz", "L", Volume::us_fluid_ounces(1).litres()},
      {"1 L", "gal", Volume::litres(1).us_gallons()},
      {"1 L", "qt", Volume::litres(1).us_quarts()},
      {"1 L", "pt", Volume::litres(1).us_pints()},
      {"1 L", "usfloz", Volume::litres(1).us_fluid_ounces()},
      {"1 ft", "m", Length::feet(1).metres()},
      {"1 inch", "m", Length::inches(1).metres()},
      {"1 m", "ft", Length::metres(1).feet()},
      {"1 m", "inch", Length::metres(1).inches()},
      {"1 day", "hour", Duration::days(1).hours()},
      {"tempF(68)", "tempC", Temperature::fahrenheit(68).celsius()},
      {"tempC(99.3)", "tempF", Temperature::celsius(99.3).fahrenheit()},
      {"tempC(21)", "K", Temperature::celsius(21).kelvins()},
      {"9 degF", "K", TemperatureDifference::fahrenheit_degrees(9).kelvins()},
  };
  std::vector<std::pair<std::string, std::string>> questions;
  for (const Conversion& c : all) questions.emplace_back(c.have, c.want);
  const auto answers = units(questions);
  Check check{"quantity", "Conversions between metric and US customary", "GNU units",
              Label::published, share_of_value(1e-9)};
  for (std::size_t i = 0; i < answers.size(); ++i)
    check.point(all[i].ours, answers[i], std::string(all[i].have) + " in " + all[i].want);
}

BOOST_AUTO_TEST_CASE(there_and_back_gives_the_same_number) {
  Check check{"quantity", "There and back between units", "arithmetic", Label::identity,
              share_of_value(1e-14)};
  for (double x : {1e-6, 0.37, 4.2, 110.0, 98765.4321}) {
    check.point(Mass::ounces(Mass::grams(x).ounces()).grams(), x);
    check.point(Mass::pounds(Mass::grams(x).pounds()).grams(), x);
    check.point(Volume::us_gallons(Volume::litres(x).us_gallons()).litres(), x);
    check.point(Volume::us_quarts(Volume::litres(x).us_quarts()).litres(), x);
    check.point(Volume::us_pints(Volume::litres(x).us_pints()).litres(), x);
    check.point(Volume::us_fluid_ounces(Volume::litres(x).us_fluid_ounces()).litres(), x);
    check.point(Length::feet(Length::metres(x).feet()).metres(), x);
    check.point(Length::inches(Length::metres(x).inches()).metres(), x);
    check.point(Duration::seconds(Duration::hours(x).seconds()).hours(), x);
    check.point(Duration::days(Duration::hours(x).days()).hours(), x);
  }
}
