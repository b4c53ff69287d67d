#pragma once

/// \file
/// Which field of a plan, once filled in, makes an uncertain finding surest.

#include <optional>
#include <string>

#include "measures/measures.h"
#include "rules/evaluate.h"

namespace starter {

/// A field that a member can fill in.
struct Narrowing {
  std::string says;   ///< what to do, which field to write, and what is taken for it now
  std::string where;  ///< JSON pointer of the field; of a list's place, an item is put in before it
  std::string patch;  ///< JSON Patch (RFC 6902) that fills it in with what is taken now
};

/// What would make `spoken` surer. Of a number, the field whose filling leaves the narrowest range:
/// each that could matter is filled in with its likely value, and the plan measured again. Of
/// something that the plan leaves open, the field that says it.
/// \param workings of the plan at the likely draw
/// \return nothing when the finding is certain, or when no field would help
std::optional<Narrowing> narrowing_of(const Spoken& spoken, const Plan& plan,
                                      const Process& process, const Workings& workings);

}  // namespace starter
