#include "command/write_file.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdlib>
#include <filesystem>
#include <system_error>

namespace starter {
namespace {

std::string in_words(int reason) {
  if (reason == EACCES || reason == EPERM || reason == EROFS) return "you may not write there";
  if (reason == ENOENT) return "there is no such folder";
  if (reason == ENOTDIR) return "a part of this path is a file, not a folder";
  return std::generic_category().message(reason);
}

/// 0, or the reason why not.
int write_all(int fd, std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t written = write(fd, bytes.data(), bytes.size());
    if (written < 0 && errno == EINTR) continue;
    if (written < 0) return errno;
    bytes.remove_prefix(static_cast<std::size_t>(written));
  }
  return 0;
}

/// \return 0, or the reason why not
int write_and_close(int fd, std::string_view bytes, bool keep) {
  int reason = write_all(fd, bytes);
  if (reason == 0 && keep && fsync(fd) != 0) reason = errno;
  if (close(fd) != 0 && reason == 0) reason = errno;
  return reason;
}

std::optional<std::string> write_into(const std::string& name, std::string_view bytes) {
  const int fd = open(name.c_str(), O_WRONLY | O_CLOEXEC | O_NOCTTY);
  const int reason = fd < 0 ? errno : write_and_close(fd, bytes, false);
  return reason == 0 ? std::nullopt : std::optional(in_words(reason));
}

/// What a file made by the shell would be allowed to whom; that of the file it replaces if any.
mode_t mode_for(const struct stat* old) {
  if (old != nullptr) return old->st_mode & 07777;
  const mode_t mask = umask(0);
  umask(mask);
  return 0666 & ~mask;
}

std::optional<std::string> write_beside(const std::string& name, std::string_view bytes,
                                        const struct stat* old) {
  std::string beside = name + ".XXXXXX";
  const int fd = mkostemp(beside.data(), O_CLOEXEC);
  if (fd < 0) return in_words(errno);
  int reason = fchmod(fd, mode_for(old)) != 0 ? errno : 0;
  const int written = write_and_close(fd, bytes, true);
  if (reason == 0) reason = written;
  if (reason == 0 && rename(beside.c_str(), name.c_str()) != 0) reason = errno;
  if (reason == 0) return std::nullopt;
  unlink(beside.c_str());
  return in_words(reason);
}

}  // namespace

std::optional<std::string> write_file(const std::string& name, std::string_view bytes) {
  if (name.empty()) return "its name is empty";
  struct stat seen {};
  const bool there = stat(name.c_str(), &seen) == 0;
  if (!there) {
    if (errno != ENOENT) return in_words(errno);
    return write_beside(name, bytes, nullptr);
  }
  if (S_ISDIR(seen.st_mode)) return "it is a folder; name a file in it";
  if (!S_ISREG(seen.st_mode)) return write_into(name, bytes);
  if (access(name.c_str(), W_OK) != 0) return in_words(errno);
  std::error_code problem;
  const auto real = std::filesystem::canonical(name, problem);
  return write_beside(problem ? name : real.string(), bytes, &seen);
}

bool same_file(const std::string& a, const std::string& b) {
  struct stat x {
  }, y{};
  return stat(a.c_str(), &x) == 0 && stat(b.c_str(), &y) == 0 && x.st_dev == y.st_dev &&
         x.st_ino == y.st_ino;
}

}  // namespace starter
