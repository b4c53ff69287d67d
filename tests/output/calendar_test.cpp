// The calendar: its rows and visits, its text at many widths, and its JSON.

#include "output/calendar.h"

#include <boost/test/unit_test.hpp>

#include "output/bar_chart.h"
#include "output/calendar_json.h"
#include "output/calendar_text.h"
#include "output/calendar_words.h"
#include "output/characters.h"
#include "plan_text.h"

namespace starter {
namespace {

std::string text_of(const PlanText& plan, std::size_t width = 80) {
  const Judgement j = plan.judged();
  Look look;
  look.width = width;
  return calendar_text(calendar_of(j, UnitSystem::metric), j, look);
}

Json json_of(const PlanText& plan) {
  const Judgement j = plan.judged();
  return calendar_json("x.plan.json", calendar_of(j, UnitSystem::metric), j);
}

bool has(const std::string& text, const std::string& part) {
  const bool found = text.find(part) != std::string::npos;
  if (!found) BOOST_TEST_MESSAGE(text);
  return found;
}

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = text.find('\n', at);
    lines.push_back(text.substr(at, end - at));
    at = end + 1;
  }
  return lines;
}

BOOST_AUTO_TEST_SUITE(calendar)

BOOST_AUTO_TEST_CASE(rows_have_the_times_of_the_schedule) {
  const Judgement j = PlanText().judged();
  const Calendar c = calendar_of(j, UnitSystem::metric);
  BOOST_TEST(c.rows.size() == j.plan.steps.size());
  for (const CalendarRow& row : c.rows) {
    const StepTime& time = j.workings.times.times.at(static_cast<std::size_t>(row.step));
    BOOST_TEST((row.start == time.start));
    BOOST_TEST((row.end == time.end));
  }
  for (std::size_t i = 1; i < c.rows.size(); ++i)
    BOOST_TEST((c.rows[i - 1].start <= c.rows[i].start));
}

BOOST_AUTO_TEST_CASE(somebody_is_needed_when_work_or_a_wait_begins) {
  const Judgement j = PlanText().judged();
  const Calendar c = calendar_of(j, UnitSystem::metric);
  BOOST_TEST(c.visits.size() == 3u);  // the wort; into the cold; decanting and pitching
  BOOST_TEST((c.visits[0].start == Duration()));
  BOOST_TEST(c.rows[c.visits[1].row].words == "crash at 4 °C");
  BOOST_TEST((c.visits[1].end == c.visits[1].start));
  BOOST_TEST(c.rows[c.visits[2].row].words == "decant");
  BOOST_TEST(c.rows[c.visits[2].last].words == "pitch to beer");
}

BOOST_AUTO_TEST_CASE(work_at_the_same_time_is_counted_once) {
  PlanText plan;
  plan.steps = R"({"do": "boil", "for": "1 h"}, {"do": "heat", "for": "1 min", "after": []},
                  {"do": "cover", "for": "10 min", "during": "boil"})";
  const Judgement j = plan.judged();
  const Calendar c = calendar_of(j, UnitSystem::metric);
  Duration longest;
  for (const CalendarRow& row : c.rows) longest = std::max(longest, row.end);
  BOOST_TEST(c.hands_on.hours() == longest.hours(), boost::test_tools::tolerance(1e-9));
}

BOOST_AUTO_TEST_CASE(growth_that_no_step_speaks_of_is_a_row) {
  PlanText plan;
  plan.steps = R"({"do": "pitch"}, {"do": "crash", "for": "24 h"}, {"do": "pitch to beer"})";
  const Judgement j = plan.judged();
  const Calendar c = calendar_of(j, UnitSystem::metric);
  BOOST_TEST(c.rows.size() == 4u);
  BOOST_TEST(c.rows[1].growth);
  BOOST_TEST((c.rows[1].end - c.rows[1].start).hours() == 36, boost::test_tools::tolerance(1e-9));
  BOOST_TEST(c.rows[1].where == "/stages/0/duration");
  BOOST_TEST((c.rows[2].start == c.rows[1].end));
}

BOOST_AUTO_TEST_CASE(text_says_when_to_begin) {
  const std::string text = text_of({});
  BOOST_TEST(has(text, "Begin      Tue 6 Apr 18:00; Wed 7 Apr "));
  BOOST_TEST((has(text, "to\n             spare)") || has(text, "to spare)")));
  BOOST_TEST(has(text, "Yeast due  Sat 10 Apr 14:00\n"));

  PlanText back;
  back.start = "";
  BOOST_TEST(has(text_of(back), " at the latest\n"));

  PlanText late;
  late.start = R"("2027-04-09T18:00")";
  const std::string late_text = text_of(late);
  BOOST_TEST(has(late_text, "too late; "));
  BOOST_TEST(has(late_text, "it would come "));
  // How late is said once; of the rows only those are marked that are too late before one begins.
  BOOST_TEST(!has(late_text, "already late"));
  BOOST_TEST(has(late_text, "  past\n"));
  BOOST_TEST(has(late_text, "past: the last moment that would be in time comes before you begin"));
  BOOST_TEST(has(late_text, "  not at all\n"));
  BOOST_TEST(!has(text, " past\n"));
  BOOST_TEST(!has(text, "past: "));

  PlanText open;
  open.brew_day = "";
  BOOST_TEST(has(text_of(open), "Write \"brew_day\""));
  open.start = "";
  const std::string hours = text_of(open);
  BOOST_TEST(has(hours, "after you begin"));
  BOOST_TEST(has(hours, "Day 1\n"));
  BOOST_TEST(has(hours, "0:10 ●"));
}

BOOST_AUTO_TEST_CASE(days_are_told_over_the_turn_of_a_year_and_a_leap_day) {
  PlanText plan;
  plan.start = R"("2027-12-31T23:30")";
  plan.brew_day = R"("2028-01-05T09:00")";
  const std::string year = text_of(plan);
  BOOST_TEST(has(year, "\nFri 31 Dec 2027\n"));
  BOOST_TEST(has(year, "\nSat 1 Jan 2028\n"));
  BOOST_TEST(has(year, "\nWed 5 Jan\n"));
  BOOST_TEST(has(year, "23:40 ●"));

  plan.start = R"("2028-02-28T23:55")";
  plan.brew_day = R"("2028-03-04T09:00")";
  const std::string leap = text_of(plan);
  BOOST_TEST(has(leap, "\nMon 28 Feb 2028\n"));
  BOOST_TEST(has(leap, "\nTue 29 Feb\n┃ 00:05 ●"));
}

BOOST_AUTO_TEST_CASE(no_line_is_wider_than_the_page) {
  PlanText plan;
  plan.title =
      R"("発酵 🍺 , ; \\ and a word ofthreehundredlettersofthreehundredlettersofthreehundredlettersofthreehundredletters")";
  plan.steps += R"(, {"do": "jiggle the whole contraption until it hums, and then some more"})";
  for (std::size_t width = 20; width <= 100; ++width)
    for (const std::string& line : lines_of(text_of(plan, width)))
      BOOST_TEST(columns(line) <= width, "at " << width << ": " << line);
}

BOOST_AUTO_TEST_CASE(bars_show_work_and_waiting) {
  const std::string text = text_of({});
  std::size_t work = 0, waits = 0;
  for (const std::string& line : lines_of(text)) {
    work += line.find("█") != std::string::npos;
    waits += line.find("░") != std::string::npos;
  }
  BOOST_TEST(work == 2u);
  BOOST_TEST(waits == 2u);
  BOOST_TEST(has(text, "yeast due ▲"));
  BOOST_TEST(!has(text_of({}, 43), "█"));
}

BOOST_AUTO_TEST_CASE(what_a_member_typed_cannot_steer_the_terminal) {
  // The reader of plans refuses such characters; the text does not rely on that.
  Judgement j = PlanText().judged();
  j.plan.title = "a\x1b[2Jb\a";
  j.plan.steps[6].verb = "stir\x1b[31m\u202e";
  const std::string text = calendar_text(calendar_of(j, UnitSystem::metric), j, {});
  BOOST_TEST(text.find('\x1b') == std::string::npos);
  BOOST_TEST(text.find('\a') == std::string::npos);
  BOOST_TEST(text.find("\u202e") == std::string::npos);
  BOOST_TEST(has(text, "stir\\u{1b}[31m"));
}

BOOST_AUTO_TEST_CASE(json_has_what_it_promises) {
  const Json json = json_of({});
  BOOST_TEST((json["plan"] == "x.plan.json"));
  BOOST_TEST((json["title"] == "Harbour bitter"));
  BOOST_TEST((json["start"] == "2027-04-06T18:00"));
  BOOST_TEST((json["due"] == "2027-04-10T14:00"));
  BOOST_TEST((json["ready"] == "2027-04-10T14:00"));
  BOOST_TEST(json["slack"].get<double>() > 0);
  BOOST_TEST(json["times"].size() == 10u);
  const Json& boil = json["times"][2];
  BOOST_TEST((boil["step"] == 3));
  BOOST_TEST((boil["where"] == "/steps/2"));
  BOOST_TEST((boil["start"] == "2027-04-06T18:20"));
  BOOST_TEST((boil["hands_on"] == true));
  BOOST_TEST((boil["critical"] == true));
  BOOST_TEST((boil["slack"] == json["slack"]));
  BOOST_TEST((boil["gives_way"] == "cold rest"));

  PlanText open;
  open.start = open.brew_day = "";
  const Json bare = json_of(open);
  BOOST_TEST(bare["start"].is_null());
  BOOST_TEST(bare["due"].is_null());
  BOOST_TEST(bare["slack"].is_null());
  BOOST_TEST(bare["latest_start"].is_null());
  BOOST_TEST(bare["times"][0]["start"].is_null());
  BOOST_TEST(bare["times"][1]["start_hours"].get<double>() == 0.166667);

  PlanText late;
  late.start = R"("2027-04-09T18:00")";
  BOOST_TEST(json_of(late)["slack"].get<double>() < 0);
}

BOOST_AUTO_TEST_CASE(times_are_said_as_people_say_them) {
  const auto said = [](double minutes) { return time_in_words(Duration::minutes(minutes)); };
  BOOST_TEST(said(0) == "0 min");
  BOOST_TEST(said(0.75) == "45 s");
  BOOST_TEST(said(1) == "1 min");
  BOOST_TEST(said(1.49) == "89 s");
  BOOST_TEST(said(1.5) == "2 min");
  BOOST_TEST(said(59.4) == "59 min");
  BOOST_TEST(said(59.6) == "1 h");
  BOOST_TEST(said(125) == "2 h 05 min");
  BOOST_TEST(said(24 * 60 - 1) == "23 h 59 min");
  BOOST_TEST(said(24 * 60) == "24 h");
  BOOST_TEST(said(30 * 60 + 31) == "31 h");
  BOOST_TEST(said(72 * 60) == "3 days");
  BOOST_TEST(said(102 * 60) == "4 days 6 h");
  BOOST_TEST(said(10 * 24 * 60) == "10 days");
}

BOOST_AUTO_TEST_CASE(time_to_use_is_never_said_too_long) {
  const auto said = [](double minutes) { return time_to_use(Duration::minutes(minutes)); };
  BOOST_TEST(said(0) == "");
  BOOST_TEST(said(0.99) == "");
  BOOST_TEST(said(1) == "1 min");
  BOOST_TEST(said(59.99) == "59 min");
  BOOST_TEST(said(30 * 60 + 59) == "30 h");
  BOOST_TEST(said(4 * 24 * 60 - 1) == "3 days 23 h");
  BOOST_TEST(said(9 * 24 * 60 - 1) == "8 days");
}

BOOST_AUTO_TEST_CASE(step_numbers_are_drawn_together) {
  BOOST_TEST(step_numbers({2}) == "3");
  BOOST_TEST(step_numbers({0, 1}) == "1, 2");
  BOOST_TEST(step_numbers({7, 0, 1, 2}) == "1–3, 8");
}

BOOST_AUTO_TEST_CASE(cells_are_cut_by_columns_not_bytes) {
  BOOST_TEST(padded("ab", 4) == "ab  ");
  BOOST_TEST(padded("abcd", 4) == "abcd");
  BOOST_TEST(padded("abcde", 4) == "abc…");
  BOOST_TEST(padded("発酵発酵", 4) == "発… ");
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
}  // namespace starter
