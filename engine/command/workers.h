#pragma once

/// \file
/// Work shared among processes of this program, for libraries that keep state of their own and for
/// work that must not take the program with it.

#include <cstddef>
#include <functional>
#include <span>
#include <string>
#include <variant>

namespace starter {

/// Why a task has no result: the end of a sentence that begins with "the program".
struct WorkerDeath {
  std::string says;
};
using Outcome = std::variant<std::string, WorkerDeath>;

/// Does every task in one of `jobs` processes forked from this one, and hands each outcome to
/// `done` in this process, in the order in which they come. A process that dies, throws, or takes
/// longer than five minutes over one task costs that task only. The processes end with this one,
/// however it ends. \pre this process has one thread
void run_in_processes(std::span<const std::size_t> tasks, int jobs,
                      const std::function<std::string(std::size_t)>& work,
                      const std::function<void(std::size_t, Outcome)>& done);

}  // namespace starter
