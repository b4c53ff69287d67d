#include "rules/catalogue.h"

#include <algorithm>
#include <string>
#include <vector>

#include "plan/json.h"

namespace starter {

extern const std::string_view rule_catalogue_text;
extern const std::string_view caution_text;

std::span<const Rule> catalogue() {
  // Checked at build, so no rule here has a fault.
  static const std::vector<Rule> rules = [] {
    std::vector<Rule> all;
    for (const Json& document : parse_json(rule_catalogue_text))
      all.push_back(read_rule(document.dump()).rule);
    std::sort(all.begin(), all.end(), [](const Rule& a, const Rule& b) { return a.id < b.id; });
    return all;
  }();
  return rules;
}

const Rule* find_rule(std::string_view id) {
  for (const Rule& rule : catalogue())
    if (rule.id == id) return &rule;
  return nullptr;
}

std::span<const Caution> cautions() {
  static const std::vector<Caution> all = read_cautions(caution_text).cautions;
  return all;
}

const Caution* find_caution(std::string_view id) {
  for (const Caution& caution : cautions())
    if (caution.id == id) return &caution;
  return nullptr;
}

}  // namespace starter
