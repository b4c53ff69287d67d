#include "command/plan_names.h"

#include <sys/stat.h>

#include <filesystem>
#include <string_view>

namespace starter {

std::string plan_stem(const std::string& name) {
  std::string stem = name == "-" ? "plan" : std::filesystem::path(name).filename().string();
  for (const std::string_view ending : {".json", ".plan"})
    if (stem.size() > ending.size() && stem.ends_with(ending))
      stem.resize(stem.size() - ending.size());
  return stem;
}

std::string StemsOnce::of(const std::string& name) {
  const std::string stem = plan_stem(name);
  std::string unique = stem;
  for (int k = 2; !taken_.insert(unique).second; ++k) unique = stem + "-" + std::to_string(k);
  return unique;
}

bool is_folder(const std::string& name) {
  struct stat seen {};
  return stat(name.c_str(), &seen) == 0 && S_ISDIR(seen.st_mode);
}

}  // namespace starter
