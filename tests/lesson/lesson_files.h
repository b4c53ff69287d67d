#pragma once

// A small lesson for the tests, made of what a test gives it.

#include <boost/test/unit_test.hpp>
#include <fstream>
#include <iterator>
#include <nlohmann/json.hpp>
#include <string>
#include <variant>
#include <vector>

#include "lesson/fill.h"

inline std::string source_file(const std::string& path) {
  std::ifstream file(std::string(STARTER_PLAN_SOURCE_DIR) + "/" + path, std::ios::binary);
  BOOST_REQUIRE_MESSAGE(file.good(), "cannot open " << path);
  return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

/// The files of a lesson on the shipped example: its wort too rich, and mended.
inline starter::LessonFiles rich_wort_files(const std::string& text) {
  auto plan = nlohmann::ordered_json::parse(source_file("tests/plans/harvest-amber.plan.json"));
  starter::LessonFiles files;
  files.name = "03-rich-wort";
  files.text = text;
  files.mended = plan.dump(2);
  plan["stages"][0]["extract"]["mass"] = "180 g";
  files.plan = plan.dump(2);
  files.expected = R"({
    "title": "Rich wort", "summary": "Too much of a good thing.",
    "findings": [{"rule": "extract-ratio", "severity": "spoils", "where": "/stages/0/extract"}],
    "teaches": ["extract-ratio"]
  })";
  return files;
}

inline starter::Lesson lesson_of(const starter::LessonFiles& files) {
  const starter::LessonReading reading = starter::read_lesson(files);
  for (const auto& fault : reading.faults)
    BOOST_ERROR(fault.file << ":" << fault.line << ": " << fault.says);
  return reading.lesson;
}

inline std::vector<starter::LessonFault> faults_in(const starter::FilledLesson& filled) {
  const auto* faults = std::get_if<std::vector<starter::LessonFault>>(&filled);
  return faults ? *faults : std::vector<starter::LessonFault>{};
}

/// The filled text; where a placeholder cannot be filled the test fails with what is said of it.
inline std::string text_of(const starter::FilledLesson& filled) {
  for (const auto& fault : faults_in(filled))
    BOOST_ERROR(fault.file << ":" << fault.line << ": " << fault.says);
  const auto* text = std::get_if<std::string>(&filled);
  return text ? *text : "";
}
