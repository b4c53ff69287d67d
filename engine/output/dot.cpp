#include "output/dot.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "output/characters.h"
#include "output/label.h"

namespace starter {
namespace {

std::size_t at(int i) {
  return static_cast<std::size_t>(i);
}

// Colours that stay apart for every common kind of colour blindness and as greys: they differ in
// lightness first. Signs, words, line styles and weights say everything that colours say.
constexpr std::string_view ink = "#22282d";
constexpr std::string_view faint = "#6b747c";
constexpr std::string_view hairline = "#9aa3aa";

std::string_view colour_of(Severity severity) {
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

std::string_view tint_of(Phase phase) {
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

std::string font(std::string_view attributes, const std::string& inner) {
  return fmt::format("<FONT {}>{}</FONT>", attributes, inner);
}

std::string small(const std::string& inner) {
  return font(fmt::format("POINT-SIZE=\"{}\"", small_type), inner);
}

std::string coloured(std::string_view colour, const std::string& inner) {
  return font(fmt::format("COLOR=\"{}\"", colour), inner);
}

/// Lines of text, the parts of an HTML-like cell; `mark` is put around each.
std::string cell_lines(const std::vector<std::string>& lines, bool bold = false) {
  std::string out;
  for (const std::string& line : lines) {
    if (!out.empty()) out += "<BR ALIGN=\"LEFT\"/>";
    out += bold ? "<B>" + label_text(line) + "</B>" : label_text(line);
  }
  return lines.size() > 1 ? out + "<BR ALIGN=\"LEFT\"/>" : out;
}

std::string name_of(const Drawing& drawing, int row) {
  const DrawnStep& node = drawing.nodes[at(row)];
  return node.missing ? fmt::format("\"missing {}\"", row)
                      : fmt::format("\"step {}\"", node.step + 1);
}
std::string joins_name(int row) {
  return fmt::format("\"joins {}\"", row + 1);
}
std::string notes_name(int row) {
  return fmt::format("\"notes {}\"", row + 1);
}

class Writer {
 public:
  Writer(const Drawing& drawing, const SheetOptions& options)
      : d_(drawing), options_(options), sheet_(sheet_for(drawing, options)) {}

  std::string text() {
    head();
    out_ += "  subgraph cluster_sheet {\n    peripheries=0; margin=4; labelloc=b; labeljust=l;\n";
    out_ += "    label=<" + legend() + ">;\n";
    for (std::size_t c = 0; c < sheet_.column_starts.size(); ++c) column(static_cast<int>(c));
    out_ += "  }\n";
    for (int row = 0; row < rows(); ++row) row_of(row);
    for (std::size_t c = 1; c < sheet_.column_starts.size(); ++c) side_by_side(static_cast<int>(c));
    for (const Arrow& arrow : d_.arrows) put(arrow);
    chain();
    out_ += "}\n";
    return std::move(out_);
  }

 private:
  int rows() const { return static_cast<int>(d_.nodes.size()); }

  int column_of(int row) const {
    int c = 0;
    while (c + 1 < static_cast<int>(sheet_.column_starts.size()) &&
           sheet_.column_starts[at(c + 1)] <= row)
      ++c;
    return c;
  }
  int begin_of(int column) const { return sheet_.column_starts[at(column)]; }
  int end_of(int column) const {
    return column + 1 < static_cast<int>(sheet_.column_starts.size())
               ? sheet_.column_starts[at(column + 1)]
               : rows();
  }

  void head() {
    const double width = (sheet_.width - 2 * sheet_.margin) / 72;
    const double height = (sheet_.height - 2 * sheet_.margin) / 72;
    // A small drawing is not blown up beyond what reads well.
    const bool fill = options_.large;
    out_ += "digraph process {\n";
    out_ += fmt::format(
        "  graph [rankdir=TB, newrank=true, nodesep=0.16, ranksep=0.2, splines=true, "
        "outputorder=edgesfirst, charset=\"UTF-8\", fontname=\"{}\", fontsize={}, "
        "fontcolor=\"{}\", labelloc=t, labeljust=l, size=\"{:.2f},{:.2f}{}\", pad=0.05, "
        "margin=0, bgcolor=white, label=<{}>];\n",
        font_name, step_type, ink, width, height, fill ? "!" : "", title());
    out_ += fmt::format(
        "  node [fontname=\"{}\", fontsize={}, fontcolor=\"{}\", shape=box, style=filled, "
        "fillcolor=white, color=\"{}\", margin=0.02, height=0.3];\n",
        font_name, step_type, ink, ink);
    out_ += fmt::format(
        "  edge [fontname=\"{}\", fontsize={}, fontcolor=\"{}\", color=\"{}\", arrowsize=0.7];\n",
        font_name, small_type, ink, ink);
  }

  static constexpr std::string_view font_name = "DejaVu Sans,Verdana,sans-serif";

  /// Columns of text of this size that the whole drawing has room for.
  std::size_t across(double type) const {
    const double width = std::max(sheet_.drawn_width, 330.0);
    return static_cast<std::size_t>(std::max(20.0, width / (0.62 * type)));
  }

  std::string title() const {
    std::string rows_text;
    const auto line = [&](double type, const std::string& text, bool bold, std::size_t most) {
      const std::string cell = cell_lines(label_lines(text, across(type), most), bold);
      rows_text += fmt::format(
          "<TR><TD ALIGN=\"LEFT\" BALIGN=\"LEFT\"><FONT POINT-SIZE=\"{}\">{}</FONT></TD></TR>",
          type, cell);
    };
    line(title_type, d_.title.empty() ? "Yeast starter" : d_.title, true, 8);
    if (!d_.member.empty()) line(step_type + 1, d_.member, false, 4);
    if (d_.blank)
      line(step_type + 1, "Name: ______________________     Date: ____________", false, 1);
    for (const std::string& sentence : d_.caption)
      if (!sentence.empty()) line(step_type, sentence, false, 4);
    return "<TABLE BORDER=\"0\" CELLBORDER=\"0\" CELLSPACING=\"0\" CELLPADDING=\"2\">" + rows_text +
           "</TABLE>";
  }

  // --- The legend -------------------------------------------------------------------------------

  bool any_arrow(Arrow::Kind kind) const {
    return std::any_of(d_.arrows.begin(), d_.arrows.end(),
                       [kind](const Arrow& a) { return a.kind == kind; });
  }
  bool any_joining(Joining::Kind kind) const {
    for (const DrawnStep& node : d_.nodes)
      for (const Joining& j : node.joins)
        if (j.kind == kind) return true;
    return false;
  }
  bool any_badge(Severity severity) const {
    for (const DrawnStep& node : d_.nodes)
      for (const Badge& b : node.badges)
        if (b.severity == severity) return true;
    return false;
  }
  template <class Test>
  bool any_step(Test test) const {
    return std::any_of(d_.nodes.begin(), d_.nodes.end(), test);
  }

  std::string legend() const {
    std::vector<std::pair<std::string, std::size_t>> entries;
    const auto add = [&](const std::string& sign, const std::string& words) {
      entries.emplace_back(sign + " " + label_text(words), columns(words) + 5);
    };
    if (any_step([](const DrawnStep& n) { return n.critical; }) && !d_.blank && !d_.standard)
      add("<B>━━▶</B>", "critical: a delay here delays the yeast");
    if (any_arrow(Arrow::Kind::trade)) add("┄┄▷", "needed by the trade, not written");
    if (any_arrow(Arrow::Kind::during)) add("╌╌○", "while the other step lasts");
    if (any_arrow(Arrow::Kind::gap)) add("┈┈▷", "steps left out");
    if (any_arrow(Arrow::Kind::rule)) add("<B>╍╍▶</B>", "the order the rule asks for");
    if (any_step([](const DrawnStep& n) { return n.watched; }))
      add("<B>▣</B>", "the rule looks here");
    if (any_joining(Joining::Kind::clean)) add("✓", "cleaned before it is used");
    if (any_joining(Joining::Kind::unclean)) add("<B>✗</B>", "touches boiled wort, not clean");
    if (any_step([](const DrawnStep& n) { return n.missing; })) add("┌╌┐", "a step left out");
    if (any_step([](const DrawnStep& n) { return n.unknown; })) add("<B>?</B>", "a word not known");
    if (any_arrow(Arrow::Kind::fault)) add("<B>╍╍▶</B>", "runs against the order");
    if (any_arrow(Arrow::Kind::ring)) add("<B>╍╍▶</B>", "closes a circle of steps");
    for (Severity s : {Severity::danger, Severity::spoils, Severity::weakens, Severity::note})
      if (any_badge(s))
        entries.emplace_back(coloured(colour_of(s), "<B>" + label_text(sign_of(s)) + "</B>") + " " +
                                 label_text(meaning_of(s)),
                             columns(sign_of(s)) + columns(meaning_of(s)) + 3);
    if (entries.empty()) return "&#160;";
    std::string table = "<TABLE BORDER=\"0\" CELLBORDER=\"0\" CELLSPACING=\"0\" CELLPADDING=\"1\">";
    const std::size_t room = across(small_type);
    std::string line;
    std::size_t used = 0;
    const auto end_line = [&] {
      table += "<TR><TD ALIGN=\"LEFT\">" + small(line) + "</TD></TR>";
      line.clear();
      used = 0;
    };
    for (const auto& [text, wide] : entries) {
      if (used > 0 && used + wide > room) end_line();
      line += (used > 0 ? "&#160;&#160;&#160;&#160;" : "") + text;
      used += wide + 4;
    }
    end_line();
    return table + "</TABLE>";
  }

  static std::string_view meaning_of(Severity severity) {
    switch (severity) {
      case Severity::danger:
        return "can hurt a person";
      case Severity::spoils:
        return "the starter likely fails";
      case Severity::weakens:
        return "works, but worse";
      case Severity::note:
        return "worth knowing";
    }
    return "";
  }

  // --- Columns: what joins at the left, steps by phase in the middle, notes at the right
  // ----------

  void column(int c) {
    if (has_joins(d_)) {
      open(fmt::format("joins_{}", c));
      for (int row = begin_of(c); row < end_of(c); ++row) {
        if (!d_.nodes[at(row)].joins.empty())
          joins(row);
        else if (row == begin_of(c))
          nothing(joins_name(row));
      }
      out_ += "    }\n";
    }
    open(fmt::format("steps_{}", c));
    for (int row = begin_of(c); row < end_of(c); ++row) {
      if (row == begin_of(c) || begins_group(d_, row)) {
        if (row > begin_of(c)) out_ += "      }\n";
        group(row);
      }
      step(row);
    }
    out_ += "      }\n    }\n";
    if (!has_notes(d_)) return;
    open(fmt::format("notes_{}", c));
    for (int row = begin_of(c); row < end_of(c); ++row) {
      if (notes_here(row))
        notes(row);
      else if (row == begin_of(c))
        nothing(notes_name(row));
    }
    out_ += "    }\n";
  }

  void open(const std::string& name) {
    out_ += fmt::format("    subgraph cluster_{} {{ peripheries=0; margin=2; label=\"\";\n", name);
  }

  void nothing(const std::string& name) {
    out_ +=
        fmt::format("      {} [shape=point, style=invis, width=0, height=0, label=\"\"];\n", name);
  }

  void group(int row) {
    const DrawnStep& node = d_.nodes[at(row)];
    std::string name(phase_name(node.phase));
    if (d_.stages > 1) name = fmt::format("stage {} · {}", node.stage + 1, name);
    out_ += fmt::format(
        "      subgraph cluster_group_{} {{ peripheries=1; pencolor=\"{}\"; "
        "style=\"filled,rounded\"; "
        "fillcolor=\"{}\"; margin=6; labelloc=t; labeljust=l; label=<{}>;\n",
        row, hairline, tint_of(node.phase),
        small(coloured(faint, "<B>" + label_text(name) + "</B>")));
  }

  bool notes_here(int row) const { return d_.blank || !d_.nodes[at(row)].badges.empty(); }

  std::string key_cell(const DrawnStep& node) const {
    const RowMeasures& m = row_measures;
    const bool box = d_.blank && !node.key.empty();
    const std::string open_cell =
        fmt::format("<TD WIDTH=\"{}\" ALIGN=\"RIGHT\" BALIGN=\"RIGHT\">", m.key);
    if (box)
      return open_cell +
             fmt::format(
                 "<TABLE BORDER=\"0\" CELLBORDER=\"0\" CELLSPACING=\"0\" CELLPADDING=\"1\">"
                 "<TR><TD BORDER=\"1\" WIDTH=\"30\" HEIGHT=\"16\" COLOR=\"{}\"> </TD>"
                 "<TD ALIGN=\"LEFT\">{}</TD></TR></TABLE></TD>",
                 faint, small(label_text(node.key)));
    std::string lines;
    for (const std::string& line : label_lines(node.key, m.key_columns, 4))
      lines += (lines.empty() ? "" : "<BR ALIGN=\"RIGHT\"/>") + ("<B>" + label_text(line) + "</B>");
    return open_cell + (node.key.empty() ? "&#160;" : lines) + "</TD>";
  }

  void step(int row) {
    const DrawnStep& node = d_.nodes[at(row)];
    const RowMeasures& m = row_measures;
    const std::string number = node.missing ? "" : node.number + (node.unknown ? " ?" : "");
    const std::string words = node.missing ? "missing: " + node.words : node.words;
    std::string label = fmt::format(
        "<TABLE BORDER=\"0\" CELLBORDER=\"0\" CELLSPACING=\"0\" CELLPADDING=\"2\"><TR>"
        "<TD WIDTH=\"{}\" ALIGN=\"LEFT\"><B>{}</B></TD>"
        "<TD WIDTH=\"{}\" ALIGN=\"LEFT\" BALIGN=\"LEFT\">{}</TD>{}</TR></TABLE>",
        m.number, label_text(number), m.words, cell_lines(label_lines(words, m.words_columns, 5)),
        key_cell(node));
    std::string style = "filled";
    double pen = node.critical && !d_.blank && !d_.standard ? 2.2 : 1;
    std::string extra;
    if (node.missing) {
      style += ",dashed";
      pen = 1.6;
      label = coloured(faint, label);
    } else if (node.unknown) {
      style += ",dotted";
      pen = 1.8;
    }
    if (node.watched) {
      pen = 2.4;
      extra = ", peripheries=2";
    }
    out_ += fmt::format("        {} [label=<{}>, style=\"{}\", penwidth={}{}];\n", name_of(d_, row),
                        label, style, pen, extra);
  }

  void joins(int row) {
    const RowMeasures& m = row_measures;
    std::string cells;
    for (const Joining& j : d_.nodes[at(row)].joins) {
      std::string_view sign;
      std::string frame = fmt::format("BORDER=\"1\" COLOR=\"{}\"", hairline);
      switch (j.kind) {
        case Joining::Kind::material:
        case Joining::Kind::yeast:
          frame += " BGCOLOR=\"#f2f2ef\"";
          break;
        case Joining::Kind::item:
          sign = d_.blank ? "☐ " : "";
          break;
        case Joining::Kind::clean:
          sign = "✓ ";
          break;
        case Joining::Kind::unclean:
          sign = "✗ ";
          frame = fmt::format("BORDER=\"2\" STYLE=\"DASHED\" COLOR=\"{}\"",
                              colour_of(Severity::spoils));
          break;
      }
      const bool material = j.kind == Joining::Kind::material || j.kind == Joining::Kind::yeast;
      std::string what = std::string(sign) + j.what;
      if (material && !j.key.empty()) what += (d_.blank ? ": ____ " : " · ") + j.key;
      std::string inner =
          cell_lines(label_lines(what, m.joins_columns, 4), j.kind == Joining::Kind::unclean);
      std::string note = j.note;
      if (j.assumed && !d_.standard) note += note.empty() ? "not named" : ", not named";
      if (!note.empty()) {
        if (inner.find("<BR") == std::string::npos) inner += "<BR ALIGN=\"LEFT\"/>";
        inner += cell_lines(label_lines(note, m.joins_columns + 1, 3));
        inner +=
            inner.rfind("<BR ALIGN=\"LEFT\"/>") + 19 == inner.size() ? "" : "<BR ALIGN=\"LEFT\"/>";
      }
      cells += fmt::format("<TR><TD {} ALIGN=\"LEFT\" BALIGN=\"LEFT\" WIDTH=\"{}\">{}</TD></TR>",
                           frame, m.joins, small(inner));
    }
    out_ += fmt::format(
        "      {} [shape=plain, style=\"\", label=<<TABLE BORDER=\"0\" CELLBORDER=\"0\" "
        "CELLSPACING=\"2\" CELLPADDING=\"2\">{}</TABLE>>];\n",
        joins_name(row), cells);
  }

  void notes(int row) {
    const RowMeasures& m = row_measures;
    if (d_.blank) {
      out_ += fmt::format(
          "      {} [label=\"\", style=dashed, color=\"{}\", width={:.2f}, height=0.36, "
          "fixedsize=true];\n",
          notes_name(row), hairline, m.notes / 72);
      return;
    }
    const auto& badges = d_.nodes[at(row)].badges;
    Severity worst = Severity::note;
    std::string cells;
    for (const Badge& b : badges) {
      worst = std::max(worst, b.severity);
      std::string words = b.title;
      if (!b.value.empty()) words += " · " + b.value;
      if (b.times > 1) words += fmt::format(" (×{})", b.times);
      cells += fmt::format(
          "<TR><TD ALIGN=\"LEFT\" VALIGN=\"TOP\" WIDTH=\"52\">{}</TD>"
          "<TD ALIGN=\"LEFT\" BALIGN=\"LEFT\" WIDTH=\"{}\">{}</TD></TR>",
          small(coloured(colour_of(b.severity), "<B>" + label_text(sign_of(b.severity)) + "</B>")),
          m.notes - 54, small(cell_lines(label_lines(words, m.notes_columns - 9, 4))));
    }
    out_ += fmt::format(
        "      {} [label=<<TABLE BORDER=\"0\" CELLBORDER=\"0\" CELLSPACING=\"0\" "
        "CELLPADDING=\"1\">{}</TABLE>>, color=\"{}\", {}];\n",
        notes_name(row), cells, colour_of(worst), frame_of(worst));
  }

  /// The worse, the heavier; a note is dotted.
  static std::string_view frame_of(Severity severity) {
    switch (severity) {
      case Severity::danger:
        return "penwidth=2, peripheries=2";
      case Severity::spoils:
        return "penwidth=2.2";
      case Severity::weakens:
        return "penwidth=1, style=\"filled,rounded\"";
      case Severity::note:
        return "penwidth=1, style=\"filled,dotted\"";
    }
    return "";
  }

  // --- Lines
  // --------------------------------------------------------------------------------------

  void row_of(int row) {
    const bool first = row == begin_of(column_of(row));
    const DrawnStep& node = d_.nodes[at(row)];
    const bool left = !node.joins.empty() || (first && has_joins(d_));
    const bool right = notes_here(row) || (first && has_notes(d_));
    const std::string name = name_of(d_, row);
    std::string same = name;
    if (left) {
      same = joins_name(row) + "; " + same;
      const bool unclean = std::any_of(node.joins.begin(), node.joins.end(), [](const Joining& j) {
        return j.kind == Joining::Kind::unclean;
      });
      const std::string look =
          node.joins.empty() ? "style=invis"
          : unclean          ? fmt::format("color=\"{}\", penwidth=2, style=dashed, arrowhead=tee",
                                           colour_of(Severity::spoils))
                             : fmt::format("color=\"{}\", arrowhead=empty", faint);
      out_ += fmt::format("  {}:e -> {}:w [{}];\n", joins_name(row), name, look);
    }
    if (right) {
      same += "; " + notes_name(row);
      const bool visible_line = notes_here(row);
      out_ += fmt::format(
          "  {}:e -> {}:w [{}];\n", name, notes_name(row),
          visible_line ? fmt::format("color=\"{}\", style=dotted, dir=none, penwidth=1.4", faint)
                       : std::string("style=invis"));
    }
    if (left || right) out_ += "  { rank=same; " + same + " }\n";
  }

  /// The columns stand next to each other, each beginning at the top.
  void side_by_side(int c) {
    const int before = begin_of(c - 1), row = begin_of(c);
    const std::string right = has_notes(d_) ? notes_name(before) : name_of(d_, before);
    const std::string left = has_joins(d_) ? joins_name(row) : name_of(d_, row);
    out_ += fmt::format("  {{ rank=same; {}; {} }}\n  {} -> {} [style=invis, minlen=1];\n", right,
                        left, right, left);
  }

  void put(const Arrow& arrow) {
    const bool across_columns = column_of(arrow.from) != column_of(arrow.to);
    const bool upwards = arrow.from >= arrow.to;
    std::string look;
    const auto with = [&look](const std::string& more) {
      look += (look.empty() ? "" : ", ") + more;
    };
    switch (arrow.kind) {
      case Arrow::Kind::then:
        if (arrow.critical && !d_.blank && !d_.standard) with("penwidth=2.6");
        break;
      case Arrow::Kind::trade:
        with(fmt::format("style=dashed, color=\"{}\", arrowhead=empty", faint));
        break;
      case Arrow::Kind::during: {
        // Drawn from the outer step, which stands above, so that the rows keep their order.
        out_ += fmt::format(
            "  {} -> {} [dir=both, arrowtail=odot, arrowhead=none, style=dashed, "
            "color=\"{}\"{}];\n",
            name_of(d_, arrow.to), name_of(d_, arrow.from), ink,
            across_columns || arrow.to > arrow.from ? ", constraint=false" : "");
        return;
      }
      case Arrow::Kind::ghost:
        with(fmt::format("style=dashed, color=\"{}\", penwidth=1.4", faint));
        break;
      case Arrow::Kind::gap:
        with(fmt::format("style=dotted, color=\"{}\", arrowhead=empty", faint));
        break;
      case Arrow::Kind::rule:
        with(fmt::format("style=dashed, penwidth=2.6, color=\"{}\"", colour_of(Severity::weakens)));
        break;
      case Arrow::Kind::fault:
      case Arrow::Kind::ring: {
        const Severity severity = arrow.badge ? arrow.badge->severity : Severity::spoils;
        const std::string words =
            arrow.kind == Arrow::Kind::ring ? "waits in a circle" : "belongs before";
        with(
            fmt::format("style=dashed, penwidth=2.6, arrowhead=vee, color=\"{}\", "
                        "fontcolor=\"{}\", label=<<B>{}</B>>",
                        colour_of(severity), colour_of(severity),
                        label_text(std::string(sign_of(severity).substr(0, 3)) + " " + words)));
        break;
      }
    }
    if (across_columns || upwards || arrow.kind == Arrow::Kind::rule)
      with("constraint=false");
    else if (arrow.to == arrow.from + 1)
      with("weight=20");
    out_ += fmt::format("  {} -> {} [{}];\n", name_of(d_, arrow.from), name_of(d_, arrow.to), look);
  }

  /// Rows of a column keep their order, whatever the arrows say.
  void chain() {
    for (int row = 1; row < rows(); ++row)
      if (column_of(row) == column_of(row - 1))
        out_ += fmt::format("  {} -> {} [style=invis, weight=50];\n", name_of(d_, row - 1),
                            name_of(d_, row));
  }

  const Drawing& d_;
  SheetOptions options_;
  Sheet sheet_;
  std::string out_;
};

}  // namespace

std::string_view sign_of(Severity severity) {
  switch (severity) {
    case Severity::danger:
      return "▲ DANGER";
    case Severity::spoils:
      return "■ spoils";
    case Severity::weakens:
      return "◆ weakens";
    case Severity::note:
      return "○ note";
  }
  return "";
}

std::string dot_of(const Drawing& drawing, const SheetOptions& options) {
  return Writer(drawing, options).text();
}

}  // namespace starter
