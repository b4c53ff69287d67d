#pragma once

/// \file
/// What to change in a plan so that nothing that can be mended is left.

#include <nlohmann/json.hpp>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "rules/accepted.h"
#include "rules/judge.h"
#include "rules/knobs.h"

namespace starter {

/// A finding by its rule and place.
struct FindingAt {
  const Rule* rule = nullptr;
  Severity severity = Severity::note;
  std::string where;  ///< JSON pointer into the plan in which it is told
};

/// Something that a change mends.
struct Cleared : FindingAt {
  bool to_a_note = false;  ///< the mended plan still has it as a note
  int since = 0;           ///< 0: the member's plan has it; else the number, from 1, of the change
                           ///< before that brought it
};

/// One change. Changes are made in their order; each patch fits the plan the one before left.
struct Change {
  std::string says;                  ///< "use 85 g of extract with this water, not 180 g"
  Asks asks = Asks::nothing;         ///< what it asks of the member besides
  bool fills = false;                ///< writes down what a short plan leaves open
  nlohmann::ordered_json patch;      ///< RFC 6902
  std::vector<Cleared> clears;       ///< what was told of the plan before and no longer is
  bool on_the_way = false;           ///< clears nothing itself; another change needs it
  Plan before;                       ///< the plan that it changes
  std::vector<int> step_was;         ///< per step of `before`: its index in the member's plan; −1
                                     ///< for one that an earlier change brought
  std::vector<std::string> instead;  ///< other ways, in words, for a change that asks something
};

/// Something above a note that stands in the mended plan.
struct Left {
  FindingAt told;
  std::string says;     ///< the finding
  std::string why_not;  ///< why the search did not mend it
  std::string advice;   ///< the rule's
};

/// Something above a note that a mentor accepted, and that is left alone.
struct Stands {
  FindingAt told;  ///< in the mended plan
  std::string says;
  Acceptance accepted;
};

/// Something only the member can say.
struct Decision {
  std::string where;  ///< JSON pointer
  std::string says;
  std::string write;  ///< what to write into the plan; may be empty
};

struct Suggestion {
  std::optional<Judgement> before;  ///< nothing for a plan that lacked its stages
  Judgement after;                  ///< of the mended plan
  std::vector<Change> changes;
  nlohmann::ordered_json patch;     ///< all changes, on the plan as it was
  nlohmann::ordered_json document;  ///< the mended plan, the member's order of keys kept
  std::vector<Left> left;
  std::vector<Stands> stands;
  std::vector<Decision> decisions;
  std::string first;     ///< what comes before any of it: dry yeast needs no starter; else empty
  bool finished = true;  ///< false when the search ran out of tries
};

struct SuggestOptions {
  UnitSystem units = UnitSystem::metric;
  Defaults defaults;                       ///< for what the plan leaves out
  std::vector<AcceptanceRecord> accepted;  ///< what a mentor accepted in the plan as it is
  int most_tries = 5000;  ///< changed plans judged; working out the ways of a finding is ten
};

/// \param bytes a plan file, or one that lacks nothing but its stages.
/// \return nothing for anything else; read_plan tells why.
std::optional<Suggestion> suggest(std::string_view bytes, std::span<const Rule> rules,
                                  const SuggestOptions& options = {});

/// Why a plan that lacks nothing but its stages gets none: no starter in vessels of a home brings
/// the beer its cells; `with_packs`: with the number of packs that would do.
/// \return empty for any other plan.
std::string too_big_for_one_starter(std::string_view bytes, std::span<const Rule> rules,
                                    const Defaults& defaults, UnitSystem units = UnitSystem::metric,
                                    bool with_packs = true);

/// That dry yeast in date is rehydrated by its label and needs no starter, with the packs that the
/// beer wants of it; empty for any other yeast.
std::string dry_needs_no_starter(const Plan& plan);
/// The same for a document that may lack its stages.
std::string dry_needs_no_starter(std::string_view bytes, const Defaults& defaults);

}  // namespace starter
