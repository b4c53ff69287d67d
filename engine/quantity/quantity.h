#pragma once

/// \file
/// Numbers that know what they measure.
///
/// Every quantity is one double in the unit named beside its class, so that a mass can never be
/// added to a volume, nor a temperature to a temperature difference. A value is made by naming its
/// unit, `Mass::grams(110)` or `110_g`, and read back by naming one, `m.ounces()`.
///
/// Conversions to US customary units are the exact legal ones (pound, inch and US gallon by the
/// international agreement of 1959; published, NIST Handbook 44 appendix C).

#include <compare>

namespace starter {

/// What all quantities of one dimension share: sums, differences, multiples, ratios and order.
/// `Self` is the quantity's own class; the stored number is in that class's base unit.
template <class Self>
class Scalar {
 public:
  constexpr Scalar() = default;

  friend constexpr Self operator+(Self a, Self b) { return Self::of(a.value_ + b.value_); }
  friend constexpr Self operator-(Self a, Self b) { return Self::of(a.value_ - b.value_); }
  friend constexpr Self operator-(Self a) { return Self::of(-a.value_); }
  friend constexpr Self operator*(Self a, double k) { return Self::of(a.value_ * k); }
  friend constexpr Self operator*(double k, Self a) { return Self::of(k * a.value_); }
  friend constexpr Self operator/(Self a, double k) { return Self::of(a.value_ / k); }
  friend constexpr double operator/(Self a, Self b) { return a.value_ / b.value_; }
  friend constexpr Self& operator+=(Self& a, Self b) { return a = a + b; }
  friend constexpr Self& operator-=(Self& a, Self b) { return a = a - b; }
  friend constexpr auto operator<=>(Self a, Self b) { return a.value_ <=> b.value_; }
  friend constexpr bool operator==(Self a, Self b) { return a.value_ == b.value_; }

  /// The number in the base unit; for generic code only. Named accessors read better.
  constexpr double base() const { return value_; }
  /// The quantity whose number in the base unit is `value`; for generic code only.
  static constexpr Self of(double value) {
    Self made;
    made.value_ = value;
    return made;
  }

 private:
  double value_ = 0;
};

/// Base unit: gram.
class Mass : public Scalar<Mass> {
 public:
  static constexpr Mass grams(double v) { return of(v); }
  static constexpr Mass kilograms(double v) { return of(v * 1000); }
  static constexpr Mass ounces(double v) { return of(v * 28.349523125); }
  static constexpr Mass pounds(double v) { return of(v * 453.59237); }
  constexpr double grams() const { return base(); }
  constexpr double kilograms() const { return base() / 1000; }
  constexpr double ounces() const { return base() / 28.349523125; }
  constexpr double pounds() const { return base() / 453.59237; }
};

/// Base unit: litre.
class Volume : public Scalar<Volume> {
 public:
  static constexpr Volume litres(double v) { return of(v); }
  static constexpr Volume millilitres(double v) { return of(v / 1000); }
  static constexpr Volume us_gallons(double v) { return of(v * 3.785411784); }
  static constexpr Volume us_quarts(double v) { return of(v * 0.946352946); }
  static constexpr Volume us_pints(double v) { return of(v * 0.473176473); }
  static constexpr Volume us_fluid_ounces(double v) { return of(v * 0.0295735295625); }
  constexpr double litres() const { return base(); }
  constexpr double millilitres() const { return base() * 1000; }
  constexpr double us_gallons() const { return base() / 3.785411784; }
  constexpr double us_quarts() const { return base() / 0.946352946; }
  constexpr double us_pints() const { return base() / 0.473176473; }
  constexpr double us_fluid_ounces() const { return base() / 0.0295735295625; }
};

/// Base unit: hour.
class Duration : public Scalar<Duration> {
 public:
  static constexpr Duration hours(double v) { return of(v); }
  static constexpr Duration minutes(double v) { return of(v / 60); }
  static constexpr Duration seconds(double v) { return of(v / 3600); }
  static constexpr Duration days(double v) { return of(v * 24); }
  constexpr double hours() const { return base(); }
  constexpr double minutes() const { return base() * 60; }
  constexpr double seconds() const { return base() * 3600; }
  constexpr double days() const { return base() / 24; }
};

/// How far apart two temperatures are. Base unit: kelvin.
class TemperatureDifference : public Scalar<TemperatureDifference> {
 public:
  static constexpr TemperatureDifference kelvins(double v) { return of(v); }
  static constexpr TemperatureDifference fahrenheit_degrees(double v) { return of(v / 1.8); }
  constexpr double kelvins() const { return base(); }
  constexpr double fahrenheit_degrees() const { return base() * 1.8; }
};

/// A point on the temperature scale; only differences of it can be added up. Base: °C.
class Temperature {
 public:
  constexpr Temperature() = default;
  static constexpr Temperature celsius(double v) { return Temperature(v); }
  static constexpr Temperature fahrenheit(double v) { return Temperature((v - 32) / 1.8); }
  static constexpr Temperature kelvins(double v) { return Temperature(v - 273.15); }
  constexpr double celsius() const { return celsius_; }
  constexpr double fahrenheit() const { return celsius_ * 1.8 + 32; }
  constexpr double kelvins() const { return celsius_ + 273.15; }
  constexpr auto operator<=>(const Temperature&) const = default;

 private:
  constexpr explicit Temperature(double celsius) : celsius_(celsius) {}
  double celsius_ = 0;
};

constexpr TemperatureDifference operator-(Temperature a, Temperature b) {
  return TemperatureDifference::kelvins(a.celsius() - b.celsius());
}
constexpr Temperature operator+(Temperature t, TemperatureDifference d) {
  return Temperature::celsius(t.celsius() + d.kelvins());
}
constexpr Temperature operator-(Temperature t, TemperatureDifference d) {
  return Temperature::celsius(t.celsius() - d.kelvins());
}

/// A length, a depth or an altitude. Base unit: metre.
class Length : public Scalar<Length> {
 public:
  static constexpr Length metres(double v) { return of(v); }
  static constexpr Length centimetres(double v) { return of(v / 100); }
  static constexpr Length millimetres(double v) { return of(v / 1000); }
  static constexpr Length feet(double v) { return of(v * 0.3048); }
  static constexpr Length inches(double v) { return of(v * 0.0254); }
  constexpr double metres() const { return base(); }
  constexpr double centimetres() const { return base() * 100; }
  constexpr double millimetres() const { return base() * 1000; }
  constexpr double feet() const { return base() / 0.3048; }
  constexpr double inches() const { return base() / 0.0254; }
};
/// Height above mean sea level.
using Altitude = Length;

/// Base unit: kilopascal.
class Pressure : public Scalar<Pressure> {
 public:
  static constexpr Pressure kilopascals(double v) { return of(v); }
  constexpr double kilopascals() const { return base(); }
};

/// A number of yeast cells. Base unit: billion (10⁹) cells.
class CellCount : public Scalar<CellCount> {
 public:
  static constexpr CellCount billion(double v) { return of(v); }
  constexpr double billion() const { return base(); }
};

/// Yeast cells per volume. Base unit: million cells per millilitre, which is billion per litre.
class CellDensity : public Scalar<CellDensity> {
 public:
  static constexpr CellDensity million_per_mL(double v) { return of(v); }
  static constexpr CellDensity billion_per_mL(double v) { return of(v * 1000); }
  constexpr double million_per_mL() const { return base(); }
  constexpr double billion_per_mL() const { return base() / 1000; }
};

/// Dissolved mass per volume. Base unit: gram per litre.
class Concentration : public Scalar<Concentration> {
 public:
  static constexpr Concentration grams_per_litre(double v) { return of(v); }
  constexpr double grams_per_litre() const { return base(); }
};

/// Mass per volume of a whole liquid. Base unit: kilogram per litre, which is g/mL.
class Density : public Scalar<Density> {
 public:
  static constexpr Density kilograms_per_litre(double v) { return of(v); }
  constexpr double kilograms_per_litre() const { return base(); }
};

/// A part of a whole. Base unit: ratio, so 0.96 is 96 %.
class Share : public Scalar<Share> {
 public:
  static constexpr Share ratio(double v) { return of(v); }
  static constexpr Share percent(double v) { return of(v / 100); }
  constexpr double ratio() const { return base(); }
  constexpr double percent() const { return base() * 100; }
};

/// Extract by mass on the Plato scale. Base unit: °P, grams of extract in 100 g of wort.
class Plato : public Scalar<Plato> {
 public:
  static constexpr Plato degrees(double v) { return of(v); }
  constexpr double degrees() const { return base(); }
};

/// Apparent specific gravity, 20 °C wort against 20 °C water, both weighed in air. Water is 1.
class SpecificGravity : public Scalar<SpecificGravity> {
 public:
  static constexpr SpecificGravity sg(double v) { return of(v); }
  constexpr double sg() const { return base(); }
};

/// How fast boiling water leaves. Base unit: litre of water (cold) per hour.
class BoilOffRate : public Scalar<BoilOffRate> {
 public:
  static constexpr BoilOffRate litres_per_hour(double v) { return of(v); }
  constexpr double litres_per_hour() const { return base(); }
};

/// Heat a body takes up per kelvin. Base unit: kilojoule per kelvin.
class HeatCapacity : public Scalar<HeatCapacity> {
 public:
  static constexpr HeatCapacity kilojoules_per_kelvin(double v) { return of(v); }
  constexpr double kilojoules_per_kelvin() const { return base(); }
};

/// Base unit: kilojoule.
class Heat : public Scalar<Heat> {
 public:
  static constexpr Heat kilojoules(double v) { return of(v); }
  constexpr double kilojoules() const { return base(); }
};

/// Heat flow per kelvin between two bodies (UA in the heat-transfer literature). Base: W/K.
class Conductance : public Scalar<Conductance> {
 public:
  static constexpr Conductance watts_per_kelvin(double v) { return of(v); }
  constexpr double watts_per_kelvin() const { return base(); }
};

constexpr Concentration operator/(Mass m, Volume v) {
  return Concentration::grams_per_litre(m.grams() / v.litres());
}
constexpr Mass operator*(Concentration c, Volume v) {
  return Mass::grams(c.grams_per_litre() * v.litres());
}
constexpr Mass operator*(Volume v, Density d) {
  return Mass::kilograms(v.litres() * d.kilograms_per_litre());
}
constexpr Volume operator/(Mass m, Density d) {
  return Volume::litres(m.kilograms() / d.kilograms_per_litre());
}
constexpr CellDensity operator/(CellCount n, Volume v) {
  return CellDensity::million_per_mL(n.billion() / v.litres());
}
constexpr CellCount operator*(CellDensity d, Volume v) {
  return CellCount::billion(d.million_per_mL() * v.litres());
}
constexpr Volume operator*(BoilOffRate r, Duration t) {
  return Volume::litres(r.litres_per_hour() * t.hours());
}
constexpr Heat operator*(HeatCapacity c, TemperatureDifference d) {
  return Heat::kilojoules(c.kilojoules_per_kelvin() * d.kelvins());
}
constexpr TemperatureDifference operator/(Heat q, HeatCapacity c) {
  return TemperatureDifference::kelvins(q.kilojoules() / c.kilojoules_per_kelvin());
}

/// `using namespace starter::literals;` lets code read as a recipe does: 110_g, 1.15_L, 21_degC.
namespace literals {
#define STARTER_LITERAL(suffix, make)                        \
  constexpr auto operator""_##suffix(long double v) {        \
    return make(static_cast<double>(v));                     \
  }                                                          \
  constexpr auto operator""_##suffix(unsigned long long v) { \
    return make(static_cast<double>(v));                     \
  }
STARTER_LITERAL(g, Mass::grams)
STARTER_LITERAL(kg, Mass::kilograms)
STARTER_LITERAL(oz, Mass::ounces)
STARTER_LITERAL(L, Volume::litres)
STARTER_LITERAL(mL, Volume::millilitres)
STARTER_LITERAL(qt, Volume::us_quarts)
STARTER_LITERAL(gal, Volume::us_gallons)
STARTER_LITERAL(s, Duration::seconds)
STARTER_LITERAL(min, Duration::minutes)
STARTER_LITERAL(h, Duration::hours)
STARTER_LITERAL(d, Duration::days)
STARTER_LITERAL(degC, Temperature::celsius)
STARTER_LITERAL(degF, Temperature::fahrenheit)
STARTER_LITERAL(K, TemperatureDifference::kelvins)
STARTER_LITERAL(m, Length::metres)
STARTER_LITERAL(mm, Length::millimetres)
STARTER_LITERAL(kPa, Pressure::kilopascals)
STARTER_LITERAL(billion, CellCount::billion)
STARTER_LITERAL(million_per_mL, CellDensity::million_per_mL)
STARTER_LITERAL(g_per_L, Concentration::grams_per_litre)
STARTER_LITERAL(percent, Share::percent)
STARTER_LITERAL(degP, Plato::degrees)
STARTER_LITERAL(SG, SpecificGravity::sg)
#undef STARTER_LITERAL
}  // namespace literals

}  // namespace starter
