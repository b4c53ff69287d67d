#include "output/layout.h"

#include <algorithm>
#include <limits>

#include "output/label.h"
#include "quantity/sorted.h"

namespace starter {
namespace {

std::size_t at(int i) {
  return static_cast<std::size_t>(i);
}

// Unscaled points.
constexpr double line_height = 1.22;  // of the type size
constexpr double step_pad = 4, small_pad = 3;
constexpr double joining_gap = 3;
constexpr double joins_gap = 22, notes_gap = 16;
constexpr double badge_gap = 3;
constexpr double frame = 7, frame_head = 13, frame_gap = 8;
constexpr double lane = 9, first_lane = 9;
constexpr double column_gap = 22;
constexpr double connector = 20, connector_gap = 12;
constexpr double chain_x = 15, hang_x = 25;  // from the left side of a step
constexpr std::size_t most_columns = 6;
constexpr double most_enlarged = 1.15;  // on paper; larger type reads no better
constexpr double small = 0.8;           // below it a picture grows, and a page is laid tighter
constexpr double paper_margin = 30, screen_margin = 18;

/// What is told of the rows, in the words there is room for.
struct Texts {
  PlacedStep step;
  std::vector<PlacedJoining> joinings;
  PlacedNotes notes;
  bool has_notes = false;
  double height = 0;
};

double text_height(std::size_t lines, double type) {
  return static_cast<double>(lines) * type * line_height;
}

/// Graphviz gives every character whole pixels, so that small type runs a little wider than its
/// font says.
std::vector<std::string> lines_in(double width, std::string_view text, std::size_t most,
                                  double type, bool bold = false) {
  constexpr double sure = 0.93;
  return label_lines(text, width * sure, most, type, bold);
}

/// A number and its unit stay in one line.
std::string unbroken(const std::string& text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i)
    out += text[i] == ' ' && i > 0 && text[i - 1] >= '0' && text[i - 1] <= '9'
               ? "\u00A0"
               : std::string(1, text[i]);
  return out;
}

bool hangs(const DrawnStep& node) {
  return node.missing || node.inside;
}

std::string_view sign_of(const Joining& joining, bool blank) {
  switch (joining.kind) {
    case Joining::Kind::clean:
      return "✓ ";
    case Joining::Kind::unclean:
      return "✗ ";
    case Joining::Kind::item:
      return blank ? "☐ " : "";
    default:
      return "";
  }
}

/// Both in one line or, where there is no room, the second under the first.
std::vector<std::string> beside_or_under(double room, const std::string& first,
                                         std::string_view between, const std::string& second,
                                         std::size_t most, double type, bool bold = false) {
  auto lines = lines_in(room, first, most, type, bold);
  if (second.empty()) return lines;
  auto together = lines_in(room, first + std::string(between) + second, 2, type, bold);
  if (together.size() == 1) return together;
  for (std::string& line : lines_in(room, second, 2, type, bold)) lines.push_back(std::move(line));
  return lines;
}

PlacedJoining joining_text(const Drawing& d, int row, int index, const Widths& widths) {
  const Joining& j = d.nodes[at(row)].joins[at(index)];
  PlacedJoining placed;
  placed.row = row;
  placed.index = index;
  const bool bold = j.kind == Joining::Kind::unclean;
  const double room = widths.joins - 8;
  const std::string what = std::string(sign_of(j, d.blank)) + j.what;
  const std::string key = j.key.empty() ? "" : (d.blank ? "____ " : "") + unbroken(j.key);
  placed.what = beside_or_under(room, what, d.blank ? ": " : " · ", key, 4, small_type, bold);
  std::string note = j.note;
  if (j.assumed && !d.standard && !d.blank) note += note.empty() ? "not named" : ", not named";
  if (!note.empty()) placed.note = lines_in(room, note, 3, small_type);
  placed.box.width = widths.joins;
  placed.box.height =
      text_height(placed.what.size() + placed.note.size(), small_type) + 2 * small_pad;
  return placed;
}

std::vector<std::string> badge_lines(const Badge& badge, double room, bool numbers) {
  std::string title = badge.title;
  if (badge.times > 1) title += " (×" + std::to_string(badge.times) + ")";
  if (!numbers) return lines_in(room, title, 3, small_type);
  const std::string wanted = badge.wanted.empty() ? "" : "want " + unbroken(badge.wanted);
  const std::string value = unbroken(badge.value);
  if (wanted.empty()) return beside_or_under(room, title, " · ", value, 3, small_type);
  auto lines = lines_in(room, title, 3, small_type);
  for (std::string& line : beside_or_under(room, value, " · ", wanted, 3, small_type))
    lines.push_back(std::move(line));
  return lines;
}

std::vector<PlacedEntry> entries_of(const DrawnStep& node, double room, bool numbers) {
  std::vector<PlacedEntry> entries;
  for (const Badge& badge : node.badges)
    entries.push_back({badge.severity, badge_lines(badge, room, numbers)});
  return entries;
}

double entries_height(const std::vector<PlacedEntry>& entries) {
  double height = badge_gap;
  for (const PlacedEntry& entry : entries)
    height += text_height(entry.lines.size(), small_type) + badge_gap;
  return height;
}

enum class Fit { roomy, low, noted, tight, screen };

Widths widths_of(Fit fit) {
  Widths widths;
  if (fit == Fit::low) {
    widths.row_gap = 10;
  } else if (fit == Fit::noted) {
    // Long notes in few lines.
    widths.number = 20;
    widths.words = 112;
    widths.key = 72;
    widths.joins = 92;
    widths.sign = 56;
    widths.notes = 212;
    widths.row_gap = 11;
  } else if (fit == Fit::tight) {
    widths.number = 20;
    widths.words = 112;
    widths.key = 72;
    widths.joins = 92;
    widths.sign = 56;
    widths.notes = 162;
    widths.row_gap = 10;
  } else if (fit == Fit::screen) {
    widths.number = 20;
    widths.words = 90;
    widths.row_gap = 12;
    widths.key = 75;
    widths.sign = 56;
    widths.joins = 0;
    widths.notes = 0;
  }
  return widths;
}

std::vector<std::string> key_lines(const DrawnStep& node, const Widths& widths, bool blank) {
  if (node.key.empty()) return {};
  return blank ? lines_in(widths.blank_unit, node.key, 3, step_type)
               : lines_in(widths.key - 4, unbroken(node.key), 4, step_type, true);
}

Texts texts_of(const Drawing& d, int row, const std::string& tag, Fit fit) {
  const DrawnStep& node = d.nodes[at(row)];
  const Widths widths = widths_of(fit);
  const bool large = fit == Fit::screen;
  Texts t;
  const double inset = hangs(node) ? indent : 0;
  const std::string& said = large ? node.verb : node.words;
  t.step.words =
      lines_in(widths.words - inset, node.missing ? "missing: " + said : said, 5, step_type);
  t.step.key = key_lines(node, widths, d.blank);
  if (!tag.empty()) t.step.tag = lines_in(widths.words - inset, tag, 4, step_type);
  t.step.box.width = widths.step() - inset;
  t.step.box.height = std::max({text_height(t.step.words.size() + t.step.tag.size(), step_type),
                                text_height(t.step.key.size(), step_type), d.blank ? 16.0 : 0.0}) +
                      2 * step_pad;
  if (large && !node.badges.empty()) {
    t.step.entries = entries_of(node, widths.words + widths.key - widths.sign - inset - 6, false);
    t.step.box.height += entries_height(t.step.entries);
  }
  t.height = t.step.box.height;
  double joins = 0;
  for (std::size_t i = 0; i < node.joins.size() && !large; ++i) {
    t.joinings.push_back(joining_text(d, row, static_cast<int>(i), widths));
    joins += t.joinings.back().box.height + joining_gap;
  }
  t.height = std::max(t.height, joins - joining_gap);
  t.has_notes = !large && (d.blank || !node.badges.empty());
  if (t.has_notes) {
    t.notes.row = row;
    t.notes.entries = entries_of(node, widths.notes - widths.sign - 14, true);
    t.notes.box.width = widths.notes;
    t.notes.box.height =
        d.blank ? t.step.box.height : entries_height(t.notes.entries) + 2 * small_pad;
    t.height = std::max(t.height, t.notes.box.height);
  }
  return t;
}

bool begins_group(const Drawing& d, int row) {
  if (row == 0) return true;
  const DrawnStep& before = d.nodes[at(row - 1)];
  const DrawnStep& node = d.nodes[at(row)];
  return before.phase != node.phase || before.stage != node.stage;
}

std::string step_name(const Drawing& d, int row) {
  const DrawnStep& node = d.nodes[at(row)];
  return node.missing ? "missing " + std::to_string(row + 1) : "step " + node.number;
}

bool is_way(const Arrow& arrow) {
  return arrow.kind == Arrow::Kind::then || arrow.kind == Arrow::Kind::trade;
}

/// Where to cut the rows into `count` columns so that the highest is as low as can be. What hangs
/// on a row stays with it; a cut inside a group counts as a little height.
std::vector<int> cut_into(const Drawing& d, const std::vector<double>& heights, std::size_t count) {
  const std::size_t rows = heights.size();
  constexpr double inside_group = 34;
  constexpr double never = std::numeric_limits<double>::infinity();
  std::vector<double> sum(rows + 1, 0);
  for (std::size_t i = 0; i < rows; ++i) sum[i + 1] = sum[i] + heights[i];
  std::vector<double> best(rows + 1, never);  // of the rows before i, in k columns
  std::vector<std::vector<std::size_t>> from(count + 1, std::vector<std::size_t>(rows + 1, 0));
  best[0] = 0;
  for (std::size_t k = 1; k <= count; ++k) {
    std::vector<double> next(rows + 1, never);
    for (std::size_t i = k; i <= rows; ++i)
      for (std::size_t j = k - 1; j < i; ++j) {
        if (j > 0 && d.nodes[j].inside) continue;
        const bool inside = j > 0 && !begins_group(d, static_cast<int>(j));
        const double height = std::max(best[j], sum[i] - sum[j] + (inside ? inside_group : 0));
        if (height >= next[i]) continue;
        next[i] = height;
        from[k][i] = j;
      }
    best = std::move(next);
  }
  if (best[rows] == never) return {};
  std::vector<int> starts(count);
  for (std::size_t k = count, i = rows; k > 0; --k) {
    i = from[k][i];
    starts[k - 1] = static_cast<int>(i);
  }
  return starts;
}

/// One way of laying a drawing out, in a given number of columns.
class Laying {
 public:
  /// \param on_a_page how many columns a page has; 0 for all of them
  Laying(const Drawing& d, const SheetOptions& options, Fit fit, std::vector<int> starts,
         std::size_t on_a_page = 0)
      : d_(d),
        options_(options),
        fit_(fit),
        starts_(std::move(starts)),
        on_a_page_(static_cast<int>(on_a_page == 0 ? starts_.size() : on_a_page)) {}

  Layout lay() {
    for (int row = 0; row < rows(); ++row) texts_.push_back(texts_of(d_, row, tag_of(row), fit_));
    for (const Texts& t : texts_) {
      joins_ |= !t.joinings.empty();
      notes_ |= t.has_notes;
    }
    out_.columns = static_cast<int>(starts_.size());
    out_.widths = widths_of(fit_);
    out_.steps.resize(d_.nodes.size());
    assign_lanes();
    out_.width = columns_width();
    const double head = place_title();
    double lowest = head;
    double left = 0;
    out_.pages.clear();
    for (int c = 0; c < out_.columns; ++c) {
      if (c % on_a_page_ == 0) out_.pages.push_back(left);
      lowest = std::max(lowest, place_column(c, left, head));
    }
    for (const Arrow& arrow : d_.arrows) draw(arrow);
    out_.height = place_legend(lowest);
    return std::move(out_);
  }

 private:
  int rows() const { return static_cast<int>(d_.nodes.size()); }
  int begin_of(int c) const { return starts_[at(c)]; }
  int end_of(int c) const {
    return c + 1 < static_cast<int>(starts_.size()) ? starts_[at(c + 1)] : rows();
  }
  int column_of(int row) const {
    int c = 0;
    while (row >= end_of(c)) ++c;
    return c;
  }

  // --- Which lines go where ---

  /// Whether nothing but what hangs stands between the rows.
  bool next_to(int from, int to) const {
    for (int row = from + 1; row < to; ++row)
      if (!hangs(d_.nodes[at(row)])) return false;
    return from < to;
  }
  bool straight(const Arrow& a) const {
    if (column_of(a.from) != column_of(a.to)) return false;
    if (hangs(d_.nodes[at(a.from)]) || hangs(d_.nodes[at(a.to)])) return a.to == a.from + 1;
    return next_to(a.from, a.to);
  }
  /// Whether the way goes on from the foot of one column to the head of the next.
  bool continues(const Arrow& a) const {
    if (!is_way(a) && a.kind != Arrow::Kind::gap) return false;
    return column_of(a.to) == column_of(a.from) + 1 && next_to(a.from, a.to) &&
           !hangs(d_.nodes[at(a.from)]) && !hangs(d_.nodes[at(a.to)]);
  }
  bool in_a_lane(const Arrow& a) const {
    if (column_of(a.from) != column_of(a.to)) return false;
    switch (a.kind) {
      case Arrow::Kind::then:
      case Arrow::Kind::trade:
      case Arrow::Kind::gap:
        return !straight(a);
      case Arrow::Kind::fault:
      case Arrow::Kind::ring:
      case Arrow::Kind::rule:
        return true;
      default:
        return false;
    }
  }

  /// What a step waits for in another column, in words.
  std::string tag_of(int row) const {
    std::string numbers;
    int count = 0;
    for (const Arrow& a : d_.arrows) {
      if (a.to != row || !is_way(a) || column_of(a.from) == column_of(a.to) || continues(a))
        continue;
      numbers += (count++ ? ", " : "") + d_.nodes[at(a.from)].number;
    }
    return count == 0 ? "" : (count == 1 ? "also after step " : "also after steps ") + numbers;
  }

  /// Lines beside the steps get a lane each, the short ones the inner lanes.
  void assign_lanes() {
    lanes_.assign(d_.arrows.size(), -1);
    lane_count_.assign(starts_.size(), 0);
    std::vector<std::size_t> order;
    for (std::size_t i = 0; i < d_.arrows.size(); ++i)
      if (in_a_lane(d_.arrows[i])) order.push_back(i);
    const auto span = [&](std::size_t i) {
      return std::minmax(d_.arrows[i].from, d_.arrows[i].to);
    };
    sort_short(order, [&](std::size_t a, std::size_t b) {
      return span(a).second - span(a).first < span(b).second - span(b).first;
    });
    std::vector<std::vector<std::vector<std::size_t>>> taken(starts_.size());
    for (std::size_t i : order) {
      auto& here = taken[at(column_of(d_.arrows[i].from))];
      const auto free = [&](const std::vector<std::size_t>& others) {
        return std::none_of(others.begin(), others.end(), [&](std::size_t o) {
          return span(o).first <= span(i).second && span(i).first <= span(o).second;
        });
      };
      std::size_t k = 0;
      while (k < here.size() && !free(here[k])) ++k;
      if (k == here.size()) here.emplace_back();
      here[k].push_back(i);
      lanes_[i] = static_cast<int>(k);
    }
    for (std::size_t c = 0; c < taken.size(); ++c)
      lane_count_[c] = static_cast<int>(taken[c].size());
  }

  /// A fault that ends in another column leaves through a circle beside its step.
  bool has_stub(int c) const {
    return std::any_of(d_.arrows.begin(), d_.arrows.end(),
                       [&](const Arrow& a) { return stub(a) && column_of(a.from) == c; });
  }
  bool stub(const Arrow& a) const {
    return (a.kind == Arrow::Kind::fault || a.kind == Arrow::Kind::ring ||
            a.kind == Arrow::Kind::rule) &&
           column_of(a.from) != column_of(a.to);
  }

  // --- Columns ---

  double row_gap() const { return out_.widths.row_gap; }

  double gutter(int c) const {
    const double lanes = lane_count_[at(c)] > 0 ? first_lane + lane * lane_count_[at(c)] : 0;
    return std::max(lanes, has_stub(c) ? connector + 12 : 0);
  }
  double column_width(int c) const {
    return (joins_ ? out_.widths.joins + joins_gap : 0) + 2 * frame + out_.widths.step() +
           gutter(c) + (notes_ ? notes_gap + out_.widths.notes : 0);
  }
  /// Of the widest page.
  double columns_width() const {
    double widest = 330, width = 0;
    for (int c = 0; c < out_.columns; ++c) {
      width = c % on_a_page_ == 0 ? column_width(c) : width + column_gap + column_width(c);
      widest = std::max(widest, width);
    }
    return widest;
  }

  bool continued_from(int c) const { return crossing(c, &Arrow::to); }
  bool continued_to(int c) const { return crossing(c, &Arrow::from); }
  bool crossing(int c, int Arrow::*end) const {
    return std::any_of(d_.arrows.begin(), d_.arrows.end(),
                       [&](const Arrow& a) { return continues(a) && column_of(a.*end) == c; });
  }

  /// \return the y of its lower end; `left` moves on to the next column
  double place_column(int c, double& left, double top) {
    const double frame_left = left + (joins_ ? out_.widths.joins + joins_gap : 0);
    const double step_left = frame_left + frame;
    double y = top + (out_.columns > 1 && any_continued() ? connector + connector_gap : 0);
    for (int row = begin_of(c); row < end_of(c); ++row) {
      const DrawnStep& node = d_.nodes[at(row)];
      if (row == begin_of(c) || begins_group(d_, row)) {
        if (row > begin_of(c)) y += frame + frame_gap - row_gap();
        std::string name(phase_name(node.phase));
        if (d_.stages > 1) name.insert(0, "stage " + std::to_string(node.stage + 1) + " · ");
        out_.groups.push_back(
            {{frame_left, y, out_.widths.step() + 2 * frame, 0}, node.phase, std::move(name)});
        y += frame_head;
      }
      place_row(row, y, left, step_left, c);
      y += texts_[at(row)].height;
      const DrawnStep* next = row + 1 < end_of(c) ? &d_.nodes[at(row + 1)] : nullptr;
      const bool last = !next || begins_group(d_, row + 1);
      if (last) out_.groups.back().box.height = y + frame - out_.groups.back().box.top;
      y += row_gap();
    }
    y += frame - row_gap();
    if (out_.columns > 1 && any_continued()) y += connector + connector_gap;
    left += column_width(c) + column_gap;
    return y;
  }
  bool any_continued() const {
    return std::any_of(d_.arrows.begin(), d_.arrows.end(),
                       [&](const Arrow& a) { return continues(a); });
  }

  void place_row(int row, double top, double left, double step_left, int c) {
    Texts& t = texts_[at(row)];
    const double middle = top + t.height / 2;
    const double inset = hangs(d_.nodes[at(row)]) ? indent : 0;
    t.step.box.left = step_left + inset;
    t.step.box.top = middle - t.step.box.height / 2;
    double all = -joining_gap;
    for (const PlacedJoining& j : t.joinings) all += j.box.height + joining_gap;
    double y = middle - all / 2;
    for (PlacedJoining& j : t.joinings) {
      j.box.left = left;
      j.box.top = y;
      y += j.box.height + joining_gap;
      join(j, t.step.box);
      out_.joinings.push_back(j);
    }
    if (t.has_notes) {
      t.notes.box.left = step_left + out_.widths.step() + frame + gutter(c) + notes_gap;
      t.notes.box.top = middle - t.notes.box.height / 2;
      if (!d_.blank)
        out_.lines.push_back({PlacedLine::Look::note,
                              false,
                              Severity::note,
                              step_name(d_, row),
                              "notes " + std::to_string(row + 1),
                              {{t.step.box.right(), middle}, {t.notes.box.left, middle}}});
      out_.notes.push_back(t.notes);
    }
    out_.steps[at(row)] = t.step;
  }

  void join(const PlacedJoining& j, const Box& step) {
    const Joining& joining = d_.nodes[at(j.row)].joins[at(j.index)];
    const double y = j.box.middle().y;
    const double meets = std::clamp(y, step.top + 5, step.bottom() - 5);
    PlacedLine line;
    line.look = joining.kind == Joining::Kind::unclean ? PlacedLine::Look::unclean
                                                       : PlacedLine::Look::joins;
    line.from = "joins " + std::to_string(j.row + 1) + "." + std::to_string(j.index + 1);
    line.to = step_name(d_, j.row);
    line.way = {{j.box.right(), y}};
    if (meets != y) {
      const double bend = j.box.right() + 7;
      line.way.push_back({bend, y});
      line.way.push_back({bend, meets});
    }
    line.way.push_back({step.left, meets});
    out_.lines.push_back(std::move(line));
  }

  // --- Lines between steps ---

  static PlacedLine::Look look_of(Arrow::Kind kind) {
    switch (kind) {
      case Arrow::Kind::then:
        return PlacedLine::Look::chain;
      case Arrow::Kind::trade:
        return PlacedLine::Look::trade;
      case Arrow::Kind::during:
        return PlacedLine::Look::during;
      case Arrow::Kind::ghost:
        return PlacedLine::Look::ghost;
      case Arrow::Kind::fault:
        return PlacedLine::Look::fault;
      case Arrow::Kind::ring:
        return PlacedLine::Look::ring;
      case Arrow::Kind::gap:
        return PlacedLine::Look::gap;
      case Arrow::Kind::rule:
        return PlacedLine::Look::rule;
    }
    return PlacedLine::Look::chain;
  }

  PlacedLine line_of(const Arrow& a) const {
    PlacedLine line;
    line.look = look_of(a.kind);
    line.critical = a.critical;
    if (a.badge) line.severity = a.badge->severity;
    line.from = step_name(d_, a.from);
    line.to = step_name(d_, a.to);
    return line;
  }
  const Box& box_of(int row) const { return out_.steps[at(row)].box; }

  /// The left side that boxes have which do not hang.
  double base_left(int row) const {
    return box_of(row).left - (hangs(d_.nodes[at(row)]) ? indent : 0);
  }

  void draw(const Arrow& a) {
    PlacedLine line = line_of(a);
    const Box& from = box_of(a.from);
    const Box& to = box_of(a.to);
    if (stub(a)) return draw_stub(a, std::move(line));
    if (continues(a)) return draw_connectors(a, std::move(line));
    if (column_of(a.from) != column_of(a.to)) return;  // told in words
    if (a.kind == Arrow::Kind::during) {
      // From the outer step, past what else hangs on it, to the side of this one.
      std::swap(line.from, line.to);
      const double x = base_left(a.from) + hang_x;
      if (a.from == a.to + 1)
        line.way = {{from.left + chain_x, to.bottom()}, {from.left + chain_x, from.top}};
      else
        line.way = {{x, to.bottom()}, {x, from.middle().y}, {from.left, from.middle().y}};
    } else if (a.kind == Arrow::Kind::ghost) {
      const bool to_hangs = hangs(d_.nodes[at(a.to)]), from_hangs = hangs(d_.nodes[at(a.from)]);
      const double x = base_left(a.from) + hang_x;
      if (!from_hangs && to_hangs)
        line.way = {{x, from.bottom()}, {x, to.middle().y}, {to.left, to.middle().y}};
      else
        line.way = {{x + indent, from.bottom()}, {x + indent, to.top}};
    } else if (lanes_[at(static_cast<int>(&a - d_.arrows.data()))] >= 0) {
      line.way = lane_way(a);
    } else {
      const double x = std::max(from.left, to.left) + chain_x;
      line.way = {{x, from.bottom()}, {x, to.top}};
    }
    out_.lines.push_back(std::move(line));
  }

  std::vector<Point> lane_way(const Arrow& a) const {
    const Box &from = box_of(a.from), &to = box_of(a.to);
    const int k = lanes_[at(static_cast<int>(&a - d_.arrows.data()))];
    const double side = base_left(a.from) + out_.widths.step();
    const double x = side + frame + first_lane + lane * k;
    // Four places at a side, so that lines that come do not meet lines that go.
    const double share = a.from < a.to ? 0.38 : -0.16;
    const double out_y = from.middle().y + share * from.height;
    const double in_y = to.middle().y - share * to.height;
    return {{from.right(), out_y}, {x, out_y}, {x, in_y}, {to.right(), in_y}};
  }

  void draw_stub(const Arrow& a, PlacedLine line) {
    const Box& from = box_of(a.from);
    const double y = from.middle().y - from.height * 0.3;
    const double x = base_left(a.from) + out_.widths.step() + frame + 8;
    out_.connectors.push_back(
        {{x, y - connector / 2, connector, connector}, d_.nodes[at(a.to)].number, true});
    line.to = "connector " + std::to_string(out_.connectors.size());
    line.way = {{from.right(), y}, {x, y}};
    out_.lines.push_back(std::move(line));
  }

  void draw_connectors(const Arrow& a, PlacedLine line) {
    const Box from = box_of(a.from), to = box_of(a.to);
    const Box& foot = group_of(a.from);
    const Box& head = group_of(a.to);
    const auto put = [&](double x, double y, int row, bool out) {
      out_.connectors.push_back(
          {{x - connector / 2, y, connector, connector}, d_.nodes[at(row)].number, out});
      return "connector " + std::to_string(out_.connectors.size());
    };
    PlacedLine second = line;
    const double out_x = from.left + chain_x, in_x = to.left + chain_x;
    const double out_y = foot.bottom() + connector_gap;
    const double in_y = head.top - connector_gap - connector;
    line.to = put(out_x, out_y, a.to, true);
    line.way = {{out_x, from.bottom()}, {out_x, out_y}};
    second.from = put(in_x, in_y, a.from, false);
    second.way = {{in_x, in_y + connector}, {in_x, to.top}};
    out_.lines.push_back(std::move(line));
    out_.lines.push_back(std::move(second));
  }

  /// The frame that a row stands in.
  const Box& group_of(int row) const {
    const Point p = box_of(row).middle();
    for (const PlacedGroup& g : out_.groups)
      if (p.x > g.box.left && p.x < g.box.right() && p.y > g.box.top && p.y < g.box.bottom())
        return g.box;
    return out_.groups.front().box;
  }

  // --- Head and foot ---

  double place_title() {
    double y = 0;
    const auto put = [&](const std::string& text, double type, bool bold, std::size_t most) {
      PlacedText placed;
      placed.type = type;
      placed.bold = bold;
      placed.lines = lines_in(out_.width, text, most, type, bold);
      placed.box = {0, y, out_.width, text_height(placed.lines.size(), type) + 4};
      y = placed.box.bottom();
      out_.title.push_back(std::move(placed));
    };
    if (!options_.inset) {
      put(d_.title.empty() ? "Yeast starter" : d_.title, title_type, true, 8);
      if (!d_.member.empty()) put(d_.member, step_type + 1, false, 4);
    }
    if (d_.blank) put("Name ______________________   Date ______________", step_type + 1, false, 1);
    if (d_.blank && !options_.large)
      put("Fill in the numbers. Beside each step, write what you would mend.", step_type, false, 2);
    if (!options_.large)
      for (const std::string& sentence : d_.caption)
        if (!sentence.empty()) put(sentence, step_type, false, 4);
    return out_.title.empty() ? 0 : y + 10;
  }

  template <class Test>
  bool any_step(Test test) const {
    return std::any_of(d_.nodes.begin(), d_.nodes.end(), test);
  }
  bool any_arrow(Arrow::Kind kind) const {
    return std::any_of(d_.arrows.begin(), d_.arrows.end(),
                       [kind](const Arrow& a) { return a.kind == kind; });
  }
  bool any_joining(Joining::Kind kind) const {
    return std::any_of(out_.joinings.begin(), out_.joinings.end(), [&](const PlacedJoining& j) {
      return d_.nodes[at(j.row)].joins[at(j.index)].kind == kind;
    });
  }

  std::vector<PlacedSign> signs() const {
    std::vector<PlacedSign> all;
    const auto add = [&](bool there, const char* sign, const char* words) {
      if (there) all.push_back({sign, words, std::nullopt});
    };
    add(!d_.blank && !d_.standard && any_step([](const DrawnStep& n) { return n.critical; }), "━━▶",
        "critical: a delay here delays the yeast");
    add(any_arrow(Arrow::Kind::trade), "┄┄▷", "the trade needs it, though nobody wrote it");
    add(any_arrow(Arrow::Kind::during), "○──", "done while the other step lasts");
    add(any_arrow(Arrow::Kind::gap), "····▷", "steps left out");
    add(any_arrow(Arrow::Kind::rule), "╍╍▶", "the order that the rule asks for");
    add(any_step([](const DrawnStep& n) { return n.watched; }), "▣",
        "heavy frame: the rule looks here");
    add(any_joining(Joining::Kind::clean), "✓", "cleaned before it is used");
    add(any_joining(Joining::Kind::unclean), "✗", "touches boiled wort and is not clean");
    add(any_step([](const DrawnStep& n) { return n.missing; }), "┌┄┐", "a step left out");
    add(any_step([](const DrawnStep& n) { return n.unknown; }), "?", "a word not known");
    add(any_arrow(Arrow::Kind::fault), "╍╍▶", "runs against the order");
    add(any_arrow(Arrow::Kind::ring), "╍╍▶", "steps that wait in a circle");
    if (!out_.connectors.empty()) add(true, "(9)", "goes on at the step of that number");
    static constexpr std::pair<Severity, const char*> meanings[] = {
        {Severity::danger, "can hurt a person"},
        {Severity::spoils, "the starter likely fails"},
        {Severity::weakens, "works, but worse"},
        {Severity::note, "worth knowing"}};
    for (const auto& [severity, meaning] : meanings)
      for (const DrawnStep& n : d_.nodes)
        if (std::any_of(n.badges.begin(), n.badges.end(),
                        [s = severity](const Badge& b) { return b.severity == s; })) {
          all.push_back({std::string(starter::sign_of(severity)), meaning, severity});
          break;
        }
    return all;
  }

  double place_legend(double top) {
    const double between = 16;
    double used = 0;
    for (PlacedSign& sign : signs()) {
      const double width = text_width(sign.sign, small_type, true) +
                           text_width(" " + sign.words, small_type) + between;
      if (out_.legend.empty() || used + width * 1.06 > out_.width) {
        out_.legend.emplace_back();
        used = 0;
      }
      used += width;
      out_.legend.back().push_back(std::move(sign));
    }
    out_.legend_box = {0, top + 14, out_.width,
                       text_height(out_.legend.size(), small_type * 1.12) + 6 +
                           2 * static_cast<double>(out_.legend.size())};
    return out_.legend.empty() ? top : out_.legend_box.bottom();
  }

  const Drawing& d_;
  const SheetOptions& options_;
  Fit fit_;
  std::vector<int> starts_;
  int on_a_page_ = 1;
  std::vector<Texts> texts_;
  std::vector<int> lanes_;  ///< per arrow; −1 outside the lanes
  std::vector<int> lane_count_;
  bool joins_ = false, notes_ = false;
  Layout out_;
};

std::vector<double> rough_heights(const Drawing& d, Fit fit) {
  std::vector<double> heights;
  heights.reserve(d.nodes.size());
  for (int row = 0; row < static_cast<int>(d.nodes.size()); ++row)
    heights.push_back(texts_of(d, row, "", fit).height + widths_of(fit).row_gap +
                      (begins_group(d, row) ? frame_head + frame : 0));
  return heights;
}

struct Page {
  double width, height;
};

std::vector<Page> pages_of(const SheetOptions& options) {
  if (options.large) return {{960, 540}};
  if (options.paper == Paper::letter) return {{612, 792}, {792, 612}};
  return {{595.28, 841.89}, {841.89, 595.28}};
}

/// The page and the number of columns that give the largest type.
Layout largest(const Drawing& drawing, const SheetOptions& options, Fit fit) {
  const double margin = options.large ? screen_margin : paper_margin;
  const std::vector<double> heights = rough_heights(drawing, fit);
  Layout best;
  best.scale = 0;
  const std::size_t columns = std::clamp<std::size_t>(heights.size(), 1, most_columns);
  for (std::size_t count = 1; count <= columns; ++count) {
    const std::vector<int> starts =
        heights.empty() ? std::vector<int>{0} : cut_into(drawing, heights, count);
    if (starts.empty()) continue;
    Layout layout = Laying(drawing, options, fit, starts).lay();
    for (const Page& page : pages_of(options)) {
      const double scale = std::min({(page.width - 2 * margin) / layout.width,
                                     (page.height - 2 * margin) / layout.height,
                                     options.large ? 4.0 : most_enlarged});
      // Another column, or the page turned, has to be worth it.
      if (scale <= best.scale * 1.03) continue;
      best = layout;
      best.scale = scale;
      best.margin = margin / scale;
      best.page_width = page.width;
      best.page_height = page.height;
    }
  }
  return best;
}

/// The way to lay a drawing over `pages` pages of a sheet that gives the largest type; a scale of 0
/// when it has too few rows for that.
Layout over_pages(const Drawing& drawing, const SheetOptions& options, Fit fit, std::size_t pages) {
  const Inset& inset = *options.inset;
  constexpr double border = 6;  // for the outer frame of a danger at the edge
  constexpr std::size_t most_beside = 3;
  const double most = std::max(most_enlarged, inset.least_type / small_type);
  const std::vector<double> heights = rough_heights(drawing, fit);
  Layout best;
  best.scale = 0;
  for (std::size_t beside = 1; beside <= most_beside; ++beside) {
    const std::size_t count = pages * beside;
    if (count > std::max<std::size_t>(heights.size(), 1)) break;
    const std::vector<int> starts =
        heights.empty() ? std::vector<int>{0} : cut_into(drawing, heights, count);
    if (starts.empty()) continue;
    Layout layout = Laying(drawing, options, fit, starts, beside).lay();
    for (const Page& page : {Page{inset.standing_width, inset.standing_height},
                             Page{inset.lying_width, inset.lying_height}}) {
      const double scale = std::min({(page.width - 2 * border) / layout.width,
                                     (page.height - 2 * border) / layout.height, most});
      if (scale <= best.scale * 1.03) continue;
      best = layout;
      best.scale = scale;
      best.margin = border / scale;
      best.page_width = page.width;
      best.page_height = page.height;
    }
  }
  return best;
}

/// As few pages as its type allows, and on them the roomiest way. A row that is higher than a page
/// is what it is: then more pages no longer help.
Layout in_a_sheet(const Drawing& drawing, const SheetOptions& options) {
  constexpr std::size_t most_pages = 24;
  Layout best;
  best.scale = 0;
  for (std::size_t pages = 1; pages <= most_pages; ++pages) {
    for (const Fit fit : {Fit::roomy, Fit::low, Fit::noted, Fit::tight}) {
      Layout layout = over_pages(drawing, options, fit, pages);
      const bool enough = layout.scale * small_type >= options.inset->least_type * (1 - 1e-9);
      if (enough) return layout;
      if (layout.scale > best.scale) best = std::move(layout);
    }
    if (pages >= drawing.nodes.size()) break;
  }
  return best;
}

}  // namespace

Layout layout_of(const Drawing& drawing, const SheetOptions& options) {
  if (options.inset) return in_a_sheet(drawing, options);
  if (options.large) return largest(drawing, options, Fit::screen);
  Layout best = largest(drawing, options, Fit::roomy);
  if (best.scale >= small) return best;
  if (options.whole_page) {
    Layout tight = largest(drawing, options, Fit::tight);
    return tight.scale > best.scale ? tight : best;
  }
  best.margin *= best.scale / small;
  best.scale = small;
  best.page_width = (best.width + 2 * best.margin) * small;
  best.page_height = (best.height + 2 * best.margin) * small;
  return best;
}

}  // namespace starter
