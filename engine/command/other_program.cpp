#include "command/other_program.h"

#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstdlib>
#include <utility>

namespace starter {
namespace {

using Clock = std::chrono::steady_clock;

constexpr std::size_t most_error = 8192;  ///< bytes of its last complaints that are kept

class Descriptor {
 public:
  explicit Descriptor(int fd = -1) : fd_(fd) {}
  Descriptor(Descriptor&& other) noexcept : fd_(std::exchange(other.fd_, -1)) {}
  Descriptor& operator=(Descriptor&& other) noexcept {
    std::swap(fd_, other.fd_);
    return *this;
  }
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  ~Descriptor() { close_now(); }
  int get() const { return fd_; }
  bool open() const { return fd_ >= 0; }
  void close_now() {
    if (fd_ >= 0) close(fd_);
    fd_ = -1;
  }

 private:
  int fd_;
};

struct Pipe {
  Descriptor read, write;
  bool made() {
    std::array<int, 2> ends{};
    // Past the first three, so that laying them there below can never close one of them.
    if (pipe2(ends.data(), O_CLOEXEC) != 0) return false;
    read = Descriptor(fcntl(ends[0], F_DUPFD_CLOEXEC, 3));
    write = Descriptor(fcntl(ends[1], F_DUPFD_CLOEXEC, 3));
    close(ends[0]);
    close(ends[1]);
    return read.open() && write.open();
  }
};

std::vector<char*> pointers(std::vector<std::string>& strings) {
  std::vector<char*> all;
  all.reserve(strings.size() + 1);
  for (std::string& s : strings) all.push_back(s.data());
  all.push_back(nullptr);
  return all;
}

/// What the child does between fork and exec: only calls that are safe there.
[[noreturn]] void become(char* const* words, char* const* environment, int in, int out, int error,
                         int trouble) {
  setpgid(0, 0);
  signal(SIGPIPE, SIG_DFL);
  if (dup2(in, 0) >= 0 && dup2(out, 1) >= 0 && dup2(error, 2) >= 0 && chdir("/") == 0)
    execve(words[0], words, environment);
  const int reason = errno;
  [[maybe_unused]] const ssize_t told = write(trouble, &reason, sizeof reason);
  _exit(127);
}

void take(Descriptor& from, std::string& into) {
  std::array<char, 65536> piece{};
  const ssize_t got = read(from.get(), piece.data(), piece.size());
  if (got > 0)
    into.append(piece.data(), static_cast<std::size_t>(got));
  else if (got == 0 || (errno != EINTR && errno != EAGAIN))
    from.close_now();
}

void give(Descriptor& to, std::string_view& rest) {
  const ssize_t gone = write(to.get(), rest.data(), rest.size());
  if (gone > 0)
    rest.remove_prefix(static_cast<std::size_t>(gone));
  else if (gone < 0 && errno != EINTR && errno != EAGAIN)
    rest = {};  // it has stopped reading
  if (rest.empty()) to.close_now();
}

/// Feeds and listens until the program has closed both its outputs; false when a limit is passed.
bool converse(Descriptor in, Descriptor out, Descriptor error, std::string_view input,
              const ProgramLimits& limits, ProgramRun& run, Clock::time_point until) {
  for (Descriptor* fd : {&in, &out, &error})
    fcntl(fd->get(), F_SETFL, fcntl(fd->get(), F_GETFL) | O_NONBLOCK);
  if (input.empty()) in.close_now();
  while (out.open() || error.open()) {
    const auto left = std::chrono::duration_cast<std::chrono::milliseconds>(until - Clock::now());
    if (left.count() <= 0) {
      run.end = ProgramRun::End::too_slow;
      return false;
    }
    std::array<pollfd, 3> waits = {
        {{in.get(), POLLOUT, 0}, {out.get(), POLLIN, 0}, {error.get(), POLLIN, 0}}};
    const auto longest = std::min<long long>(left.count() + 1, 60'000);
    if (poll(waits.data(), waits.size(), static_cast<int>(longest)) < 0 && errno != EINTR) break;
    if (in.open() && waits[0].revents != 0) give(in, input);
    if (out.open() && waits[1].revents != 0) take(out, run.out);
    if (error.open() && waits[2].revents != 0) take(error, run.error);
    if (run.error.size() > most_error) run.error.erase(0, run.error.size() - most_error);
    if (run.out.size() > limits.most_out) {
      run.end = ProgramRun::End::too_much;
      return false;
    }
  }
  return true;
}

/// Waits for the end of a program that has closed its outputs; false when that takes too long.
bool reaped(pid_t child, int& status, Clock::time_point until) {
  while (Clock::now() < until) {
    const pid_t got = waitpid(child, &status, WNOHANG);
    if (got == child) return true;
    if (got < 0 && errno != EINTR) return true;
    constexpr timespec moment = {0, 5'000'000};
    nanosleep(&moment, nullptr);
  }
  return false;
}

}  // namespace

std::optional<std::string> program_on_path(std::string_view name) {
  const char* path = std::getenv("PATH");
  if (path == nullptr || name.empty() || name.find('/') != std::string_view::npos)
    return std::nullopt;
  std::string_view rest = path;
  while (!rest.empty()) {
    const std::size_t end = std::min(rest.find(':'), rest.size());
    const std::string file = std::string(rest.substr(0, end)) + "/" + std::string(name);
    rest.remove_prefix(std::min(end + 1, rest.size()));
    struct stat seen {};
    if (file.front() == '/' && file.size() > name.size() + 1 && stat(file.c_str(), &seen) == 0 &&
        S_ISREG(seen.st_mode) && access(file.c_str(), X_OK) == 0)
      return file;
  }
  return std::nullopt;
}

ProgramRun run_program(const std::vector<std::string>& words,
                       const std::vector<std::string>& environment, std::string_view input,
                       const ProgramLimits& limits) {
  ProgramRun run;
  const auto not_started = [&run](int reason) {
    run.end = ProgramRun::End::not_started;
    run.code = reason;
    return run;
  };
  if (words.empty()) return not_started(EINVAL);
  const auto until = Clock::now() + limits.time;
  Pipe in, out, error, trouble;
  if (!in.made() || !out.made() || !error.made() || !trouble.made()) return not_started(errno);
  std::vector<std::string> words_here = words, names_here = environment;
  const std::vector<char*> word_pointers = pointers(words_here);
  const std::vector<char*> name_pointers = pointers(names_here);
  const pid_t child = fork();
  if (child < 0) return not_started(errno);
  if (child == 0)
    become(word_pointers.data(), name_pointers.data(), in.read.get(), out.write.get(),
           error.write.get(), trouble.write.get());
  setpgid(child, child);  // here too, so that it holds whoever comes first
  in.read.close_now();
  out.write.close_now();
  error.write.close_now();
  trouble.write.close_now();

  // A write to a program that has gone is an error to be met, not a signal that ends this one.
  struct sigaction ignore {
  }, before{};
  ignore.sa_handler = SIG_IGN;
  sigaction(SIGPIPE, &ignore, &before);
  const bool heard = converse(std::move(in.write), std::move(out.read), std::move(error.read),
                              input, limits, run, until);
  sigaction(SIGPIPE, &before, nullptr);

  int status = 0;
  if (!heard || !reaped(child, status, until)) {
    if (heard) run.end = ProgramRun::End::too_slow;
    kill(-child, SIGKILL);
    kill(child, SIGKILL);
    while (waitpid(child, &status, 0) < 0 && errno == EINTR) {
    }
    return run;
  }
  int reason = 0;
  if (read(trouble.read.get(), &reason, sizeof reason) == static_cast<ssize_t>(sizeof reason))
    return not_started(reason);
  run.end = WIFEXITED(status) ? ProgramRun::End::exited : ProgramRun::End::killed;
  run.code = WIFEXITED(status) ? WEXITSTATUS(status) : WTERMSIG(status);
  return run;
}

}  // namespace starter
