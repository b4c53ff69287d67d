#include "command/terminal.h"

#include <sys/ioctl.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstdlib>
#include <string>
#include <system_error>

namespace starter {
namespace {

constexpr std::size_t piped_width = 80;
constexpr std::size_t widest = 100;
constexpr std::size_t narrowest = 20;

/// 0 when all is written, else the reason why not.
int write_all(int fd, std::string_view text) {
  while (!text.empty()) {
    const ssize_t written = ::write(fd, text.data(), text.size());
    if (written < 0) {
      if (errno == EINTR) continue;
      return errno;
    }
    text.remove_prefix(static_cast<std::size_t>(written));
  }
  return 0;
}

bool is_set(const char* name) {
  const char* value = std::getenv(name);
  return value != nullptr && *value != '\0';
}

std::size_t width_of(int fd) {
  winsize size{};
  if (ioctl(fd, TIOCGWINSZ, &size) != 0 || size.ws_col == 0) return piped_width;
  return std::clamp<std::size_t>(size.ws_col, narrowest, widest);
}

}  // namespace

Look look_of(Stream stream, UnitSystem units) {
  const int fd = stream == Stream::out ? STDOUT_FILENO : STDERR_FILENO;
  Look look;
  look.units = units;
  if (!isatty(fd)) return look;
  const char* term = std::getenv("TERM");
  look.width = width_of(fd);
  look.colour = !is_set("NO_COLOR") && term != nullptr && std::string_view(term) != "dumb";
  return look;
}

bool Output::write(std::string_view text) {
  if (!open_) return false;
  const int reason = write_all(STDOUT_FILENO, text);
  if (reason == 0) return true;
  open_ = false;
  if (reason != EPIPE) {  // `| head` has seen enough; that is no failure
    failed_ = true;
    complain("starter-plan: the output could not be written: " +
             std::generic_category().message(reason) + "\n");
  }
  return false;
}

void complain(std::string_view text) {
  write_all(STDERR_FILENO, text);
}

}  // namespace starter
