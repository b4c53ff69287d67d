#include "command/workers.h"

#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <sys/prctl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <chrono>
#include <cstdint>
#include <cstring>
#include <exception>
#include <optional>
#include <system_error>
#include <utility>
#include <vector>

namespace starter {
namespace {

using Clock = std::chrono::steady_clock;
constexpr auto longest = std::chrono::minutes(5);
constexpr int look_every = 1000;  // milliseconds

bool write_all(int fd, const void* data, std::size_t size) {
  const char* from = static_cast<const char*>(data);
  while (size > 0) {
    const ssize_t written = ::write(fd, from, size);
    if (written < 0 && errno == EINTR) continue;
    if (written <= 0) return false;
    from += written;
    size -= static_cast<std::size_t>(written);
  }
  return true;
}

bool read_all(int fd, void* data, std::size_t size) {
  char* into = static_cast<char*>(data);
  while (size > 0) {
    const ssize_t got = read(fd, into, size);
    if (got < 0 && errno == EINTR) continue;
    if (got <= 0) return false;
    into += got;
    size -= static_cast<std::size_t>(got);
  }
  return true;
}

/// What goes before the bytes of a result.
struct Header {
  std::uint64_t size = 0;
  std::uint64_t threw = 0;
};

/// What a worker does until there is no more to do.
[[noreturn]] void serve(int tasks, int results,
                        const std::function<std::string(std::size_t)>& work) {
  std::uint64_t task = 0;
  while (read_all(tasks, &task, sizeof task)) {
    Header header;
    std::string bytes;
    try {
      bytes = work(static_cast<std::size_t>(task));
    } catch (const std::exception& problem) {
      header.threw = 1;
      bytes = problem.what();
    }
    header.size = bytes.size();
    if (!write_all(results, &header, sizeof header) ||
        !write_all(results, bytes.data(), bytes.size()))
      break;
  }
  _exit(0);
}

struct Worker {
  pid_t process = -1;
  int tasks = -1, results = -1;
  std::optional<std::size_t> task;
  Clock::time_point since;
  std::string came;  ///< of the result, so far

  bool runs() const { return process > 0; }
};

std::string how_it_ended(int status) {
  if (WIFSIGNALED(status)) {
    const int signal = WTERMSIG(status);
    const char* name = sigabbrev_np(signal);
    return "was ended by the system while it judged this plan (signal " + std::to_string(signal) +
           (name ? ", SIG" + std::string(name) : "") + ")";
  }
  return "ended while it judged this plan (code " + std::to_string(WEXITSTATUS(status)) + ")";
}

class Pool {
 public:
  Pool(std::span<const std::size_t> tasks, int jobs,
       const std::function<std::string(std::size_t)>& work,
       const std::function<void(std::size_t, Outcome)>& done)
      : tasks_(tasks), work_(work), done_(done) {
    const std::size_t most = std::min(tasks.size(), static_cast<std::size_t>(std::max(jobs, 1)));
    workers_.resize(most);
  }
  Pool(const Pool&) = delete;
  Pool& operator=(const Pool&) = delete;
  ~Pool() {
    for (Worker& worker : workers_) end(worker);
  }

  void run() {
    for (Worker& worker : workers_) give_next(worker);
    while (std::any_of(workers_.begin(), workers_.end(),
                       [](const Worker& w) { return w.task.has_value(); }))
      look();
  }

 private:
  /// \return 0, or the reason why there is no new process
  int start(Worker& worker) {
    std::array<int, 2> to{-1, -1}, from{-1, -1};
    if (pipe2(to.data(), O_CLOEXEC) != 0) return errno;
    if (pipe2(from.data(), O_CLOEXEC) != 0) {
      const int reason = errno;
      close(to[0]);
      close(to[1]);
      return reason;
    }
    const pid_t parent = getpid();
    const pid_t process = fork();
    if (process == 0) {
      prctl(PR_SET_PDEATHSIG, SIGKILL);
      if (getppid() != parent) _exit(0);
      for (const Worker& other : workers_)
        for (const int fd : {other.tasks, other.results})
          if (fd >= 0) close(fd);
      close(to[1]);
      close(from[0]);
      serve(to[0], from[1], work_);
    }
    const int reason = process < 0 ? errno : 0;
    close(to[0]);
    close(from[1]);
    if (reason != 0) {
      close(to[1]);
      close(from[0]);
      return reason;
    }
    worker = {};
    worker.process = process;
    worker.tasks = to[1];
    worker.results = from[0];
    return 0;
  }

  /// Closes the pipes, at which an idle worker ends, and waits for it. \return how it ended
  int end(Worker& worker) {
    if (!worker.runs()) return 0;
    close(worker.tasks);
    close(worker.results);
    int status = 0;
    while (waitpid(worker.process, &status, 0) < 0 && errno == EINTR) {
    }
    worker = {};
    return status;
  }

  void give_next(Worker& worker) {
    while (next_ < tasks_.size()) {
      const std::size_t task = tasks_[next_++];
      if (!worker.runs())
        if (const int reason = start(worker); reason != 0) {
          done_(task, WorkerDeath{"could not start a process for this plan: " +
                                  std::generic_category().message(reason)});
          continue;
        }
      worker.task = task;
      worker.since = Clock::now();
      const std::uint64_t number = task;
      if (write_all(worker.tasks, &number, sizeof number)) return;
      lose(worker);
    }
    end(worker);
  }

  /// The worker is gone, and the task it had with it.
  void lose(Worker& worker, const char* why = nullptr) {
    const std::size_t task = *worker.task;
    const int status = end(worker);
    done_(task, WorkerDeath{why ? why : how_it_ended(status)});
  }

  void look() {
    std::vector<pollfd> ends;
    std::vector<std::size_t> whose;
    for (std::size_t i = 0; i < workers_.size(); ++i)
      if (workers_[i].task) {
        ends.push_back({workers_[i].results, POLLIN, 0});
        whose.push_back(i);
      }
    const int ready = poll(ends.data(), ends.size(), look_every);
    for (std::size_t k = 0; k < ends.size(); ++k) {
      Worker& worker = workers_[whose[k]];
      if (ready > 0 && ends[k].revents != 0)
        take(worker);
      else if (Clock::now() - worker.since > longest)
        give_up(worker);
    }
  }

  void give_up(Worker& worker) {
    kill(worker.process, SIGKILL);
    lose(worker, "gave up on this plan: it took longer than 5 minutes");
    give_next(worker);
  }

  /// What has come of a result; the next task when it is whole.
  void take(Worker& worker) {
    std::array<char, 1 << 16> piece{};
    const ssize_t got = read(worker.results, piece.data(), piece.size());
    if (got < 0 && errno == EINTR) return;
    if (got <= 0) {
      lose(worker);
      give_next(worker);
      return;
    }
    worker.came.append(piece.data(), static_cast<std::size_t>(got));
    Header header;
    if (worker.came.size() < sizeof header) return;
    std::memcpy(&header, worker.came.data(), sizeof header);
    if (worker.came.size() < sizeof header + header.size) return;
    std::string bytes = worker.came.substr(sizeof header);
    const std::size_t task = *worker.task;
    worker.came.clear();
    worker.task.reset();
    if (header.threw)
      done_(task, WorkerDeath{"could not judge this plan: " + bytes});
    else
      done_(task, std::move(bytes));
    give_next(worker);
  }

  std::span<const std::size_t> tasks_;
  const std::function<std::string(std::size_t)>& work_;
  const std::function<void(std::size_t, Outcome)>& done_;
  std::vector<Worker> workers_;
  std::size_t next_ = 0;
};

}  // namespace

void run_in_processes(std::span<const std::size_t> tasks, int jobs,
                      const std::function<std::string(std::size_t)>& work,
                      const std::function<void(std::size_t, Outcome)>& done) {
  Pool(tasks, jobs, work, done).run();
}

}  // namespace starter
