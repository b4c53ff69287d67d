#pragma once

/// \file
/// Reading a rule file, with every fault it has.

#include <string>
#include <string_view>
#include <vector>

#include "rules/rule.h"

namespace starter {

struct RuleFile {
  Rule rule;
  std::vector<std::string> faults;  ///< one sentence each; empty when the rule can be used
};

/// Reads a rule and checks it against the registers: known measures, facts, values, knobs, edits
/// and places in messages, no empty text. Runs at build over the whole catalogue and at run time
/// over a club's own rules.
RuleFile read_rule(std::string_view json);

/// Places in a rule's message that nothing would fill. \param by_fact whose own texts may stand in
/// it; may be empty.
std::vector<std::string> unknown_places(std::string_view message, RuleKind kind,
                                        std::string_view by_fact);

/// A caution shown beside the step or finding that needs it.
struct Caution {
  std::string id;
  std::string title;
  std::string text;
};

struct CautionFile {
  std::vector<Caution> cautions;
  std::vector<std::string> faults;
};
CautionFile read_cautions(std::string_view json);

}  // namespace starter
