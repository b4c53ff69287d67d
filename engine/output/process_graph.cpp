#include "output/process_graph.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "output/places.h"
#include "output/step_words.h"
#include "rules/catalogue.h"
#include "rules/evaluate.h"
#include "rules/telling.h"

namespace starter {
namespace {

constexpr const char* accepted_mark = " (accepted)";  // follows a rule's title

std::size_t at(int i) {
  return static_cast<std::size_t>(i);
}

/// Rows of a drawing, and where each step of the plan stands in them.
class Rows {
 public:
  Rows(const Judgement& j, const DrawingOptions& options) : j_(j), options_(options) {
    place_.assign(j.plan.steps.size(), -1);
    for (int step : j.process.order)
      if (!j.process.inside[at(step)]) put(step);
    // A ring of containers has no outermost step.
    for (int step : j.process.order)
      if (place_[at(step)] < 0) put(step);
    if (!options.blank)
      for (const MissingStep& missing : j.process.missing)
        if (missing.before >= static_cast<int>(j.plan.steps.size())) put_missing(missing);
  }

  std::vector<DrawnStep> take() { return std::move(nodes_); }
  int row_of(int step) const { return place_[at(step)]; }

 private:
  /// The step, after the missing ones that belong before it and before those laid inside it.
  void put(int step) {
    if (!options_.blank)
      for (const MissingStep& missing : j_.process.missing)
        if (missing.before == step) put_missing(missing);
    place_[at(step)] = static_cast<int>(nodes_.size());
    const Step& written = j_.plan.steps[at(step)];
    DrawnStep node;
    node.step = step;
    node.number = std::to_string(step + 1);
    node.words = step_in_words(j_.plan, written, options_.units, Said::drawn);
    node.verb = written.does == Do::add ? node.words : step_verb(written);
    node.key = step_key(j_, step, options_.units);
    node.phase = phase_for(written);
    node.stage = written.stage;
    node.unknown = !written.does;
    node.critical = j_.workings.times.critical[at(step)];
    if (const auto outer = j_.process.inside[at(step)]; outer && row_of(*outer) >= 0)
      node.inside = row_of(*outer);
    node.joins = joinings_of(j_, step, options_.units);
    nodes_.push_back(std::move(node));
    for (int other : j_.process.order)
      if (j_.process.inside[at(other)] == step && place_[at(other)] < 0) put(other);
  }

  /// An unknown word is drawn among the steps around it, and so is what any part of the work has.
  Phase phase_for(const Step& step) const {
    const bool anywhere = !step.does || *step.does == Do::cover || *step.does == Do::add;
    if (anywhere && !nodes_.empty() && nodes_.back().stage == step.stage)
      return nodes_.back().phase;
    const Phase phase = step.does ? phase_of(*step.does) : Phase::wort;
    // What is decanted between two stages isn't decanted on brew day.
    const bool last_stage = at(step.stage) + 1 >= j_.plan.stages.size();
    return phase == Phase::brew_day && !last_stage ? Phase::yeast : phase;
  }

  void put_missing(const MissingStep& missing) {
    DrawnStep node;
    node.words = std::string(spelling(missing.what));
    node.verb = node.words;
    node.phase = phase_of(missing.what);
    node.stage = missing.stage;
    node.missing = true;
    nodes_.push_back(std::move(node));
  }

  const Judgement& j_;
  const DrawingOptions& options_;
  std::vector<DrawnStep> nodes_;
  std::vector<int> place_;
};

void point_at_rows(std::vector<DrawnStep>& nodes, const Rows& rows) {
  for (DrawnStep& node : nodes)
    for (Joining& joining : node.joins)
      if (joining.cleaned_in) joining.cleaned_in = rows.row_of(*joining.cleaned_in);
}

/// Whether an arrow says nothing that others do not say: there is a way over another step.
bool goes_without_saying(const Process& process, const Dependency& arrow) {
  const int count = static_cast<int>(process.inside.size());
  for (int over = 0; over < count; ++over)
    if (!process.inside[at(over)] && process.precedes(arrow.from, over) &&
        process.precedes(over, arrow.to))
      return true;
  return false;
}

std::vector<Arrow> arrows_of(const Judgement& j, const Rows& rows) {
  std::vector<Arrow> arrows;
  const auto& critical = j.workings.times.critical;
  for (const Dependency& d : j.process.dependencies) {
    if (d.why == Dependency::Why::during || goes_without_saying(j.process, d)) continue;
    Arrow arrow;
    arrow.from = rows.row_of(d.from);
    arrow.to = rows.row_of(d.to);
    arrow.kind = d.why == Dependency::Why::trade ? Arrow::Kind::trade : Arrow::Kind::then;
    arrow.critical = critical[at(d.from)] && critical[at(d.to)];
    arrows.push_back(std::move(arrow));
  }
  for (std::size_t i = 0; i < j.process.inside.size(); ++i)
    if (const auto outer = j.process.inside[i])
      arrows.push_back({rows.row_of(static_cast<int>(i)), rows.row_of(*outer), Arrow::Kind::during,
                        false, std::nullopt});
  return arrows;
}

/// A missing step hangs between the rows around it that are of its stage.
void add_ghost_arrows(const std::vector<DrawnStep>& nodes, std::vector<Arrow>& arrows) {
  const int count = static_cast<int>(nodes.size());
  const auto fits = [&](int i, int ghost) {
    return nodes[at(i)].stage == nodes[at(ghost)].stage && !nodes[at(i)].inside;
  };
  for (int i = 0; i < count; ++i) {
    if (!nodes[at(i)].missing) continue;
    int before = i - 1, after = i + 1;
    while (before >= 0 && !fits(before, i)) --before;
    while (after < count && (nodes[at(after)].missing || !fits(after, i))) ++after;
    if (before >= 0) arrows.push_back({before, i, Arrow::Kind::ghost, false, std::nullopt});
    if (after < count && !(i + 1 < count && nodes[at(i + 1)].missing &&
                           nodes[at(i + 1)].stage == nodes[at(i)].stage))
      arrows.push_back({i, after, Arrow::Kind::ghost, false, std::nullopt});
  }
}

Badge badge_of(const Finding& finding, const Judgement& j, UnitSystem units) {
  const Rule& rule = *finding.rule;
  Badge badge{finding.severity, 1, rule.title, "", ""};
  const bool has_number = rule.kind == RuleKind::range || rule.kind == RuleKind::consistent;
  if (!has_number || finding.numbers.empty()) return badge;
  const Measure& m = finding.numbers.front();
  const Telling telling = telling_of(rule, m.unit);
  badge.value = write_value(telling.of(m).value, telling.unit, units);
  // Of two temperatures: a reader would take it for one.
  const MeasureKind* kind = find_measure_kind(m.name);
  if (m.unit == "K" && kind) badge.value = std::string(kind->title) + " " + badge.value;
  const Bounds bounds =
      rule.kind == RuleKind::range ? bounds_at(rule, j.facts, finding.stage).comfortable : Bounds{};
  if (bounds.any()) badge.wanted = bounds_text(telling.of(bounds), telling.unit, units);
  return badge;
}

/// One rule that finds the same twice at one step is one line there.
void pin(DrawnStep& node, Badge badge) {
  for (Badge& other : node.badges) {
    if (other.title != badge.title || other.value != badge.value) continue;
    other.times += badge.times;
    other.severity = std::max(other.severity, badge.severity);
    return;
  }
  node.badges.push_back(std::move(badge));
}

std::optional<int> missing_row(const std::vector<DrawnStep>& nodes, const Finding& finding,
                               const Rule& rule) {
  for (std::size_t i = 0; i < nodes.size(); ++i) {
    const DrawnStep& node = nodes[i];
    const bool taken = std::any_of(node.badges.begin(), node.badges.end(), [&](const Badge& b) {
      return b.title == rule.title || b.title == rule.title + accepted_mark;
    });
    if (node.missing && node.stage == finding.stage && !taken) return static_cast<int>(i);
  }
  return std::nullopt;
}

class Pinning {
 public:
  Pinning(const Judgement& j, const Rows& rows, UnitSystem units, Drawing& drawing)
      : j_(j), rows_(rows), units_(units), drawing_(drawing) {}

  void all() {
    for (const Finding& finding : j_.findings) {
      Badge badge = badge_of(finding, j_, units_);
      if (finding.accepted) badge.title += accepted_mark;
      if (finding.rule->kind == RuleKind::order) badge.value = belongs(finding);
      pin(drawing_.nodes[at(row_for(finding))], badge);
      if (finding.rule->kind == RuleKind::order) fault(finding, badge);
    }
    for (const auto& ring : j_.process.loops) close_ring(ring);
  }

 private:
  int row_for(const Finding& finding) const {
    if (finding.rule->fact == "missing_step")
      if (const auto row = missing_row(drawing_.nodes, finding, *finding.rule)) return *row;
    if (finding.step >= 0 && finding.step < static_cast<int>(j_.plan.steps.size()))
      return rows_.row_of(finding.step);
    const auto step = step_of_place(j_.plan, j_.process, finding.where, finding.stage);
    return step ? rows_.row_of(*step) : 0;
  }

  std::vector<Reversal> reversals_of(const Finding& finding) const {
    const Rule& rule = *finding.rule;
    std::vector<Reversal> found;
    for (const Reversal& r :
         reversals(j_.plan, j_.process, rule.first, rule.then, rule.until, rule.items))
      if (r.first == finding.step) found.push_back(r);
    return found;
  }

  std::string belongs(const Finding& finding) const {
    const auto found = reversals_of(finding);
    return found.empty() ? "" : "belongs before step " + std::to_string(found.front().then + 1);
  }

  void fault(const Finding& finding, const Badge& badge) {
    for (const Reversal& r : reversals_of(finding)) {
      const int from = rows_.row_of(r.first), to = rows_.row_of(r.then);
      const bool drawn =
          std::any_of(drawing_.arrows.begin(), drawing_.arrows.end(), [&](const Arrow& a) {
            return a.kind == Arrow::Kind::fault && a.from == from && a.to == to;
          });
      if (!drawn) drawing_.arrows.push_back({from, to, Arrow::Kind::fault, false, badge});
    }
  }

  /// The graph has no loops left: the arrows it lost are drawn as what they are.
  void close_ring(const std::vector<int>& ring) {
    for (std::size_t k = 0; k < ring.size(); ++k) {
      const int from = rows_.row_of(ring[k]), to = rows_.row_of(ring[(k + 1) % ring.size()]);
      const bool kept = std::any_of(drawing_.arrows.begin(), drawing_.arrows.end(),
                                    [&](const Arrow& a) { return a.from == from && a.to == to; });
      if (kept || (from < to && from != to)) continue;
      drawing_.arrows.push_back({from, to, Arrow::Kind::ring, false, std::nullopt});
    }
  }

  const Judgement& j_;
  const Rows& rows_;
  UnitSystem units_;
  Drawing& drawing_;
};

std::string counted(std::size_t count, const char* one, const char* many) {
  return fmt::format("{} {}", count, count == 1 ? one : many);
}

/// Step by step, for a reader who cannot see the picture.
std::string in_words(const Drawing& drawing) {
  std::string out = counted(drawing.nodes.size(), "step", "steps") + ".";
  for (const DrawnStep& node : drawing.nodes) {
    out +=
        node.missing ? " Missing: " + node.words : fmt::format(" {} {}", node.number, node.words);
    if (!node.key.empty() && !drawing.blank) out += ", " + node.key;
    for (const Joining& joining : node.joins)
      if (joining.kind == Joining::Kind::unclean) out += "; " + joining.what + " " + joining.note;
    for (const Badge& badge : node.badges)
      out += fmt::format("; {}: {}{}{}", spelling(badge.severity), badge.title,
                         badge.value.empty() ? "" : ", " + badge.value,
                         badge.wanted.empty() ? "" : ", comfortable " + badge.wanted);
    out += ".";
  }
  for (const Arrow& arrow : drawing.arrows)
    if (arrow.kind == Arrow::Kind::fault)
      out += fmt::format(" Step {} belongs before step {}.", drawing.nodes[at(arrow.from)].number,
                         drawing.nodes[at(arrow.to)].number);
  return out;
}

/// The number that a sheet leaves open: "12 min" becomes "min", "10 h 18 min" becomes "h".
std::string unit_of(const std::string& key) {
  const auto digit = [](char c) { return c >= '0' && c <= '9'; };
  std::size_t i = 0;
  while (i < key.size() && std::string_view("0123456789.,−–").find(key[i]) != std::string::npos)
    ++i;
  while (i < key.size() && key[i] == ' ') ++i;
  std::size_t end = i;
  while (end < key.size() && !(key[end] == ' ' && end + 1 < key.size() && digit(key[end + 1])))
    ++end;
  return key.substr(i, end - i);
}

void make_blank(Drawing& drawing) {
  for (DrawnStep& node : drawing.nodes) {
    node.key = unit_of(node.key);
    for (Joining& joining : node.joins) {
      joining.key = unit_of(joining.key);
      joining.note.clear();
      joining.cleaned_in.reset();
      if (joining.kind == Joining::Kind::clean || joining.kind == Joining::Kind::unclean)
        joining.kind = Joining::Kind::item;
    }
  }
}

}  // namespace

std::optional<int> step_of_place(const Plan& plan, const Process& process, const std::string& where,
                                 int stage) {
  if (const auto step = step_at(plan, where)) return step;
  const int last = static_cast<int>(plan.stages.size()) - 1;
  if (where.rfind("/stages/", 0) == 0) stage = std::atoi(where.c_str() + 8);
  stage = std::clamp(stage, 0, last);
  const auto first_of = [&](std::initializer_list<Do> kinds, int s) -> std::optional<int> {
    for (Do kind : kinds)
      if (const auto found = first_step(plan, kind, s)) return found;
    return std::nullopt;
  };
  const auto says = [&](std::string_view field) { return where.find(field) != std::string::npos; };
  std::optional<int> found;
  if (where.rfind("/stages/", 0) == 0) {
    if (says("/extract"))
      found = first_of({Do::weigh, Do::dissolve, Do::boil}, stage);
    else if (says("/boil_off"))
      found = first_of({Do::boil, Do::heat}, stage);
    else if (says("/water") || says("/wort_volume") || says("/gravity"))
      found = first_of({Do::dissolve, Do::boil}, stage);
    else if (says("/measured") && !says("/measured/cells"))
      found = first_of({Do::check_temperature, Do::chill}, stage);
    else
      found = growth_step(plan, process, stage);
    if (!found) found = first_of({Do::pitch}, stage);
  } else if (where.rfind("/yeast", 0) == 0) {
    found = first_of({Do::pitch}, 0);
  } else if (where.rfind("/beer", 0) == 0 || where == "/steps" || where == "/start") {
    found = first_of({Do::pitch_to_beer, Do::krausen_pitch}, last);
  } else if (where.rfind("/vessels/", 0) == 0) {
    const std::string name = where.substr(9, where.find('/', 9) - 9);
    for (std::size_t i = 0; i < plan.steps.size() && !found; ++i) {
      const Step& s = plan.steps[i];
      if (s.in == name || s.into == name) found = static_cast<int>(i);
    }
  }
  if (found) return found;
  for (std::size_t i = 0; i < plan.steps.size(); ++i)
    if (plan.steps[i].stage == stage) return static_cast<int>(i);
  return plan.steps.empty() ? std::nullopt : std::optional(0);
}

Drawing drawing_of(const Judgement& j, const DrawingOptions& options) {
  Drawing drawing;
  drawing.title = j.plan.title;
  drawing.member = j.plan.member;
  drawing.stages = static_cast<int>(j.plan.stages.size());
  drawing.blank = options.blank;
  Rows rows(j, options);
  drawing.nodes = rows.take();
  point_at_rows(drawing.nodes, rows);
  drawing.arrows = arrows_of(j, rows);
  if (options.blank) {
    make_blank(drawing);
  } else {
    add_ghost_arrows(drawing.nodes, drawing.arrows);
    Pinning(j, rows, options.units, drawing).all();
  }
  drawing.about = in_words(drawing);
  return drawing;
}

}  // namespace starter
