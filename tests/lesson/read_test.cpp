// Reading a lesson's folder: what is wrong with it is named, with its file and line.

#include <boost/test/unit_test.hpp>
#include <functional>
#include <string>

#include "lesson_files.h"

using namespace starter;

namespace {

/// The faults of the small lesson with its files changed.
std::vector<LessonFault> faults_after(const std::function<void(LessonFiles&)>& change) {
  LessonFiles files = rich_wort_files("# {{title}}\n");
  change(files);
  return read_lesson(files).faults;
}

bool some_fault(const std::vector<LessonFault>& faults, const std::string& file,
                const std::string& part) {
  for (const LessonFault& f : faults)
    if (f.file == file && f.says.find(part) != std::string::npos) return true;
  for (const LessonFault& f : faults) BOOST_TEST_MESSAGE(f.file << ":" << f.line << ": " << f.says);
  return false;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(reading)

BOOST_AUTO_TEST_CASE(a_good_lesson_is_read) {
  const LessonReading reading = read_lesson(rich_wort_files("# {{title}}\n"));
  BOOST_TEST(reading.faults.empty());
  BOOST_TEST(reading.lesson.name == "03-rich-wort");
  BOOST_TEST(reading.lesson.title == "Rich wort");
  BOOST_TEST(reading.lesson.summary == "Too much of a good thing.");
  BOOST_REQUIRE(reading.lesson.findings.size() == 1);
  BOOST_TEST(reading.lesson.findings[0].rule == "extract-ratio");
  BOOST_TEST((reading.lesson.findings[0].severity == Severity::spoils));
  BOOST_TEST(reading.lesson.findings[0].where == "/stages/0/extract");
  BOOST_REQUIRE(reading.lesson.teaches.size() == 1);
  BOOST_TEST(reading.lesson.teaches[0] == "extract-ratio");
}

BOOST_AUTO_TEST_CASE(mistakes_are_named_where_they_are) {
  const std::string expected = "03-rich-wort/expected.json";
  const auto with = [](const std::string& text) {
    return faults_after([&](LessonFiles& f) { f.expected = text; });
  };
  BOOST_TEST(some_fault(with("{"), expected, ""));
  BOOST_TEST(some_fault(with("[]"), expected, "no JSON object"));
  BOOST_TEST(some_fault(with("{}"), expected, "`title`"));
  BOOST_TEST(some_fault(with("{}"), expected, "`findings`"));
  BOOST_TEST(some_fault(with(R"({"colour": 1})"), expected, "`colour`"));
  BOOST_TEST(some_fault(with(R"({"teaches": ["no-such-rule"]})"), expected, "no-such-rule"));
  BOOST_TEST(some_fault(with(R"({"findings": [{"rule": "boil-time"}]})"), expected, "severity"));
  BOOST_TEST(some_fault(
      with(R"({"findings": [{"rule": "boil-time", "severity": "note", "where": "/steps/2"}]})"),
      expected, "weakens, spoils or danger"));
  BOOST_TEST(some_fault(
      with(R"({"findings": [{"rule": "boil-time", "severity": "spoils", "where": "/steps/2"}],
               "teaches": ["boil-off"]})"),
      expected, "`teaches` does not name it"));
  const auto late = with("{\n\"title\": \"T\",\n\"sumary\": \"S\"}");
  BOOST_REQUIRE(!late.empty());
  BOOST_TEST(late[0].line == 3);
}

BOOST_AUTO_TEST_CASE(plans_that_cannot_be_used_are_named) {
  BOOST_TEST(
      some_fault(faults_after([](LessonFiles& f) { f.plan = "{"; }), "03-rich-wort/plan.json", ""));
  BOOST_TEST(some_fault(faults_after([](LessonFiles& f) { f.mended = ""; }),
                        "03-rich-wort/mended.json", ""));
  BOOST_TEST(some_fault(faults_after([](LessonFiles& f) { f.text = ""; }), "03-rich-wort/lesson.md",
                        "empty"));
}

BOOST_AUTO_TEST_CASE(a_folder_is_named_by_number_and_words) {
  for (const char* name : {"", "3-rich", "03rich", "03-Rich", "03-", "rich-wort", "03-r_w"})
    BOOST_TEST(some_fault(faults_after([&](LessonFiles& f) { f.name = name; }), name, "NN-name"));
}

BOOST_AUTO_TEST_SUITE_END()
