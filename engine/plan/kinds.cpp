#include "plan/kinds.h"

#include "quantity/write.h"

namespace starter {
namespace {

bool positive_up_to(double value, double most) {
  return value > 0 && value <= most;
}
bool between(double value, double least, double most) {
  return value >= least && value <= most;
}

}  // namespace

const Wanted<Mass> a_mass = {"a mass",
                             "110 g",
                             "above 0 and at most 1000 kg",
                             &read_mass,
                             [](const Mass& m) { return positive_up_to(m.kilograms(), 1000); },
                             "g"};

const Wanted<Volume> a_volume = {"a volume",
                                 "1.2 L",
                                 "above 0 and at most 10,000 L",
                                 &read_volume,
                                 [](const Volume& v) { return positive_up_to(v.litres(), 10000); },
                                 "L"};

const Wanted<Volume> a_batch_volume = {a_volume.called, "20 L",        a_volume.bounds,
                                       a_volume.read,   a_volume.fits, a_volume.unit};

const Wanted<Volume> a_boil_off = {"a volume",
                                   "0.1 L",
                                   "0 to 10,000 L",
                                   &read_volume,
                                   [](const Volume& v) { return between(v.litres(), 0, 10000); },
                                   "L"};

const Wanted<Temperature> a_temperature = {
    "a temperature",
    "20 °C",
    "absolute zero to 200 °C",
    &read_temperature,
    [](const Temperature& t) { return between(t.celsius(), -273.15, 200); },
    "°C"};

const Wanted<Duration> a_duration = {"a duration",
                                     "36 h",
                                     "0 h to 10 years",
                                     &read_duration,
                                     [](const Duration& d) { return between(d.days(), 0, 3653); },
                                     "h"};

const Wanted<Duration> a_short_duration = {a_duration.called, "12 min",        a_duration.bounds,
                                           a_duration.read,   a_duration.fits, "min"};

const Wanted<Length> a_length = {"a length",
                                 "20 cm",
                                 "above 0 and at most 100 m",
                                 &read_length,
                                 [](const Length& l) { return positive_up_to(l.metres(), 100); },
                                 "cm"};

// From the shore of the lowest lake to the highest summit.
const Wanted<Altitude> an_altitude = {
    "an altitude",
    "240 m",
    "-430 m to 9000 m",
    &read_length,
    [](const Altitude& a) { return between(a.metres(), -430, 9000); },
    "m"};

const Wanted<CellCount> a_cell_count = {
    "a number of cells",
    "100 billion",
    "above 0 and at most 1e15",
    &read_cell_count,
    [](const CellCount& n) { return positive_up_to(n.billion(), 1e6); },
    "billion",
    [](double number, const std::string& typed) {
      return number >= 1e6 ? typed : typed + " billion";
    }};

const Wanted<CellDensity> a_cell_density = {
    "cells per volume",
    "1.5 billion/mL",
    "above 0 and at most 100 billion/mL",
    &read_cell_density,
    [](const CellDensity& d) { return positive_up_to(d.billion_per_mL(), 100); },
    "billion/mL",
    [](double number, const std::string& typed) {
      return typed + (number < 10 ? " billion/mL" : " million/mL");
    }};

const Wanted<Share> a_share = {
    "a share",
    "85 %",
    "0 % to 100 %",
    &read_share,
    [](const Share& s) { return between(s.ratio(), 0, 1); },
    "%",
    [](double number, const std::string& typed) {
      return number > 0 && number <= 1 ? write_number(number * 100) + " %" : typed + " %";
    }};

const Wanted<Gravity> a_gravity = {"a gravity",
                                   "1.050 SG",
                                   "0.98 to 1.2 SG, or 0 to 45 °P",
                                   &read_gravity,
                                   [](const Gravity& g) {
                                     return g.scale == Gravity::Scale::plato
                                                ? between(g.value, 0, 45)
                                                : between(g.value, 0.98, 1.2);
                                   },
                                   "SG",
                                   [](double number, const std::string& typed) {
                                     if (number > 900 && number < 1300)
                                       return write_number(number / 1000, 4) + " SG";
                                     return typed + (number < 2 ? " SG" : " °P");
                                   }};

}  // namespace starter
