#include "command/refuse.h"

#include "command/terminal.h"

namespace starter {

Exit refuse(const std::string& says, const std::string& write) {
  Page page(look_of(Stream::error, UnitSystem::metric));
  page.paragraph("starter-plan: " + says);
  if (!write.empty()) page.item({"Write", Ink::good}, {{write}}, 2, 8);
  complain(std::move(page).text());
  return Exit::unusable;
}

}  // namespace starter
