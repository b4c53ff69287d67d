#pragma once

/// \file
/// The register of named facts: what a plan says or implies in words of a closed set.
///
/// Rules of kind `present` look at one fact; any rule may be limited to where a fact has a value.

#include <map>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "measures/measures.h"

namespace starter {

struct Fact {
  std::string name;
  std::string value;
  std::string where;  ///< JSON pointer
  int stage = -1;     ///< index of the stage, or −1
  int step = -1;      ///< index of the step it is about, or −1
  bool sure = true;   ///< false where the plan leaves it open and practice supplies it
  std::map<std::string, std::string> about;  ///< texts for messages: step, item, vessel, needs, ...
};

/// A fact's name, the values it can have, and the `about` texts it carries.
struct FactKind {
  std::string_view name;
  std::span<const std::string_view> values;  ///< empty when any word can be the value
  std::span<const std::string_view> about;
};

std::span<const FactKind> fact_kinds();

std::vector<Fact> facts_of(const Case& c);

const Fact* find_fact(std::span<const Fact> facts, std::string_view name, int stage);

}  // namespace starter
