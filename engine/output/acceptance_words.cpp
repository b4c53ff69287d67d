#include "output/acceptance_words.h"

#include <algorithm>
#include <span>

#include "measures/measures.h"
#include "output/places.h"
#include "output/plan_parts.h"
#include "quantity/local_time.h"

namespace starter {
namespace {

/// "extract_ratio, stage 1" as people call it: "dry extract a litre, stage 1".
std::string reading_in_words(std::string what) {
  const std::string name = what.substr(0, what.find(','));
  if (const MeasureKind* kind = find_measure_kind(name))
    return std::string(kind->title) + what.substr(name.size());
  std::replace(what.begin(), what.end(), '_', ' ');
  return what;
}

/// "dry extract a litre, stage 1 was 152 g/L and is 189 g/L"
std::string changed(std::span<const ReadingChange> changes) {
  constexpr std::size_t most = 3;
  std::string out;
  for (std::size_t i = 0; i < changes.size() && i < most; ++i) {
    const ReadingChange& c = changes[i];
    out += (i == 0 ? "" : "; ") + reading_in_words(c.what);
    if (c.was.empty())
      out += ", now " + c.is + ", was not read then";
    else if (c.is.empty())
      out += ", then " + c.was + ", is not read now";
    else
      out += " was " + c.was + " and is " + c.is;
  }
  if (changes.size() > most) out += "; and " + std::to_string(changes.size() - most) + " more";
  return out;
}

}  // namespace

std::string accepted_in_words(const Acceptance& word) {
  return word.by + (word.on.empty() ? "" : ", " + spoken_if_time(word.on)) + ": “" + word.because +
         "”.";
}

std::string reopened_in_words(const Reopened& reopened) {
  return sentence(reopened.was.by + " accepted this, but since then " + changed(reopened.changes));
}

std::string unused_in_words(const AcceptanceRecord& record, const Plan& plan) {
  return "No longer needed: " + record.by + " accepted " + record.rule + " at " +
         place_in_words(plan, record.where) + ", and nothing is found there now.";
}

std::string club_in_words(const ClubWord& word) {
  std::string text = word.club + (word.own ? ", a rule of its own" : "");
  for (std::size_t i = 0; i < word.changes.size(); ++i)
    text += (i == 0 ? ": " : "; ") + word.changes[i];
  if (!word.because.empty()) text += " – " + word.because;
  return sentence(text);
}

}  // namespace starter
