#include "measures/unknowns.h"

namespace starter {
namespace {

constexpr std::string_view settling =
    "see how long the beer above takes to clear in the cold, and write it as "
    "`settling_time` in `measured`";
constexpr std::string_view growing =
    "count once after growth and write it as `cells` in `measured`";
constexpr std::string_view slurry = "count a sample of the slurry and write it as `slurry_density`";

constexpr UnknownText texts[unknown_count] = {
    {Unknown::extract_solids, "how dry the extract is",
     "read the solids on its label and write them as the extract’s `solids`"},
    {Unknown::boil_off, "how much boils off",
     "mark the level before and after the boil once, and write the loss as `boil_off`"},
    {Unknown::hob_power, "how strongly your hob heats",
     "time one heating and write it as the `for` of a `heat` step before the boil"},
    {Unknown::weather, "the air pressure of the day", "no plan can know it; it moves little"},
    {Unknown::chill_film, "how fast the flask gives its heat to the bath",
     "time one chill and write it as `chill_time` in `measured`"},
    {Unknown::pack_contents, "how many cells the pack holds",
     "count the cells of a pack and write `measured_cells`, and as `cells_counted` how many you "
     "looked at"},
    {Unknown::viability, "how many of the cells are alive",
     "stain and count a sample and write `viability`, and as `cells_counted` how many you looked "
     "at"},
    {Unknown::slurry_density, "how thick the slurry is", slurry},
    {Unknown::slurry_not_yeast, "how much of the slurry is not yeast", slurry},
    {Unknown::growth_yield, "how many cells a gram of extract grows", growing},
    {Unknown::shaken_weight, "how well your shaking feeds air", growing},
    {Unknown::growth_pace, "how fast this yeast grows",
     "see how long one growth takes until the foam falls and the starter brightens, and write it "
     "as `growth_time` in `measured`"},
    {Unknown::cold_time_constant, "how fast your fridge cools the starter", settling},
    {Unknown::clumping, "how fast this yeast settles", settling},
    {Unknown::kept_by_decanting, "how much yeast leaves with the beer poured off",
     "count the slurry once after pouring off, and write it as `cells_kept` in `measured`"},
};

}  // namespace

const UnknownText& text_of(Unknown u) {
  return texts[static_cast<std::size_t>(u)];
}

}  // namespace starter
