#include "output/calendar_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "output/bar_chart.h"
#include "output/calendar_words.h"
#include "output/cautions_of.h"
#include "output/characters.h"
#include "output/plan_parts.h"
#include "output/verdict.h"

namespace starter {
namespace {

constexpr std::size_t label_room = 11;  ///< of "Yeast due"
constexpr std::size_t table_from = 64;  ///< columns below which a row is told in a sentence
constexpr std::size_t chart_from = 44;  ///< columns below which there is no room for bars
constexpr std::size_t takes_room = 11;
constexpr std::size_t late_room = 14;

/// Headings over the rows of a day.
class Days {
 public:
  /// "Tue 16 Mar 2027" for a row on another day than the last, the year only where it is new;
  /// "Day 3" when there is no clock; "" on the same day.
  std::string heading(const Calendar& c, Duration t) {
    const auto clock = c.clock(t);
    const std::string day =
        clock ? day_of(*clock) : fmt::format("Day {}", std::llround(t.minutes()) / (24 * 60) + 1);
    const std::string year = clock ? year_of(*clock) : "";
    const bool new_year = year != year_;
    if (day == day_ && !new_year) return "";
    day_ = day;
    year_ = year;
    return new_year ? day + " " + year : day;
  }

 private:
  std::string day_, year_;
};

/// `text` in lines of at most that many columns.
std::vector<std::string> wrapped(const std::string& text, std::size_t wide) {
  Look look;
  look.width = wide;
  Page page(look);
  page.paragraph(text);
  const std::string all = std::move(page).text();
  std::vector<std::string> lines;
  for (std::size_t at = 0; at < all.size();) {
    const std::size_t end = all.find('\n', at);
    lines.push_back(all.substr(at, end - at));
    at = end + 1;
  }
  return lines;
}

// --- the head ---------------------------------------------------------------------------------

std::string begin_words(const Calendar& c) {
  if (!c.start) return "";
  if (!c.slack) return spoken(*c.start) + (c.latest_start ? " at the latest" : "");
  const std::string latest = c.latest_start ? spoken(*c.latest_start) : "";
  if (*c.slack <= Duration::minutes(-1))
    return fmt::format("{} is {} too late; {} would be in time", spoken(*c.start),
                       time_in_words(*c.slack * -1.0), latest);
  const std::string spare = time_to_use(*c.slack);
  if (spare.empty()) return spoken(*c.start) + ", which is just in time";
  return fmt::format("{}; {} at the latest ({} to spare)", spoken(*c.start), latest, spare);
}

void head(Page& page, const Calendar& c, const Judgement& j) {
  plan_head(page, j.plan);
  const bool late = c.slack && *c.slack <= Duration::minutes(-1);
  if (c.start)
    page.item({"Begin", Ink::faint}, {{begin_words(c), late ? Ink::spoils : Ink::good}}, 2,
              label_room);
  if (c.due) {
    std::string words = spoken(*c.due);
    if (late) words += fmt::format("; it would come {}", spoken(*c.clock(c.ready)));
    page.item("Yeast due", words, 2, label_room);
  } else if (c.origin) {
    page.item("Ready", spoken(*c.clock(c.ready)), 2, label_room);
  } else {
    page.item("Ready", time_in_words(c.ready) + " after you begin", 2, label_room);
  }
  Duration whole;
  for (const CalendarRow& row : c.rows) whole = std::max(whole, row.end);
  const std::string work = time_in_words(c.hands_on);
  const bool no_waiting = whole - c.hands_on < Duration::minutes(1);
  page.item(
      "Your work",
      no_waiting ? work : fmt::format("{} of {}; the rest is waiting", work, time_in_words(whole)),
      2, label_room);
  if (!c.due)
    page.item("No end",
              std::string("The plan names no brew day, so nothing says when the yeast must be "
                          "ready. Write \"brew_day\" in its \"beer\"") +
                  (c.origin ? "." : ", or \"start\" in the plan, and there are clock times."),
              2, label_room);
  const auto found = worst(j.findings);
  if (found && *found > Severity::note)
    page.item({"First", ink_of(*found)},
              {{verdict_of(j.findings)}, {" See: starter-plan check", Ink::faint}}, 2, label_room);
}

// --- when somebody is needed ------------------------------------------------------------------

void visits(Page& page, const Calendar& c, const Plan& plan) {
  page.blank();
  page.ruled("When you are needed");
  std::size_t room = 0;
  for (const Visit& visit : c.visits) room = std::max(room, moment(c, visit.start).size());
  for (const Visit& visit : c.visits) {
    std::vector<int> steps;
    for (std::size_t i = visit.row; i <= visit.last; ++i)
      if (!c.rows[i].growth) steps.push_back(c.rows[i].step);
    const Duration lasts = visit.end - visit.start;
    page.item({moment(c, visit.start), Ink::strong},
              {{lasts > Duration() ? time_in_words(lasts) : "a moment"},
               {": " + visit_in_words(visit, c, plan)},
               {fmt::format(" ({} {})", steps.size() == 1 ? "step" : "steps", step_numbers(steps)),
                Ink::faint}},
              2, room + 2);
  }
}

// --- the table --------------------------------------------------------------------------------

/// The widths of the columns that differ from plan to plan.
struct Table {
  std::size_t clock = 5, number = 1, words = 20;
};

Table table_of(const Calendar& c, std::size_t width) {
  Table t;
  for (const CalendarRow& row : c.rows) {
    t.clock = std::max(t.clock, clock_of(c, row.start).size());
    t.number = std::max(t.number, number_of(row).size());
  }
  const std::size_t taken = 2 + t.clock + 3 + t.number + 1 + 1 + takes_room + 1 + late_room;
  t.words = width - std::min(width - 8, taken);
  return t;
}

std::string right(const std::string& text, std::size_t wide) {
  return std::string(wide - std::min(wide, text.size()), ' ') + text;
}

Pieces mark_of(const CalendarRow& row) {
  return {{row.critical ? "┃ " : "  ", Ink::strong}};
}
std::string hand_of(const CalendarRow& row) {
  return row.hands_on ? "●" : "○";
}

std::string late_words(const Calendar& c, const CalendarRow& row) {
  return is_past(c, row) ? "past" : may_be_late(row);
}

void table_row(Page& page, const Calendar& c, const Table& t, const CalendarRow& row) {
  const auto words = wrapped(row.words, t.words);
  Pieces pieces = mark_of(row);
  pieces.push_back({right(clock_of(c, row.start), t.clock), Ink::strong});
  pieces.push_back({" " + hand_of(row) + " " + right(number_of(row), t.number) + " "});
  pieces.push_back({padded(words.front(), t.words) + " "});
  pieces.push_back({padded(takes(row), takes_room) + " "});
  pieces.push_back({late_words(c, row), row.critical ? Ink::strong : Ink::plain});
  page.line(pieces);
  for (std::size_t i = 1; i < words.size(); ++i) {
    Pieces more = mark_of(row);
    more.push_back({std::string(t.clock + 3 + t.number + 1, ' ') + words[i]});
    page.line(more);
  }
}

void sentence_row(Page& page, const Calendar& c, std::size_t clock, const CalendarRow& row) {
  const std::string number = number_of(row);
  page.item({clock_of(c, row.start), Ink::strong},
            {{(row.critical ? "┃ " : "") + hand_of(row) + " " + number +
              (number.empty() ? "" : " ") + row.words},
             {fmt::format(" – {}; late by: {}", takes(row), late_words(c, row)), Ink::faint}},
            0, clock + 1);
}

void steps(Page& page, const Calendar& c) {
  const Table t = table_of(c, page.look().width);
  const bool wide = page.look().width >= table_from;
  page.blank();
  page.ruled("Step by step");
  if (wide)
    page.line({{std::string(2 + t.clock + 3 + t.number + 1, ' ')},
               {padded("", t.words) + " " + padded("takes", takes_room) + " may be late by",
                Ink::faint}});
  Days days;
  for (const CalendarRow& row : c.rows) {
    if (const std::string heading = days.heading(c, row.start); !heading.empty())
      page.heading(heading);
    if (wide)
      table_row(page, c, t, row);
    else
      sentence_row(page, c, t.clock, row);
  }
  page.blank();
  page.paragraph({{"● you work · ○ it works by itself · ┃ critical: a delay here moves the rest",
                   Ink::faint}});
  if (std::any_of(c.rows.begin(), c.rows.end(),
                  [&c](const CalendarRow& row) { return is_past(c, row); }))
    page.paragraph(
        {{"past: the last moment that would be in time comes before you begin", Ink::faint}});
}

// --- what gives way ---------------------------------------------------------------------------

struct Group {
  std::string gives;
  GivesWay first;
  std::vector<int> steps;
};

void slips(Page& page, const Calendar& c, const Plan& plan) {
  std::vector<Group> groups;
  for (const CalendarRow& row : c.rows) {
    if (row.growth) continue;
    const std::string gives = gives_way(plan, row);
    auto group = std::find_if(groups.begin(), groups.end(),
                              [&gives](const Group& g) { return g.gives == gives; });
    if (group == groups.end()) group = groups.insert(groups.end(), {gives, row.late.first, {}});
    group->steps.push_back(row.step);
  }
  page.blank();
  page.ruled("What gives way when a step is late");
  std::vector<std::string> labels;
  std::size_t room = 0;
  constexpr std::size_t most_room = 24;
  for (const Group& group : groups) {
    labels.push_back(fmt::format("{} {}", group.steps.size() == 1 ? "Step" : "Steps",
                                 step_numbers(group.steps)));
    if (columns(labels.back()) <= most_room) room = std::max(room, columns(labels.back()));
  }
  for (std::size_t i = 0; i < groups.size(); ++i) {
    const Group& group = groups[i];
    std::string words = sentence(group.gives);
    if (group.first == GivesWay::cold_rest || group.first == GivesWay::pause)
      words += std::string(" Past the time in the table, the yeast is ") +
               (c.due ? "late." : "ready later.");
    page.item({labels[i], Ink::strong}, {{words}}, 2, room + 2);
  }
}

void cautions(Page& page, const Judgement& j) {
  const auto all = cautions_of(j);
  if (all.empty()) return;
  page.blank();
  page.ruled("Take care");
  for (const NeededCaution& n : all) {
    const std::string where = n.steps.empty()
                                  ? ""
                                  : fmt::format(" · {} {}", n.steps.size() == 1 ? "step" : "steps",
                                                step_numbers({n.steps.begin(), n.steps.end()}));
    page.paragraph({{n.caution->title}, {where, Ink::faint}}, 2);
  }
  page.paragraph({{"What each means: starter-plan check", Ink::faint}}, 2);
}

}  // namespace

std::string calendar_text(const Calendar& c, const Judgement& j, const Look& look) {
  Page page(look);
  head(page, c, j);
  visits(page, c, j.plan);
  steps(page, c);
  if (look.width >= chart_from) {
    page.blank();
    page.ruled("Over the days");
    bar_chart(page, c, j.plan);
  }
  slips(page, c, j.plan);
  cautions(page, j);
  return std::move(page).text();
}

}  // namespace starter
