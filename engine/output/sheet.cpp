#include "output/sheet.h"

#include <algorithm>
#include <limits>

#include "output/label.h"

namespace starter {
namespace {

constexpr double row_gap = 15;     // between one step and the next
constexpr double group_room = 27;  // what the frame and name of a group of steps add
constexpr double column_gap = 26;
constexpr double head_and_legend = 105;
constexpr std::size_t most_columns = 5;
constexpr double most_enlarged = 1.15;  // on paper; larger type reads no better

std::size_t at(int i) {
  return static_cast<std::size_t>(i);
}

double lines(const std::string& text, std::size_t width) {
  return text.empty() ? 0 : static_cast<double>(label_lines(text, width, 6).size());
}

double row_height(const DrawnStep& node) {
  const RowMeasures& m = row_measures;
  const double step =
      12.5 * std::max(lines(node.words, m.words_columns), lines(node.key, m.key_columns)) + 10;
  double joins = 0;
  for (const Joining& j : node.joins)
    joins +=
        11.5 * (lines(j.what + " " + j.key, m.joins_columns) + lines(j.note, m.joins_columns)) + 6;
  double notes = 0;
  for (const Badge& b : node.badges)
    notes += 11.5 * lines(b.title + " " + b.value, m.notes_columns) + 4;
  return std::max({step, joins, notes}) + row_gap;
}

/// Where to cut `heights` into `count` columns so that the highest is as low as can be, a cut
/// inside a group counting as a little height.
struct Cut {
  std::vector<int> starts;
  double height = 0;
};

Cut cut_into(const Drawing& drawing, const std::vector<double>& heights, std::size_t count) {
  const std::size_t rows = heights.size();
  constexpr double inside_group = 30;
  std::vector<double> sum(rows + 1, 0);
  for (std::size_t i = 0; i < rows; ++i) sum[i + 1] = sum[i] + heights[i];
  // best[k][i]: the rows before i in k columns.
  std::vector<std::vector<double>> best(
      count + 1, std::vector<double>(rows + 1, std::numeric_limits<double>::infinity()));
  std::vector<std::vector<std::size_t>> from(count + 1, std::vector<std::size_t>(rows + 1, 0));
  best[0][0] = 0;
  for (std::size_t k = 1; k <= count; ++k)
    for (std::size_t i = k; i <= rows; ++i)
      for (std::size_t j = k - 1; j < i; ++j) {
        const bool inside = j > 0 && !begins_group(drawing, static_cast<int>(j));
        const double height =
            std::max(best[k - 1][j], sum[i] - sum[j] + (inside ? inside_group : 0));
        if (height >= best[k][i]) continue;
        best[k][i] = height;
        from[k][i] = j;
      }
  Cut cut;
  cut.height = best[count][rows];
  cut.starts.resize(count);
  for (std::size_t k = count, i = rows; k > 0; --k) {
    i = from[k][i];
    cut.starts[k - 1] = static_cast<int>(i);
  }
  return cut;
}

double column_width(const Drawing& drawing) {
  const RowMeasures& m = row_measures;
  return m.number + m.words + m.key + 30 + (has_joins(drawing) ? m.joins + 32 : 0) +
         (has_notes(drawing) ? m.notes + 30 : 0);
}

}  // namespace

bool has_joins(const Drawing& drawing) {
  return std::any_of(drawing.nodes.begin(), drawing.nodes.end(),
                     [](const DrawnStep& node) { return !node.joins.empty(); });
}

bool has_notes(const Drawing& drawing) {
  return drawing.blank || std::any_of(drawing.nodes.begin(), drawing.nodes.end(),
                                      [](const DrawnStep& node) { return !node.badges.empty(); });
}

bool begins_group(const Drawing& drawing, int row) {
  if (row == 0) return true;
  const DrawnStep& before = drawing.nodes[at(row - 1)];
  const DrawnStep& node = drawing.nodes[at(row)];
  return before.phase != node.phase || before.stage != node.stage;
}

Sheet sheet_for(const Drawing& drawing, const SheetOptions& options) {
  std::vector<double> heights;
  for (std::size_t i = 0; i < drawing.nodes.size(); ++i)
    heights.push_back(row_height(drawing.nodes[i]) +
                      (begins_group(drawing, static_cast<int>(i)) ? group_room : 0));
  struct Page {
    double width, height;
  };
  const std::vector<Page> pages = options.large ? std::vector<Page>{{960, 540}}
                                  : options.paper == Paper::letter
                                      ? std::vector<Page>{{612, 792}, {792, 612}}
                                      : std::vector<Page>{{595.28, 841.89}, {841.89, 595.28}};
  Sheet best;
  best.scale = 0;
  const std::size_t columns = std::clamp<std::size_t>(heights.size(), 1, most_columns);
  for (std::size_t count = 1; count <= columns; ++count) {
    const Cut cut = heights.empty() ? Cut{{0}, 0} : cut_into(drawing, heights, count);
    const double width = static_cast<double>(count) * (column_width(drawing) + column_gap);
    const double height = cut.height + head_and_legend;
    for (const Page& page : pages) {
      const double margin = options.large ? 14 : 28;
      const double scale =
          std::min({(page.width - 2 * margin) / width, (page.height - 2 * margin) / height,
                    options.large ? 10 : most_enlarged});
      if (scale <= best.scale * 1.02) continue;
      best = {page.width, page.height, margin, cut.starts, width, scale};
    }
  }
  return best;
}

}  // namespace starter
