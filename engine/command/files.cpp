#include "command/files.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <optional>
#include <string>
#include <string_view>
#include <system_error>
#include <vector>

#include "quantity/words.h"

namespace starter {
namespace {

constexpr std::size_t most_read = largest_plan + 1;
constexpr std::string_view plan_file = "plan file";

/// Closes the descriptor it holds.
class Descriptor {
 public:
  explicit Descriptor(int fd) : fd_(fd) {}
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  ~Descriptor() {
    if (fd_ >= 0) close(fd_);
  }
  int get() const { return fd_; }

 private:
  int fd_;
};

PlanError refused(std::string says, std::string write = "") {
  return {"", 0, std::move(says), std::move(write)};
}

/// The file of that folder whose name is nearest to the one asked for.
std::string nearest_file(const std::string& name) {
  const std::filesystem::path path(name);
  const std::filesystem::path folder = path.has_parent_path() ? path.parent_path() : ".";
  constexpr std::size_t most_looked_at = 2000;
  std::vector<std::string> names;
  std::error_code problem;
  std::filesystem::directory_iterator entry(folder, problem), end;
  while (!problem && entry != end && names.size() < most_looked_at) {
    names.push_back(entry->path().filename().string());
    entry.increment(problem);
  }
  const std::vector<std::string_view> views(names.begin(), names.end());
  const auto nearest = nearest_word(path.filename().string(), views);
  if (!nearest) return "";
  return path.has_parent_path() ? (path.parent_path() / *nearest).string() : *nearest;
}

PlanError not_opened(const std::string& name, int reason) {
  if (name.empty()) return refused("the name of the file is empty", "a file name");
  if (reason == ENOENT) return refused("there is no file of this name", nearest_file(name));
  if (reason == EACCES || reason == EPERM)
    return refused("you may not read this file; its owner can allow it");
  if (reason == ENOTDIR) return refused("a part of this path is a file, not a folder");
  return refused("the file cannot be opened: " + std::generic_category().message(reason));
}

/// Why this kind of thing is no plan, or what else it is to be; nothing when it may be one.
std::optional<PlanError> wrong_kind(const std::string& name, mode_t mode, std::string_view what) {
  const std::string wanted(what);
  if (S_ISDIR(mode) && what != plan_file) return refused("this is a folder, not a " + wanted);
  if (S_ISDIR(mode))
    return refused("this is a folder; name the plan files in it",
                   (std::filesystem::path(name) / "*.plan.json").string());
  if (!S_ISREG(mode) && !S_ISFIFO(mode))
    return refused("this is a device or a socket, not a " + wanted);
  return std::nullopt;
}

FileResult read_all(int fd) {
  std::string bytes;
  std::vector<char> piece(1 << 16);
  while (bytes.size() < most_read) {
    const std::size_t wanted = std::min(piece.size(), most_read - bytes.size());
    const ssize_t got = read(fd, piece.data(), wanted);
    if (got == 0) break;
    if (got < 0) {
      if (errno == EINTR) continue;
      return refused("the file cannot be read: " + std::generic_category().message(errno));
    }
    bytes.append(piece.data(), static_cast<std::size_t>(got));
  }
  if (bytes.size() > largest_plan)
    return refused("this is larger than " + std::to_string(largest_plan / 1024) +
                   " kB, the most that a plan can be");
  return bytes;
}

}  // namespace

std::optional<std::string> read_whole(const std::string& name) {
  std::ifstream file(name, std::ios::binary);
  if (!file) return std::nullopt;
  std::string bytes{std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
  return file.bad() ? std::nullopt : std::optional(std::move(bytes));
}

std::string spoken_name(const std::string& name) {
  return name == "-" ? "standard input" : name.empty() ? "“”" : name;
}

FileResult read_file(const std::string& name, std::string_view what) {
  if (name == "-") {
    struct stat input {};
    if (fstat(STDIN_FILENO, &input) == 0 && S_ISDIR(input.st_mode))
      return refused("standard input is a folder, not a plan");
    return read_all(STDIN_FILENO);
  }
  // Looked at before it is opened, since opening some devices does something.
  struct stat seen {};
  if (stat(name.c_str(), &seen) != 0) return not_opened(name, errno);
  if (auto wrong = wrong_kind(name, seen.st_mode, what)) return *wrong;
  // Not blocking, so that a pipe without a writer does not hang the program.
  const Descriptor file(open(name.c_str(), O_RDONLY | O_CLOEXEC | O_NOCTTY | O_NONBLOCK));
  if (file.get() < 0) return not_opened(name, errno);
  struct stat opened {};
  if (fstat(file.get(), &opened) != 0) return not_opened(name, errno);
  if (auto wrong = wrong_kind(name, opened.st_mode, what)) return *wrong;
  const int flags = fcntl(file.get(), F_GETFL);
  if (flags >= 0) fcntl(file.get(), F_SETFL, flags & ~O_NONBLOCK);
  return read_all(file.get());
}

}  // namespace starter
