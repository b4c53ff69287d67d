#include "output/compare_text.h"

#include <fmt/format.h>

#include "output/calendar_words.h"
#include "output/layout.h"
#include "output/places.h"
#include "output/verdict.h"
#include "rules/telling.h"

namespace starter {
namespace {

constexpr std::size_t name_room = 10;    ///< of "First", "Second"
constexpr std::size_t change_room = 9;   ///< of "milder"
constexpr std::size_t number_room = 30;  ///< of the titles of measures
constexpr std::size_t place_room = 30;   ///< of places in the plan

Ink ink_of(FindingChange change) {
  switch (change) {
    case FindingChange::gone:
    case FindingChange::milder:
      return Ink::good;
    case FindingChange::worse:
    case FindingChange::fresh:
      return Ink::spoils;
    case FindingChange::same:
      break;
  }
  return Ink::faint;
}

Ink ink_of_verdict(const Judgement& j) {
  const auto found = worst(j.findings);
  return !found || *found == Severity::note ? Ink::good : ink_of(*found);
}

void plan_line(Page& page, const char* which, const Judgement& j, const std::string& name) {
  page.item({which, Ink::faint},
            {{j.plan.title, Ink::strong},
             {(j.plan.member.empty() ? "" : " · " + j.plan.member)},
             {" (" + name + ")", Ink::faint}},
            0, name_room);
  page.item({""}, {{verdict_of(j.findings), ink_of_verdict(j)}}, 0, name_room);
}

// --- findings ---------------------------------------------------------------------------------

std::string severities(const ComparedFinding& f) {
  if (f.first == nullptr || f.second == nullptr || f.first->severity == f.second->severity)
    return std::string(sign_of((f.second ? f.second : f.first)->severity));
  return std::string(sign_of(f.first->severity)) + " → " + std::string(sign_of(f.second->severity));
}

/// Steps go by their numbers in the second plan; what is told by the first plan's says so.
std::string of_the_first(const Comparison& c, const std::string& where) {
  return step_at(c.first.plan, where) ? "first’s " : "";
}

void finding(Page& page, const ComparedFinding& f, const Comparison& c) {
  const Finding& shown = f.second ? *f.second : *f.first;
  const Plan& plan = f.second ? c.second.plan : c.first.plan;
  page.item(
      {std::string(spelling(f.change)), ink_of(f.change)},
      {{severities(f), ink_of(shown.severity)},
       {"  " + (f.second ? "" : of_the_first(c, shown.where)) + place_in_words(plan, shown.where),
        Ink::strong},
       {" · " + shown.rule->title, Ink::faint}},
      2, change_room);
  if (f.change == FindingChange::fresh) page.paragraph(shown.says, 2 + change_room);
  const bool moved = f.change == FindingChange::worse || f.change == FindingChange::milder;
  if (moved && !f.first->margin.empty())
    page.paragraph(f.first->margin + " → " + f.second->margin, 2 + change_room);
  else if (moved)
    page.paragraph(f.second->says, 2 + change_room);
}

void findings(Page& page, const Comparison& c, bool all) {
  page.blank();
  page.ruled("Findings");
  long untold = 0;
  bool any = false;
  for (const ComparedFinding& f : c.findings) {
    if (f.change == FindingChange::same && !all && (f.second->severity == Severity::note)) {
      ++untold;
      continue;
    }
    any = true;
    finding(page, f, c);
  }
  if (!any && untold == 0) page.paragraph("None in either.", 2);
  if (untold > 0)
    page.paragraph(
        {{fmt::format("{} {} the same in both; --all tells {}.", untold,
                      untold == 1 ? "note is" : "notes are", untold == 1 ? "it" : "them"),
          Ink::faint}},
        2);
}

// --- calendar ---------------------------------------------------------------------------------

std::string clock(const std::optional<LocalTime>& t) {
  return t ? spoken(*t) : "no clock time";
}

std::string spare(const Calendar& c) {
  if (!c.slack) return "not known";
  if (*c.slack <= Duration::minutes(-1)) return time_in_words(*c.slack * -1.0) + " too late";
  const std::string left = time_to_use(*c.slack);
  return left.empty() ? "just in time" : left + " to spare";
}

Pieces both(const std::string& a, const std::string& b) {
  if (a == b) return {{a}, {", the same", Ink::faint}};
  return {{a}, {" → ", Ink::faint}, {b, Ink::strong}};
}

void calendar(Page& page, const Comparison& c) {
  const Calendar &a = c.first_calendar, &b = c.second_calendar;
  page.blank();
  page.ruled("Calendar");
  const auto row = [&page](const char* what, const std::string& x, const std::string& y) {
    page.item({what, Ink::faint}, both(x, y), 2, 16);
  };
  if (a.start || b.start) row("Begin", clock(a.start), clock(b.start));
  if (a.due || b.due) row("Yeast due", clock(a.due), clock(b.due));
  if (a.slack || b.slack) row("Ready", spare(a), spare(b));
  row("Your work", time_in_words(a.hands_on), time_in_words(b.hands_on));
  row("Whole", time_in_words(a.ready), time_in_words(b.ready));
  row("Visits", std::to_string(a.visits.size()), std::to_string(b.visits.size()));
}

// --- what the plans say -----------------------------------------------------------------------

std::string said(const nlohmann::ordered_json& value, const std::string& assumed) {
  if (!value.is_null()) return written_in_words(value);
  return assumed.empty() ? "not said" : "not said (" + assumed + " is taken)";
}

void fields(Page& page, const Comparison& c) {
  page.blank();
  page.ruled("What the plans say differently");
  if (c.fields.empty()) page.paragraph("Nothing: both say the same.", 2);
  for (const ComparedField& f : c.fields) {
    Pieces body;
    if (f.how == ComparedField::How::moved) {
      const auto was = step_at(c.first.plan, f.first_where);
      body = {{"moved here; it was step " + std::to_string(was.value_or(0) + 1) + " of the first"}};
    } else if (f.how == ComparedField::How::removed && f.second_assumed.empty()) {
      body = {{"taken out: ", Ink::faint}, {written_in_words(f.first)}};
    } else if (f.how == ComparedField::How::added && f.first_assumed.empty()) {
      body = {{"put in: ", Ink::faint}, {written_in_words(f.second), Ink::strong}};
    } else {
      body = both(said(f.first, f.first_assumed), said(f.second, f.second_assumed));
    }
    // What is gone is told by where it stood, which may be another number than it would have now.
    const std::string stood = f.second_where.empty() ? of_the_first(c, f.first_where) : "";
    page.item({stood + f.place, Ink::faint}, body, 2, place_room);
  }
}

// --- numbers ----------------------------------------------------------------------------------

std::string part_title(const Comparison& c, const Measure& m, Of of) {
  const bool one_stage = c.first.plan.stages.size() == 1 && c.second.plan.stages.size() == 1;
  if (of == Of::stage) return one_stage ? "Numbers" : fmt::format("Numbers, stage {}", m.stage + 1);
  return one_stage ? "Numbers" : "Numbers, the whole";
}

Pieces numbers_of(const ComparedMeasure& m, UnitSystem units) {
  const auto text = [units](const Measure* one) {
    return one != nullptr ? value_text(*one, units) : std::string("none");
  };
  Pieces pieces = both(text(m.first), text(m.second));
  if (m.beyond && !(m.first->certain() && m.second->certain()))
    pieces.push_back({"; more than the ranges", Ink::good});
  else if (m.differs && !m.beyond && m.first != nullptr && m.second != nullptr)
    pieces.push_back({"; within the ranges", Ink::faint});
  return pieces;
}

void numbers(Page& page, const Comparison& c, bool all) {
  std::string part;
  long untold = 0;
  for (const ComparedMeasure& m : c.measures) {
    if (!m.differs && !all) {
      ++untold;
      continue;
    }
    const Measure& any = m.first ? *m.first : *m.second;
    const MeasureKind& kind = *find_measure_kind(any.name);
    if (const std::string now = part_title(c, any, kind.of); now != part) {
      page.blank();
      page.ruled(now);
      part = now;
    }
    page.item({std::string(kind.title), Ink::faint}, numbers_of(m, page.look().units), 2,
              number_room);
  }
  if (untold == 0) return;
  page.blank();
  page.paragraph(
      {{fmt::format("{} {} the same in both; --all tells {}.", untold,
                    untold == 1 ? "number is" : "numbers are", untold == 1 ? "it" : "them"),
        Ink::faint}},
      2);
}

}  // namespace

std::string compare_text(const Comparison& c, const std::string& first_name,
                         const std::string& second_name, bool all, const Look& look) {
  Page page(look);
  plan_line(page, "First", c.first, first_name);
  plan_line(page, "Second", c.second, second_name);
  page.blank();
  page.paragraph({{comparison_in_words(c), Ink::strong}});
  findings(page, c, all);
  calendar(page, c);
  fields(page, c);
  numbers(page, c, all);
  return std::move(page).text();
}

}  // namespace starter
