#include "measures/unknowns.h"

namespace starter {
namespace {

constexpr UnknownText texts[unknown_count] = {
    {Unknown::extract_solids, "how dry the extract is",
     "read the solids on its label and write it as the extract's `solids`"},
    {Unknown::boil_off, "how much boils off",
     "mark the level before and after once, and write the loss as `boil_off`"},
    {Unknown::hob_power, "how strongly your hob heats",
     "time one heating and write a `heat` step with its `for`"},
    {Unknown::weather, "the air pressure of the day", "no plan can know it; it moves little"},
    {Unknown::chill_film, "how fast the flask gives its heat to the bath",
     "time one chill; swirling moves it most"},
    {Unknown::pack_contents, "how many cells the pack holds",
     "ask the maker, or count, and write `cells_per_pack`"},
    {Unknown::viability, "how many of the cells are alive",
     "stain and count a sample, and write `viability` and `cells_counted`"},
    {Unknown::slurry_density, "how thick the slurry is",
     "count or spin down a sample and write `slurry_density`"},
    {Unknown::slurry_not_yeast, "how much of the slurry is not yeast",
     "let a sample settle in a narrow glass and read its layers"},
    {Unknown::growth_yield, "how many cells a gram of extract grows",
     "count once after growth and write the stage's `measured` cells"},
    {Unknown::shaken_weight, "how well your shaking feeds air",
     "shake often, or use a stir plate, whose effect is better known"},
    {Unknown::growth_pace, "how fast this yeast grows",
     "watch when the foam falls and the starter brightens"},
    {Unknown::cold_time_constant, "how fast your fridge cools the starter",
     "put a thermometer in a litre of water there once"},
    {Unknown::clumping, "how fast this yeast settles",
     "look at the jar: it is done when the beer above is clear"},
    {Unknown::kept_by_decanting, "how much yeast leaves with the beer poured off",
     "let it settle until clear and pour slowly"},
};

}  // namespace

const UnknownText& text_of(Unknown u) {
  return texts[static_cast<std::size_t>(u)];
}

}  // namespace starter
