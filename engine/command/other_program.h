#pragma once

/// \file
/// Another program run to its end, with a limit on its time and on what it may answer.

#include <chrono>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace starter {

/// Where PATH has a program of this name that may be run; nothing when nowhere, or for a name with
/// a slash. Only absolute folders of PATH are looked in.
std::optional<std::string> program_on_path(std::string_view name);

struct ProgramLimits {
  std::chrono::milliseconds time{std::chrono::minutes(2)};
  std::size_t most_out = std::size_t{64} << 20;  ///< bytes of its standard output
};

struct ProgramRun {
  enum class End { exited, killed, too_slow, too_much, not_started };
  End end = End::not_started;
  int code = 0;       ///< the exit code; of `not_started` the reason (errno)
  std::string out;    ///< its standard output
  std::string error;  ///< the last part of its standard error
};

/// Runs `words` (the program's whole path first) without a shell, gives it `input`, and waits. It
/// gets the environment `environment` and nothing else, and stands at the root folder. When it is
/// too slow or answers too much, it and what it started are killed.
ProgramRun run_program(const std::vector<std::string>& words,
                       const std::vector<std::string>& environment, std::string_view input,
                       const ProgramLimits& limits = {});

}  // namespace starter
