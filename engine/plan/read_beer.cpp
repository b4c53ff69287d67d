#include "plan/fields.h"
#include "plan/parts.h"
#include "plan/shape.h"

namespace starter {
namespace {

constexpr std::size_t clock_in_iso = 11;  // "2027-03-20T09:00"

/// Puts a value that could be read into its place.
template <class T>
void take(T& into, const std::optional<T>& read) {
  if (read) into = *read;
}

std::optional<LocalTime> moment(const std::optional<WrittenTime>& written) {
  if (!written) return std::nullopt;
  return written->at;
}

}  // namespace

void read_place(const Node* node, Place& place, Report& report) {
  const Fields fields(node, "/place", shape::place, report);
  take(place.altitude, fields.quantity("altitude", an_altitude));
  take(place.tap_water, fields.quantity("tap_water", a_temperature));
  take(place.room, fields.quantity("room", a_temperature));
  take(place.fridge, fields.quantity("fridge", a_temperature));
}

void read_beer(const Node* node, const Defaults& defaults, Beer& beer,
               std::vector<Assumption>& assumed, Report& report) {
  const Fields fields(node, "/beer", shape::beer, report);
  fields.ask_for("volume", "the size of the batch", R"("volume": "20 L")");
  fields.ask_for("gravity", "the original gravity of the beer", R"("gravity": "1.050 SG")");
  take(beer.kind, fields.word<BeerKind>("kind"));
  take(beer.volume, fields.quantity("volume", a_batch_volume));
  take(beer.gravity, fields.quantity("gravity", a_gravity));
  if (const auto day = fields.time("brew_day")) {
    beer.brew_day = day->has_clock ? day->at : day->at + defaults.brewing_begins;
    if (!day->has_clock)
      assumed.push_back({fields.where("brew_day"), iso(*beer.brew_day),
                         "The brew day has no clock time, so brewing is taken to begin at " +
                             iso(*beer.brew_day).substr(clock_in_iso) + "."});
  }
  beer.yeast_due = fields.clock_time("yeast_due");
  take(beer.ferment_at, fields.quantity("ferment_at", a_temperature));
  beer.keep_cells = fields.quantity("keep_cells", a_cell_count);
}

void read_yeast(const Node* node, Yeast& yeast, Report& report) {
  const Fields fields(node, "/yeast", shape::yeast, report);
  fields.ask_for("form", "what the yeast comes as: liquid, dry or slurry", R"("form": "liquid")");
  const auto form = fields.word<YeastForm>("form");
  take(yeast.form, form);
  if (form == YeastForm::slurry)
    fields.ask_for("slurry_volume", "how much slurry is pitched", R"("slurry_volume": "100 mL")");
  take(yeast.packs, fields.whole_number("packs", 1, most_packs));
  take(yeast.cells_per_pack, fields.quantity("cells_per_pack", a_cell_count));
  yeast.packaged = moment(fields.time("packaged"));
  yeast.pack_mass = fields.quantity("pack_mass", a_mass);
  yeast.best_before = moment(fields.time("best_before"));
  yeast.slurry_volume = fields.quantity("slurry_volume", a_volume);
  yeast.slurry_density = fields.quantity("slurry_density", a_cell_density);
  yeast.viability = fields.quantity("viability", a_share);
  yeast.cells_counted = fields.whole_number("cells_counted", 1, most_cells_counted);
  yeast.measured_cells = fields.quantity("measured_cells", a_cell_count);
  take(yeast.out_of_fridge, fields.quantity("out_of_fridge", a_duration));
  take(yeast.flocculation, fields.word<Flocculation>("flocculation"));
}

}  // namespace starter
