#include "output/verdict.h"

#include <fmt/format.h>

#include <algorithm>

#include "output/plan_parts.h"

namespace starter {
namespace {

long count_of(const std::vector<Finding>& findings, Severity severity) {
  return std::count_if(findings.begin(), findings.end(),
                       [=](const Finding& f) { return f.severity == severity && f.counts(); });
}

std::string counted(long count, const char* one, const char* more) {
  return fmt::format("{} {}", count, count == 1 ? one : more);
}

/// All that counts, in words.
std::string of_what_counts(const std::vector<Finding>& findings) {
  const long dangers = count_of(findings, Severity::danger);
  const long spoils = count_of(findings, Severity::spoils);
  const long weakens = count_of(findings, Severity::weakens);
  const long notes = count_of(findings, Severity::note);
  if (dangers + spoils + weakens == 0)
    return "Good to go: nothing to mend" + (notes ? "; " + counted(notes, "note", "notes") : "") +
           ".";
  if (dangers + spoils == 0)
    return "Nearly: it would work, but " + counted(weakens, "thing weakens", "things weaken") +
           " it.";
  std::string list;
  const auto add = [&list](const std::string& words) {
    list += (list.empty() ? "" : ", ") + words;
  };
  if (dangers) add(counted(dangers, "danger", "dangers"));
  if (spoils) add(counted(spoils, "thing that spoils it", "things that spoil it"));
  if (weakens)
    add(spoils ? fmt::format("{} that {} it", weakens, weakens == 1 ? "weakens" : "weaken")
               : counted(weakens, "thing that weakens it", "things that weaken it"));
  const bool several = dangers + spoils + weakens > 1;
  return "Not yet: " + list + "." + (several ? " Start with the first." : "");
}

}  // namespace

std::string verdict_of(const std::vector<Finding>& findings) {
  const std::string verdict = of_what_counts(findings);
  const long accepted =
      std::count_if(findings.begin(), findings.end(), [](const Finding& f) { return !f.counts(); });
  if (accepted == 0) return verdict;
  return verdict + " " + counted(accepted, "finding more stands", "findings more stand") +
         " with a mentor’s word.";
}

std::string_view sign_of(Severity severity) {
  switch (severity) {
    case Severity::danger:
      return "▲ DANGER";
    case Severity::spoils:
      return "■ spoils";
    case Severity::weakens:
      return "◆ weakens";
    case Severity::note:
      return "○ note";
  }
  return "";
}

std::string sure_in_words(const Finding& f) {
  const std::string know = f.narrow.empty() ? "" : "to know, " + f.narrow;
  switch (f.certainty) {
    case Certainty::certain:
      return "";
    case Certainty::likely:
      return sentence("likely, not certain" + (know.empty() ? "" : "; " + know));
    case Certainty::possible:
      return "Only at an end of the range; likely it is fine." +
             (know.empty() ? "" : " " + sentence(know));
  }
  return "";
}

}  // namespace starter
