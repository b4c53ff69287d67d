#pragma once

/// \file
/// What a member submits, as the rest of the engine sees it.
///
/// A field is `optional` where its absence means something (no brew day: no calendar). Where club
/// practice supplies a value, the field holds that value and `Plan::assumed` lists it; whether the
/// member wrote it is `Plan::wrote("/place/altitude")`.

#include <map>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "plan/defaults.h"
#include "plan/words.h"
#include "quantity/gravity.h"
#include "quantity/local_time.h"
#include "quantity/quantity.h"

namespace starter {

struct Place {
  Altitude altitude;
  Temperature tap_water;
  Temperature room;
  Temperature fridge;
};

struct Beer {
  BeerKind kind = BeerKind::ale;
  Volume volume;
  Gravity gravity;
  std::optional<LocalTime> brew_day;   ///< when brewing starts
  std::optional<LocalTime> yeast_due;  ///< when the yeast is wanted, if stated
  Temperature ferment_at;
  std::optional<CellCount> keep_cells;  ///< grown on top, to save for another batch
};

struct Yeast {
  YeastForm form = YeastForm::liquid;
  Flocculation flocculation = Flocculation::medium;

  // A liquid pack, or several of one age.
  int packs = 1;
  CellCount cells_per_pack;
  std::optional<LocalTime> packaged;  ///< day of packaging; of harvest for a slurry

  // Dry yeast.
  std::optional<Mass> pack_mass;  ///< of one pack
  std::optional<LocalTime> best_before;

  // A slurry kept from an earlier batch.
  std::optional<Volume> slurry_volume;
  std::optional<CellDensity> slurry_density;

  // A member's own count.
  std::optional<Share> viability;    ///< measured living share
  std::optional<int> cells_counted;  ///< how many cells that count looked at
  /// Living and dead cells counted in one pack; then `cells_per_pack` and `pack_mass` don't matter.
  std::optional<CellCount> measured_cells;

  Duration out_of_fridge;  ///< how long the pack stands at room temperature before pitching
};

/// Something that holds liquid.
struct Vessel {
  VesselKind kind = VesselKind::conical_flask;
  Material material = Material::borosilicate_glass;
  Volume capacity;                 ///< nominal, to the mark
  std::optional<Length> opening;   ///< diameter of the mouth
  std::optional<Length> depth;     ///< inside height
  std::optional<Length> diameter;  ///< inside width at the base
  std::optional<Mass> empty_mass;  ///< weighed empty
  bool coil_allowed = false;       ///< its maker allows a bare electric coil
};

/// What a member measured of a stage's wort or starter.
struct Readings {
  std::optional<Volume> volume;           ///< finished wort, as read
  std::optional<Temperature> volume_at;   ///< temperature of the wort at that reading
  std::optional<Gravity> gravity;         ///< hydrometer, as read
  std::optional<Temperature> gravity_at;  ///< temperature of the sample
  std::optional<CellCount> cells;         ///< counted at the end of the stage
  std::optional<int> cells_counted;       ///< how many cells were looked at
  // Read at the same starter before, they stand in for what is otherwise worked out.
  std::optional<Duration> chill_time;     ///< from the end of the boil to the chill's target
  std::optional<Duration> growth_time;    ///< from the pitch until the starter was done
  std::optional<Duration> settling_time;  ///< in the cold until the beer above was clear
  std::optional<CellCount> cells_kept;    ///< counted in the slurry after the beer was poured off
};

/// One growth: a wort made, yeast pitched into it, grown.
struct Stage {
  ExtractKind extract_kind = ExtractKind::light_dry_malt;
  Mass extract_mass;                    ///< as weighed; zero for ready wort
  std::optional<Share> extract_solids;  ///< dry share from the label
  Volume water;                         ///< cold; for ready wort its volume
  std::optional<Gravity> gravity;       ///< stated: aimed at, or that of ready wort
  std::optional<Volume> wort_volume;    ///< stated finished volume
  std::optional<Volume> boil_off;       ///< water lost over the whole boil, if known
  std::string vessel;                   ///< name in Plan::vessels it grows in
  Agitation agitation = Agitation::none;
  Temperature temperature;  ///< of the growing starter
  Duration duration;        ///< of growth
  Readings measured;
};

/// One step as written. Which fields mean something depends on `does`.
struct Step {
  std::string verb;        ///< the word after "do", as typed
  std::optional<Do> does;  ///< nothing when the word is unknown: rule step-unknown tells it
  std::string id;          ///< empty when the member gave none
  int stage = 0;           ///< index into Plan::stages
  std::string path;        ///< JSON pointer: "/steps/3"; "" in the standard process of a short plan

  std::optional<std::string> in;    ///< vessel; for chill the tub or sink
  std::optional<std::string> from;  ///< what is poured: a pack, or a vessel
  std::optional<std::string> into;  ///< move's "to": the receiving vessel
  std::vector<std::string> with;    ///< items used: thermometer, foil, funnel, stir bar
  std::vector<std::string> items;   ///< items sanitised or added
  std::optional<Temperature> to;    ///< chill, warm, heat: target
  std::optional<Temperature> at;    ///< crash, rest, store: surroundings
  std::optional<Duration> lasts;    ///< "for"
  std::optional<HeatSource> heat;
  bool sealed = false;  ///< cover, store: gas-tight

  std::optional<std::vector<std::string>> after;  ///< replaces the default predecessor
  std::optional<std::string> during;              ///< laid inside that step

  std::optional<Volume> bath;
  std::optional<Length> bath_depth;
  std::optional<Mass> ice;
  std::optional<Temperature> ice_from;  ///< wort temperature at which the ice goes in
  bool swirl = false;
  std::optional<Temperature> water;  ///< chill: bath water, when not the tap's
};

/// Something the member left out and club practice supplied.
struct Assumption {
  std::string where;  ///< JSON pointer of the field: "/place/altitude"
  std::string value;  ///< as it would be written in the plan: "100 m"
  std::string says;   ///< one sentence for people: what was taken and why
};

struct Plan {
  std::string title;
  std::string member;
  std::optional<LocalTime> start;  ///< when the first step begins
  Place place;
  Beer beer;
  Yeast yeast;
  std::map<std::string, Vessel> vessels;
  std::vector<Stage> stages;  ///< at least one
  std::vector<Step> steps;    ///< never empty: a plan without steps gets the standard process

  std::vector<Assumption> assumed;
  std::set<std::string> written;              ///< JSON pointers of every value the member wrote
  std::shared_ptr<const std::string> source;  ///< the bytes it was read from
  std::shared_ptr<const Defaults> read_with;  ///< nothing for the usual ones; use defaults()

  /// What club practice supplied, and supplies again when a changed plan is read.
  const Defaults& defaults() const {
    static const Defaults usual;
    return read_with ? *read_with : usual;
  }

  /// Whether the member wrote the field at this JSON pointer.
  bool wrote(const std::string& pointer) const { return written.count(pointer) > 0; }
  const Vessel& vessel_of(const Stage& s) const { return vessels.at(s.vessel); }
};

}  // namespace starter
