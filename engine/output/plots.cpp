#include "output/plots.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "quantity/write.h"

namespace starter {
namespace {

constexpr double width = 1000, bar_height = 20, plot_height = 120;  // of the view box

/// A length in the view box, in few digits.
std::string length(double value) {
  return write_number(round_to_digits(value, 5), 5);
}

std::string rectangle(double x, double y, double w, double h, std::string_view kind) {
  return fmt::format("<rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" class=\"{}\"/>", length(x),
                     length(y), length(w), length(h), kind);
}

std::string frame(double height, const std::string& inside, std::string_view kind) {
  return fmt::format(
      "<svg class=\"{}\" viewBox=\"0 0 {} {}\" preserveAspectRatio=\"none\" aria-hidden=\"true\" "
      "focusable=\"false\">{}</svg>",
      kind, length(width), length(height), inside);
}

/// The value below which `share` of them lie.
double quantile(std::span<const PlottedNumber> sorted, double share) {
  const double at = share * static_cast<double>(sorted.size() - 1);
  return sorted[static_cast<std::size_t>(std::lround(at))].value;
}

}  // namespace

std::string bar_svg(std::span<const BarPart> parts) {
  std::string inside;
  double x = 0;
  for (const BarPart& part : parts) {
    const double w = std::clamp(part.share, 0.0, 1.0) * width;
    if (w <= 0) continue;
    inside += rectangle(x, 0, w, bar_height, "part " + part.kind);
    x += w;
  }
  return frame(bar_height, inside, "bar");
}

double Histogram::place(double value) const {
  return to > from ? std::clamp((value - from) / (to - from), 0.0, 1.0) : 0.5;
}

Histogram histogram_of(std::span<const PlottedNumber> sorted, const Bounds& comfortable) {
  constexpr std::size_t bin_count = 24;
  constexpr double tail = 0.05, room = 0.04;
  Histogram h;
  h.comfortable = comfortable;
  h.bins.resize(bin_count);
  double low = quantile(sorted, tail), high = quantile(sorted, 1 - tail);
  for (const auto& bound : {comfortable.low, comfortable.high}) {
    if (!bound) continue;
    low = std::min(low, *bound);
    high = std::max(high, *bound);
  }
  const double span = high > low ? high - low : std::max(std::fabs(high), 1.0);
  h.from = low - room * span;
  h.to = high + room * span;
  for (const PlottedNumber& number : sorted) {
    const double at = h.place(number.value) * static_cast<double>(bin_count);
    Histogram::Bin& bin = h.bins[std::min(static_cast<std::size_t>(at), bin_count - 1)];
    ++(number.off ? bin.off : bin.fine);
  }
  return h;
}

std::string histogram_svg(const Histogram& h) {
  constexpr double most_of_it = 0.94, gap = 0.08;
  int most = 1;
  for (const Histogram::Bin& bin : h.bins) most = std::max(most, bin.fine + bin.off);
  const auto tall = [most](int count) { return plot_height * most_of_it * count / most; };
  std::string inside;
  if (h.comfortable.any()) {
    const double left = h.comfortable.low ? h.place(*h.comfortable.low) * width : 0;
    const double right = h.comfortable.high ? h.place(*h.comfortable.high) * width : width;
    inside += rectangle(left, 0, right - left, plot_height, "zone");
  }
  const double step = width / static_cast<double>(h.bins.size());
  for (std::size_t i = 0; i < h.bins.size(); ++i) {
    const double x = (static_cast<double>(i) + gap) * step, wide = step * (1 - 2 * gap);
    const double fine = tall(h.bins[i].fine), off = tall(h.bins[i].off);
    if (fine > 0) inside += rectangle(x, plot_height - fine, wide, fine, "column");
    if (off > 0) inside += rectangle(x, plot_height - fine - off, wide, off, "column off");
  }
  inside += rectangle(0, plot_height - 1, width, 1, "axis");
  return frame(plot_height, inside, "histogram");
}

}  // namespace starter
