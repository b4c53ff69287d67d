// What README shows of the program is what the program says.

#include <boost/test/unit_test.hpp>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include "child.h"

namespace {

struct Shown {
  std::vector<std::string> arguments;
  std::vector<std::string> lines;  ///< "…" where lines are left out
};

/// The fenced sessions of README that call engine/run.
std::vector<Shown> sessions_of_readme() {
  std::ifstream file(STARTER_PLAN_SOURCE_DIR "/README.md");
  const std::string call = "$ bash engine/run ";
  std::vector<Shown> sessions;
  bool inside = false;
  for (std::string line; std::getline(file, line);) {
    if (line.starts_with(call)) {
      inside = true;
      std::istringstream words(line.substr(call.size()));
      sessions.emplace_back();
      for (std::string word; words >> word;) {
        const bool plan = word.ends_with(".plan.json");
        sessions.back().arguments.push_back(plan ? STARTER_PLAN_SOURCE_DIR "/" + word : word);
      }
    } else if (line.starts_with("```")) {
      inside = false;
    } else if (inside) {
      sessions.back().lines.push_back(line);
    }
  }
  return sessions;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(readme)

BOOST_AUTO_TEST_CASE(its_sessions_are_what_the_program_says) {
  const auto sessions = sessions_of_readme();
  BOOST_REQUIRE(!sessions.empty());
  for (const Shown& shown : sessions) {
    const Ran ran = run(shown.arguments);
    std::istringstream out(ran.out);
    std::string said;
    bool skip = false;
    for (const std::string& line : shown.lines) {
      if (line == "…") {
        skip = true;
        continue;
      }
      do {
        BOOST_REQUIRE_MESSAGE(std::getline(out, said), "not said, or not there: " << line);
      } while (skip && said != line);
      BOOST_TEST(said == line);
      skip = false;
    }
    // All of it is shown, or the last line says that there is more.
    BOOST_TEST((skip || !std::getline(out, said)));
  }
}

BOOST_AUTO_TEST_SUITE_END()
