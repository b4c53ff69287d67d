#pragma once

/// \file
/// The units that people write, a table a kind of quantity, and how a written unit is found in
/// them. Spellings are kept in lower case; see `find_unit` for the one exception.

#include <array>
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "quantity/quantity.h"

namespace starter {

/// A unit: how we write it, how a number of it becomes one of the base unit, how people spell it.
struct Unit {
  std::string_view shown;
  double (*to_base)(double);
  /// In lower case, without points ("fl oz"); unused places are empty.
  std::array<std::string_view, 8> spellings;
  /// A capital M in front would be the prefix mega: "Mg" is a million grams, "mg" a thousandth.
  bool capital_is_mega = false;
};

enum class QuantityKind {
  mass,
  volume,
  temperature,
  duration,
  length,
  cell_count,
  share,
  gravity,
  cell_density,
  concentration,
  boil_off_rate,
};

/// A unit as it was found: to_base(number) / per gives the quantity in its base unit.
struct FoundUnit {
  double (*to_base)(double) = nullptr;
  double per = 1;     ///< size of the unit below the stroke ("L/h": one hour), in its base unit
  std::string shown;  ///< as we write it
  double base(double number) const { return to_base(number) / per; }
};

/// What a unit is replaced by in a hint, where a table of this kind cannot hold it: "16 oz" of
/// water is most likely "16 fl oz".
struct Mistaken {
  std::string_view typed;
  std::string_view meant;
  double times = 1;  ///< of `meant` in one `typed`: some 30 days in a month
};

/// Everything the readers know about one kind of quantity.
struct KindOfQuantity {
  QuantityKind kind;
  std::string_view noun;     ///< "mass"
  std::string_view units;    ///< for a message: "g, kg, mg, oz or lb"
  std::string_view usual;    ///< the unit a hint takes when nothing better is known: "g"
  std::string_view example;  ///< a whole text that can be read: "120 g"
  bool compound;             ///< may be a sum of falling units: "1 h 30 min"
  std::span<const Unit> table;
  std::span<const Unit> per;  ///< units below the stroke; empty for a plain quantity
  std::span<const Mistaken> mistaken;
};

const KindOfQuantity& kind_of(QuantityKind kind);
std::span<const KindOfQuantity> all_kinds();

/// `unit` as the tables have it: points dropped ("fl. oz."), white space made single or, beside a
/// stroke, none, " per " a stroke, "degrees" and "deg" a degree sign. The case stays.
std::string tidy_unit(std::string_view unit);

/// \param unit a tidy unit. Found whatever its case, but not with a capital M that would be mega.
std::optional<FoundUnit> find_unit(const KindOfQuantity& kind, std::string_view unit);

/// Litres in one such imperial unit of volume ("imp gal", "UK pint"), if the tidy `unit` is one.
std::optional<Volume> imperial_volume(std::string_view unit);

}  // namespace starter
