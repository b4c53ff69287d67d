#include "command/rule_name.h"

#include <string_view>
#include <vector>

#include "quantity/words.h"

namespace starter {

std::string no_such_rule(const Practice& practice, const std::string& typed) {
  if (const SwitchedOff* off = practice.find_off(typed))
    return practice.club + " has switched the rule " + off->rule + " off.";
  std::vector<std::string_view> ids;
  for (const Rule& rule : practice.rules()) ids.push_back(rule.id);
  const auto nearest = nearest_word(typed, ids);
  return "there is no rule " + starter::quoted(typed) + "." +
         (nearest ? " Did you mean " + *nearest + "?" : "");
}

}  // namespace starter
