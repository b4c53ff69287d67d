#include "command/progress.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "command/terminal.h"

namespace starter {
namespace {

constexpr auto calm = std::chrono::milliseconds(100);  // between two looks of the line
constexpr std::size_t widest_bar = 40;
constexpr const char* clear_line = "\r\x1b[K";

}  // namespace

Progress::Progress(std::string doing, std::size_t whole, bool quiet)
    : doing_(std::move(doing)), whole_(whole) {
  const Look look = look_of(Stream::error, UnitSystem::metric);
  width_ = look.width;
  shown_ = !quiet && look.colour && whole > 0;
  if (shown_) show();
}

Progress::~Progress() {
  if (shown_) complain(clear_line);
}

void Progress::step() {
  ++done_;
  if (shown_ && std::chrono::steady_clock::now() - last_ >= calm) show();
}

void Progress::show() {
  last_ = std::chrono::steady_clock::now();
  const std::string count = fmt::format("{} of {}", done_, whole_);
  const std::size_t taken = doing_.size() + count.size() + 3;
  const std::size_t room = width_ > taken ? std::min(width_ - taken, widest_bar) : 0;
  const std::size_t full = whole_ ? room * std::min(done_, whole_) / whole_ : 0;
  std::string bar;
  for (std::size_t i = 0; i < room; ++i) bar += i < full ? "━" : "·";
  complain(fmt::format("{}{} {} {}", clear_line, doing_, bar, count));
}

}  // namespace starter
