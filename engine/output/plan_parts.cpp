#include "output/plan_parts.h"

#include <string_view>

namespace starter {

void plan_head(Page& page, const Plan& plan) {
  Pieces title = {{plan.title, Ink::strong}};
  if (!plan.member.empty()) title.push_back({" · " + plan.member});
  page.paragraph(title);
}

void assumptions(Page& page, const Plan& plan) {
  if (plan.assumed.empty()) return;
  page.blank();
  page.ruled("Taken from club practice, since the plan does not say");
  for (const Assumption& a : plan.assumed)
    page.item({"–"}, {{a.value, Ink::strong}, {"  " + a.says}}, 2, 2);
}

std::string sentence(std::string text) {
  constexpr std::string_view ends = ".!?";
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z')
    text[0] = static_cast<char>(text[0] - 'a' + 'A');
  if (!text.empty() && ends.find(text.back()) == std::string_view::npos) text += '.';
  return text;
}

}  // namespace starter
