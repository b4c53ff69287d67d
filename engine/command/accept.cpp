#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <set>
#include <string>
#include <string_view>

#include "command/acceptance_file.h"
#include "command/commands.h"
#include "command/files.h"
#include "command/practice_option.h"
#include "command/refuse.h"
#include "command/rule_name.h"
#include "output/places.h"
#include "output/text.h"
#include "quantity/local_time.h"
#include "quantity/words.h"
#include "rules/acceptance.h"

namespace starter {
namespace {

struct AcceptOptions {
  std::string plan;
  std::string rule;
  std::string by;
  std::string because;
  std::string on;
  std::optional<std::string> at;
  bool withdraw = false;
  PracticeOption practice;
};

Exit unusable(const std::string& file, const std::vector<PlanError>& errors) {
  complain(errors_text(file, errors, look_of(Stream::error, UnitSystem::metric)));
  return Exit::unusable;
}

bool is_blank(const std::string& text) {
  return text.find_first_not_of(" \t\r\n") == std::string::npos;
}

/// What is wrong with the options taken together; empty when nothing is.
std::string wrong_choice(const AcceptOptions& o) {
  if (o.plan == "-")
    return "an acceptance is kept in a file beside the plan, and standard input has none; name the "
           "plan’s file.";
  if (o.withdraw)
    return o.by.empty() && o.because.empty() && o.on.empty()
               ? ""
               : "--withdraw takes an acceptance back as it is; --by, --because and --on belong to "
                 "accepting.";
  if (is_blank(o.by)) return "--by is missing: the name of who accepts it.";
  if (is_blank(o.because)) return "--because is missing: why it may stand, for the member to read.";
  const std::string wrong = wrong_word(o.by);
  return wrong.empty() ? wrong_word(o.because) : wrong;
}

/// A hint of read_time() without its clock times: "2027-03-16" for "2027-03-16T18:00".
std::string days_of(std::string hint) {
  constexpr std::string_view clock = "T18:00";
  for (auto at = hint.find('T'); at != std::string::npos; at = hint.find('T'))
    hint.erase(at, clock.size());
  return hint;
}

/// The day as ISO 8601 has it; nothing after telling what is wrong with it.
std::optional<std::string> day_of(const std::string& typed) {
  if (typed.empty()) return "";
  std::string says, write;
  const auto read = read_time(typed, &says, &write);
  if (read && !read->has_clock) return iso_day(read->at);
  if (read)
    refuse("--on takes a day, without a clock time.", iso_day(read->at));
  else
    refuse("--on: " + says + ".", days_of(write));
  return std::nullopt;
}

std::string place(const Plan& plan, const std::string& where) {
  return fmt::format("{} ({})", where.empty() ? "''" : where, place_in_words(plan, where));
}

template <class List, class Text>
std::string listed(const List& list, Text text) {
  std::set<std::string> seen;
  std::string out;
  for (const auto& item : list)
    if (const std::string told = text(item); seen.insert(told).second)
      out += (out.empty() ? "" : "; ") + told;
  return out;
}

/// The findings of the rule at one place; empty after telling why there is no such.
std::vector<const Finding*> chosen_findings(const AcceptOptions& o, const Judgement& j) {
  std::vector<const Finding*> of_rule, here;
  for (const Finding& f : j.findings)
    if (f.rule->id == o.rule) of_rule.push_back(&f);
  const auto where = [&](const Finding* f) { return place(j.plan, f->where); };
  if (of_rule.empty()) {
    const std::string found = listed(
        j.findings, [&](const Finding& f) { return f.rule->id + " at " + place(j.plan, f.where); });
    refuse(o.rule + " finds nothing in " + o.plan + ", so there is nothing to accept. " +
           (found.empty() ? "Nothing at all is found there." : "Found are: " + found + "."));
    return {};
  }
  if (!o.at && std::any_of(of_rule.begin(), of_rule.end(),
                           [&](const Finding* f) { return f->where != of_rule.front()->where; })) {
    refuse(o.rule + " finds something in several places; say which with --at: " +
               listed(of_rule, where) + ".",
           fmt::format("--at {}", of_rule.front()->where));
    return {};
  }
  for (const Finding* f : of_rule)
    if (!o.at || f->where == *o.at) here.push_back(f);
  if (here.empty())
    refuse(o.rule + " finds nothing at " + starter::quoted(*o.at) +
               ". It does at: " + listed(of_rule, where) + ".",
           fmt::format("--at {}", of_rule.front()->where));
  return here;
}

/// "This replaces Moss’s word of Wed 10 Mar 2027: “it may”."
std::string replaced_text(const AcceptanceRecord& r) {
  return fmt::format("This replaces {}’s word{}: “{}”.", r.by,
                     r.on.empty() ? "" : " of " + spoken_if_time(r.on), r.because);
}

/// \param replaced records whose place these findings take
std::string accepted_text(const AcceptOptions& o, const Judgement& j,
                          const std::vector<const Finding*>& findings,
                          const std::vector<AcceptanceRecord>& replaced) {
  Page page(look_of(Stream::out, UnitSystem::metric));
  for (const Finding* f : findings) {
    const bool danger = f->severity == Severity::danger;
    page.paragraph({{danger ? "Acknowledged: " : "Accepted: ", Ink::good},
                    {place_in_words(j.plan, f->where) + " · " + f->rule->title, Ink::strong}});
    page.paragraph(f->says, 2);
    if (danger)
      page.paragraph(
          "It is a danger: check goes on showing it, and it still counts. What can hurt someone is "
          "better mended.",
          2);
  }
  std::set<std::string> told;
  for (const AcceptanceRecord& r : replaced)
    if (told.insert(replaced_text(r)).second) page.paragraph(replaced_text(r));
  page.paragraph("Kept in " + acceptance_file_name(o.plan) +
                 ". When what the rule reads changes, the finding is open again.");
  return std::move(page).text();
}

Exit accept_finding(const AcceptOptions& o, Output& out) {
  const auto day = day_of(o.on);
  if (!day) return Exit::unusable;
  const auto practice = load_practice(o.practice);
  if (!practice) return Exit::unusable;
  if (!practice->find(o.rule))
    return refuse(no_such_rule(*practice, o.rule) + " For all rules: starter-plan explain --all");
  const FileResult file = read_file(o.plan);
  if (const auto* error = std::get_if<PlanError>(&file)) return unusable(o.plan, {*error});
  PlanResult plan = read_plan(std::get<std::string>(file), practice->defaults);
  if (const auto* errors = std::get_if<std::vector<PlanError>>(&plan))
    return unusable(o.plan, *errors);
  AcceptanceFile kept = read_acceptance_file(o.plan);
  if (!kept.errors.empty()) return unusable(kept.name, kept.errors);
  Judgement judgement =
      judge(std::get<Plan>(std::move(plan)), practice->rules(), JudgeOptions::findings_only());
  const auto findings = chosen_findings(o, judgement);
  if (findings.empty()) return Exit::unusable;

  const AcceptedNow now = accept_findings(kept.records, findings, o.by, o.because, *day);
  if (const auto problem = write_acceptance_file(o.plan, now.records))
    return refuse(kept.name + " was not written: " + *problem + ".");
  out.write(accepted_text(o, judgement, findings, now.replaced));
  return Exit::sound;
}

Exit withdraw(const AcceptOptions& o, Output& out) {
  AcceptanceFile kept = read_acceptance_file(o.plan);
  if (!kept.errors.empty()) return unusable(kept.name, kept.errors);
  std::vector<AcceptanceRecord> taken, left;
  for (const AcceptanceRecord& r : kept.records)
    (r.rule == o.rule && (!o.at || r.where == *o.at) ? taken : left).push_back(r);
  const auto told = [](const AcceptanceRecord& r) {
    return r.rule + " --at " + (r.where.empty() ? "''" : r.where);
  };
  if (taken.empty())
    return refuse(kept.records.empty() ? "nothing is accepted in " + kept.name +
                                             ", so there is nothing to take back."
                                       : "no such acceptance is in " + kept.name +
                                             ". Accepted are: " + listed(kept.records, told) + ".");
  if (std::any_of(taken.begin(), taken.end(),
                  [&](const AcceptanceRecord& r) { return r.where != taken.front().where; }))
    return refuse(o.rule + " is accepted in several places; say which with --at: " +
                      listed(taken, told) + ".",
                  "--at " + taken.front().where);
  if (const auto problem = write_acceptance_file(o.plan, left))
    return refuse(kept.name + " was not written: " + *problem + ".");
  Page page(look_of(Stream::out, UnitSystem::metric));
  for (const AcceptanceRecord& r : taken)
    page.paragraph(fmt::format("Taken back: {} accepted {} at {}.", r.by, r.rule,
                               r.where.empty() ? "the plan" : r.where));
  out.write(std::move(page).text());
  return Exit::sound;
}

Exit run_accept(const AcceptOptions& options, Output& out) {
  const std::string wrong = wrong_choice(options);
  if (!wrong.empty()) return refuse(wrong);
  return options.withdraw ? withdraw(options, out) : accept_finding(options, out);
}

}  // namespace

void add_accept(CLI::App& program, Chosen& chosen) {
  CLI::App* command =
      program.add_subcommand("accept", "A mentor’s word that a finding may stand, with the reason");
  auto o = std::make_shared<AcceptOptions>();
  command->add_option("PLAN", o->plan, "The plan file")->required()->option_text(" ");
  command->add_option("RULE", o->rule, "The rule’s id, as check tells it")
      ->required()
      ->option_text(" ");
  command->add_option("--by", o->by, "Who accepts it")->option_text("NAME");
  command->add_option("--because", o->because, "Why it may stand")->option_text("TEXT");
  command->add_option("--on", o->on, "The day, such as 2027-03-10; left out when not given")
      ->option_text("DAY");
  command
      ->add_option("--at", o->at, "The place, where the rule finds something in several: /steps/4")
      ->option_text("POINTER");
  command->add_flag("--withdraw", o->withdraw, "Take the acceptance back");
  add_practice(*command, o->practice);
  command->footer(
      "The word is kept beside the plan (harvest.accepted.json for harvest.plan.json), with\n"
      "what the rule read. Every command that judges the plan shows it; when what the rule\n"
      "reads changes, the finding is open again. A danger can be acknowledged, but still shows\n"
      "and still counts.\n\n"
      "Ends with 0, or 2 when there is no such finding or the file is not written.\n\n"
      "Examples:\n"
      "  starter-plan accept harvest.plan.json ice-late --by Moss --because \"ice is free here\"\n"
      "  starter-plan accept harvest.plan.json clean-contact --at /steps/7 \\\n"
      "      --by Moss --because \"boiled at home\" --on 2027-03-10\n"
      "  starter-plan accept harvest.plan.json ice-late --withdraw");
  command->callback([o, &chosen] { chosen = [o](Output& out) { return run_accept(*o, out); }; });
}

}  // namespace starter
