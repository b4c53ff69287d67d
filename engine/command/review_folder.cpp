#include "command/review_folder.h"

#include <fcntl.h>
#include <linux/fs.h>
#include <stdio.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdlib>
#include <filesystem>
#include <system_error>
#include <utility>

#include "command/digest.h"
#include "command/files.h"
#include "output/characters.h"
#include "output/json.h"

namespace starter {
namespace {

namespace fs = std::filesystem;

constexpr int manifest_version = 1;

std::string reason_of(int reason) {
  return std::generic_category().message(reason);
}

bool exists(const std::string& path) {
  struct stat seen {};
  return lstat(path.c_str(), &seen) == 0;
}

/// Whether `inner` is `outer` or lies below it. \pre both are canonical
bool within(const fs::path& inner, const fs::path& outer) {
  auto a = inner.begin();
  for (auto b = outer.begin(); b != outer.end(); ++b, ++a) {
    if (b->empty()) continue;  // of a trailing slash
    if (a == inner.end() || *a != *b) return false;
  }
  return true;
}

/// "/clubs/.review.new-", which a folder in the making begins with.
std::string prefix_of(const std::string& out) {
  const fs::path path(out);
  return "." + path.filename().string() + ".new-";
}

/// The folder held, or −1 when another process holds it or it is gone.
int hold(const std::string& folder) {
  const int fd = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC | O_NOFOLLOW);
  if (fd < 0) return -1;
  if (flock(fd, LOCK_EX | LOCK_NB) == 0) return fd;
  close(fd);
  return -1;
}

/// Clears away what a killed run left beside `out`. Where that run had moved the old review out of
/// the way and no more, a whole one is put back first.
void clear_leftovers(const std::string& out) {
  const fs::path parent = fs::path(out).parent_path();
  const std::string prefix = prefix_of(out);
  std::error_code reason;
  std::vector<std::string> left;
  fs::directory_iterator entry(parent, reason), end;
  while (!reason && entry != end) {
    if (entry->path().filename().string().starts_with(prefix))
      left.push_back(entry->path().string());
    entry.increment(reason);
  }
  for (const std::string& folder : left) {
    const int held = hold(folder);
    if (held < 0) continue;
    if (exists(out) || !read_manifest(folder) || rename(folder.c_str(), out.c_str()) != 0)
      fs::remove_all(folder, reason);
    close(held);
  }
}

/// What stands in a review's folder and is no part of it; empty when nothing is.
std::string foreign_file(const std::string& folder, const Manifest& manifest) {
  std::error_code reason;
  fs::recursive_directory_iterator entry(folder, reason), end;
  while (!reason && entry != end) {
    const std::string name = fs::path(entry->path()).lexically_relative(folder).string();
    const bool ours =
        name == manifest_file || manifest.files.count(name) > 0 ||
        (name == "sheets" && entry->is_directory(reason) && !entry->is_symlink(reason));
    if (!ours) return name;
    entry.increment(reason);
  }
  return "";
}

/// Why `out` may not be replaced; empty when it may.
std::string refusal(const std::string& out, const std::string& plans) {
  std::error_code reason;
  const fs::path below = fs::canonical(plans, reason);
  if (!reason && within(below, out))
    return "contains the plans; the review needs a folder of its own, beside them or in them";
  struct stat seen {};
  if (stat(out.c_str(), &seen) != 0) return "";
  if (!S_ISDIR(seen.st_mode)) return "is a file, not a folder";
  if (fs::is_empty(out, reason)) return "";
  if (reason) return "cannot be looked into: " + reason.message();
  const auto manifest = read_manifest(out);
  if (!manifest)
    return "is no review that this program made; it is left alone. Name another folder";
  const std::string foreign = foreign_file(out, *manifest);
  if (!foreign.empty())
    return "holds “" + visible(foreign) +
           "”, which is no part of the review; move that elsewhere, or name another folder";
  return "";
}

/// 0, or the reason why not.
int write_new(const std::string& path, std::string_view bytes) {
  const int fd = ::open(path.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC | O_NOFOLLOW, 0666);
  if (fd < 0) return errno;
  int reason = 0;
  while (!bytes.empty() && reason == 0) {
    const ssize_t written = ::write(fd, bytes.data(), bytes.size());
    if (written >= 0)
      bytes.remove_prefix(static_cast<std::size_t>(written));
    else if (errno != EINTR)
      reason = errno;
  }
  if (close(fd) != 0 && reason == 0) reason = errno;
  return reason;
}

/// Both names at once where the file system can, else one after the other. 0, or why not.
int change_places(const std::string& folder, const std::string& out) {
  if (renameat2(AT_FDCWD, folder.c_str(), AT_FDCWD, out.c_str(), RENAME_EXCHANGE) == 0) return 0;
  if (errno == ENOENT) return rename(folder.c_str(), out.c_str()) == 0 ? 0 : errno;
  if (errno != EINVAL && errno != ENOSYS) return errno;
  // A run that is killed between these two lines leaves the old review beside its place, from where
  // the next run puts it back.
  const std::string aside = folder + "-old";
  if (rename(out.c_str(), aside.c_str()) != 0) return errno;
  if (rename(folder.c_str(), out.c_str()) != 0) {
    const int reason = errno;
    rename(aside.c_str(), out.c_str());
    return reason;
  }
  return rename(aside.c_str(), folder.c_str()) == 0 ? 0 : errno;
}

Json manifest_json(const Manifest& manifest) {
  Json out;
  out["starter_plan_review"] = manifest_version;
  out["made_from"] = manifest.made_from;
  out["files"] = Json::object();
  for (const auto& [name, digest] : manifest.files) out["files"][name] = digest;
  return out;
}

}  // namespace

std::optional<Manifest> read_manifest(const std::string& folder) {
  const auto bytes = read_whole((fs::path(folder) / manifest_file).string());
  if (!bytes) return std::nullopt;
  try {
    const Json document = Json::parse(*bytes);
    if (document.at("starter_plan_review") != manifest_version) return std::nullopt;
    Manifest manifest;
    manifest.made_from = document.at("made_from").get<std::vector<std::string>>();
    for (const auto& [name, digest] : document.at("files").items())
      manifest.files[name] = digest.get<std::string>();
    return manifest;
  } catch (const Json::exception&) {
    return std::nullopt;
  }
}

std::variant<std::unique_ptr<ReviewFolder>, std::string> ReviewFolder::open(
    const std::string& out, const std::string& plans) {
  std::error_code reason;
  fs::path path = fs::weakly_canonical(fs::absolute(out, reason), reason);
  if (!path.has_filename()) path = path.parent_path();  // of a trailing slash
  if (reason) return "cannot be used: " + reason.message();
  if (!path.has_filename()) return "is the root of the file system; name a folder";
  const std::string place = path.string();
  if (!fs::is_directory(path.parent_path(), reason))
    return "cannot be made: there is no folder “" + visible(path.parent_path().string()) + "”";
  clear_leftovers(place);
  if (const std::string no = refusal(place, plans); !no.empty()) return no;
  std::string folder = (path.parent_path() / (prefix_of(place) + "XXXXXX")).string();
  if (mkdtemp(folder.data()) == nullptr)
    return "cannot be written: " + (errno == EACCES || errno == EROFS
                                        ? std::string("you may not write beside it")
                                        : reason_of(errno));
  const int lock = hold(folder);
  const mode_t mask = umask(0);
  umask(mask);
  chmod(folder.c_str(), 0777 & ~mask);
  std::unique_ptr<ReviewFolder> made(new ReviewFolder(place, folder, lock));
  if (mkdir((folder + "/sheets").c_str(), 0777) != 0)
    return "cannot be written: " + reason_of(errno);
  return made;
}

ReviewFolder::~ReviewFolder() {
  std::error_code ignored;
  if (!published_) fs::remove_all(folder_, ignored);
  if (lock_ >= 0) close(lock_);
}

std::optional<std::string> ReviewFolder::write(const std::string& name,
                                               std::string_view bytes) const {
  const int reason = write_new(folder_ + "/" + name, bytes);
  return reason == 0 ? std::nullopt : std::optional(reason_of(reason));
}

void ReviewFolder::drop(const std::string& name) const {
  unlink((folder_ + "/" + name).c_str());
}

bool ReviewFolder::keep(const std::string& old_name, const std::string& name) const {
  const std::string from = out_ + "/" + old_name, to = folder_ + "/" + name;
  if (link(from.c_str(), to.c_str()) == 0) return true;
  const auto bytes = read_whole(from);  // a file system without hard links
  return bytes && write_new(to, *bytes) == 0;
}

std::optional<std::string> ReviewFolder::publish(const Manifest& manifest) {
  if (const auto problem = write(std::string(manifest_file), json_text(manifest_json(manifest))))
    return problem;
  // All of it is on the disk before any of it is in place.
  if (lock_ >= 0) syncfs(lock_);
  const bool replaces = exists(out_);
  const int reason = replaces                                     ? change_places(folder_, out_)
                     : rename(folder_.c_str(), out_.c_str()) == 0 ? 0
                                                                  : errno;
  if (reason != 0) return reason_of(reason);
  published_ = true;
  std::error_code ignored;
  if (replaces) fs::remove_all(folder_, ignored);
  return std::nullopt;
}

}  // namespace starter
