#pragma once

/// \file
/// Reading quantities as people type them: "120g", "4.2 oz", "1 1/2 qt", "68F", "1.037 SG".
///
/// All readers share one grammar: a number, optional white space, a unit. The number is decimal
/// with a point ("1.2", "1e11", ".5"), a fraction ("3/4") or a mixed number ("1 1/2"). Units are
/// matched whatever their case where that is not ambiguous. gal, qt, pt and fl oz are US; imperial
/// ones ("imp gal") are refused with a hint. A comma in a number is refused with a hint, since
/// 1,200 and 1,2 mean different things in different places. No locale is ever consulted.
///
/// Also read: the fractions of one character (½ ¼ ¾ ⅓ ⅔ and eighths), no-break and thin spaces, the
/// minus sign U+2212, º for °, points in "fl. oz.", " per " for a stroke, and for mass, volume,
/// duration and length a sum of falling units: "1 h 30 min", "1 h 30", "4 lb 2 oz". A negative
/// number is read; whether it makes sense is for the caller to judge. Refused: a number past 10^15
/// either way, more than one number ("10-12 L"), a lone "m" for minutes, and a capital M that would
/// be the prefix mega ("500 ML"). The tables of units are in units.cpp.

#include <optional>
#include <string>
#include <string_view>
#include <variant>

#include "quantity/gravity.h"
#include "quantity/quantity.h"

namespace starter {

/// Why a text could not be read, ready to be shown to the person who typed it.
struct ReadProblem {
  std::string says;  ///< what is wrong, quoting the text: `"1,2 L" has a comma`
  /// What to write instead: `1.2 L`. Never empty; one text that the same reader reads, or two
  /// joined by " or " where both are likely: `1.2 L or 1200 L`. A guess at what was meant, not a
  /// promise.
  std::string write;
};

/// Either the quantity or why there is none.
template <class Q>
class Read {
 public:
  Read(Q value) : held_(value) {}                           // NOLINT(google-explicit-constructor)
  Read(ReadProblem problem) : held_(std::move(problem)) {}  // NOLINT(google-explicit-constructor)
  explicit operator bool() const { return held_.index() == 0; }
  const Q& operator*() const { return std::get<0>(held_); }
  const ReadProblem& problem() const { return std::get<1>(held_); }

 private:
  std::variant<Q, ReadProblem> held_;
};

/// The one number reader of the project: decimal, point, optional exponent; no locale, no hex, no
/// "inf" or "nan". The whole text must be the number; a sign, also U+2212, may stand before it.
/// Correctly rounded for up to 19 significant digits, the rest is cut off; nothing on overflow,
/// zero on underflow.
std::optional<double> read_number(std::string_view text);

Read<Mass> read_mass(std::string_view text);                    ///< g kg mg oz lb
Read<Volume> read_volume(std::string_view text);                ///< L mL cL dL gal qt pt fl oz cup
Read<Temperature> read_temperature(std::string_view text);      ///< °C C °F F K
Read<Duration> read_duration(std::string_view text);            ///< s min h d week; "1 h 30 min"
Read<Length> read_length(std::string_view text);                ///< m cm mm km ft in
Read<CellCount> read_cell_count(std::string_view text);         ///< billion, million, plain "1e11"
Read<CellDensity> read_cell_density(std::string_view text);     ///< million/mL, billion/mL, ...
Read<Share> read_share(std::string_view text);                  ///< "85 %"
Read<Gravity> read_gravity(std::string_view text);              ///< "1.037 SG", "1.037", "9.2 °P"
Read<Concentration> read_concentration(std::string_view text);  ///< g/L, oz/gal
Read<BoilOffRate> read_boil_off_rate(std::string_view text);    ///< L/h, mL/min, qt/h, gal/h

}  // namespace starter
