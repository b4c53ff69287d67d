#pragma once

/// \file
/// The closed sets of words that plan fields take, and their spellings in the plan file.
///
/// One table a set, in the order the words are offered to people. `spelling(word)` gives the plan's
/// word; `from_spelling<Word>(text)` reads it.

#include <optional>
#include <span>
#include <string_view>
#include <utility>

namespace starter {

enum class BeerKind { ale, lager, hybrid };
enum class YeastForm { liquid, dry, slurry };
enum class Flocculation { low, medium, high };
enum class ExtractKind {
  light_dry_malt,
  wheat_dry_malt,
  amber_dry_malt,
  dark_dry_malt,
  hopped_dry_malt,
  light_liquid_malt,
  table_sugar,
  wort,
};
enum class VesselKind { conical_flask, jug, bottle, pot, jar, tub, sink };
enum class Material { borosilicate_glass, soda_lime_glass, stainless_steel, aluminium, plastic };
enum class HeatSource { gas, electric_coil, electric_glass, induction, none };
enum class Agitation { stir_plate, shaken, none };
enum class Do {
  weigh,
  dissolve,
  heat,
  boil,
  add,
  cover,
  move,
  chill,
  sanitise,
  check_temperature,
  pitch,
  agitate,
  rest,
  crash,
  store,
  decant,
  warm,
  pitch_to_beer,
  krausen_pitch,
};

template <class Word>
struct Spelled {
  Word word;
  std::string_view text;
};

/// The table of a set; specialised in words.cpp for every enum above.
template <class Word>
std::span<const Spelled<Word>> spellings();

template <class Word>
std::string_view spelling(Word word) {
  for (const auto& row : spellings<Word>())
    if (row.word == word) return row.text;
  return "";
}

template <class Word>
std::optional<Word> from_spelling(std::string_view text) {
  for (const auto& row : spellings<Word>())
    if (row.text == text) return row.word;
  return std::nullopt;
}

template <>
std::span<const Spelled<BeerKind>> spellings();
template <>
std::span<const Spelled<YeastForm>> spellings();
template <>
std::span<const Spelled<Flocculation>> spellings();
template <>
std::span<const Spelled<ExtractKind>> spellings();
template <>
std::span<const Spelled<VesselKind>> spellings();
template <>
std::span<const Spelled<Material>> spellings();
template <>
std::span<const Spelled<HeatSource>> spellings();
template <>
std::span<const Spelled<Agitation>> spellings();
template <>
std::span<const Spelled<Do>> spellings();

}  // namespace starter
