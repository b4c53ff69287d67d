#include <fcntl.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <chrono>
#include <csignal>
#include <filesystem>
#include <fstream>
#include <functional>
#include <map>
#include <nlohmann/json.hpp>
#include <sstream>
#include <thread>

#include "child.h"

namespace {

namespace fs = std::filesystem;
using Json = nlohmann::ordered_json;

void put(const fs::path& path, const std::string& bytes) {
  fs::create_directories(path.parent_path());
  std::ofstream(path, std::ios::binary) << bytes;
}

/// A folder for one test, with a few plans in "plans".
struct Club {
  fs::path root, plans, out;

  explicit Club(const std::string& name)
      : root(fs::path(scratch_folder()) / ("review-" + name)),
        plans(root / "plans"),
        out(root / "review") {
    copy("harvest-amber", "b/wren.plan.json");
    copy("faulty/rich-wort", "a/plan.json");
    copy("faulty/hot-jug", "moss.plan.json");
    put(plans / "notes.json", "{}");
  }
  void copy(const std::string& plan, const std::string& to) const {
    put(plans / to, bytes_of(plan_file(plan)));
  }
  std::vector<std::string> words(const std::vector<std::string>& more) const {
    std::vector<std::string> all = {"review", plans.string(), "-o", out.string()};
    all.insert(all.end(), more.begin(), more.end());
    return all;
  }
  Ran review(const std::vector<std::string>& more = {}, const Setting& setting = {}) const {
    return run(words(more), setting);
  }
  Json json() const { return Json::parse(bytes_of(out / "review.json")); }
  std::vector<Json> plans_told() const { return json()["plans"].get<std::vector<Json>>(); }
  /// What stands beside the plans and the review.
  std::vector<std::string> beside() const {
    std::vector<std::string> names;
    for (const auto& entry : fs::directory_iterator(root))
      if (entry.path() != plans && entry.path() != out)
        names.push_back(entry.path().filename().string());
    return names;
  }
};

/// Every file below a folder, by name.
std::map<std::string, std::string> files_in(const fs::path& folder) {
  std::map<std::string, std::string> files;
  for (const auto& entry : fs::recursive_directory_iterator(folder))
    if (entry.is_regular_file())
      files[entry.path().lexically_relative(folder).string()] = bytes_of(entry.path());
  return files;
}

/// A text of several lines as one.
std::string in_one_line(std::string text) {
  std::replace(text.begin(), text.end(), '\n', ' ');
  return text;
}

/// The program started and left running.
pid_t start(std::vector<std::string> arguments) {
  arguments.insert(arguments.begin(), STARTER_PLAN_PROGRAM);
  const pid_t process = fork();
  if (process != 0) return process;
  const int nowhere = open("/dev/null", O_WRONLY);
  for (const int stream : {STDOUT_FILENO, STDERR_FILENO}) dup2(nowhere, stream);
  std::vector<char*> words;
  for (std::string& word : arguments) words.push_back(word.data());
  words.push_back(nullptr);
  execv(STARTER_PLAN_PROGRAM, words.data());
  _exit(127);
}

/// Whether it comes true within half a minute.
bool comes_true(const std::function<bool()>& condition) {
  for (int i = 0; i < 3000; ++i) {
    if (condition()) return true;
    std::this_thread::sleep_for(std::chrono::milliseconds(10));
  }
  return false;
}

/// A process that the given one has started; 0 when there is none.
pid_t child_of(pid_t process) {
  const std::string id = std::to_string(process);
  std::ifstream children("/proc/" + id + "/task/" + id + "/children");
  pid_t child = 0;
  children >> child;
  return children ? child : 0;
}

/// Plans enough that a run can be caught at work.
void many_plans(const Club& club, int count) {
  for (int i = 0; i < count; ++i)
    club.copy(i % 2 ? "faulty/many-at-once" : "faulty/too-late",
              "many/" + std::to_string(1000 + i) + ".plan.json");
}

std::size_t sheets_in_the_making(const Club& club) {
  std::size_t count = 0;
  std::error_code gone;
  for (const std::string& name : club.beside())
    for (fs::directory_iterator entry(club.root / name / "sheets", gone), end;
         !gone && entry != end; entry.increment(gone))
      ++count;
  return count;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(review)

BOOST_AUTO_TEST_CASE(every_plan_below_the_folder_has_a_row_and_a_sheet) {
  const Club club("rows");
  const Ran ran = club.review();
  BOOST_TEST(ran.code == 1);
  BOOST_TEST(ran.error == "");
  BOOST_TEST(holds(ran.out, "3 plans: 1 good to go, 2 to mend."));
  const Json all = club.json();
  BOOST_REQUIRE(all["plans"].size() == 3u);
  BOOST_TEST(all["plans"][0]["plan"] == "a/plan.json");
  BOOST_TEST(all["plans"][1]["plan"] == "b/wren.plan.json");
  BOOST_TEST(all["plans"][2]["plan"] == "moss.plan.json");
  for (const Json& row : all["plans"]) {
    const std::string sheet = bytes_of(club.out / "sheets" / row["sheet"].get<std::string>());
    BOOST_TEST(holds(sheet, row["verdict"].get<std::string>()));
    BOOST_TEST(holds(sheet, "<svg"));
    BOOST_TEST(holds(bytes_of(club.out / "index.html"), row["sheet"].get<std::string>()));
  }
  BOOST_TEST(club.beside().empty());
}

BOOST_AUTO_TEST_CASE(findings_and_exit_codes_are_those_of_check) {
  const Club club("as-check");
  BOOST_TEST(club.review({"--fail-at", "danger"}).code == 1);
  BOOST_TEST(club.review({"--fail-at", "note"}).code == 1);
  for (const Json& row : club.plans_told()) {
    const std::string plan = (club.plans / row["plan"].get<std::string>()).string();
    const Json check = Json::parse(run({"check", "--format", "json", plan}).out);
    BOOST_REQUIRE(row["findings"].size() == check["findings"].size());
    for (std::size_t i = 0; i < row["findings"].size(); ++i) {
      BOOST_TEST(row["findings"][i]["rule"] == check["findings"][i]["rule"]);
      BOOST_TEST(row["findings"][i]["severity"] == check["findings"][i]["severity"]);
    }
  }
  fs::remove(club.plans / "moss.plan.json");
  BOOST_TEST(club.review({"--fail-at", "danger"}).code == 0);
}

BOOST_AUTO_TEST_CASE(a_broken_plan_is_a_row_and_stops_nothing) {
  const Club club("broken");
  club.copy("bad/misspelt-field", "a/bad.plan.json");
  put(club.plans / "empty.plan.json", "");
  put(club.plans / "huge.plan.json", std::string((1 << 20) + 1, ' '));
  fs::create_symlink("nowhere", club.plans / "lost.plan.json");
  BOOST_REQUIRE(mkfifo((club.plans / "pipe.plan.json").c_str(), 0600) == 0);
  const Ran ran = club.review();
  BOOST_TEST(ran.code == 2);
  BOOST_TEST(holds(ran.out, "8 plans: 1 good to go, 2 to mend, 5 that cannot be used yet."));
  std::map<std::string, std::string> says;
  for (const Json& row : club.plans_told())
    if (row.contains("errors")) says[row["plan"]] = row["errors"][0]["says"];
  BOOST_TEST(holds(says["a/bad.plan.json"], "volme"));
  BOOST_TEST(holds(says["huge.plan.json"], "larger"));
  BOOST_TEST(holds(says["lost.plan.json"], "link"));
  BOOST_TEST(holds(says["pipe.plan.json"], "pipe"));
  BOOST_TEST(says.size() == 5u);
  BOOST_TEST(holds(bytes_of(club.out / "sheets" / "a-bad.html"), "<strong>Line "));
}

BOOST_AUTO_TEST_CASE(loops_of_links_end_and_the_review_in_the_folder_is_left_out) {
  Club club("loops");
  fs::create_directory_symlink(club.plans, club.plans / "a" / "up");
  fs::create_directory_symlink(club.plans / "b", club.plans / "a" / "across");
  club.out = club.plans / "review";
  BOOST_TEST(club.review().code == 1);
  BOOST_TEST(club.json()["plans"].size() == 3u);
  BOOST_TEST(club.json()["plans"][1]["plan"] == "b/wren.plan.json");
  const auto before = files_in(club.out);
  BOOST_TEST(club.review().code == 1);
  BOOST_TEST((files_in(club.out) == before));
}

BOOST_AUTO_TEST_CASE(names_and_texts_may_hold_anything) {
  const Club club("hostile");
  Json plan = Json::parse(bytes_of(plan_file("faulty/many-at-once")));
  plan["title"] = "</title><script>alert(1)</script>\n &amp; {{file}}";
  plan["member"] = "\"><img src=x onerror=alert(1)>\xE2\x80\xAE";
  const std::string name = "x\"><script>y</script>\n\x1b[31m\xff.plan.json";
  put(club.plans / name, plan.dump());
  put(club.plans / "X-script-y-script-31m.plan.json", plan.dump());
  BOOST_TEST(club.review().code == 1);
  BOOST_TEST(club.json()["plans"].size() == 5u);
  for (const auto& [file, text] : files_in(club.out)) {
    if (!file.ends_with(".html")) continue;
    BOOST_TEST(!holds(text, "<script"), file);
    BOOST_TEST(!holds(text, "<img"), file);
    BOOST_TEST(!holds(text, "\x1b"), file);
    BOOST_TEST(!holds(text, "\xff"), file);
    BOOST_TEST(!holds(text, "\xE2\x80\xAE"), file);
  }
  BOOST_TEST(holds(bytes_of(club.out / "index.html"), "\\xff.plan.json"));
  for (const auto& entry : fs::directory_iterator(club.out / "sheets"))
    for (const char c : entry.path().filename().string())
      BOOST_TEST(((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-' || c == '.'));
}

BOOST_AUTO_TEST_CASE(the_number_of_processes_changes_nothing) {
  Club club("jobs");
  many_plans(club, 12);
  club.copy("bad/misspelt-field", "bad.plan.json");
  BOOST_TEST(club.review({"--jobs", "1"}).code == 2);
  const auto one = files_in(club.out);
  BOOST_TEST(club.review({"--jobs", "3"}).code == 2);
  BOOST_TEST((files_in(club.out) == one));
}

BOOST_AUTO_TEST_CASE(since_does_only_what_has_changed) {
  const Club club("since");
  const auto redone = [&club] {
    const Ran ran = club.review({"--since", "--format", "json"});
    BOOST_TEST(ran.code == 1);
    return Json::parse(ran.out)["redone"].get<int>();
  };
  BOOST_TEST(redone() == 3);  // nothing was there
  BOOST_TEST(redone() == 0);
  // Neither the clock nor a touch counts, the bytes do.
  fs::last_write_time(club.plans / "moss.plan.json", fs::file_time_type::clock::now());
  BOOST_TEST(redone() == 0);
  put(club.plans / "moss.plan.json", bytes_of(club.plans / "moss.plan.json") + "\n");
  BOOST_TEST(redone() == 1);
  club.copy("faulty/too-late", "new.plan.json");
  fs::remove(club.plans / "a" / "plan.json");
  BOOST_TEST(redone() == 1);
  BOOST_TEST(club.json()["plans"].size() == 3u);
  // A sheet that somebody changed is made anew, and so are all with other units.
  const fs::path sheet = club.out / "sheets" / "new.html";
  const std::string was = bytes_of(sheet);
  fs::remove(sheet);
  put(sheet, "changed");
  BOOST_TEST(redone() == 1);
  BOOST_TEST(bytes_of(sheet) == was);
  BOOST_TEST(Json::parse(
                 club.review({"--since", "--format", "json", "--units", "us"}).out)["redone"] == 3);
  const auto after_since = files_in(club.out);
  BOOST_TEST(club.review({"--units", "us"}).code == 1);
  BOOST_TEST((files_in(club.out) == after_since));
}

BOOST_AUTO_TEST_CASE(a_damaged_list_of_files_is_not_trusted) {
  const Club club("damaged");
  BOOST_TEST(club.review().code == 1);
  put(club.out / "review.json", "{\"plans\": [1, 2, 3]}");
  const Ran ran = club.review({"--since", "--format", "json"});
  BOOST_TEST(Json::parse(ran.out)["redone"] == 3);
  put(club.out / "starter-plan-review.json", "{}");
  const Ran refused = club.review();
  BOOST_TEST(refused.code == 2);
  BOOST_TEST(holds(in_one_line(refused.error), "no review that this program made"));
}

BOOST_AUTO_TEST_CASE(what_is_no_review_is_left_alone) {
  Club club("alone");
  const auto refused = [&](const fs::path& out, const std::string& why) {
    club.out = out;
    const Ran ran = club.review();
    BOOST_TEST(ran.code == 2);
    const std::string said = in_one_line(ran.error);
    BOOST_TEST(holds(said, why), said);
  };
  put(club.root / "other" / "diary.txt", "mine");
  refused(club.root / "other", "is no review that this program made");
  BOOST_TEST(bytes_of(club.root / "other" / "diary.txt") == "mine");
  refused(club.plans, "contains the plans");
  refused(club.root, "contains the plans");
  refused("/", "root of the file system");
  refused(club.plans / "notes.json", "is a file");
  refused(club.root / "no" / "such", "there is no folder");
  club.out = club.root / "review";
  BOOST_TEST(club.review().code == 1);
  put(club.out / "sheets" / "my-notes.txt", "mine");
  refused(club.out, "my-notes.txt");
  BOOST_TEST(bytes_of(club.out / "sheets" / "my-notes.txt") == "mine");
  BOOST_TEST(run({"review", (club.plans / "no").string(), "-o", club.out.string()}).code == 2);
}

BOOST_AUTO_TEST_CASE(a_run_that_is_killed_leaves_the_old_review_and_the_next_one_clears_up) {
  const Club club("killed");
  BOOST_TEST(club.review().code == 1);
  const auto before = files_in(club.out);
  many_plans(club, 150);
  const pid_t process = start(club.words({"--jobs", "2"}));
  BOOST_REQUIRE(comes_true([&] { return sheets_in_the_making(club) > 2; }));
  const pid_t worker = child_of(process);
  kill(process, SIGKILL);
  int status = 0;
  waitpid(process, &status, 0);
  BOOST_REQUIRE(WIFSIGNALED(status));
  BOOST_TEST((files_in(club.out) == before));
  BOOST_TEST(club.beside().size() == 1u);
  // Its workers go with it.
  if (worker > 0) BOOST_TEST(comes_true([&] { return kill(worker, 0) != 0; }));
  fs::remove_all(club.plans / "many");
  BOOST_TEST(club.review().code == 1);
  BOOST_TEST((files_in(club.out) == before));
  BOOST_TEST(club.beside().empty());
}

BOOST_AUTO_TEST_CASE(a_worker_that_dies_costs_its_plan_only) {
  const Club club("worker");
  many_plans(club, 30);
  const pid_t process = start(club.words({"--jobs", "1"}));
  BOOST_REQUIRE(comes_true([&] { return sheets_in_the_making(club) > 2; }));
  // Held still, it has surely a plan in hand when it dies.
  const pid_t worker = child_of(process);
  BOOST_REQUIRE(worker > 0);
  kill(worker, SIGSTOP);
  std::this_thread::sleep_for(std::chrono::milliseconds(200));
  kill(worker, SIGKILL);
  int status = 0;
  waitpid(process, &status, 0);
  BOOST_TEST(WIFEXITED(status));
  BOOST_TEST(WEXITSTATUS(status) == 2);
  int broken = 0;
  for (const Json& row : club.plans_told())
    if (row.contains("errors")) {
      ++broken;
      BOOST_TEST(holds(row["errors"][0]["says"], "signal 9"));
    }
  BOOST_TEST(broken == 1);
  BOOST_TEST(club.json()["plans"].size() == 33u);
  // The next run with --since does that plan anew.
  const Json next = Json::parse(club.review({"--since", "--format", "json"}).out);
  BOOST_TEST(next["redone"] == 1);
  BOOST_TEST(next["totals"]["unusable"] == 0);
}

BOOST_AUTO_TEST_CASE(quiet_says_nothing_and_a_pipe_sees_no_progress) {
  const Club club("quiet");
  const Ran quiet = club.review({"--quiet"});
  BOOST_TEST(quiet.out == "");
  BOOST_TEST(quiet.error == "");
  Setting terminal;
  terminal.terminal = 80;
  terminal.environment = {"TERM=xterm", "NO_COLOR=1"};
  const Ran calm = club.review({}, terminal);
  BOOST_TEST(!holds(calm.out, "\x1b"));
  BOOST_TEST(!holds(calm.error, "\x1b"));
}

BOOST_AUTO_TEST_CASE(an_empty_folder_is_told_and_has_no_review) {
  Club club("empty");
  fs::remove_all(club.plans);
  fs::create_directories(club.plans);
  const Ran ran = club.review({"--quiet"});
  BOOST_TEST(ran.code == 2);
  BOOST_TEST(holds(ran.error, "there is no plan in "));
  BOOST_TEST(holds(ran.error, ".plan.json"));
  BOOST_TEST(!fs::exists(club.out));
  BOOST_TEST(club.beside().empty());
}

BOOST_AUTO_TEST_CASE(plans_that_cannot_be_used_are_named_even_quietly) {
  Club club("named");
  for (const char* name : {"a", "b", "c", "d", "e", "f", "g"})
    put(club.plans / (std::string(name) + "-broken.plan.json"), "{");
  const Ran ran = club.review({"--quiet"});
  BOOST_TEST(ran.code == 2);
  BOOST_TEST(ran.out == "");
  BOOST_TEST(holds(ran.error, "a-broken.plan.json, line 1: "));
  BOOST_TEST(holds(ran.error, "e-broken.plan.json, line 1: "));
  BOOST_TEST(!holds(ran.error, "f-broken"));
  BOOST_TEST(holds(ran.error, "and 2 more."));
}

BOOST_AUTO_TEST_SUITE_END()
