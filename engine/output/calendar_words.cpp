#include "output/calendar_words.h"

#include <fmt/format.h>

#include <cmath>
#include <vector>

namespace starter {
namespace {

std::string listed(const std::vector<std::string>& words) {
  std::string out;
  for (std::size_t i = 0; i < words.size(); ++i)
    out += (i == 0 ? "" : i + 1 == words.size() ? " and " : ", ") + words[i];
  return out;
}

/// Appends " before what", when there is a what.
void add(std::string& words, std::string_view before, const std::string& what) {
  if (what.empty()) return;
  words += ' ';
  if (!before.empty()) words += std::string(before) + ' ';
  words += what;
}

std::string text(const std::optional<std::string>& name) {
  return name.value_or("");
}
std::string text(const std::optional<Temperature>& t, UnitSystem units) {
  return t ? write(*t, units) : "";
}

std::string extract_of(const Stage& stage, UnitSystem units) {
  if (stage.extract_kind == ExtractKind::wort) return "";
  return write(stage.extract_mass, units) + ' ' + std::string(spelling(stage.extract_kind));
}

constexpr double hour = 60;  // in minutes, as all that follows
constexpr double day = 24 * hour;

/// \param minutes a whole number
/// \param down whether what is left over is dropped; else it is rounded
std::string minutes_in_words(double minutes, bool down) {
  const auto to = [down](double value) { return down ? std::floor(value) : std::round(value); };
  const auto whole = [](double value) { return static_cast<long long>(value); };
  if (minutes < hour) return fmt::format("{} min", whole(minutes));
  if (minutes < day) {
    const long long left = whole(minutes) % 60;
    return left == 0 ? fmt::format("{} h", whole(minutes / hour))
                     : fmt::format("{} h {:02} min", whole(minutes / hour), left);
  }
  const long long hours = whole(to(minutes / hour));
  if (hours < 72) return fmt::format("{} h", hours);
  if (hours < 7 * 24)
    return hours % 24 == 0 ? fmt::format("{} days", hours / 24)
                           : fmt::format("{} days {} h", hours / 24, hours % 24);
  return fmt::format("{} days", whole(to(minutes / day)));
}

}  // namespace

std::string step_in_words(const Plan& plan, const Step& step, UnitSystem units) {
  std::string words = step.verb;
  if (!step.does) {
    add(words, "in", text(step.in));
    return words;
  }
  const Stage& stage = plan.stages[static_cast<std::size_t>(step.stage)];
  switch (*step.does) {
    case Do::weigh:
      add(words, "", extract_of(stage, units));
      break;
    case Do::dissolve:
      add(words, "in", write(stage.water, units) + " water");
      break;
    case Do::heat:
    case Do::chill:
      add(words, "to", text(step.to, units));
      add(words, "in", text(step.in));
      break;
    case Do::boil:
      if (step.lasts) add(words, "for", time_in_words(*step.lasts));
      add(words, "in", text(step.in));
      break;
    case Do::add:
    case Do::sanitise:
      add(words, "", listed(step.items));
      break;
    case Do::cover:
    case Do::check_temperature:
    case Do::agitate:
      add(words, "with", listed(step.with));
      break;
    case Do::move:
      add(words, "from", text(step.from));
      add(words, "to", text(step.into));
      break;
    case Do::pitch:
      add(words, "from", text(step.from));
      break;
    case Do::rest:
    case Do::crash:
    case Do::store:
      add(words, "at", text(step.at, units));
      break;
    case Do::warm:
      add(words, "to", text(step.to, units));
      break;
    case Do::decant:
    case Do::pitch_to_beer:
    case Do::krausen_pitch:
      break;
  }
  return words;
}

std::string time_in_words(Duration d) {
  const double seconds = std::round(d.seconds());
  if (seconds > 0 && seconds < 90 && seconds != 60)
    return fmt::format("{} s", static_cast<long long>(seconds));
  return minutes_in_words(std::round(d.minutes()), false);
}

std::string time_to_use(Duration d) {
  // A sum of hours may fall short of a whole minute by its last bits.
  constexpr double last_bits = 1e-6;
  const double minutes = std::floor(d.minutes() + last_bits);
  return minutes < 1 ? "" : minutes_in_words(minutes, true);
}

}  // namespace starter
