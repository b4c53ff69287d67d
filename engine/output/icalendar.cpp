#include "output/icalendar.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdint>

#include "output/calendar_words.h"
#include "output/cautions_of.h"
#include "output/plan_parts.h"
#include "quantity/words.h"

namespace starter {
namespace {

constexpr std::size_t most_octets = 75;

/// "20270316T180000", floating.
std::string date_time(LocalTime t) {
  std::string text;
  for (const char c : iso(t))
    if (c != '-' && c != ':') text += c;
  return text + "00";
}

/// Bytes of the first character of non-empty text; 0 when it is no UTF-8.
std::size_t character_length(std::string_view text) {
  for (std::size_t length = 1; length <= 4 && length <= text.size(); ++length)
    if (valid_utf8(text.substr(0, length))) return length;
  return 0;
}

bool is_control(std::string_view character) {
  const auto first = static_cast<unsigned char>(character[0]);
  if (character.size() == 1) return first < 0x20 || first == 0x7F;
  return first == 0xC2 && static_cast<unsigned char>(character[1]) < 0xA0;
}

class Writer {
 public:
  void line(std::string_view name, std::string_view value) {
    out_ += folded(std::string(name) + ':' + std::string(value));
  }
  void text(std::string_view name, std::string_view value) { line(name, escaped_text(value)); }
  std::string take() { return std::move(out_); }

 private:
  std::string out_;
};

/// Steps or growth as a heading: "Boil for 12 min in flask".
std::string summary_of(const CalendarRow& row) {
  std::string words = sentence(row.words);
  words.pop_back();
  return words;
}

std::string late_words(const Plan& plan, const CalendarRow& row) {
  if (!row.may_wait) return "The yeast does not wait for it.";
  const std::string gives = gives_way(plan, row);
  if (*row.may_wait <= Duration::minutes(-1))
    return fmt::format("The plan is late already; if this is later, {}.", gives);
  const std::string time = time_to_use(*row.may_wait);
  if (time.empty()) return fmt::format("If it is late, {}.", gives);
  return fmt::format("May be late by {}; {}.", time, gives);
}

std::string description_of(const Calendar& c, const Judgement& j,
                           const std::vector<NeededCaution>& all, const CalendarRow& row) {
  const Plan& plan = j.plan;
  std::string out = fmt::format("Step {} of {}", row.step + 1, plan.steps.size());
  if (row.growth) out = "After step " + std::to_string(row.step + 1);
  if (plan.stages.size() > 1)
    out += fmt::format(", stage {}", plan.steps[static_cast<std::size_t>(row.step)].stage + 1);
  if (!plan.title.empty()) out += ": " + plan.title;
  const Duration lasts = row.end - row.start;
  if (lasts > Duration())
    out += fmt::format("\n{} {}, until {}.",
                       row.hands_on ? "Your work:" : "Waiting:", time_in_words(lasts),
                       spoken(*c.clock(row.end)));
  out += '\n' + late_words(plan, row);
  if (row.growth) return out;
  for (const NeededCaution& n : all)
    if (n.steps.count(row.step) > 0)
      out += fmt::format("\n\n{}: {}", n.caution->title, n.caution->text);
  return out;
}

void alarm(Writer& out, const std::string& summary) {
  out.line("BEGIN", "VALARM");
  out.line("ACTION", "DISPLAY");
  out.text("DESCRIPTION", summary);
  out.line("TRIGGER", "-PT15M");
  out.line("END", "VALARM");
}

std::uint64_t fnv1a(std::uint64_t hash, std::string_view bytes) {
  const auto add = [&hash](unsigned char byte) {
    hash = (hash ^ byte) * 0x100000001b3u;  // from memory: the prime of FNV-1a, 64 bits
  };
  for (const char c : bytes) add(static_cast<unsigned char>(c));
  add(0);
  return hash;
}

}  // namespace

std::string event_uid(const Plan& plan, const CalendarRow& row) {
  const Step& step = plan.steps[static_cast<std::size_t>(row.step)];
  std::uint64_t hash = 0xcbf29ce484222325u;  // from memory: its offset
  for (const std::string& part : {plan.title, plan.member, std::to_string(row.step),
                                  row.growth ? std::string("growth") : step.verb})
    hash = fnv1a(hash, part);
  return fmt::format("{}{}-{:016x}@starter-plan", row.growth ? "growth-" : "step-", row.step + 1,
                     hash);
}

std::string escaped_text(std::string_view text) {
  std::string out;
  while (!text.empty()) {
    const std::size_t length = character_length(text);
    if (length == 0) {
      out += "\uFFFD";
      text.remove_prefix(1);
      continue;
    }
    const std::string_view character = text.substr(0, length);
    text.remove_prefix(length);
    if (character == "\r" && !text.empty() && text[0] == '\n') continue;
    if (character == "\n" || character == "\r" || character == "\u2028" || character == "\u2029")
      out += "\\n";
    else if (character == "\\" || character == ";" || character == ",")
      out += '\\' + std::string(character);
    else if (character == "\t")
      out += ' ';
    else if (!is_control(character))
      out += character;
  }
  return out;
}

std::string folded(std::string_view line) {
  std::string out;
  std::size_t room = most_octets;
  while (line.size() > room) {
    std::size_t end = room;
    while (end > 0 && (static_cast<unsigned char>(line[end]) & 0xC0u) == 0x80u) --end;
    if (end == 0) end = room;  // no UTF-8 after all
    out += std::string(line.substr(0, end)) + "\r\n ";
    line.remove_prefix(end);
    room = most_octets - 1;  // the space of a continued line counts
  }
  return out + std::string(line) + "\r\n";
}

std::string icalendar(const Calendar& c, const Judgement& j) {
  // DTSTAMP must be there and in UTC, and says when an event was last changed. The system clock is
  // never read, so that a plan gives the same file whenever it is written; the moment its first
  // step begins is the one time that belongs to the plan, and it moves when the plan is moved.
  const std::string stamp = date_time(*c.start) + 'Z';
  const auto cautions = cautions_of(j);
  std::vector<bool> calls(c.rows.size(), false);
  for (const Visit& visit : c.visits) calls[visit.row] = true;
  Writer out;
  out.line("BEGIN", "VCALENDAR");
  out.line("VERSION", "2.0");
  out.line("PRODID", "-//starter-plan//yeast starter calendar//EN");
  if (!j.plan.title.empty()) out.text("NAME", j.plan.title);
  for (std::size_t i = 0; i < c.rows.size(); ++i) {
    const CalendarRow& row = c.rows[i];
    const LocalTime start = *c.clock(row.start), end = *c.clock(row.end);
    const std::string summary = summary_of(row);
    out.line("BEGIN", "VEVENT");
    out.text("UID", event_uid(j.plan, row));
    out.line("DTSTAMP", stamp);
    out.line("DTSTART", date_time(start));
    if (end > start) out.line("DTEND", date_time(end));
    out.text("SUMMARY", summary);
    out.text("DESCRIPTION", description_of(c, j, cautions, row));
    out.line("TRANSP", row.hands_on ? "OPAQUE" : "TRANSPARENT");
    if (calls[i]) alarm(out, summary);
    out.line("END", "VEVENT");
  }
  out.line("END", "VCALENDAR");
  return out.take();
}

}  // namespace starter
