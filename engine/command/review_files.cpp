#include "command/review_files.h"

#include <sys/stat.h>

#include <algorithm>
#include <cerrno>
#include <deque>
#include <filesystem>
#include <set>
#include <string_view>
#include <system_error>
#include <utility>

namespace starter {
namespace {

namespace fs = std::filesystem;

using Identity = std::pair<dev_t, ino_t>;

std::optional<Identity> identity_of(const std::string& path) {
  struct stat seen {};
  if (stat(path.c_str(), &seen) != 0) return std::nullopt;
  return Identity(seen.st_dev, seen.st_ino);
}

bool named_as_plan(std::string_view name) {
  return name == "plan.json" || name.ends_with(".plan.json");
}

/// A folder that waits to be looked into.
struct Waiting {
  std::string path, name;
};

class Walk {
 public:
  explicit Walk(const std::string& skipped) {
    if (const auto identity = identity_of(skipped)) seen_.insert(*identity);
  }

  std::vector<FoundPlan> below(const std::string& folder) {
    look_into({folder, ""});
    while (!waiting_.empty() || !linked_.empty()) {
      // Links come last, so that a folder is known by its own name.
      auto& from = waiting_.empty() ? linked_ : waiting_;
      const Waiting next = std::move(from.front());
      from.pop_front();
      look_into(next);
    }
    std::sort(found_.begin(), found_.end(),
              [](const FoundPlan& a, const FoundPlan& b) { return a.name < b.name; });
    return std::move(found_);
  }

 private:
  void problem(const std::string& path, const std::string& name, std::string says) {
    found_.push_back({path, name, PlanError{"", 0, std::move(says), ""}});
  }

  void look_into(const Waiting& folder) {
    const auto identity = identity_of(folder.path);
    if (identity && !seen_.insert(*identity).second) return;
    std::error_code reason;
    std::vector<std::string> names;
    fs::directory_iterator entry(folder.path, reason), end;
    while (!reason && entry != end) {
      names.push_back(entry->path().filename().string());
      entry.increment(reason);
    }
    if (reason)
      problem(folder.path, folder.name,
              reason == std::errc::permission_denied
                  ? "you may not look into this folder; its owner can allow it"
                  : "this folder cannot be looked into: " + reason.message());
    std::sort(names.begin(), names.end());
    for (const std::string& name : names)
      take((fs::path(folder.path) / name).string(),
           folder.name.empty() ? name : folder.name + "/" + name, name);
  }

  void take(const std::string& path, const std::string& name, const std::string& file) {
    struct stat link {
    }, seen{};
    if (lstat(path.c_str(), &link) != 0) return;  // gone since the folder was listed
    const bool there = stat(path.c_str(), &seen) == 0;
    if (there && S_ISDIR(seen.st_mode)) {
      (S_ISLNK(link.st_mode) ? linked_ : waiting_).push_back({path, name});
      return;
    }
    if (!named_as_plan(file)) return;
    if (!there)
      problem(path, name, "this is a link to a file that is not there");
    else if (!S_ISREG(seen.st_mode))
      problem(path, name, "this is a pipe, a device or a socket, not a plan file");
    else
      found_.push_back({path, name, std::nullopt});
  }

  std::deque<Waiting> waiting_, linked_;
  std::set<Identity> seen_;
  std::vector<FoundPlan> found_;
};

}  // namespace

std::vector<FoundPlan> find_plans(const std::string& folder, const std::string& skipped) {
  return Walk(skipped).below(folder);
}

}  // namespace starter
