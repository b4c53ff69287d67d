#include <fmt/format.h>
#include <sys/stat.h>

#include <algorithm>
#include <filesystem>
#include <map>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <system_error>
#include <thread>
#include <utility>
#include <vector>

#include "command/commands.h"
#include "command/digest.h"
#include "command/practice_option.h"
#include "command/progress.h"
#include "command/refuse.h"
#include "command/review_files.h"
#include "command/review_folder.h"
#include "command/review_sheets.h"
#include "command/terminal.h"
#include "command/word_option.h"
#include "command/workers.h"
#include "output/html.h"
#include "output/plan_parts.h"
#include "output/review_index.h"
#include "output/review_pages.h"
#include "output/text.h"

namespace starter {
namespace {

struct ReviewOptions {
  std::string folder;
  std::string out;
  bool since = false;
  bool quiet = false;
  int jobs = 0;
  Told told;
  PracticeOption practice;
  Severity fail_at = Severity::weakens;
};

constexpr const char* program_name = "starter-plan " STARTER_PLAN_VERSION;

/// A digest of this very program, so that another build never takes an old sheet for its own.
std::string digest_of_program() {
  const auto bytes = read_whole("/proc/self/exe");
  return digest_of(bytes ? *bytes : program_name);
}

/// Of the practice file; empty where there is none.
std::string digest_of_practice(const PracticeOption& option) {
  const auto bytes = option.file.empty() ? std::nullopt : read_whole(option.file);
  return bytes ? digest_of(*bytes) : "";
}

/// "plans" for "/clubs/lane/plans/" and for "." in it; as it was named where it has none.
std::string own_name_of(const std::string& folder) {
  std::error_code reason;
  std::filesystem::path path = std::filesystem::canonical(folder, reason);
  return reason || !path.has_filename() ? folder : path.filename().string();
}

/// One plan on its way through the review.
struct Item {
  FoundPlan found;
  std::string sheet;  ///< file name
  ReviewRow row;
  std::string made_from;  ///< digest of all that decides what the sheet says
  std::string digest;     ///< of the sheet
  bool done = false;
};

class ReviewRun {
 public:
  /// \param practice what the option names
  ReviewRun(const ReviewOptions& options, const Practice& practice, ReviewFolder& folder)
      : options_(options),
        practice_(practice),
        folder_(folder),
        program_(digest_of_program()),
        practice_digest_(digest_of_practice(options.practice)) {}

  /// \return whether there is any plan
  bool find_any() {
    find();
    return !items_.empty();
  }

  /// \pre find_any()
  /// \return why the review could not be written; nothing when it is in place
  std::optional<std::string> run() {
    if (options_.since) take_over();
    if (auto problem = judge_rest()) return problem;
    return finish();
  }

  const ReviewTally& tally() const { return tally_; }
  const std::vector<ReviewRow>& rows() const { return rows_; }
  Review review() const {
    return {rows_,           practice_.rules(), options_.told.units,
            options_.folder, program_name,      own_name_of(options_.folder),
            practice_.club};
  }
  int redone() const { return redone_; }
  int kept() const { return static_cast<int>(items_.size()) - redone_; }

 private:
  void find() {
    std::vector<std::string> names;
    for (FoundPlan& found : find_plans(options_.folder, folder_.out())) {
      names.push_back(found.name);
      items_.push_back({std::move(found), "", {}, "", "", false});
    }
    const std::vector<std::string> sheets = sheet_names(names);
    for (std::size_t i = 0; i < items_.size(); ++i) items_[i].sheet = sheets[i];
  }

  static PlanInputs inputs_of(const Item& item) {
    return item.found.problem ? PlanInputs{item.found.path, *item.found.problem, {}}
                              : read_inputs(item.found.path);
  }

  /// All that decides what a sheet says.
  std::string made_from(const Item& item, const PlanInputs& inputs) const {
    std::vector<std::string_view> parts = {program_,
                                           options_.told.units == UnitSystem::us ? "us" : "metric",
                                           practice_digest_, item.found.name};
    for (const std::string_view bytes : bytes_of(inputs)) parts.push_back(bytes);
    return digest_of(parts);
  }

  /// Takes over the sheets of the old review whose plans have not changed and that nobody touched.
  void take_over() {
    const auto manifest = read_manifest(folder_.out());
    if (!manifest) return;
    const auto old = intact(*manifest, "review.json");
    if (!old) return;
    const Json document = Json::parse(*old, nullptr, false);
    if (!document.is_object() || !document.contains("plans") ||
        document["plans"].size() != manifest->made_from.size())
      return;
    std::map<std::string, std::size_t> by_origin;
    for (std::size_t i = 0; i < manifest->made_from.size(); ++i)
      by_origin.emplace(manifest->made_from[i], i);
    for (Item& item : items_) {
      const auto found = by_origin.find(made_from(item, inputs_of(item)));
      if (found == by_origin.end()) continue;
      if (auto row = row_from_json(document["plans"][found->second]))
        take_over(item, *manifest, found->first, std::move(*row));
    }
  }

  void take_over(Item& item, const Manifest& manifest, const std::string& origin, ReviewRow row) {
    const std::string old_name = "sheets/" + row.sheet;
    if (!intact(manifest, old_name) || !folder_.keep(old_name, "sheets/" + item.sheet)) return;
    item.row = std::move(row);
    item.made_from = origin;
    item.digest = manifest.files.at(old_name);
    item.done = true;
  }

  /// The bytes of a file of the old review, unless it is not what it was.
  std::optional<std::string> intact(const Manifest& manifest, const std::string& name) const {
    const auto file = manifest.files.find(name);
    if (file == manifest.files.end()) return std::nullopt;
    auto bytes = read_whole(folder_.out() + "/" + name);
    if (!bytes || digest_of(*bytes) != file->second) return std::nullopt;
    return bytes;
  }

  int jobs() const {
    if (options_.jobs > 0) return options_.jobs;
    return std::max(1, static_cast<int>(std::thread::hardware_concurrency()));
  }

  std::optional<std::string> judge_rest() {
    std::vector<std::size_t> tasks;
    for (std::size_t i = 0; i < items_.size(); ++i)
      if (!items_[i].done) tasks.push_back(i);
    redone_ = static_cast<int>(tasks.size());
    Progress progress("Judging", tasks.size(), options_.quiet);
    std::optional<std::string> problem;
    run_in_processes(
        tasks, jobs(), [this](std::size_t i) { return judge_one(items_[i]); },
        [&](std::size_t i, Outcome outcome) {
          auto failed = take(items_[i], std::move(outcome));
          if (failed && !problem) problem = std::move(failed);
          progress.step();
        });
    return problem;
  }

  /// In a process of its own: writes the sheet and tells the rest.
  std::string judge_one(const Item& item) {
    if (!maker_) maker_ = std::make_unique<SheetMaker>(practice_, options_.told.units);
    const PlanInputs inputs = inputs_of(item);
    const Sheet sheet = maker_->make(item.found.name, inputs);
    Json told;
    if (const auto problem = folder_.write("sheets/" + item.sheet, sheet.page)) {
      told["problem"] = *problem;
    } else {
      told["row"] = row_json(sheet.row);
      told["made_from"] = made_from(item, inputs);
      told["digest"] = digest_of(sheet.page);
    }
    return told.dump(-1, ' ', false, Json::error_handler_t::replace);
  }

  /// \return why the review cannot be written
  std::optional<std::string> take(Item& item, Outcome outcome) {
    if (const auto* death = std::get_if<WorkerDeath>(&outcome)) return take_death(item, *death);
    const Json told = Json::parse(std::get<std::string>(outcome));
    if (told.contains("problem")) return told["problem"].get<std::string>();
    item.row = row_from_json(told.at("row")).value();
    item.made_from = told.at("made_from").get<std::string>();
    item.digest = told.at("digest").get<std::string>();
    return std::nullopt;
  }

  std::optional<std::string> take_death(Item& item, const WorkerDeath& death) {
    Sheet sheet = unusable_sheet(
        item.found.name,
        {{"", 0, "the program " + death.says + "; the other plans are not touched by it", ""}});
    item.row = std::move(sheet.row);
    item.digest = digest_of(sheet.page);
    folder_.drop("sheets/" + item.sheet);  // it may have been half written
    return folder_.write("sheets/" + item.sheet, sheet.page);
  }

  std::optional<std::string> finish() {
    Manifest manifest;
    for (Item& item : items_) {
      item.row.plan = item.found.name;
      item.row.sheet = item.sheet;
      manifest.files["sheets/" + item.sheet] = item.digest;
      manifest.made_from.push_back(item.made_from);
      rows_.push_back(std::move(item.row));
    }
    tally_ = tally_of(rows_, practice_.rules());
    std::vector<ReviewPage> pages = review_pages(review(), tally_);
    pages.push_back({"review.json", json_text(review_json(review(), tally_))});
    pages.push_back({"review.schema.json", review_schema()});
    for (const ReviewPage& page : pages) {
      manifest.files[page.file] = digest_of(page.text);
      if (auto problem = folder_.write(page.file, page.text)) return problem;
    }
    return folder_.publish(manifest);
  }

  const ReviewOptions& options_;
  const Practice& practice_;
  ReviewFolder& folder_;
  std::string program_;
  std::string practice_digest_;
  std::vector<Item> items_;
  std::vector<ReviewRow> rows_;
  ReviewTally tally_;
  int redone_ = 0;
  std::unique_ptr<SheetMaker> maker_;  ///< of a process that judges
};

Exit end_of(const std::vector<ReviewRow>& rows, Severity fail_at) {
  Exit worst = Exit::sound;
  for (const ReviewRow& row : rows) {
    if (!row.usable()) return Exit::unusable;
    for (const ReviewFinding& f : row.findings)
      if (f.counts && f.severity >= fail_at) worst = Exit::findings;
  }
  return worst;
}

/// "broken.plan.json, line 1: …" for each plan that cannot be used, on standard error.
void tell_unusable(const std::vector<ReviewRow>& rows, int unusable) {
  constexpr int most = 5;
  if (unusable == 0) return;
  Page page(look_of(Stream::error, UnitSystem::metric));
  int told = 0;
  for (const ReviewRow& row : rows) {
    if (row.usable() || told == most) continue;
    ++told;
    const PlanError& error = row.errors.front();
    const std::string line = error.line > 0 ? fmt::format(", line {}", error.line) : "";
    page.paragraph({{row.plan + line + ": ", Ink::strong}, {sentence(error.says)}});
  }
  if (unusable > told) page.paragraph(fmt::format("… and {} more.", unusable - told));
  complain(std::move(page).text());
}

std::string most_often(const ReviewTally& tally) {
  constexpr std::size_t most = 3;
  std::string out;
  for (std::size_t i = 0; i < tally.rules.size() && i < most; ++i)
    if (tally.rules[i].plans > 0)
      out += (out.empty() ? "" : "; ") + tally.rules[i].rule->title + " (" +
             counted(tally.rules[i].plans, "plan", "plans") + ")";
  return out;
}

std::string summary_text(const ReviewRun& run, const ReviewOptions& options,
                         const std::string& out) {
  constexpr std::size_t label_room = 12;
  Page page(look_of(Stream::out, options.told.units));
  const ReviewTally& t = run.tally();
  std::string plans = counted(t.plans, "plan", "plans");
  if (t.plans > 0) plans += fmt::format(": {} good to go", t.sound);
  if (const int mend = t.plans - t.sound - t.unusable) plans += fmt::format(", {} to mend", mend);
  if (t.unusable) plans += fmt::format(", {} that cannot be used yet", t.unusable);
  page.paragraph({{plans + ".", Ink::strong}});
  if (const std::string often = most_often(t); !often.empty())
    page.item("Most often", often, 0, label_room);
  if (options.since)
    page.item(
        "Done anew",
        fmt::format("{}; {} had not changed.", counted(run.redone(), "plan", "plans"), run.kept()),
        0, label_room);
  page.item("Review", out + "/index.html", 0, label_room);
  return std::move(page).text();
}

Json summary_json(const ReviewRun& run, const std::string& out) {
  Json all = review_json(run.review(), run.tally());
  return {{"out", out},
          {"redone", run.redone()},
          {"kept", run.kept()},
          {"totals", all["totals"]},
          {"rules", all["rules"]},
          {"lessons", all["lessons"]}};
}

Exit review(const ReviewOptions& options, Output& out) {
  const auto practice = load_practice(options.practice);
  if (!practice) return Exit::unusable;
  struct stat seen {};
  if (stat(options.folder.c_str(), &seen) != 0)
    return refuse(options.folder + ": there is no folder of this name.");
  if (!S_ISDIR(seen.st_mode))
    return refuse(options.folder + " is a file. Name the folder that the plans are in; for one " +
                  "plan, there is starter-plan check.");
  auto opened = ReviewFolder::open(options.out, options.folder);
  if (const auto* no = std::get_if<std::string>(&opened))
    return refuse(options.out + " " + *no + ".");
  ReviewFolder& folder = *std::get<std::unique_ptr<ReviewFolder>>(opened);
  ReviewRun run(options, *practice, folder);
  if (!run.find_any())
    return refuse("there is no plan in " + options.folder +
                  ". A plan is a file named plan.json, or one whose name ends with .plan.json. "
                  "No review was written.");
  if (const auto problem = run.run())
    return refuse(options.out + " was not written: " + *problem +
                  ". What was there before is untouched.");
  tell_unusable(run.rows(), run.tally().unusable);
  if (options.told.format == Format::json)
    out.write(json_text(summary_json(run, options.out)));
  else if (!options.quiet)
    out.write(summary_text(run, options, options.out));
  return end_of(run.rows(), options.fail_at);
}

std::string not_empty(const std::string& name) {
  return name.empty() ? "its name is empty" : "";
}

}  // namespace

void add_review(CLI::App& program, Chosen& chosen) {
  CLI::App* command = program.add_subcommand(
      "review", "A whole club: a page a plan, a list by severity, and what goes wrong most");
  auto o = std::make_shared<ReviewOptions>();
  command
      ->add_option("DIR", o->folder, "The folder with the plans: every plan.json and *.plan.json")
      ->required()
      ->check(not_empty)
      ->option_text(" ");
  command
      ->add_option("-o,--output", o->out, "The folder to write; an older review in it is replaced")
      ->required()
      ->check(not_empty)
      ->option_text("DIR");
  command->add_flag("--since", o->since, "Do only what has changed since the review that is there");
  command->add_option("--jobs", o->jobs, "How many plans at once (as many as there are processors)")
      ->check(CLI::Range(1, 256).description(""))
      ->option_text("N");
  command->add_flag("--quiet", o->quiet, "Say nothing, but for what goes wrong");
  add_told(*command, o->told);
  add_fail_at(*command, o->fail_at);
  add_practice(*command, o->practice);
  command->footer(
      "Ends with 0 when nothing is found at or above --fail-at, 1 when something is,\n"
      "2 when a plan cannot be used, there is none, or the review is not written.\n\n"
      "Examples:\n"
      "  starter-plan review plans/ -o review/\n"
      "  starter-plan review plans/ -o review/ --since\n"
      "  starter-plan review plans/ -o review/ --format json");
  command->callback([o, &chosen] { chosen = [o](Output& out) { return review(*o, out); }; });
}

}  // namespace starter
