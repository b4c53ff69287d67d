#include "output/plan_parts.h"

#include <string_view>

#include "quantity/local_time.h"

namespace starter {

Pieces assumption_in_words(const Assumption& a) {
  const bool has_value = !a.value.empty() && a.value[0] != '{' && a.value[0] != '[';
  if (!has_value || a.says.empty() || a.says.back() != '.') return {{a.says}};
  return {
      {a.says.substr(0, a.says.size() - 1) + ": "}, {spoken_if_time(a.value), Ink::strong}, {"."}};
}

void plan_head(Page& page, const Plan& plan) {
  Pieces title = {{plan.title, Ink::strong}};
  if (!plan.member.empty()) title.push_back({" · " + plan.member});
  page.paragraph(title);
}

void assumptions(Page& page, const Plan& plan) {
  if (plan.assumed.empty()) return;
  page.blank();
  page.ruled("Taken from club practice, since the plan does not say");
  for (const Assumption& a : plan.assumed) page.item({"–"}, assumption_in_words(a), 2, 2);
}

std::string sentence(std::string text) {
  constexpr std::string_view ends = ".!?";
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z')
    text[0] = static_cast<char>(text[0] - 'a' + 'A');
  if (!text.empty() && ends.find(text.back()) == std::string_view::npos) text += '.';
  return text;
}

}  // namespace starter
