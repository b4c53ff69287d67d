// The lessons that ship: their plans give what they teach, every number in them is filled in by the
// engine, and together they teach the catalogue.

#include <md4c.h>

#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <cctype>
#include <filesystem>
#include <map>
#include <set>
#include <sstream>
#include <string>
#include <string_view>
#include <vector>

#include "lesson_files.h"
#include "rules/catalogue.h"
#include "rules/judge.h"

using namespace starter;

namespace {

Judgement judged(const std::string& bytes) {
  return judge(std::get<Plan>(read_plan(bytes)), catalogue(), {UnitSystem::metric, false});
}

/// "spoils extract-ratio /stages/0/extract", for all above note.
std::multiset<std::string> told(const std::vector<Finding>& findings) {
  std::multiset<std::string> lines;
  for (const Finding& f : findings)
    if (f.severity != Severity::note)
      lines.insert(std::string(spelling(f.severity)) + " " + f.rule->id + " " + f.where);
  return lines;
}

std::string joined(const std::multiset<std::string>& lines) {
  std::string text;
  for (const std::string& line : lines) text += line + "\n";
  return text;
}

/// The text with its placeholders taken out.
std::string bare(std::string text) {
  for (std::size_t open = text.find("{{"); open != std::string::npos; open = text.find("{{", open))
    text.erase(open, text.find("}}", open) + 2 - open);
  return text;
}

/// The placeholders, without their braces.
std::vector<std::string> placeholders(const std::string& text) {
  std::vector<std::string> found;
  for (std::size_t open = text.find("{{"); open != std::string::npos;
       open = text.find("{{", open + 2))
    found.push_back(text.substr(open + 2, text.find("}}", open) - open - 2));
  return found;
}

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) lines.push_back(line);
  return lines;
}

/// How many items the first ordered list after `heading` has.
int numbered_after(const std::string& text, const std::string& heading) {
  int count = 0;
  bool inside = false;
  for (const std::string& line : lines_of(text)) {
    if (line.rfind("## ", 0) == 0) inside = line == heading;
    if (!inside) continue;
    if (line.rfind(std::to_string(count + 1) + ". ", 0) == 0) ++count;
  }
  return count;
}

/// What a CommonMark parser of another origin sees in a page.
struct Seen {
  std::vector<std::string> headings;  ///< "## What to do"
  bool html = false;
  bool in_heading = false;
};

Seen parsed(const std::string& markdown) {
  Seen seen;
  MD_PARSER parser{};
  parser.enter_block = [](MD_BLOCKTYPE type, void* detail, void* user) {
    Seen& s = *static_cast<Seen*>(user);
    if (type == MD_BLOCK_HTML) s.html = true;
    if (type == MD_BLOCK_H) {
      const auto level = static_cast<MD_BLOCK_H_DETAIL*>(detail)->level;
      s.headings.push_back(std::string(level, '#') + " ");
      s.in_heading = true;
    }
    return 0;
  };
  parser.leave_block = [](MD_BLOCKTYPE type, void*, void* user) {
    if (type == MD_BLOCK_H) static_cast<Seen*>(user)->in_heading = false;
    return 0;
  };
  parser.enter_span = [](MD_SPANTYPE, void*, void*) { return 0; };
  parser.leave_span = [](MD_SPANTYPE, void*, void*) { return 0; };
  parser.text = [](MD_TEXTTYPE type, const MD_CHAR* text, MD_SIZE size, void* user) {
    Seen& s = *static_cast<Seen*>(user);
    if (type == MD_TEXT_HTML) s.html = true;
    if (s.in_heading) s.headings.back().append(text, size);
    return 0;
  };
  BOOST_TEST_REQUIRE(
      md_parse(markdown.data(), static_cast<MD_SIZE>(markdown.size()), &parser, &seen) == 0);
  return seen;
}

const std::vector<std::string> sections = {
    "## What goes wrong", "## Why",    "## How to see it in the diagram", "## What to do",
    "## Check yourself",  "## Answers"};

}  // namespace

BOOST_AUTO_TEST_SUITE(shipped)

BOOST_AUTO_TEST_CASE(every_folder_is_embedded_and_sound) {
  namespace fs = std::filesystem;
  std::set<std::string> folders;
  for (const auto& entry : fs::directory_iterator(STARTER_PLAN_SOURCE_DIR "/lessons"))
    if (entry.is_directory() &&
        std::isdigit(static_cast<unsigned char>(entry.path().filename().string().front())))
      folders.insert(entry.path().filename().string());
  std::set<std::string> embedded;
  for (const Lesson& lesson : lessons()) embedded.insert(lesson.name);
  BOOST_TEST(folders == embedded, boost::test_tools::per_element());
  BOOST_TEST(lessons().size() >= 13u);
  for (const std::string& name : folders) {
    const auto file = [&](const char* leaf) { return source_file("lessons/" + name + "/" + leaf); };
    const LessonReading reading = read_lesson(
        {name, file("lesson.md"), file("plan.json"), file("mended.json"), file("expected.json")});
    for (const auto& f : reading.faults) BOOST_ERROR(f.file << ":" << f.line << ": " << f.says);
    const Lesson* lesson = find_lesson(name);
    BOOST_REQUIRE(lesson);
    BOOST_TEST((lesson->text == reading.lesson.text && lesson->plan == reading.lesson.plan &&
                lesson->mended == reading.lesson.mended));
  }
}

BOOST_AUTO_TEST_CASE(numbers_run_on_and_names_and_titles_differ) {
  std::set<std::string> names, titles, plan_titles;
  int number = 0;
  for (const Lesson& lesson : lessons()) {
    BOOST_TEST(std::stoi(lesson.name.substr(0, 2)) == ++number, lesson.name);
    BOOST_TEST(names.insert(lesson.name.substr(3)).second, lesson.name);
    BOOST_TEST(titles.insert(lesson.title).second, lesson.title);
    const auto plan = nlohmann::json::parse(lesson.plan);
    BOOST_TEST(plan_titles.insert(plan.at("title").get<std::string>()).second, lesson.name);
    const std::string member = plan.at("member").get<std::string>();
    BOOST_TEST(member.find(", Lantern Lane Brewers") != std::string::npos, member);
    BOOST_TEST(find_lesson(lesson.name.substr(3)) == &lesson);
    BOOST_TEST(find_lesson(std::to_string(number)) == &lesson);
    BOOST_TEST(find_lesson(lesson.name.substr(0, 2)) == &lesson);
  }
  BOOST_TEST(find_lesson("no-such-lesson") == nullptr);
  BOOST_TEST(find_lesson("") == nullptr);
}

BOOST_AUTO_TEST_CASE(each_plan_gives_exactly_the_findings_it_teaches) {
  for (const Lesson& lesson : lessons()) {
    std::multiset<std::string> expected;
    for (const ExpectedFinding& f : lesson.findings)
      expected.insert(std::string(spelling(f.severity)) + " " + f.rule + " " + f.where);
    const std::multiset<std::string> found = told(judged(lesson.plan).findings);
    BOOST_TEST(found == expected, lesson.name << " finds\n"
                                              << joined(found) << "but expects\n"
                                              << joined(expected));
  }
}

BOOST_AUTO_TEST_CASE(each_mended_plan_has_nothing_above_note) {
  for (const Lesson& lesson : lessons()) {
    const std::multiset<std::string> found = told(judged(lesson.mended).findings);
    BOOST_TEST(found.empty(), lesson.name << " mended still finds\n" << joined(found));
    const auto plan = nlohmann::json::parse(lesson.plan);
    const auto mended = nlohmann::json::parse(lesson.mended);
    BOOST_TEST(plan.at("title") == mended.at("title"));
    BOOST_TEST(plan.at("member") == mended.at("member"));
  }
}

BOOST_AUTO_TEST_CASE(plans_assume_nothing) {
  for (const Lesson& lesson : lessons())
    for (const std::string& bytes : {lesson.plan, lesson.mended})
      for (const Assumption& a : judged(bytes).plan.assumed)
        BOOST_ERROR(lesson.name << " leaves out " << a.where);
}

BOOST_AUTO_TEST_CASE(the_exam_has_ten_faults) {
  BOOST_REQUIRE(!lessons().empty());
  BOOST_TEST(lessons().back().findings.size() == 10u);
  std::set<std::string> rules;
  for (const auto& f : lessons().back().findings) rules.insert(f.rule);
  BOOST_TEST(rules.size() == 10u);
}

BOOST_AUTO_TEST_CASE(every_rule_is_taught_or_said_why_not) {
  std::map<std::string, std::vector<std::string>> taught_by;
  std::set<std::string> found;
  for (const Lesson& lesson : lessons()) {
    for (const std::string& id : lesson.teaches) taught_by[id].push_back(lesson.name);
    for (const ExpectedFinding& f : lesson.findings) found.insert(f.rule);
  }
  for (const Rule& rule : catalogue()) {
    const bool taught = taught_by.count(rule.id) > 0;
    const bool excused = not_taught().count(rule.id) > 0;
    BOOST_TEST(taught != excused,
               rule.id << (taught ? " is taught, and said not to be" : " is taught by no lesson"));
    // The lesson that a rule names is one that teaches it, or for one that none teaches, a lesson.
    BOOST_TEST(find_lesson(rule.lesson), rule.id << " names no lesson: " << rule.lesson);
    const auto& by = taught_by[rule.id];
    BOOST_TEST((excused || std::find(by.begin(), by.end(), rule.lesson) != by.end()),
               rule.id << " names " << rule.lesson << ", which does not teach it");
    // Whatever can hurt or spoil is met in a plan, not only read about.
    const bool grave =
        rule.kind == RuleKind::order || rule.kind == RuleKind::contact
            ? rule.severity > Severity::weakens
        : rule.kind == RuleKind::present
            ? rule.otherwise.value_or(Severity::note) > Severity::weakens ||
                  std::any_of(rule.others.begin(), rule.others.end(),
                              [](const auto& o) { return o.second > Severity::weakens; })
        : rule.kind == RuleKind::consistent
            ? rule.hard_gap.has_value()
            : rule.bounds.hard.any() ||
                  std::any_of(rule.by_value.begin(), rule.by_value.end(),
                              [](const auto& b) { return b.second.hard.any(); });
    BOOST_TEST((!grave || found.count(rule.id)), rule.id << " is found in no lesson's plan");
  }
  for (const auto& [id, reason] : not_taught()) {
    BOOST_TEST(find_rule(id), id);
    BOOST_TEST(reason.size() > 20u, id);
  }
}

BOOST_AUTO_TEST_CASE(what_a_lesson_teaches_is_in_its_text) {
  for (const Lesson& lesson : lessons()) {
    const bool lists_all = lesson.text.find("{{plan: findings}}") != std::string::npos;
    for (const std::string& id : lesson.teaches) {
      bool told_of = false, found = false;
      for (const std::string& p : placeholders(lesson.text)) {
        told_of |= p.rfind("rule " + id + " ", 0) == 0;
        found |= p.rfind("plan: finding " + id + " ", 0) == 0;
      }
      BOOST_TEST(told_of, lesson.name << " does not tell of " << id);
      const bool expected =
          std::any_of(lesson.findings.begin(), lesson.findings.end(),
                      [&, id = id](const ExpectedFinding& f) { return f.rule == id; });
      BOOST_TEST((!expected || found || lists_all), lesson.name << " does not show " << id);
    }
  }
}

BOOST_AUTO_TEST_CASE(what_can_hurt_carries_its_caution) {
  for (const Lesson& lesson : lessons())
    for (const ExpectedFinding& f : lesson.findings) {
      if (f.severity != Severity::danger) continue;
      const auto& wanted = find_rule(f.rule)->cautions;
      BOOST_TEST(std::any_of(wanted.begin(), wanted.end(),
                             [&](const std::string& id) {
                               return lesson.text.find("{{caution " + id + "}}") !=
                                      std::string::npos;
                             }),
                 lesson.name << " has a danger, " << f.rule << ", without a caution");
    }
}

BOOST_AUTO_TEST_CASE(no_number_is_typed) {
  for (const Lesson& lesson : lessons()) {
    int number = 0;
    for (std::string line : lines_of(bare(lesson.text))) {
      ++number;
      // The number of an item of a list.
      const std::size_t dot = line.find(". ");
      if (dot != std::string::npos && dot <= 2 &&
          std::all_of(line.begin(), line.begin() + static_cast<std::ptrdiff_t>(dot),
                      [](unsigned char c) { return std::isdigit(c); }))
        line.erase(0, dot);
      BOOST_TEST(
          std::none_of(line.begin(), line.end(), [](unsigned char c) { return std::isdigit(c); }),
          lesson.name << "/lesson.md:" << number << " has a number typed in: " << line);
    }
  }
}

BOOST_AUTO_TEST_CASE(every_placeholder_fills_in_either_units) {
  for (const Lesson& lesson : lessons())
    for (const UnitSystem units : {UnitSystem::metric, UnitSystem::us}) {
      const std::string text = text_of(filled_lesson(lesson, {units, ""}));
      BOOST_TEST(text.find("{{") == std::string::npos, lesson.name);
      BOOST_TEST(text.find("—") == std::string::npos, lesson.name << " has a gap in a message");
      const Seen seen = parsed(text);
      BOOST_TEST(!seen.html, lesson.name << " has raw HTML");
      std::vector<std::string> wanted = sections;
      wanted.insert(wanted.begin(), "# " + lesson.title);
      BOOST_TEST(seen.headings == wanted, boost::test_tools::per_element());
    }
}

BOOST_AUTO_TEST_CASE(questions_have_answers) {
  for (const Lesson& lesson : lessons()) {
    const int questions = numbered_after(lesson.text, "## Check yourself");
    BOOST_TEST((questions >= 2 && questions <= 4), lesson.name << ": " << questions);
    BOOST_TEST(numbered_after(lesson.text, "## Answers") == questions, lesson.name);
  }
}

BOOST_AUTO_TEST_CASE(each_text_shows_diagram_and_changes) {
  for (const Lesson& lesson : lessons())
    for (const char* part : {"# {{title}}\n\n{{summary}}\n", "\n{{diagram}}\n", "\n{{diff}}\n"})
      BOOST_TEST(lesson.text.find(part) != std::string::npos, lesson.name << " has no " << part);
}

BOOST_AUTO_TEST_CASE(the_table_of_lessons_is_that_of_the_folders) {
  std::vector<std::string> wanted, rows;
  for (const Lesson& lesson : lessons())
    wanted.push_back("| " + lesson.name.substr(0, 2) + " | [" + lesson.title + "](" + lesson.name +
                     "/lesson.md) | " + lesson.summary + " |");
  for (const std::string& line : lines_of(source_file("lessons/README.md")))
    if (line.rfind("| ", 0) == 0 && line.find("/lesson.md)") != std::string::npos)
      rows.push_back(line);
  BOOST_TEST(rows == wanted, boost::test_tools::per_element());
}

BOOST_AUTO_TEST_SUITE_END()
