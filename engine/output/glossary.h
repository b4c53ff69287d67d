#pragma once

/// \file
/// The trade's terms in plain words: one list, glossary.json, for every sheet and page.

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "rules/rule.h"

namespace starter {

struct Term {
  std::string term;
  std::vector<std::string> also;  ///< other forms and names that mean it
  std::string says;               ///< sentences
  RuleSource source;
};

/// All terms, by alphabet.
std::span<const Term> glossary();

/// The terms that a text uses: whole words, whatever their case, in the order of the glossary.
/// Where one term's words hold another's ("stir plate"), the longer one is meant.
std::vector<const Term*> terms_in(std::string_view text);

/// The terms that explain `terms`' own explanations too, so that none uses a word it leaves open.
std::vector<const Term*> with_their_own_terms(std::vector<const Term*> terms);

}  // namespace starter
