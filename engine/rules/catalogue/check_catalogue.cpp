// Run at build: check-catalogue CAUTIONS RULE... names every fault of every rule file.

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>
#include <set>
#include <string>

#include "rules/rule_file.h"

namespace {

std::string bytes_of(const char* path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

int tell(const std::filesystem::path& file, const std::string& fault) {
  std::cerr << file.filename().string() << ": " << fault << '\n';
  return 1;
}

}  // namespace

int main(int count, char** arguments) {
  if (count < 3) {
    std::cerr << "usage: check-catalogue CAUTIONS RULE...\n";
    return 2;
  }
  int faults = 0;
  const starter::CautionFile cautions = starter::read_cautions(bytes_of(arguments[1]));
  for (const auto& fault : cautions.faults) faults += tell(arguments[1], fault);

  std::set<std::string> ids;
  for (int i = 2; i < count; ++i) ids.insert(std::filesystem::path(arguments[i]).stem().string());
  for (int i = 2; i < count; ++i) {
    const std::filesystem::path path = arguments[i];
    const starter::RuleFile file = starter::read_rule(bytes_of(arguments[i]));
    for (const auto& fault : file.faults) faults += tell(path, fault);
    if (file.rule.id != path.stem().string()) faults += tell(path, "its id is not its file's name");
    for (const auto& id : file.rule.yields_to)
      if (ids.count(id) == 0) faults += tell(path, "yields to unknown rule “" + id + "”");
    for (const auto& id : file.rule.cautions)
      if (std::none_of(cautions.cautions.begin(), cautions.cautions.end(),
                       [&](const starter::Caution& c) { return c.id == id; }))
        faults += tell(path, "unknown caution “" + id + "”");
  }
  return faults == 0 ? 0 : 1;
}
