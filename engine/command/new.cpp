#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <filesystem>
#include <memory>
#include <set>

#include "command/commands.h"
#include "command/dialogue.h"
#include "command/files.h"
#include "command/plans.h"
#include "command/practice_option.h"
#include "command/questions.h"
#include "command/refuse.h"
#include "command/write_file.h"
#include "output/characters.h"
#include "output/plan_notes.h"
#include "output/plan_parts.h"
#include "output/verdict.h"
#include "plan/layout.h"
#include "quantity/read.h"
#include "quantity/words.h"
#include "quantity/write.h"
#include "suggest/first_plan.h"
#include "suggest/sizing.h"
#include "suggest/suggest.h"

namespace starter {
namespace {

struct NewOptions {
  Answers answers;
  std::string from;
  std::string file;
  bool overwrite = false;
  bool ask = false;
  UnitSystem units = UnitSystem::metric;
  PracticeOption practice;
};

Look error_look() {
  return look_of(Stream::error, UnitSystem::metric);
}

void say(const std::string& text) {
  Page page(error_look());
  page.paragraph(text);
  complain(std::move(page).text());
}

// --- another plan of the member's -------------------------------------------------------------

/// What another plan lends: its member, place, vessels, kind of yeast, and how it is done.
struct Lent {
  bool any = false;
  Json document = Json::object();
  Habits habits;
};

Habits habits_of(const Plan& plan) {
  Habits habits;
  habits.agitation = plan.stages.back().agitation;
  for (const Step& step : plan.steps)
    if (step.heat && *step.heat != HeatSource::none && !step.path.empty()) habits.heat = *step.heat;
  return habits;
}

/// What stays from one beer to the next; how much yeast there is, and how old, does not.
Json yeast_kept(const Json& yeast) {
  Json kept = Json::object();
  for (const char* field : {"form", "cells_per_pack", "pack_mass", "out_of_fridge", "flocculation"})
    if (yeast.contains(field)) kept[field] = yeast[field];
  return kept;
}

Lent lent_by(const Plan& plan) {
  Lent lent;
  lent.any = true;
  lent.habits = habits_of(plan);
  const std::string& bytes = *plan.source;
  const Json whole = Json::parse(bytes, nullptr, false);
  for (const char* part : {"member", "place", "vessels"})
    if (whole.contains(part)) lent.document[part] = whole[part];
  lent.document["yeast"] = yeast_kept(whole.value("yeast", Json::object()));
  return lent;
}

/// Questions that the other plan answers, so that nobody is asked them.
bool answered_by(const Question& question, const Lent& lent) {
  if (!lent.any) return false;
  if (question.own || question.name == "member") return true;
  return question.name == "yeast" && lent.document["yeast"].contains("form");
}

// --- what is missing --------------------------------------------------------------------------

std::vector<const Question*> missing(const Answers& answers) {
  std::vector<const Question*> all;
  for (const Question& q : questions())
    if (q.needed && applies(q, answers) && !answer_to(q, answers)) all.push_back(&q);
  return all;
}

Exit tell_missing(const std::vector<const Question*>& all) {
  Page page(error_look());
  page.paragraph("starter-plan: a first plan needs answers that nothing usual can stand for:");
  std::size_t room = 0;
  for (const Question* q : all) room = std::max(room, q->name.size() + 4);
  for (const Question* q : all)
    page.item({"--" + std::string(q->name), Ink::strong},
              {{std::string(q->asks)}, {" (" + std::string(q->example) + ")", Ink::faint}}, 2,
              room);
  page.paragraph(
      "Give them as options, run this on a terminal to be asked, or give --ask to answer line by "
      "line.");
  complain(std::move(page).text());
  return Exit::unusable;
}

/// \return whether every answer that was given as an option can stand; else each is told
bool check_options(const Answers& answers) {
  bool good = true;
  for (const Question& q : questions()) {
    const auto given = answers.find(q.name);
    if (given == answers.end() || given->second.empty()) continue;
    std::optional<PlanError> wrong = wrong_answer(q, given->second);
    if (!wrong && !applies(q, answers))
      wrong = PlanError{"", 0, "this does not go with the other answers", "nothing"};
    if (!wrong) continue;
    good = false;
    Page page(error_look());
    page.paragraph(
        {{"starter-plan: --" + std::string(q.name) + ": ", Ink::strong}, {sentence(wrong->says)}});
    if (!wrong->write.empty()) page.item({"Write", Ink::good}, {{wrong->write}}, 2, 8);
    complain(std::move(page).text());
  }
  return good;
}

// --- the plan ---------------------------------------------------------------------------------

/// The plan without its stages, its parts in the order a plan is best written.
Json document_of(const Answers& answers, const Lent& lent) {
  Json plan = {{"plan", 1}};
  for (const char* part : {"title", "member", "place", "beer", "yeast", "vessels"})
    plan[part] = lent.document.contains(part) ? lent.document[part] : Json(nullptr);
  for (const Question& q : questions()) {
    if (q.where.rfind("/stages", 0) == 0 || q.where.rfind("/steps", 0) == 0) continue;
    const bool given = answers.count(q.name) > 0 && !answers.find(q.name)->second.empty();
    if (!applies(q, answers) || (!given && answered_by(q, lent))) continue;
    const auto text = answer_to(q, answers);
    if (!text) continue;
    // A flask is asked for its kind; what is boiled or chilled in is what it is called.
    if (q.name == "pot" || q.name == "tub") plan["vessels"][std::string(q.name)]["kind"] = q.name;
    put_answer(q, *text, plan);
  }
  for (const char* part : {"title", "member", "place", "beer", "yeast", "vessels"})
    if (plan[part].is_null() || plan[part].empty()) plan.erase(part);
  return plan;
}

template <class Word>
void take_word(const char* name, const Answers& answers, bool lent, Word& into) {
  const Question& q = *std::find_if(questions().begin(), questions().end(),
                                    [name](const Question& one) { return one.name == name; });
  if (lent && answers.count(name) == 0) return;
  if (const auto text = answer_to(q, answers))
    if (const auto word = from_spelling<Word>(*text)) into = *word;
}

/// "plum-porter.plan.json" for a title; letters and digits of ASCII, the rest as hyphens.
std::string file_for(const std::string& title) {
  std::string name;
  for (const char c : lower_ascii(title)) {
    const bool plain = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
    if (plain)
      name += c;
    else if (!name.empty() && name.back() != '-')
      name += '-';
  }
  while (!name.empty() && name.back() == '-') name.pop_back();
  if (name.empty()) name = "starter";
  return name.substr(0, 60) + ".plan.json";
}

/// The text that lies beside the plan: "x.plan.txt" for "x.plan.json".
std::string notes_file(const std::string& plan) {
  constexpr std::string_view ending = ".json";
  const bool json = plan.size() > ending.size() &&
                    plan.compare(plan.size() - ending.size(), ending.size(), ending) == 0;
  return (json ? plan.substr(0, plan.size() - ending.size()) : plan) + ".txt";
}

bool exists(const std::string& name) {
  return access(name.c_str(), F_OK) == 0;
}

/// The file that stands in the way; empty when both may be written.
std::string in_the_way(const std::string& file) {
  for (const std::string& name : {file, notes_file(file)})
    if (exists(name)) return name;
  return "";
}

/// Asks where the plan goes. \return nothing when the input ends
std::optional<std::string> ask_file(const std::string& title) {
  const std::string usual = file_for(title);
  for (;;) {
    say("Which file is it written to?");
    complain("[" + usual + "] > ");
    const auto line = next_line();
    if (!line) return std::nullopt;
    const std::string file = line->empty() ? usual : *line;
    const std::string taken = in_the_way(file);
    if (taken.empty()) return file;
    say("  " + taken + " is there already. Choose another name.");
  }
}

bool is_clean(const FirstPlan& plan) {
  const auto found = worst(plan.judgement.findings);
  return !found || *found < Severity::weakens;
}

/// Documents that differ in one thing that the member might change, told as what is done.
std::vector<std::pair<std::string, Json>> other_choices(const Json& document,
                                                        const Practice& practice,
                                                        UnitSystem units) {
  std::vector<std::pair<std::string, Json>> all;
  if (document["yeast"].value("form", "") != spelling(YeastForm::slurry)) {
    const int packs = document["yeast"].value("packs", 1);
    std::set<int> tried = {packs * 2, packs * 3};
    if (const auto fewest = packs_for_one_starter(document, practice.rules(), practice.defaults))
      tried.insert(*fewest);
    for (const int more : tried) {
      if (more <= packs) continue;
      Json other = document;
      other["yeast"]["packs"] = more;
      all.emplace_back(fmt::format("With {} packs", more), std::move(other));
    }
  }
  const auto volume = read_volume(document["beer"].value("volume", ""));
  if (volume) {
    const std::string half = write(*volume * 0.5, units);
    Json other = document;
    other["beer"]["volume"] = half;
    all.emplace_back("For " + half + " of beer", std::move(other));
  }
  return all;
}

/// What, changed alone, would make a plan that is good to go in the member's own vessels; empty
/// when nothing that was tried would.
std::string what_would_help(const Json& document, const Habits& habits, const Practice& practice,
                            UnitSystem units) {
  for (const auto& [says, other] : other_choices(document, practice, units)) {
    const auto plan = first_plan(other, habits, practice, units);
    if (plan && is_clean(*plan) && plan->bought.empty())
      return says + ", these vessels would do, and the plan would be good to go.";
  }
  return "";
}

/// What keeps the plan from being good to go, and what would help.
void tell_left(const FirstPlan& plan, UnitSystem units) {
  say("With these vessels and this yeast, no plan is good to go. What is left:");
  Page page(error_look());
  for (const Finding& f : plan.judgement.findings) {
    if (f.severity < Severity::weakens) continue;
    page.item({"–"}, {{f.says}}, 2, 2);
    page.item({"Do", Ink::good}, {{f.rule->advice}}, 4, 4);
  }
  const Workings& w = plan.judgement.workings;
  if (w.cells_available >= w.cells_needed)
    page.paragraph(fmt::format(
        "Pitched as it is, this yeast already brings {} living cells, and {} are wanted: by its "
        "number this beer needs no starter.",
        write(w.cells_available, units), write(w.cells_needed, units)));
  complain(std::move(page).text());
}

/// What is to be had first: "Once you have a conical flask of 3 L (“flask”), this is good to go."
std::string once_bought(const FirstPlan& plan, UnitSystem units) {
  std::string list;
  for (std::size_t i = 0; i < plan.bought.size(); ++i) {
    const Vessel& vessel = plan.judgement.plan.vessels.at(plan.bought[i]);
    list += i == 0 ? "" : i + 1 == plan.bought.size() ? " and " : ", ";
    list += fmt::format("a {} of {} (“{}”)", spelling(vessel.kind), write(vessel.capacity, units),
                        plan.bought[i]);
  }
  return "Once you have " + list + ", this is good to go.";
}

void tell_bought(const FirstPlan& plan, UnitSystem units) {
  for (const std::string& name : plan.bought) {
    const Vessel& vessel = plan.judgement.plan.vessels.at(name);
    say(fmt::format("The plan needs a vessel that you did not name, a {} of {}, “{}”.",
                    spelling(vessel.kind), write(vessel.capacity, units), name));
  }
}

Exit write_out(const NewOptions& options, const FirstPlan& plan, Output& out) {
  const bool clean = is_clean(plan);
  const bool to_buy = clean && !plan.bought.empty();
  const std::string bytes = lay_out(plan.document);
  if (options.file.empty()) {
    out.write(bytes);
  } else {
    const std::string notes = notes_file(options.file);
    if (!options.overwrite)
      if (const std::string taken = in_the_way(options.file); !taken.empty())
        return refuse(taken + " is there already. Choose another name, or give --overwrite.");
    Look page;
    page.units = options.units;
    if (const auto problem = write_file(options.file, bytes))
      return refuse(options.file + " was not written: " + *problem + ".");
    if (const auto problem =
            write_file(notes, plan_notes(std::filesystem::path(options.file).filename().string(),
                                         plan.judgement, page)))
      return refuse(notes + " was not written: " + *problem + ".");
    Page told(look_of(Stream::out, options.units));
    told.paragraph(
        options.file + " is written. " +
        (to_buy ? once_bought(plan, options.units) : verdict_of(plan.judgement.findings)));
    told.paragraph("What each part means: " + notes);
    told.paragraph("Look at it: starter-plan check " + options.file);
    out.write(std::move(told).text());
  }
  if (!clean) tell_left(plan, options.units);
  if (!to_buy)
    tell_bought(plan, options.units);
  else if (options.file.empty())
    say(once_bought(plan, options.units));
  return clean ? Exit::sound : Exit::findings;
}

// --- the command ------------------------------------------------------------------------------

/// Answers from the person, where there is one. \return how to end when there is no plan to make
std::optional<Exit> gather(NewOptions& options, const Lent& lent) {
  if (!check_options(options.answers)) return Exit::unusable;
  Answers& answers = options.answers;
  std::vector<std::string> lent_names;
  for (const Question& q : questions())
    if (answered_by(q, lent) && answers.count(q.name) == 0) {
      answers[std::string(q.name)] =
          q.name == "yeast" ? lent.document["yeast"]["form"].get<std::string>() : "";
      lent_names.emplace_back(q.name);
    }
  auto needed = missing(answers);
  std::erase_if(needed, [&](const Question* q) { return answered_by(*q, lent); });
  const bool person = can_ask();
  if (options.ask || (person && !needed.empty())) {
    switch (ask_questions(answers, person, error_look())) {
      case Asked::answered:
        break;
      case Asked::stopped:
        return refuse("the answers ended before all was said; nothing is written.");
      case Asked::wrong:
        return refuse("this answer cannot stand; nothing is written.");
    }
    if (person && options.file.empty()) {
      const auto title = std::find_if(questions().begin(), questions().end(),
                                      [](const Question& q) { return q.name == "title"; });
      const auto file = ask_file(answer_to(*title, answers).value_or(""));
      if (!file) return refuse("no file was named; nothing is written.");
      options.file = *file;
    }
  } else if (!needed.empty()) {
    return tell_missing(needed);
  }
  for (const std::string& name : lent_names) answers.erase(name);
  return std::nullopt;
}

Exit make(NewOptions options, Output& out) {
  const auto practice = load_practice(options.practice);
  if (!practice) return Exit::unusable;
  Lent lent;
  if (!options.from.empty()) {
    PlanResult other = plan_named(options.from, options.ask, practice->defaults);
    if (const auto* errors = std::get_if<std::vector<PlanError>>(&other)) {
      complain(errors_text(spoken_name(options.from), *errors, error_look()));
      return Exit::unusable;
    }
    lent = lent_by(std::get<Plan>(other));
  }
  if (const auto end = gather(options, lent)) return *end;
  Habits habits = lent.habits;
  take_word("agitation", options.answers, lent.any, habits.agitation);
  take_word("heat", options.answers, lent.any, habits.heat);
  const Json document = document_of(options.answers, lent);
  // What is true of the yeast comes before any starter.
  if (const std::string dry = dry_needs_no_starter(document.dump(), practice->defaults);
      !dry.empty())
    say(dry);
  const auto plan = first_plan(document, habits, *practice, options.units);
  if (!plan) {
    const std::string help = what_would_help(document, habits, *practice, options.units);
    // One number of packs is told, and the one that is known to make a whole plan first.
    std::string says = too_big_for_one_starter(document.dump(), practice->rules(),
                                               practice->defaults, options.units, help.empty());
    if (says.empty()) says = "no starter brings this beer its cells from this yeast";
    return refuse(says + "." + (help.empty() ? "" : " " + help));
  }
  const Exit end = write_out(options, *plan, out);
  if (end != Exit::unusable && (end == Exit::findings || !plan->bought.empty()))
    if (const std::string help = what_would_help(document, habits, *practice, options.units);
        !help.empty())
      say(help);
  return end;
}

}  // namespace

void add_new(CLI::App& program, Chosen& chosen) {
  CLI::App* command =
      program.add_subcommand("new", "A first plan, from a few questions or from options");
  auto options = std::make_shared<NewOptions>();
  for (const Question& q : questions()) {
    const std::string name(q.name);
    std::string help = std::string(q.asks) + "\n" + std::string(q.example);
    if (!q.usual.empty()) help += " (" + std::string(q.usual) + ")";
    command
        ->add_option_function<std::string>(
            "--" + name,
            [options, name](const std::string& text) { options->answers[name] = text; }, help)
        ->option_text(" ")
        ->multi_option_policy(CLI::MultiOptionPolicy::TakeLast);
  }
  command
      ->add_option("--from", options->from,
                   "Another plan of yours: its place, vessels and habits are kept")
      ->option_text("PLAN");
  command
      ->add_option("-o,--output", options->file,
                   "Write the plan here, and beside it a text, ending in .txt, on what each part\n"
                   "means; without it the plan goes to standard output")
      ->option_text("FILE");
  command->add_flag("--overwrite", options->overwrite, "Write over files that are there already");
  command->add_flag("--ask", options->ask,
                    "Ask for every answer not given; read them line by line even from a pipe");
  add_units(*command, options->units);
  add_practice(*command, options->practice);
  command->footer(
      "On a terminal, what is needed and not given is asked for. The brew day is always yours to\n"
      "say: no clock is read.\n"
      "Ends with 0 when the plan is good to go, 1 when something is left to mend, which is then\n"
      "told, 2 when there is no plan.\n\n"
      "Examples:\n"
      "  starter-plan new\n"
      "  starter-plan new --volume '20 L' --gravity 1.050 --brew-day 2027-04-10 --flask '3 L' \\\n"
      "      --packaged 2027-03-20 -o plum-porter.plan.json\n"
      "  starter-plan new --from plum-porter.plan.json --title 'Quay lager' --kind lager \\\n"
      "      --volume '20 L' --gravity 1.048 --brew-day 2027-05-15 -o quay-lager.plan.json");
  command->callback(
      [options, &chosen] { chosen = [options](Output& out) { return make(*options, out); }; });
}

}  // namespace starter
