#include "output/bar_chart.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iterator>

#include "output/characters.h"

namespace starter {
namespace {

constexpr std::size_t most_label = 28;
constexpr std::size_t indent = 2;

struct Bar {
  Duration start, end;
};

struct Line {
  std::string label;
  std::vector<Bar> bars;
  bool hands_on = false;
  bool critical = false;
};

/// The rows of a visit that are of this kind: handwork or waiting.
std::vector<const CalendarRow*> rows_of(const Visit& visit, std::size_t end, const Calendar& c,
                                        bool hands_on) {
  std::vector<const CalendarRow*> rows;
  for (std::size_t i = visit.row; i < end; ++i)
    if (c.rows[i].hands_on == hands_on) rows.push_back(&c.rows[i]);
  return rows;
}

std::vector<Line> lines_of(const Calendar& c, const Plan& plan) {
  std::vector<Line> lines;
  for (std::size_t v = 0; v < c.visits.size(); ++v) {
    const Visit& visit = c.visits[v];
    const std::size_t end = v + 1 < c.visits.size() ? c.visits[v + 1].row : c.rows.size();
    Line work;
    work.hands_on = true;
    std::vector<int> steps;
    std::vector<std::string> verbs;
    for (const CalendarRow* row : rows_of(visit, end, c, true)) {
      work.bars.push_back({row->start, row->end});
      work.critical |= row->critical;
      steps.push_back(row->step);
      verbs.push_back(plan.steps[static_cast<std::size_t>(row->step)].verb);
    }
    if (!steps.empty()) {
      work.label = step_numbers(steps) + ' ' + verbs.front();
      if (verbs.size() > 1) work.label += " – " + verbs.back();
      lines.push_back(std::move(work));
    }
    for (const CalendarRow* row : rows_of(visit, end, c, false)) {
      const Step& step = plan.steps[static_cast<std::size_t>(row->step)];
      const std::string label =
          row->growth ? row->words : step_numbers({row->step}) + ' ' + step.verb;
      lines.push_back({label, {{row->start, row->end}}, false, row->critical});
    }
  }
  return lines;
}

/// Time across the columns of the chart.
struct Scale {
  std::size_t wide = 1;
  double hours_a_column = 1;

  std::size_t column(double hours) const {
    const double at = std::floor(hours / hours_a_column + 1e-9);
    return static_cast<std::size_t>(std::clamp(at, 0.0, static_cast<double>(wide - 1)));
  }
  /// Columns that a bar fills, at least one.
  std::pair<std::size_t, std::size_t> columns(const Bar& bar) const {
    const std::size_t first = column(bar.start.hours());
    const double end = std::ceil(bar.end.hours() / hours_a_column - 1e-9) - 1;
    const double last = std::clamp(end, static_cast<double>(first), static_cast<double>(wide - 1));
    return {first, static_cast<std::size_t>(last)};
  }
};

struct Tick {
  std::size_t column;
  std::string label;
};

/// The first Monday of 1970: weekly ticks fall on Mondays, and daily and hourly ones on midnight.
constexpr double monday = 4.0 * 24;

std::string day_of(LocalTime t, bool with_month) {
  const std::string text = spoken(t);  // "Tue 16 Mar 18:00"
  const std::string day = text.substr(0, text.size() - 6);
  return with_month ? day.substr(4) : day.substr(0, day.size() - 4);
}

std::string tick_label(const Calendar& c, double hours, double step) {
  const auto clock = c.clock(Duration::hours(hours));
  if (!clock)
    return step < 24 ? fmt::format("{} h", std::llround(hours))
                     : fmt::format("day {}", std::llround(hours / 24) + 1);
  const std::string text = spoken(*clock);
  const std::string time = text.substr(text.size() - 5);
  return step < 24 && time != "00:00" ? time : day_of(*clock, step >= 168);
}

std::vector<Tick> ticks_of(const Calendar& c, const Scale& scale, double span) {
  constexpr double steps[] = {1, 2, 3, 6, 12, 24, 48, 168, 336, 672, 1344, 2688, 8736, 87360};
  constexpr double least_columns = 7;
  const double* step = std::find_if(std::begin(steps), std::end(steps), [&scale](double hours) {
    return hours / scale.hours_a_column >= least_columns;
  });
  if (step == std::end(steps)) step = std::end(steps) - 1;
  const double zero = c.origin ? static_cast<double>(c.origin->minutes()) / 60 - monday : 0;
  std::vector<Tick> ticks;
  for (double at = std::ceil(zero / *step) * *step; at - zero < span; at += *step)
    ticks.push_back({scale.column(at - zero), tick_label(c, at - zero, *step)});
  return ticks;
}

std::string axis(const std::vector<Tick>& ticks, std::size_t wide) {
  std::string line;
  std::size_t used = 0;
  for (const Tick& tick : ticks) {
    const std::size_t needs = 1 + columns(tick.label);
    if (tick.column < used || tick.column + needs > wide) continue;
    line += std::string(tick.column - used, ' ') + "│" + tick.label;
    used = tick.column + needs;
  }
  return line;
}

/// The cells of one line, in runs of one ink.
Pieces cells_of(const Line& line, const Scale& scale, const std::vector<Tick>& ticks) {
  std::vector<std::string_view> cells(scale.wide, " ");
  for (const Tick& tick : ticks) cells[tick.column] = "│";
  for (const Bar& bar : line.bars) {
    const auto [first, last] = scale.columns(bar);
    std::fill(cells.begin() + static_cast<std::ptrdiff_t>(first),
              cells.begin() + static_cast<std::ptrdiff_t>(last) + 1, line.hands_on ? "█" : "░");
  }
  while (!cells.empty() && cells.back() == " ") cells.pop_back();
  Pieces pieces;
  for (const std::string_view cell : cells) {
    const Ink ink = cell == "│" || cell == " " ? Ink::faint
                    : line.hands_on            ? Ink::strong
                                               : Ink::plain;
    if (pieces.empty() || pieces.back().ink != ink) pieces.push_back({"", ink});
    pieces.back().text += cell;
  }
  return pieces;
}

void mark_due(Page& page, const Calendar& c, const Scale& scale, std::size_t left) {
  if (!c.due || !c.origin) return;
  const std::size_t at = left + scale.column((*c.due - *c.origin).hours());
  const std::string words = "yeast due";
  const bool before = at + 2 + words.size() > page.look().width;
  const std::size_t from = before ? at - std::min(at, words.size() + 1) : at;
  page.line({{std::string(from, ' ')}, {before ? words + " ▲" : "▲ " + words, Ink::strong}});
}

}  // namespace

std::string padded(const std::string& text, std::size_t wide) {
  const std::string shown = visible(text);
  const std::size_t used = columns(shown);
  if (used <= wide) return shown + std::string(wide - used, ' ');
  std::string cut;
  std::size_t taken = 0;
  for (std::size_t at = 0; at < shown.size();) {
    const auto rest = std::string_view(shown).substr(at);
    const auto character = rest.substr(0, first_character(rest));
    if (taken + columns(character) + 1 > wide) break;
    cut += character;
    taken += columns(character);
    at += character.size();
  }
  return cut + "…" + std::string(wide - taken - 1, ' ');
}

std::string step_numbers(std::vector<int> steps) {
  std::sort(steps.begin(), steps.end());
  std::string out;
  for (std::size_t i = 0; i < steps.size();) {
    std::size_t last = i;
    while (last + 1 < steps.size() && steps[last + 1] <= steps[last] + 1) ++last;
    const int from = steps[i] + 1, to = steps[last] + 1;
    out += out.empty() ? "" : ", ";
    out += from == to ? std::to_string(from)
                      : fmt::format("{}{}{}", from, to == from + 1 ? ", " : "–", to);
    i = last + 1;
  }
  return out;
}

std::string visit_in_words(const Visit& visit, const Calendar& c, const Plan& plan) {
  const auto verb = [&](std::size_t row) {
    return plan.steps[static_cast<std::size_t>(c.rows[row].step)].verb;
  };
  return visit.row == visit.last ? verb(visit.row) : verb(visit.row) + " – " + verb(visit.last);
}

void bar_chart(Page& page, const Calendar& c, const Plan& plan) {
  const auto lines = lines_of(c, plan);
  Duration span = c.due && c.origin ? *c.due - *c.origin : Duration();
  std::size_t label = 0;
  for (const CalendarRow& row : c.rows) span = std::max(span, row.end);
  for (const Line& line : lines) label = std::max(label, columns(visible(line.label)));
  label = std::min({label, most_label, page.look().width / 2 - indent});
  const std::size_t left = indent + label + 2;
  Scale scale;
  scale.wide = page.look().width - left;
  scale.hours_a_column =
      std::max(span, Duration::minutes(1)).hours() / static_cast<double>(scale.wide);
  const auto ticks = ticks_of(c, scale, span.hours());
  page.line({{std::string(left, ' ')}, {axis(ticks, scale.wide), Ink::faint}});
  for (const Line& line : lines) {
    Pieces pieces = {{std::string(indent, ' ')},
                     {padded(line.label, label) + "  ", line.critical ? Ink::strong : Ink::plain}};
    for (Piece& piece : cells_of(line, scale, ticks)) pieces.push_back(std::move(piece));
    page.line(pieces);
  }
  mark_due(page, c, scale, left);
}

}  // namespace starter
