#include "process/trade_order.h"

namespace starter {
namespace {

constexpr TradeOrder orders[] = {
    {Do::weigh, Do::dissolve, "the weighed extract is what is dissolved"},
    {Do::dissolve, Do::heat, "there is no wort to heat before the extract is dissolved"},
    {Do::dissolve, Do::boil, "there is no wort to boil before the extract is dissolved"},
    {Do::heat, Do::boil, "wort is heated before it boils"},
    {Do::boil, Do::chill, "chilling is for boiled wort; boiling it again would undo it"},
    {Do::chill, Do::check_temperature, "the wort is read once it is cool"},
    {Do::check_temperature, Do::pitch, "the reading says whether the yeast may go in"},
    {Do::chill, Do::pitch, "hot wort kills yeast"},
    {Do::boil, Do::pitch, "boiling kills yeast"},
    {Do::pitch, Do::agitate, "it is the yeast that is kept in suspension"},
    {Do::pitch, Do::rest, "it is the yeast that is left to grow"},
    {Do::pitch, Do::crash, "grown yeast is what settles"},
    {Do::agitate, Do::crash, "cold stops the growth that stirring is for"},
    {Do::crash, Do::decant, "until the yeast has settled, pouring off the beer pours off yeast"},
    {Do::decant, Do::warm, "the slurry is warmed last, not the beer that is poured away"},
    {Do::decant, Do::pitch_to_beer, "what is in the fermenter cannot be decanted"},
    {Do::warm, Do::pitch_to_beer, "the slurry is warmed before it meets the beer"},
    {Do::pitch, Do::pitch_to_beer, "the beer gets the yeast that was grown"},
    {Do::pitch, Do::krausen_pitch, "the beer gets the yeast that was grown"},
};

}  // namespace

std::string_view phase_name(Phase phase) {
  switch (phase) {
    case Phase::wort:
      return "wort";
    case Phase::cleaning:
      return "cleaning";
    case Phase::yeast:
      return "yeast";
    case Phase::growth:
      return "growth";
    case Phase::cold:
      return "cold";
    case Phase::brew_day:
      return "brew day";
  }
  return "";
}

Phase phase_of(Do step) {
  switch (step) {
    case Do::weigh:
    case Do::dissolve:
    case Do::heat:
    case Do::boil:
    case Do::add:
    case Do::cover:
    case Do::move:
    case Do::chill:
      return Phase::wort;
    case Do::sanitise:
      return Phase::cleaning;
    case Do::check_temperature:
    case Do::pitch:
      return Phase::yeast;
    case Do::agitate:
    case Do::rest:
      return Phase::growth;
    case Do::crash:
    case Do::store:
      return Phase::cold;
    case Do::decant:
    case Do::warm:
    case Do::pitch_to_beer:
    case Do::krausen_pitch:
      return Phase::brew_day;
  }
  return Phase::wort;
}

std::span<const TradeOrder> trade_orders() {
  return orders;
}

bool hands_on(Do step) {
  switch (step) {
    case Do::agitate:
    case Do::rest:
    case Do::crash:
    case Do::store:
    case Do::warm:
      return false;
    default:
      return true;
  }
}

}  // namespace starter
