// Whole plans worked by hand, plans/*.md, against what the program makes of plans/*.plan.json.

#include <map>
#include <set>

#include "check.h"
#include "measures/measures.h"
#include "outside.h"
#include "plan/read.h"
#include "process/process.h"

using namespace starter;
using namespace reference;

namespace {

/// A row of the table that ends a text: "| wort_volume | 1 | 1.250827 | 0.05 % |".
struct ByHand {
  std::string measure;
  int stage = -1;
  double value = 0;
  double within = 0;
  std::string unit;
};

std::vector<ByHand> rows_of(const std::string& text) {
  std::vector<ByHand> rows;
  std::istringstream lines(text.substr(text.find("## Compared with the program")));
  std::string line;
  while (std::getline(lines, line)) {
    if (line.rfind("| ", 0) != 0 || line.rfind("| measure", 0) == 0) continue;
    std::istringstream words(line);
    std::string bar, stage;
    ByHand row;
    words >> bar >> row.measure >> bar >> stage >> bar >> row.value >> bar >> row.within >>
        row.unit;
    if (!words) throw std::runtime_error("not a row: " + line);
    if (stage != "−") row.stage = std::stoi(stage) - 1;
    rows.push_back(row);
  }
  return rows;
}

void compare(const std::string& name, const std::string& kind) {
  const auto read = read_plan(text_of("plans/" + name + ".plan.json"));
  BOOST_TEST_REQUIRE(std::holds_alternative<Plan>(read));
  const Plan& plan = std::get<Plan>(read);
  const auto measures = measure(plan, unfold(plan));
  Check check{"plans", "Every number of " + name + ", " + kind + ", as a part of its tolerance",
              "worked by hand, plans/" + name + ".md", Label::practice,
              at_most(1, "of its tolerance")};
  std::set<std::pair<std::string, int>> compared;
  for (const ByHand& row : rows_of(text_of("plans/" + name + ".md"))) {
    const Measure* ours = nullptr;
    for (const Measure& m : measures)
      if (m.name == row.measure && m.stage == row.stage) ours = &m;
    const std::string label = row.measure + " of stage " + std::to_string(row.stage + 1);
    BOOST_TEST(ours != nullptr, name << " has " << label);
    if (!ours) continue;
    compared.emplace(row.measure, row.stage);
    const double most = row.unit == "%" ? row.within / 100 * std::abs(row.value) : row.within;
    check.bounded(std::abs(ours->value - row.value) / most,
                  label + ", " + std::to_string(ours->value) + " by the program, " +
                      std::to_string(row.value) + " by hand, parts of its tolerance");
  }
  for (const Measure& m : measures)
    BOOST_TEST(compared.count({m.name, m.stage}) == 1,
               m.name << " of stage " << m.stage + 1 << " of " << name << " is worked by hand");
}

}  // namespace

BOOST_AUTO_TEST_CASE(ale_metric_one_stage_sea_level) {
  compare("meadow-pale", "ale, metric, one stage, sea level");
}
BOOST_AUTO_TEST_CASE(lager_metric_three_stages_sea_level) {
  compare("quarry-lager", "lager, metric, three stages, sea level");
}
BOOST_AUTO_TEST_CASE(ale_us_one_stage_2500_m) {
  compare("summit-bitter", "ale, US, one stage, 2500 m");
}
BOOST_AUTO_TEST_CASE(lager_us_three_stages_2500_m) {
  compare("ridge-lager", "lager, US, three stages, 2500 m");
}
BOOST_AUTO_TEST_CASE(ale_metric_three_stages_2500_m) {
  compare("plateau-porter", "ale, metric, three stages, 2500 m");
}
BOOST_AUTO_TEST_CASE(lager_us_one_stage_sea_level) {
  compare("harbour-lager", "lager, US, one stage, sea level");
}
