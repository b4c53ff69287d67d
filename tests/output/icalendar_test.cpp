// Calendar files, octet by octet. Another parser reads whole files in tests/command.

#include "output/icalendar.h"

#include <boost/test/unit_test.hpp>
#include <set>

#include "plan_text.h"
#include "quantity/words.h"

namespace starter {
namespace {

std::string ics_of(const PlanText& plan) {
  const Judgement j = plan.judged();
  return icalendar(calendar_of(j, UnitSystem::metric), j);
}

std::vector<std::string> raw_lines(const std::string& text) {
  std::vector<std::string> lines;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = text.find("\r\n", at);
    BOOST_REQUIRE(end != std::string::npos);
    lines.push_back(text.substr(at, end - at));
    at = end + 2;
  }
  return lines;
}

std::string unfolded(std::string text) {
  for (std::size_t at = text.find("\r\n "); at != std::string::npos; at = text.find("\r\n ", at))
    text.erase(at, 3);
  return text;
}

std::string repeated(std::string_view what, std::size_t times) {
  std::string out;
  for (std::size_t i = 0; i < times; ++i) out += what;
  return out;
}

std::size_t count_of(const std::string& text, const std::string& part) {
  std::size_t count = 0;
  for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1))
    ++count;
  return count;
}

BOOST_AUTO_TEST_SUITE(icalendar_files)

BOOST_AUTO_TEST_CASE(lines_fold_at_75_octets) {
  const std::string a75(75, 'a');
  BOOST_TEST(folded("") == "\r\n");
  BOOST_TEST(folded(a75) == a75 + "\r\n");
  BOOST_TEST(folded(a75 + "b") == a75 + "\r\n b\r\n");
  BOOST_TEST(folded(a75 + std::string(74, 'b')) == a75 + "\r\n " + std::string(74, 'b') + "\r\n");
  BOOST_TEST(folded(a75 + std::string(75, 'b')) ==
             a75 + "\r\n " + std::string(74, 'b') + "\r\n b\r\n");
}

BOOST_AUTO_TEST_CASE(no_character_is_split) {
  for (const std::string_view character : {"é", "€", "🍺"})
    for (std::size_t before = 66; before <= 80; ++before) {
      const std::string line = std::string(before, 'x') + repeated(character, 60);
      const std::string text = folded(line);
      for (const std::string& piece : raw_lines(text)) {
        BOOST_TEST(piece.size() <= 75u);
        BOOST_TEST(valid_utf8(piece), before << " before " << character);
      }
      BOOST_TEST(unfolded(text) == line + "\r\n");
    }
}

BOOST_AUTO_TEST_CASE(text_is_escaped) {
  BOOST_TEST(escaped_text("plain: \"ale\"") == "plain: \"ale\"");
  BOOST_TEST(escaped_text("a,b;c\\d") == "a\\,b\\;c\\\\d");
  BOOST_TEST(escaped_text("a\nb\r\nc\rd") == "a\\nb\\nc\\nd");
  BOOST_TEST(escaped_text("a\u2028b\u2029c") == "a\\nb\\nc");
  BOOST_TEST(escaped_text(std::string_view("a\0b\x1b[2J\x7f\u0085z", 11)) == "ab[2Jz");
  BOOST_TEST(escaped_text("a\tb") == "a b");
  BOOST_TEST(escaped_text("é\xff€") == "é\uFFFD€");
  BOOST_TEST(escaped_text("\xe2\x82") == "\uFFFD\uFFFD");
  BOOST_TEST(escaped_text("") == "");
}

BOOST_AUTO_TEST_CASE(a_member_cannot_add_lines) {
  // The reader of plans refuses control characters; the file does not rely on that.
  Judgement j = PlanText().judged();
  j.plan.title = "x\r\nEND:VEVENT\r\nATTACH:file\u0085Y:1\vZ:2";
  const std::string text = icalendar(calendar_of(j, UnitSystem::metric), j);
  BOOST_TEST(count_of(text, "\nATTACH") == 0u);
  BOOST_TEST(count_of(text, "BEGIN:VEVENT\r\n") == count_of(text, "\r\nEND:VEVENT\r\n"));
  BOOST_TEST(text.find("\u0085") == std::string::npos);
  BOOST_TEST(text.find('\x0b') == std::string::npos);
  BOOST_TEST(count_of(text, "\n") == count_of(text, "\r\n"));
  BOOST_TEST(count_of(text, "\r") == count_of(text, "\r\n"));
}

BOOST_AUTO_TEST_CASE(every_event_has_the_times_of_the_schedule) {
  const Judgement j = PlanText().judged();
  const Calendar c = calendar_of(j, UnitSystem::metric);
  const std::string text = icalendar(c, j);
  const auto stamp = [](LocalTime t) {
    std::string out = iso(t);
    std::erase_if(out, [](char x) { return x == '-' || x == ':'; });
    return out + "00";
  };
  std::size_t at = 0;
  for (const CalendarRow& row : c.rows) {
    at = text.find("BEGIN:VEVENT", at) + 1;
    const std::string event = text.substr(at, text.find("END:VEVENT", at) - at);
    BOOST_TEST(count_of(event, "UID:" + event_uid(j.plan, row) + "\r\n") == 1u);
    BOOST_TEST(count_of(event, "\nDTSTART:" + stamp(*c.clock(row.start)) + "\r\n") == 1u);
    BOOST_TEST(count_of(event, "\nDTEND:" + stamp(*c.clock(row.end)) + "\r\n") == 1u);
    BOOST_TEST(count_of(event, "\nDTSTAMP:20270406T180000Z\r\n") == 1u);
    BOOST_TEST(count_of(event, row.hands_on ? "\nTRANSP:OPAQUE\r\n" : "\nTRANSP:TRANSPARENT\r\n") ==
               1u);
  }
  BOOST_TEST(count_of(text, "BEGIN:VEVENT") == c.rows.size());
  BOOST_TEST(count_of(text, "BEGIN:VALARM") == c.visits.size());
  BOOST_TEST(count_of(text, "TRIGGER:-PT15M") == c.visits.size());
}

BOOST_AUTO_TEST_CASE(a_step_without_length_is_a_moment) {
  PlanText plan;
  plan.steps = R"({"do": "ponder"}, {"do": "crash", "for": "24 h"}, {"do": "pitch to beer"})";
  const std::string text = ics_of(plan);
  BOOST_TEST(count_of(text, "BEGIN:VEVENT") == 3u);
  BOOST_TEST(count_of(text, "\nDTEND:") == 2u);
}

BOOST_AUTO_TEST_CASE(two_runs_are_the_same_and_names_are_distinct) {
  BOOST_TEST(ics_of({}) == ics_of({}));
  std::set<std::string> seen;
  std::size_t asked = 0;
  PlanText plan;
  for (const char* title : {R"("a")", R"("b")", R"("c")"})
    for (const char* member : {R"("a")", R"("b")", R"("c")"}) {
      plan.title = title;
      plan.member = member;
      const Judgement j = plan.judged();
      for (const CalendarRow& row : calendar_of(j, UnitSystem::metric).rows) {
        seen.insert(event_uid(j.plan, row));
        ++asked;
      }
    }
  BOOST_TEST(seen.size() == asked);
}

BOOST_AUTO_TEST_CASE(a_moved_plan_keeps_its_names) {
  const Judgement j = PlanText().judged();
  PlanText moved;
  moved.start = R"("2027-05-06T18:00")";
  moved.brew_day = R"("2027-05-10T09:00")";
  const Judgement k = moved.judged();
  const Calendar a = calendar_of(j, UnitSystem::metric), b = calendar_of(k, UnitSystem::metric);
  BOOST_REQUIRE(a.rows.size() == b.rows.size());
  for (std::size_t i = 0; i < a.rows.size(); ++i)
    BOOST_TEST(event_uid(j.plan, a.rows[i]) == event_uid(k.plan, b.rows[i]));
}

BOOST_AUTO_TEST_CASE(an_event_says_what_to_take_care_of) {
  const std::string text = unfolded(ics_of({}));
  const std::size_t at = text.find("SUMMARY:Boil for 12 min in flask\r\n");
  BOOST_REQUIRE(at != std::string::npos);
  const std::string description = text.substr(at, text.find("TRANSP", at) - at);
  BOOST_TEST(count_of(description, "Step 3 of 10: Harbour bitter\\n") == 1u);
  BOOST_TEST(count_of(description, "Boiling wort sticks to skin") == 1u);
  BOOST_TEST(count_of(description, "May be late by ") == 1u);
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
}  // namespace starter
