#include "plan/words.h"

namespace starter {
namespace {

constexpr Spelled<BeerKind> beer_kinds[] = {
    {BeerKind::ale, "ale"},
    {BeerKind::lager, "lager"},
    {BeerKind::hybrid, "hybrid"},
};
constexpr Spelled<YeastForm> yeast_forms[] = {
    {YeastForm::liquid, "liquid"},
    {YeastForm::dry, "dry"},
    {YeastForm::slurry, "slurry"},
};
constexpr Spelled<Flocculation> flocculations[] = {
    {Flocculation::low, "low"},
    {Flocculation::medium, "medium"},
    {Flocculation::high, "high"},
};
constexpr Spelled<ExtractKind> extract_kinds[] = {
    {ExtractKind::light_dry_malt, "light dry malt"},
    {ExtractKind::wheat_dry_malt, "wheat dry malt"},
    {ExtractKind::amber_dry_malt, "amber dry malt"},
    {ExtractKind::dark_dry_malt, "dark dry malt"},
    {ExtractKind::hopped_dry_malt, "hopped dry malt"},
    {ExtractKind::light_liquid_malt, "light liquid malt"},
    {ExtractKind::table_sugar, "table sugar"},
    {ExtractKind::wort, "wort"},
};
constexpr Spelled<VesselKind> vessel_kinds[] = {
    {VesselKind::conical_flask, "conical flask"},
    {VesselKind::jug, "jug"},
    {VesselKind::bottle, "bottle"},
    {VesselKind::pot, "pot"},
    {VesselKind::jar, "jar"},
    {VesselKind::tub, "tub"},
    {VesselKind::sink, "sink"},
};
constexpr Spelled<Material> materials[] = {
    {Material::borosilicate_glass, "borosilicate glass"},
    {Material::soda_lime_glass, "soda-lime glass"},
    {Material::stainless_steel, "stainless steel"},
    {Material::aluminium, "aluminium"},
    {Material::plastic, "plastic"},
};
constexpr Spelled<HeatSource> heat_sources[] = {
    {HeatSource::gas, "gas"},
    {HeatSource::electric_coil, "electric coil"},
    {HeatSource::electric_glass, "electric glass"},
    {HeatSource::induction, "induction"},
    {HeatSource::none, "none"},
};
constexpr Spelled<Agitation> agitations[] = {
    {Agitation::stir_plate, "stir plate"},
    {Agitation::shaken, "shaken"},
    {Agitation::none, "none"},
};
constexpr Spelled<Do> dos[] = {
    {Do::weigh, "weigh"},
    {Do::dissolve, "dissolve"},
    {Do::heat, "heat"},
    {Do::boil, "boil"},
    {Do::add, "add"},
    {Do::cover, "cover"},
    {Do::move, "move"},
    {Do::chill, "chill"},
    {Do::sanitise, "sanitise"},
    {Do::check_temperature, "check temperature"},
    {Do::pitch, "pitch"},
    {Do::agitate, "agitate"},
    {Do::rest, "rest"},
    {Do::crash, "crash"},
    {Do::store, "store"},
    {Do::decant, "decant"},
    {Do::warm, "warm"},
    {Do::pitch_to_beer, "pitch to beer"},
    {Do::krausen_pitch, "krausen pitch"},
};

}  // namespace

template <>
std::span<const Spelled<BeerKind>> spellings() {
  return beer_kinds;
}
template <>
std::span<const Spelled<YeastForm>> spellings() {
  return yeast_forms;
}
template <>
std::span<const Spelled<Flocculation>> spellings() {
  return flocculations;
}
template <>
std::span<const Spelled<ExtractKind>> spellings() {
  return extract_kinds;
}
template <>
std::span<const Spelled<VesselKind>> spellings() {
  return vessel_kinds;
}
template <>
std::span<const Spelled<Material>> spellings() {
  return materials;
}
template <>
std::span<const Spelled<HeatSource>> spellings() {
  return heat_sources;
}
template <>
std::span<const Spelled<Agitation>> spellings() {
  return agitations;
}
template <>
std::span<const Spelled<Do>> spellings() {
  return dos;
}

}  // namespace starter
