#include "output/dot.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "output/label.h"

namespace starter {
namespace {

std::size_t at(int i) {
  return static_cast<std::size_t>(i);
}

// Colours that stay apart for every common kind of colour blindness and as greys: they differ in
// lightness first. Signs, words, line styles and weights say everything that colours say.
constexpr std::string_view ink = "#22282d";
constexpr std::string_view faint = "#59636b";
constexpr std::string_view hairline = "#9aa3aa";

constexpr std::string_view colour_of(Severity severity) {
  switch (severity) {
    case Severity::danger:
      return "#7a1430";
    case Severity::spoils:
      return "#b3470b";
    case Severity::weakens:
      return "#1d5c93";
    case Severity::note:
      return "#5c666e";
  }
  return ink;
}

constexpr std::string_view tint_of(Phase phase) {
  switch (phase) {
    case Phase::wort:
      return "#f5edda";
    case Phase::cleaning:
      return "#dff0f0";
    case Phase::yeast:
      return "#f2e9f3";
    case Phase::growth:
      return "#e7f1e0";
    case Phase::cold:
      return "#e0e9f5";
    case Phase::brew_day:
      return "#f4e5dd";
  }
  return "#eeeeee";
}

constexpr std::string_view font_name = "DejaVu Sans,Verdana,sans-serif";
constexpr double inch = 72;
constexpr double arrow_length = 6.5, arrow_size = 0.65;  // Graphviz's arrow of size 1 is 10 points
constexpr double corner = 5;                             // radius

/// Lines of a table cell, each ended, to the left or the right.
std::string cell_lines(const std::vector<std::string>& lines, bool bold, std::string_view align) {
  std::string out;
  for (const std::string& line : lines) {
    const std::string text = label_text(line);
    out += (bold ? "<B>" + text + "</B>" : text) + fmt::format("<BR ALIGN=\"{}\"/>", align);
  }
  return out.empty() ? "&#160;" : out;
}

class Writer {
 public:
  Writer(const Drawing& drawing, const SheetOptions& options, const Layout& layout,
         std::size_t page)
      : d_(drawing), options_(options), l_(layout), page_(page) {}

  std::string text() {
    head();
    shift_ = l_.pages[page_];
    for (std::size_t i = 0; i < l_.groups.size(); ++i)
      if (here(l_.groups[i].box)) group(i);
    shift_ = 0;
    for (std::size_t i = 0; i < l_.title.size(); ++i) title(i);
    shift_ = l_.pages[page_];
    for (int row = 0; row < static_cast<int>(d_.nodes.size()); ++row)
      if (here(l_.steps[at(row)].box)) step(row);
    for (const PlacedJoining& j : l_.joinings)
      if (here(j.box)) joining(j);
    for (const PlacedNotes& n : l_.notes)
      if (here(n.box)) notes(n);
    for (std::size_t i = 0; i < l_.connectors.size(); ++i)
      if (here(l_.connectors[i].box)) connector(i);
    shift_ = 0;
    legend();
    shift_ = l_.pages[page_];
    for (const PlacedLine& line : l_.lines)
      if (here({line.way.front().x, 0, 0, 0})) put(line);
    out_ += "}\n";
    return std::move(out_);
  }

 private:
  /// Whether something among the columns stands on this page.
  bool here(const Box& box) const {
    return box.left >= l_.pages[page_] &&
           (page_ + 1 == l_.pages.size() || box.left < l_.pages[page_ + 1]);
  }

  double scaled(double v) const { return v * l_.scale; }
  double picture_height() const {
    return options_.whole_page ? sheet(l_.page_height) : scaled(l_.height + 2 * l_.margin);
  }
  double picture_width() const {
    return options_.whole_page ? sheet(l_.page_width) : scaled(l_.width + 2 * l_.margin);
  }
  /// Graphviz takes whole points.
  static double sheet(double side) { return std::round(side); }
  /// On the picture, y upwards as Graphviz has it; a whole page has the drawing in its middle.
  double x_of(double x) const {
    return scaled(x - shift_) + (picture_width() - scaled(l_.width)) / 2;
  }
  double y_of(double y) const {
    const double above = std::min(scaled(l_.margin), picture_height() - scaled(l_.height));
    return picture_height() - above - scaled(y);
  }
  std::string point(const Point& p) const {
    return fmt::format("{:.2f},{:.2f}", x_of(p.x), y_of(p.y));
  }
  std::string place(const Box& box) const {
    return fmt::format("pos=\"{}\", width={:.4f}, height={:.4f}", point(box.middle()),
                       scaled(box.width) / inch, scaled(box.height) / inch);
  }
  double cell(double width) const { return std::floor(scaled(width)); }

  /// The type of a node. Graphviz takes whole points only for a part of a label, so a label has
  /// one.
  std::string type(double size) const { return fmt::format("fontsize={:.2f}", scaled(size)); }
  static std::string coloured(std::string_view colour, const std::string& inner) {
    return fmt::format("<FONT COLOR=\"{}\">{}</FONT>", colour, inner);
  }
  static std::string table(const std::string& rows, int spacing = 0) {
    return fmt::format(
        "<TABLE BORDER=\"0\" CELLBORDER=\"0\" CELLSPACING=\"{}\" CELLPADDING=\"0\">{}</TABLE>",
        spacing, rows);
  }
  std::string left_cell(double width, const std::string& inner) const {
    return fmt::format("<TD WIDTH=\"{:.0f}\" ALIGN=\"LEFT\" BALIGN=\"LEFT\">{}</TD>", cell(width),
                       inner);
  }

  std::string right_cell(double width, const std::string& inner) const {
    return fmt::format("<TD WIDTH=\"{:.0f}\" ALIGN=\"RIGHT\" BALIGN=\"RIGHT\">{}</TD>", cell(width),
                       inner);
  }

  void head() {
    out_ += "// Every place is worked out already: the layout “nop2” only draws.\n";
    out_ += "digraph process {\n";
    out_ += fmt::format(
        "  graph [layout=nop2, charset=\"UTF-8\", pad=0, margin=0, "
        "bgcolor=white, fontname=\"{0}\"];\n"
        "  node [shape=box, style=filled, fillcolor=white, color=\"{1}\", fontcolor=\"{1}\", "
        "fontname=\"{0}\", fontsize={2:.2f}, fixedsize=true, margin=0, label=\"\"];\n"
        "  edge [color=\"{1}\", penwidth={3:.2f}, arrowsize={4:.3f}, arrowhead=normal];\n",
        font_name, ink, scaled(step_type), pen(1), arrow_size * l_.scale);
    // The sheet itself, so that the picture is as large as it should be. Neither it nor a frame is
    // a cluster: Graphviz draws those in the order of their addresses, one over the other.
    out_ += fmt::format(
        "  \"sheet\" [pos=\"{:.3f},{:.3f}\", width={:.4f}, height={:.4f}, peripheries=0];\n",
        picture_width() / 2, picture_height() / 2, picture_width() / inch, picture_height() / inch);
  }

  /// Lines grow with the type, but no thinner than prints.
  double pen(double width) const { return std::max(width * l_.scale, width * 0.75); }

  void group(std::size_t i) {
    const PlacedGroup& g = l_.groups[i];
    out_ += fmt::format(
        "  \"group {}\" [{}, style=\"filled,rounded\", fillcolor=\"{}\", color=\"{}\", "
        "penwidth={:.2f}];\n",
        i + 1, place(g.box), tint_of(g.phase), hairline, pen(0.8));
    // At the right, where no arrow comes down from the group before.
    const Box name{g.box.left + 12, g.box.top + 1.5, g.box.width - 24, small_type * 1.3};
    const std::string text = coloured(faint, "<B>" + label_text(g.name) + "</B>");
    words("group name", i, name, small_type, right_cell(name.width, text));
  }

  /// Text without a frame.
  void words(std::string_view name, std::size_t i, const Box& box, double size,
             const std::string& cell) {
    out_ += fmt::format("  \"{} {}\" [{}, {}, shape=plaintext, style=\"\", label=<{}>];\n", name,
                        i + 1, place(box), type(size), table("<TR>" + cell + "</TR>"));
  }

  void title(std::size_t i) {
    const PlacedText& t = l_.title[i];
    words("title", i, t.box, t.type, left_cell(t.box.width, cell_lines(t.lines, t.bold, "LEFT")));
  }

  std::string name_of(int row) const {
    const DrawnStep& node = d_.nodes[at(row)];
    return node.missing ? fmt::format("missing {}", row + 1) : "step " + node.number;
  }

  std::string key_cell(const DrawnStep& node, const PlacedStep& placed) const {
    if (d_.blank && !node.key.empty()) {
      const std::string box = fmt::format(
          "<TD BORDER=\"1\" WIDTH=\"{:.0f}\" HEIGHT=\"{:.0f}\" FIXEDSIZE=\"TRUE\" "
          "COLOR=\"{}\">&#160;</TD><TD WIDTH=\"{:.0f}\"></TD>",
          cell(l_.widths.key - l_.widths.blank_unit - 6), cell(15), faint, cell(5));
      return "<TD>" +
             table("<TR>" + box +
                   left_cell(l_.widths.blank_unit, cell_lines(placed.key, false, "LEFT")) +
                   "</TR>") +
             "</TD>";
    }
    return right_cell(l_.widths.key, cell_lines(placed.key, true, "RIGHT"));
  }

  /// Rows of the table of findings: a sign, and the lines beside it.
  std::string entry_rows(const std::vector<PlacedEntry>& entries, double width) const {
    std::string rows;
    for (const PlacedEntry& entry : entries) {
      const std::string sign = "<B>" + label_text(sign_of(entry.severity)) + "</B>";
      rows +=
          fmt::format("<TR><TD WIDTH=\"{:.0f}\" ALIGN=\"LEFT\" VALIGN=\"TOP\">{}</TD>{}</TR>",
                      cell(l_.widths.sign), coloured(colour_of(entry.severity), sign),
                      left_cell(width - l_.widths.sign, cell_lines(entry.lines, false, "LEFT")));
    }
    return rows;
  }

  /// On a screen, the row of a step's table that tells what was found there.
  std::string found_in(const PlacedStep& placed, double width) const {
    if (placed.entries.empty()) return "";
    return fmt::format(
        "<TR><TD></TD><TD COLSPAN=\"2\" ALIGN=\"LEFT\"><FONT "
        "POINT-SIZE=\"{:.0f}\">{}</FONT></TD></TR>",
        std::floor(scaled(small_type)), table(entry_rows(placed.entries, width - 6), 1));
  }

  void step(int row) {
    const DrawnStep& node = d_.nodes[at(row)];
    const PlacedStep& placed = l_.steps[at(row)];
    const double inset = node.missing || node.inside ? indent : 0;
    std::string words = cell_lines(placed.words, false, "LEFT");
    if (!placed.tag.empty()) words += coloured(faint, cell_lines(placed.tag, false, "LEFT"));
    const std::string number = node.missing ? " " : node.number + (node.unknown ? " ?" : "");
    std::string label = table("<TR>" + left_cell(l_.widths.number, label_text(number)) +
                              left_cell(l_.widths.words - inset, words) + key_cell(node, placed) +
                              "</TR>" + found_in(placed, l_.widths.words + l_.widths.key - inset));
    std::string look = "style=filled";
    double width = node.critical && !d_.blank && !d_.standard ? 2 : 0.9;
    if (node.missing) {
      look = fmt::format("style=\"filled,dashed\", color=\"{0}\", fontcolor=\"{0}\"", faint);
      width = 1.5;
    } else if (node.unknown) {
      look = "style=\"filled,dotted\"";
      width = 1.8;
    }
    if (node.watched) width = 3.2;
    out_ += fmt::format("  \"{}\" [{}, {}, penwidth={:.2f}, label=<{}>];\n", name_of(row),
                        place(placed.box), look, pen(width), label);
  }

  void joining(const PlacedJoining& placed) {
    const Joining& j = d_.nodes[at(placed.row)].joins[at(placed.index)];
    std::string look = fmt::format("style=\"filled,rounded\", color=\"{}\"", hairline);
    double width = 0.8;
    bool bold = false;
    switch (j.kind) {
      case Joining::Kind::material:
      case Joining::Kind::yeast:
        look = fmt::format("style=filled, fillcolor=\"#efefec\", color=\"{}\"", hairline);
        break;
      case Joining::Kind::unclean:
        look = fmt::format("style=\"filled,rounded,dashed\", color=\"{}\"",
                           colour_of(Severity::spoils));
        width = 1.8;
        bold = true;
        break;
      default:
        break;
    }
    std::string lines = cell_lines(placed.what, bold, "LEFT");
    if (!placed.note.empty()) lines += cell_lines(placed.note, false, "LEFT");
    out_ +=
        fmt::format("  \"joins {}.{}\" [{}, {}, {}, penwidth={:.2f}, label=<{}>];\n",
                    placed.row + 1, placed.index + 1, place(placed.box), type(small_type), look,
                    pen(width), table("<TR>" + left_cell(placed.box.width - 8, lines) + "</TR>"));
  }

  void notes(const PlacedNotes& placed) {
    if (d_.blank) {
      out_ += fmt::format("  \"notes {}\" [{}, style=\"filled,dashed\", color=\"{}\"];\n",
                          placed.row + 1, place(placed.box), hairline);
      return;
    }
    Severity worst = Severity::note;
    for (const PlacedEntry& entry : placed.entries) worst = std::max(worst, entry.severity);
    out_ += fmt::format("  \"notes {}\" [{}, {}, color=\"{}\", {}, label=<{}>];\n", placed.row + 1,
                        place(placed.box), type(small_type), colour_of(worst), frame_of(worst),
                        table(entry_rows(placed.entries, placed.box.width - 14), 2));
  }

  /// The worse, the heavier; danger has a double frame, what weakens round corners, a note dots.
  std::string frame_of(Severity severity) const {
    switch (severity) {
      case Severity::danger:
        return fmt::format("peripheries=2, penwidth={:.2f}", pen(1.8));
      case Severity::spoils:
        return fmt::format("penwidth={:.2f}", pen(2));
      case Severity::weakens:
        return fmt::format("style=\"filled,rounded\", penwidth={:.2f}", pen(1));
      case Severity::note:
        return fmt::format("style=\"filled,dotted\", penwidth={:.2f}", pen(1));
    }
    return "";
  }

  void connector(std::size_t i) {
    const PlacedConnector& c = l_.connectors[i];
    out_ += fmt::format(
        "  \"connector {}\" [{}, {}, shape=circle, penwidth={:.2f}, label=<<B>{}</B>>];\n", i + 1,
        place(c.box), type(small_type), pen(1), label_text(c.number));
  }

  void legend() {
    if (l_.legend.empty()) return;
    std::string rows;
    for (const auto& line : l_.legend) {
      std::string text;
      for (const PlacedSign& sign : line) {
        if (!text.empty()) text += "&#160;&#160;&#160;&#160;";
        const std::string bold = "<B>" + label_text(sign.sign) + "</B>";
        text += sign.severity ? coloured(colour_of(*sign.severity), bold) : bold;
        // A plain space after a tag is not drawn.
        text += "&#160;" + label_text(sign.words);
      }
      rows += "<TR>" + left_cell(l_.legend_box.width, text) + "</TR>";
    }
    out_ += fmt::format("  \"legend\" [{}, {}, shape=plaintext, style=\"\", label=<{}>];\n",
                        place(l_.legend_box), type(small_type), table(rows, 1));
  }

  // --- Lines ---

  /// A way with rounded corners as the Bézier curves that Graphviz draws; the tip takes the last
  /// bit of it.
  std::string curve(std::vector<Point> way, bool tip, bool tail_tip, double weight) const {
    std::string ends;
    const auto shorten = [&](Point& end, const Point& before, char name) {
      const double dx = end.x - before.x, dy = end.y - before.y;
      const double length = std::sqrt(dx * dx + dy * dy);
      const auto back = [&](double by) {
        const double share = length > 0 ? std::min(by, length * 0.9) / length : 0;
        return Point{end.x - dx * share, end.y - dy * share};
      };
      // The outline of a heavy arrow reaches beyond its tip.
      const double reach = weight > 1 ? weight * 0.8 : 0;
      const Point base = back(reach + arrow_length);
      ends += fmt::format("{},{} ", name, point(back(reach)));
      end = base;
    };
    if (tail_tip) shorten(way.front(), way[1], 's');
    if (tip) shorten(way.back(), way[way.size() - 2], 'e');
    std::string out = ends + point(way.front());
    Point here = way.front();
    const auto straight = [&](const Point& to) {
      const Point a{here.x + (to.x - here.x) / 3, here.y + (to.y - here.y) / 3};
      const Point b{here.x + (to.x - here.x) * 2 / 3, here.y + (to.y - here.y) * 2 / 3};
      out += " " + point(a) + " " + point(b) + " " + point(to);
      here = to;
    };
    const auto towards = [](const Point& from, const Point& to, double by) {
      const double dx = to.x - from.x, dy = to.y - from.y;
      const double length = std::sqrt(dx * dx + dy * dy);
      const double share = length > 0 ? std::min(by, length / 2) / length : 0;
      return Point{from.x + dx * share, from.y + dy * share};
    };
    for (std::size_t i = 1; i + 1 < way.size(); ++i) {
      straight(towards(way[i], way[i - 1], corner));
      const Point after = towards(way[i], way[i + 1], corner);
      out += " " + point(way[i]) + " " + point(way[i]) + " " + point(after);
      here = after;
    }
    straight(way.back());
    return out;
  }

  /// How a line looks: its style, colour, weight and what it ends in ("" for nothing).
  struct Stroke {
    std::string_view style, colour;
    double weight = 1;
    std::string_view head, tail;
  };
  Stroke stroke_of(const PlacedLine& line) const {
    const bool heavy = line.critical && !d_.blank && !d_.standard;
    switch (line.look) {
      case PlacedLine::Look::chain:
        return {"solid", ink, heavy ? 2.4 : 1.0, "normal", ""};
      case PlacedLine::Look::trade:
        return {"dashed", faint, 1, "empty", ""};
      case PlacedLine::Look::during:
        return {"solid", faint, 1, "", "odot"};
      case PlacedLine::Look::ghost:
        return {"dashed", faint, 1.3, "normal", ""};
      case PlacedLine::Look::gap:
        return {"dotted", faint, 1.3, "empty", ""};
      case PlacedLine::Look::rule:
        return {"dashed", colour_of(Severity::weakens), 2.4, "normal", ""};
      case PlacedLine::Look::fault:
      case PlacedLine::Look::ring:
        return {"dashed", colour_of(line.severity), 2.4, "normal", ""};
      case PlacedLine::Look::joins:
        return {"solid", faint, 1, "empty", ""};
      case PlacedLine::Look::unclean:
        return {"dashed", colour_of(Severity::spoils), 1.8, "normal", ""};
      case PlacedLine::Look::note:
        return {"dotted", faint, 1.2, "", ""};
    }
    return {};
  }

  void put(const PlacedLine& line) {
    const Stroke stroke = stroke_of(line);
    const bool head = !stroke.head.empty(), tail = !stroke.tail.empty();
    std::string look = fmt::format("style={}, color=\"{}\", penwidth={:.2f}", stroke.style,
                                   stroke.colour, pen(stroke.weight));
    if (head) look += fmt::format(", arrowhead={}", stroke.head);
    if (tail) look += fmt::format(", dir=back, arrowtail={}", stroke.tail);
    if (!head && !tail) look += ", dir=none";
    out_ += fmt::format("  \"{}\" -> \"{}\" [pos=\"{}\", {}];\n", line.from, line.to,
                        curve(line.way, head, tail, stroke.weight), look);
  }

  const Drawing& d_;
  const SheetOptions& options_;
  const Layout& l_;
  std::size_t page_;
  double shift_ = 0;  ///< where the page begins, while something among its columns is written
  std::string out_;
};

}  // namespace

std::string dot_of(const Drawing& drawing, const SheetOptions& options) {
  return dot_of(drawing, options, layout_of(drawing, options));
}

std::string dot_of(const Drawing& drawing, const SheetOptions& options, const Layout& layout,
                   std::size_t page) {
  return Writer(drawing, options, layout, page).text();
}

}  // namespace starter
