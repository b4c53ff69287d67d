#include <fmt/format.h>

#include <memory>

#include "command/commands.h"
#include "command/judged.h"
#include "command/practice_option.h"
#include "command/refuse.h"
#include "command/write_file.h"
#include "output/calendar_json.h"
#include "output/calendar_text.h"
#include "output/characters.h"
#include "output/icalendar.h"

namespace starter {
namespace {

struct ScheduleOptions {
  std::string plan;
  std::string ics;
  Told told;
  PracticeOption practice;
};

/// \return whether the file is written; if not, why is told on standard error
bool write_ics(const ScheduleOptions& options, const Calendar& calendar,
               const Judgement& judgement) {
  if (!calendar.start) {
    refuse(options.plan +
               ": a calendar file needs clock times, and this plan has neither a start nor a brew "
               "day, so there is nothing to count from.",
           "\"start\": \"2027-03-16T18:00\" in the plan, or \"brew_day\": \"2027-03-20T09:00\" in "
           "its \"beer\"");
    return false;
  }
  const auto problem = write_file(options.ics, icalendar(calendar, judgement));
  if (problem) refuse(options.ics + " was not written: " + *problem + ".");
  return !problem;
}

Saying say(const ScheduleOptions& options, const std::string& name, const Judgement& judgement,
           const Look& look) {
  const Calendar calendar = calendar_of(judgement, options.told.units);
  Saying saying;
  if (options.told.format == Format::json)
    saying.json = calendar_json(name, calendar, judgement);
  else if (options.ics != "-")
    saying.text = calendar_text(calendar, judgement, look);
  if (options.ics.empty()) return saying;
  if (options.ics == "-" && calendar.start) {
    saying.text = icalendar(calendar, judgement);
    return saying;
  }
  if (!write_ics(options, calendar, judgement)) {
    saying.ends = Exit::unusable;
  } else if (options.told.format == Format::text) {
    Page page(look);
    page.blank();
    page.paragraph(fmt::format("{} events written to {}.", calendar.rows.size(), options.ics));
    saying.text += std::move(page).text();
  }
  return saying;
}

Exit tell(const ScheduleOptions& options, Output& out) {
  if (options.ics == "-" && options.told.format == Format::json)
    return refuse("--ics - and --format json both want standard output; give --ics a file.");
  if (!options.ics.empty() && options.plan != "-" && same_file(options.plan, options.ics))
    return refuse(options.ics + " is the plan itself; give --ics another file.");
  const auto practice = load_practice(options.practice);
  if (!practice) return Exit::unusable;
  return tell_judged({options.plan}, options.told, out, *practice,
                     JudgeOptions::findings_only(options.told.units),
                     [&options](const std::string& name, const Judgement& judgement,
                                const Look& look) { return say(options, name, judgement, look); });
}

}  // namespace

void add_schedule(CLI::App& program, Chosen& chosen) {
  CLI::App* command =
      program.add_subcommand("schedule", "When each step happens, counted back from brew day");
  auto options = std::make_shared<ScheduleOptions>();
  command->add_option("PLAN", options->plan, "The plan file; - is standard input")
      ->required()
      ->option_text(" ");
  command
      ->add_option("--ics", options->ics,
                   "Also write a calendar file (iCalendar) for a phone or computer;\n"
                   "- writes only that, to standard output")
      ->option_text("FILE")
      ->check([](const std::string& name) {
        return name.empty() ? std::string("the name of the file is empty") : std::string();
      });
  add_told(*command, options->told);
  add_practice(*command, options->practice);
  command->footer(
      "Ends with 0, or 2 when the plan cannot be used or the file not written.\n\n"
      "Examples:\n"
      "  starter-plan schedule harvest-amber.plan.json\n"
      "  starter-plan schedule harvest-amber.plan.json --ics harvest-amber.ics");
  command->callback(
      [options, &chosen] { chosen = [options](Output& out) { return tell(*options, out); }; });
}

}  // namespace starter
