#include <array>

#include "rules/practice_parts.h"

namespace starter::practice {
namespace {

constexpr auto names = std::to_array<std::string_view>(
    {"altitude",      "tap_water",          "room",          "fridge",       "beer_kind",
     "ferment_at",    "brewing_begins",     "brewing_takes", "packs",        "cells_per_pack",
     "dry_pack_mass", "pack_age",           "out_of_fridge", "flocculation", "extract_kind",
     "agitation",     "growth_temperature", "growth_for",    "heat",         "boil_for",
     "chill_to",      "sanitise_for",       "crash_for"});
constexpr auto by_beer = std::to_array<std::string_view>({"ale", "lager", "hybrid"});
constexpr auto by_motion = std::to_array<std::string_view>({"stirred", "unstirred"});
constexpr auto by_flocculation = std::to_array<std::string_view>({"low", "medium", "high"});

/// Reads fields into their places and notes which were there.
class Taker {
 public:
  Taker(const Fields& fields, std::string prefix, Defaults& defaults)
      : fields_(fields), prefix_(std::move(prefix)), defaults_(defaults) {}

  template <class T>
  void take(std::string_view name, const std::optional<T>& read, T& into) {
    if (!read) return;
    into = *read;
    defaults_.from_club.insert(prefix_ + std::string(name));
  }
  template <class Q>
  void quantity(std::string_view name, const Wanted<Q>& kind, Q& into) {
    take(name, fields_.quantity(name, kind), into);
  }
  template <class Word>
  void word(std::string_view name, Word& into) {
    take(name, fields_.word<Word>(name), into);
  }

 private:
  const Fields& fields_;
  std::string prefix_;
  Defaults& defaults_;
};

/// A clock time alone: "09:00".
void read_clock(const Fields& fields, Defaults& defaults) {
  const auto typed = fields.name("brewing_begins");
  if (!typed) return;
  const bool shaped = typed->size() == 5 && (*typed)[2] == ':';
  const auto read = shaped ? read_time("2027-03-20T" + *typed) : std::nullopt;
  if (!read) {
    fields.wrong("brewing_begins",
                 starter::quoted(*typed) + " is no clock time of hours and minutes", "\"09:00\"");
    return;
  }
  defaults.brewing_begins = read->at - read_time("2027-03-20")->at;
  defaults.from_club.insert("brewing_begins");
}

}  // namespace

void read_defaults(const Node* node, Defaults& d, Report& report) {
  const Fields fields = fields_of(node, "/defaults", names, report);
  Taker own(fields, "", d);
  own.quantity("altitude", an_altitude, d.altitude);
  own.quantity("tap_water", a_temperature, d.tap_water);
  own.quantity("room", a_temperature, d.room);
  own.quantity("fridge", a_temperature, d.fridge);
  own.word("beer_kind", d.beer_kind);
  read_clock(fields, d);
  own.quantity("brewing_takes", a_duration, d.brewing_takes);
  own.take("packs", fields.whole_number("packs", 1, most_packs), d.packs);
  own.quantity("cells_per_pack", a_cell_count, d.cells_per_pack);
  own.quantity("dry_pack_mass", a_mass, d.dry_pack_mass);
  own.quantity("pack_age", a_duration, d.pack_age);
  own.quantity("out_of_fridge", a_duration, d.out_of_fridge);
  own.word("flocculation", d.flocculation);
  own.word("extract_kind", d.extract_kind);
  if (d.extract_kind == ExtractKind::wort)
    fields.wrong(
        "extract_kind",
        "ready wort has no mass to weigh, so it cannot be what a plan means that gives one",
        "light dry malt");
  own.word("agitation", d.agitation);
  own.quantity("growth_temperature", a_temperature, d.growth_temperature);
  own.word("heat", d.heat);
  if (d.heat == HeatSource::none)
    fields.wrong("heat", "without heat the usual process would not boil", "gas");
  own.quantity("boil_for", a_short_duration, d.boil_for);
  own.quantity("chill_to", a_temperature, d.chill_to);
  own.quantity("sanitise_for", a_short_duration, d.sanitise_for);

  const Fields beer =
      fields_of(fields.object("ferment_at"), "/defaults/ferment_at", by_beer, report);
  Taker of_beer(beer, "ferment_at/", d);
  of_beer.quantity("ale", a_temperature, d.ferment_ale);
  of_beer.quantity("lager", a_temperature, d.ferment_lager);
  of_beer.quantity("hybrid", a_temperature, d.ferment_hybrid);
  const Fields growth =
      fields_of(fields.object("growth_for"), "/defaults/growth_for", by_motion, report);
  Taker of_growth(growth, "growth_for/", d);
  of_growth.quantity("stirred", a_duration, d.growth_stirred);
  of_growth.quantity("unstirred", a_duration, d.growth_unstirred);
  const Fields crash =
      fields_of(fields.object("crash_for"), "/defaults/crash_for", by_flocculation, report);
  Taker of_crash(crash, "crash_for/", d);
  of_crash.quantity("low", a_duration, d.crash_low);
  of_crash.quantity("medium", a_duration, d.crash_medium);
  of_crash.quantity("high", a_duration, d.crash_high);
}

}  // namespace starter::practice
