#include "output/sheet_view.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <optional>
#include <set>
#include <vector>

#include "measures/measures.h"
#include "output/bar_chart.h"
#include "output/calendar.h"
#include "output/calendar_words.h"
#include "output/cautions_of.h"
#include "output/explain_text.h"
#include "output/key_numbers.h"
#include "output/page.h"
#include "output/places.h"
#include "output/plan_parts.h"
#include "output/process_graph.h"
#include "output/scale.h"
#include "output/verdict.h"
#include "rules/telling.h"

namespace starter {
namespace {

Json named(const std::string& name, const std::string& value) {
  return {{"name", name}, {"value", value}};
}

// --- who and what -----------------------------------------------------------------------------

std::string yeast_in_words(const Yeast& yeast, UnitSystem units) {
  const std::string packs = fmt::format("{} {}", yeast.packs, yeast.packs == 1 ? "pack" : "packs");
  switch (yeast.form) {
    case YeastForm::liquid: {
      std::string words =
          fmt::format("liquid, {} of {}", packs, write(yeast.cells_per_pack, units));
      if (yeast.packaged) words += ", packaged " + day_in_words(*yeast.packaged);
      return words;
    }
    case YeastForm::dry: {
      std::string words = "dry, " + packs;
      if (yeast.pack_mass) words += " of " + write(*yeast.pack_mass, units);
      if (yeast.best_before) words += ", best before " + day_in_words(*yeast.best_before);
      return words;
    }
    case YeastForm::slurry: {
      std::string words = "slurry";
      if (yeast.slurry_volume) words = write(*yeast.slurry_volume, units) + " of slurry";
      if (yeast.packaged) words += ", harvested " + day_in_words(*yeast.packaged);
      return words;
    }
  }
  return "";
}

Json facts_of(const Plan& plan, UnitSystem units) {
  Json facts = Json::array();
  facts.push_back(named("Beer", fmt::format("{}, fermented at {}", beer_in_words(plan.beer, units),
                                            write(plan.beer.ferment_at, units))));
  if (plan.beer.brew_day) facts.push_back(named("Brew day", day_in_words(*plan.beer.brew_day)));
  facts.push_back(named("Yeast", yeast_in_words(plan.yeast, units)));
  facts.push_back(named("Altitude", write(plan.place.altitude, units)));
  return facts;
}

// --- findings ---------------------------------------------------------------------------------

std::string_view spelling(Ink ink) {
  switch (ink) {
    case Ink::strong:
      return "strong";
    case Ink::faint:
      return "faint";
    case Ink::good:
      return "good";
    case Ink::note:
      return "note";
    case Ink::weakens:
      return "weakens";
    case Ink::spoils:
      return "spoils";
    case Ink::danger:
      return "danger";
    case Ink::plain:
      break;
  }
  return "plain";
}

Json scale_view(const Finding& f, const Judgement& j, UnitSystem units) {
  Json pieces = Json::array();
  for (const Piece& piece : scale_of(f, j, units))
    pieces.push_back(Json({{"text", piece.text}, {"ink", spelling(piece.ink)}}));
  return pieces;
}

Json numbers_view(const Finding& f, UnitSystem units) {
  Json rows = Json::array();
  for (const Measure& m : f.numbers) {
    const MeasureKind* kind = find_measure_kind(m.name);
    rows.push_back(Json({{"name", kind ? std::string(kind->title) : m.name},
                         {"value", value_text(m, units)},
                         {"how", m.how}}));
  }
  return rows;
}

std::string_view in_words(std::string_view source_label) {
  if (source_label == "published") return "Published";
  if (source_label == "practice") return "Common practice, no source";
  return "From memory";
}

Json sources_view(const Rule& rule) {
  Json list = Json::array();
  for (const RuleSource& s : rule.sources) {
    const auto word = club_practice(rule, s);
    list.push_back(Json({{"label", word ? "The club’s practice" : in_words(s.label)},
                         {"text", word.value_or(s.text)}}));
  }
  return list;
}

Json word_view(const Acceptance& a) {
  return {{"by", a.by}, {"because", a.because}, {"on", spoken_if_time(a.on)}, {"counts", a.counts}};
}

/// Who accepted a finding, why and when; null while nobody has.
Json accepted_view(const Finding& f) {
  return f.accepted ? word_view(*f.accepted) : Json(nullptr);
}

/// An acceptance that no longer holds, and what has changed since; null when there is none.
Json reopened_view(const Finding& f) {
  if (!f.reopened) return nullptr;
  Json out = word_view(f.reopened->was);
  out["changes"] = Json::array();
  for (const ReadingChange& c : f.reopened->changes)
    out["changes"].push_back(
        Json({{"what", c.what}, {"was", spoken_if_time(c.was)}, {"is", spoken_if_time(c.is)}}));
  return out;
}

std::string anchor_of(const SheetViewOptions& o, std::size_t index) {
  return o.id + "f" + std::to_string(index + 1);
}

Json finding_view(const Finding& f, std::size_t index, bool again, const Judgement& j,
                  const SheetViewOptions& o) {
  Json out;
  out["anchor"] = anchor_of(o, index);
  out["severity"] = severity_view(f.severity);
  out["certainty"] = spelling(f.certainty);
  out["rule"] = f.rule->id;
  out["title"] = f.rule->title;
  out["place"] = place_in_words(j.plan, f.where);
  out["says"] = f.says;
  out["margin"] = f.margin;
  out["scale"] = scale_view(f, j, o.units);
  out["has_scale"] = !out["scale"].empty();
  out["numbers"] = numbers_view(f, o.units);
  out["has_numbers"] = !out["numbers"].empty();
  out["fix"] = f.fix ? f.fix->says : "";
  out["advice"] = f.rule->advice;
  out["why"] = again ? "" : f.rule->why;
  out["sure"] = sure_in_words(f);
  out["sources"] = sources_view(*f.rule);
  out["lesson"] = f.rule->lesson;
  out["accepted"] = accepted_view(f);
  out["reopened"] = reopened_view(f);
  return out;
}

/// Three lists: what is to mend, notes, and what a mentor accepted.
void add_findings(Json& out, const Judgement& j, const SheetViewOptions& o) {
  Json to_mend = Json::array(), notes = Json::array(), accepted = Json::array();
  std::set<const Rule*> told;
  for (std::size_t i = 0; i < j.findings.size(); ++i) {
    const Finding& f = j.findings[i];
    Json view = finding_view(f, i, !told.insert(f.rule).second, j, o);
    Json& list = !f.counts() ? accepted : f.severity == Severity::note ? notes : to_mend;
    list.push_back(std::move(view));
  }
  out["has_findings"] = !to_mend.empty();
  out["findings"] = std::move(to_mend);
  out["has_notes"] = !notes.empty();
  out["notes"] = std::move(notes);
  out["has_accepted"] = !accepted.empty();
  out["accepted_findings"] = std::move(accepted);
}

/// How many of each severity there are, worst first; those that a mentor accepted left out.
Json counts_view(const Judgement& j) {
  Json counts = Json::array();
  for (const Severity s : {Severity::danger, Severity::spoils, Severity::weakens, Severity::note}) {
    const auto count = std::count_if(j.findings.begin(), j.findings.end(), [s](const Finding& f) {
      return f.severity == s && f.counts();
    });
    if (count == 0) continue;
    Json row = severity_view(s);
    row["count"] = count;
    counts.push_back(std::move(row));
  }
  return counts;
}

Json verdict_view(const Judgement& j) {
  std::optional<Severity> worst_open;
  for (const Finding& f : j.findings)
    if (f.counts() && f.severity > Severity::note)
      worst_open = std::max(worst_open.value_or(Severity::note), f.severity);
  return {{"says", verdict_of(j.findings)}, {"severity", severity_view(worst_open)}};
}

// --- numbers ----------------------------------------------------------------------------------

Json key_numbers_view(const Judgement& j, UnitSystem units) {
  Json tables = Json::array();
  for (const KeyNumbers& table : key_numbers(j, units)) {
    Json rows = Json::array();
    for (const auto& [name, text] : table.rows) rows.push_back(named(name, text));
    tables.push_back(Json({{"title", table.title}, {"rows", std::move(rows)}}));
  }
  return tables;
}

// --- steps ------------------------------------------------------------------------------------

/// The cautions of the steps as they come: in full where one is met first, later by its title and
/// where it stands in full.
class CautionsByStep {
 public:
  explicit CautionsByStep(const std::vector<NeededCaution>& all) : all_(all) {}

  Json at(const CalendarRow& row) {
    Json list = Json::array();
    if (row.growth) return list;
    for (const NeededCaution& n : all_) {
      if (n.steps.count(row.step) == 0) continue;
      const auto [first, is_new] = told_.emplace(n.caution, row.step);
      list.push_back(Json({{"title", n.caution->title},
                           {"text", is_new ? n.caution->text : ""},
                           {"told_at", is_new ? "" : std::to_string(first->second + 1)}}));
    }
    return list;
  }

 private:
  const std::vector<NeededCaution>& all_;
  std::map<const Caution*, int> told_;  ///< and the step it was told at
};

/// "Hot, sticky wort (step 3), Glass can break (step 4)": those that stand in full further up.
std::string told_before(const Json& cautions) {
  std::string out;
  for (const Json& c : cautions)
    if (const std::string step = c["told_at"]; !step.empty())
      out += (out.empty() ? "" : ", ") + c["title"].get<std::string>() + " (step " + step + ")";
  return out;
}

Json findings_at(const CalendarRow& row, const Judgement& j, const SheetViewOptions& o) {
  Json list = Json::array();
  if (row.growth) return list;
  for (std::size_t i = 0; i < j.findings.size(); ++i) {
    const Finding& f = j.findings[i];
    const auto step =
        f.step >= 0 ? std::optional(f.step) : step_of_place(j.plan, j.process, f.where, f.stage);
    if (!step || *step != row.step) continue;
    list.push_back(Json({{"anchor", anchor_of(o, i)},
                         {"severity", severity_view(f.severity)},
                         {"title", f.rule->title}}));
  }
  return list;
}

std::string with_capital(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z')
    text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text;
}

void add_steps(Json& out, const Judgement& j, const std::vector<NeededCaution>& needed,
               const SheetViewOptions& o) {
  Calendar c = calendar_of(j, o.units);
  if (o.by_number) by_number(c);
  CautionsByStep cautions(needed);
  Json rows = Json::array();
  std::vector<int> late;
  for (const CalendarRow& row : c.rows) {
    if (is_late(row) && !row.growth) late.push_back(row.step);
    Json view;
    view["number"] = number_of(row);
    view["words"] = with_capital(row.words);
    view["when"] = moment(c, row.start);
    view["takes"] = takes(row) + (row.at_least ? ", at least " + time_in_words(*row.at_least) : "");
    view["may_be_late"] = is_late(row) ? "" : may_be_late(row);
    view["hands_on"] = row.hands_on;
    view["critical"] = row.critical;
    view["findings"] = findings_at(row, j, o);
    view["cautions"] = cautions.at(row);
    view["again"] = told_before(view["cautions"]);
    rows.push_back(std::move(view));
  }
  out["has_clock"] = c.origin.has_value();
  out["already_late"] =
      late.empty() ? "" : (late.size() == 1 ? "step " : "steps ") + step_numbers(late);
  out["steps"] = std::move(rows);
}

/// Cautions that belong to no step, with the findings that call for them.
void add_other_cautions(Json& out, const std::vector<NeededCaution>& needed) {
  Json list = Json::array();
  for (const NeededCaution& n : needed) {
    if (!n.steps.empty()) continue;
    std::string rules;
    for (const std::string& id : n.rules) {
      const Rule* rule = find_rule(id);
      rules += (rules.empty() ? "" : ", ") + (rule ? rule->title : id);
    }
    list.push_back(
        Json({{"title", n.caution->title}, {"text", n.caution->text}, {"rules", rules}}));
  }
  out["has_cautions"] = !list.empty();
  out["cautions"] = std::move(list);
}

void add_assumed(Json& out, const Plan& plan) {
  Json list = Json::array();
  for (const Assumption& a : plan.assumed) {
    const Pieces pieces = assumption_in_words(a);
    std::string says;
    for (const Piece& piece : pieces) says += piece.text;
    list.push_back(says);
  }
  out["has_assumed"] = !list.empty();
  out["assumed"] = std::move(list);
}

}  // namespace

std::string title_in_words(const Plan& plan) {
  return plan.title.empty() ? "A starter without a title" : plan.title;
}

std::string beer_in_words(const Beer& beer, UnitSystem units) {
  return fmt::format("{} of {} at {}", write(beer.volume, units), spelling(beer.kind),
                     write(beer.gravity, units));
}

Json severity_view(Severity severity) {
  const std::string_view both = sign_of(severity);  // "▲ DANGER"
  const std::size_t space = both.find(' ');
  return {{"name", spelling(severity)},
          {"sign", both.substr(0, space)},
          {"word", both.substr(space + 1)}};
}

Json severity_view(std::optional<Severity> severity) {
  if (severity) return severity_view(*severity);
  return {{"name", "sound"}, {"sign", "✓"}, {"word", "good to go"}};
}

Json sheet_view(const Judgement& j, const SheetViewOptions& o) {
  const std::vector<NeededCaution> needed = cautions_of(j);
  Json out;
  out["id"] = o.id;
  out["file"] = o.file;
  out["title"] = title_in_words(j.plan);
  out["member"] = j.plan.member;
  out["facts"] = facts_of(j.plan, o.units);
  out["verdict"] = verdict_view(j);
  out["counts"] = counts_view(j);
  add_findings(out, j, o);
  out["numbers"] = key_numbers_view(j, o.units);
  add_steps(out, j, needed, o);
  add_other_cautions(out, needed);
  add_assumed(out, j.plan);
  out["picture"] = nullptr;
  if (!o.svg.empty()) out["picture"] = {{"markup", o.svg}, {"about", o.about}};
  return out;
}

Json errors_view(const std::string& file, std::span<const PlanError> errors) {
  Json list = Json::array();
  for (const PlanError& e : errors)
    list.push_back(Json({{"where", e.where},
                         {"line", e.line > 0 ? std::to_string(e.line) : ""},
                         {"says", sentence(e.says)},
                         {"write", e.write}}));
  return {{"file", file}, {"errors", std::move(list)}};
}

}  // namespace starter
