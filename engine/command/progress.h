#pragma once

/// \file
/// How far long work is, on a terminal.

#include <chrono>
#include <cstddef>
#include <string>

namespace starter {

/// A line on standard error that fills up and goes away at the end. Nothing is shown when that is
/// no terminal, nor a plain one, nor with NO_COLOR set, nor when the caller wants quiet.
class Progress {
 public:
  Progress(std::string doing, std::size_t whole, bool quiet);
  Progress(const Progress&) = delete;
  Progress& operator=(const Progress&) = delete;
  ~Progress();

  void step();

 private:
  void show();

  std::string doing_;
  std::size_t whole_;
  std::size_t done_ = 0;
  std::size_t width_ = 0;
  bool shown_;
  std::chrono::steady_clock::time_point last_{};
};

}  // namespace starter
