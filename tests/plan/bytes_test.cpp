// Any bytes whatever are read or refused, quickly, with a reason and a line.

#include <boost/test/unit_test.hpp>
#include <chrono>
#include <random>
#include <string>

#include "plan/document.h"
#include "plan/write.h"
#include "plan_files.h"

namespace {

using namespace starter;

bool reasons_are_given(const PlanResult& result) {
  const auto* errors = std::get_if<std::vector<PlanError>>(&result);
  if (errors == nullptr) return true;
  if (errors->empty()) return false;
  for (const auto& error : *errors)
    if (error.says.empty() || error.line < 0) return false;
  return true;
}

/// The only error in bytes that are no plan.
PlanError only_error(const std::string& bytes) {
  const auto errors = errors_of(bytes);
  BOOST_TEST(errors.size() == 1U);
  return errors.front();
}

BOOST_AUTO_TEST_SUITE(any_bytes)

BOOST_AUTO_TEST_CASE(mutations_of_the_example_never_fail_to_give_a_reason) {
  const std::string original = example();
  std::mt19937 random(20270316);  // NOLINT: fixed, so that a failure comes again
  const auto below = [&](std::size_t most) { return random() % most; };
  constexpr std::string_view pieces[] = {"\"",   "{",       "}",   "[",     "]",    ",",
                                         ":",    "\\",      "\\u", "\n",    "\xFF", "\xEF\xBB\xBF",
                                         "null", "true",    "-",   "1e999", "0",    "'",
                                         "//",   "\\ud800", "NaN", "\xC3",  " "};
  int read = 0;
  for (int round = 0; round < 20000; ++round) {
    std::string bytes = original;
    for (std::size_t change = 0, changes = 1 + below(4); change < changes; ++change) {
      if (bytes.empty()) break;
      const std::size_t at = below(bytes.size());
      switch (below(5)) {
        case 0:
          bytes[at] = static_cast<char>(below(256));
          break;
        case 1:
          bytes.erase(at, 1 + below(8));
          break;
        case 2:
          bytes.insert(at, pieces[below(std::size(pieces))]);
          break;
        case 3:
          bytes.insert(at, bytes.substr(below(bytes.size()), below(40)));
          break;
        default:
          bytes.resize(at + 1);
          break;
      }
    }
    const auto result = read_plan(bytes);
    if (const auto* plan = std::get_if<Plan>(&result)) {
      ++read;
      const std::string text = write_plan(*plan);
      if (write_plan(plan_in(text)) != text) BOOST_FAIL("written otherwise:\n" << bytes);
    }
    if (!reasons_are_given(result))
      BOOST_FAIL("no reason given in round " << round << ":\n" << bytes);
  }
  BOOST_TEST(read > 0, "some mutations are harmless");
  BOOST_TEST(read < 10000);
}

BOOST_AUTO_TEST_CASE(every_beginning_of_the_example_is_refused_with_a_line) {
  const std::string whole = example();
  const std::size_t end = whole.rfind('}');
  for (std::size_t size = 1; size <= end; ++size) {
    const auto errors = errors_of(whole.substr(0, size));
    BOOST_REQUIRE(errors.size() == 1U);
    BOOST_REQUIRE(errors[0].line >= 1);
  }
}

BOOST_AUTO_TEST_CASE(files_of_a_hundred_megabytes_are_refused_at_once) {
  for (const char fill : {'[', ' ', '"', '\0'}) {
    const std::string bytes(100'000'000, fill);
    const auto before = std::chrono::steady_clock::now();
    const auto error = only_error(bytes);
    const auto took = std::chrono::steady_clock::now() - before;
    BOOST_TEST(error.says.find("97656 kB") != std::string::npos, error.says);
    BOOST_TEST((took < std::chrono::milliseconds(100)));
  }
}

BOOST_AUTO_TEST_CASE(the_largest_file_is_read_and_one_byte_more_is_not) {
  std::string bytes = short_plan();
  bytes.resize(largest_plan, ' ');
  plan_in(bytes);
  BOOST_TEST(only_error(bytes + ' ').says.find("1024 kB") != std::string::npos);
}

BOOST_AUTO_TEST_CASE(large_files_full_of_mistakes_are_told_in_time) {
  // Many unknown names, each compared with the known ones, and many times the same name.
  std::string unknown = "{\"plan\": 1";
  while (unknown.size() < largest_plan - 40)
    unknown += ",\"n" + std::to_string(unknown.size()) + "\":1";
  std::string same = "{\"plan\": 1";
  while (same.size() < largest_plan - 40) same += ",\"a\":1";
  for (const auto& bytes : {unknown + "}", same + "}", std::string(largest_plan, '[')}) {
    const auto before = std::chrono::steady_clock::now();
    const auto errors = errors_of(bytes);
    const auto took = std::chrono::steady_clock::now() - before;
    BOOST_TEST(errors.size() <= 1001U, "no one reads more");
    BOOST_TEST((took < std::chrono::seconds(20)));
  }
}

BOOST_AUTO_TEST_CASE(nesting_is_bounded) {
  const auto nested = [](std::size_t levels) {
    return "{\"plan\": 1, \"x\": " + std::string(levels - 1, '[') + std::string(levels - 1, ']') +
           "}";
  };
  BOOST_TEST(errors_of(nested(64))[0].says.find("deep") == std::string::npos);
  BOOST_TEST(errors_of(nested(65))[0].says.find("64 deep") != std::string::npos);
  BOOST_TEST(only_error(std::string(200, '[')).says.find("64 deep") != std::string::npos);
}

BOOST_AUTO_TEST_CASE(a_nul_byte_does_not_end_a_plan) {
  const std::string nul(1, '\0');
  BOOST_TEST(only_error(short_plan() + nul).says.find("control character") != std::string::npos);
  BOOST_TEST(only_error(short_plan() + nul + short_plan()).line == 5);
  BOOST_TEST(only_error(with(short_plan(), "liquid", "liq" + nul + "uid")).line == 3);
  BOOST_TEST(only_error(with(short_plan(), "{\"form\"", nul + "{\"form\"")).line == 3);
  // JSON can also write one as an escape.
  BOOST_TEST(only_error(with(short_plan(), "liquid", "liq\\u0000uid")).where == "/yeast/form");
}

BOOST_AUTO_TEST_CASE(huge_numbers) {
  const auto with_packs = [](const std::string& number) {
    return with(short_plan(), "\"liquid\"", "\"liquid\", \"packs\": " + number);
  };
  for (const std::string number : {"1e999", "-1e999", "1e308", "123456789012345678901234567890",
                                   "-9223372036854775808", "1e-999", "99999999999"}) {
    const auto error = only_error(with_packs(number));
    BOOST_TEST(error.where == "/yeast/packs", number);
    BOOST_TEST(error.line == 3);
  }
  const auto error = only_error(with_packs(std::string(5000, '9')));
  BOOST_TEST(error.says.size() < 200U, "a long number is cut in the message");
  only_error(with(short_plan(), "20 L", "1e999 L"));
  only_error(with(short_plan(), "20 L", std::string(1500, '9') + " L"));
}

BOOST_AUTO_TEST_CASE(invalid_utf_8_is_told_with_its_line) {
  for (const std::string bad :
       {"\xFF", "\xC3", "\xC0\xAF", "\xED\xA0\x80", "\xF4\x90\x80\x80", "\x80"}) {
    const auto error = only_error(with(short_plan(), "liquid", "liq" + bad + "uid"));
    BOOST_TEST(error.line == 3);
    BOOST_TEST(error.says.find("UTF-8") != std::string::npos);
  }
}

BOOST_AUTO_TEST_CASE(utf_16_is_told) {
  for (const std::string mark : {"\xFF\xFE", "\xFE\xFF"})
    BOOST_TEST(only_error(mark + short_plan()).says.find("UTF-16") != std::string::npos);
  std::string wide;
  for (const char c : short_plan()) wide += std::string(1, c) + '\0';
  BOOST_TEST(only_error(wide).says.find("UTF-16") != std::string::npos);
}

BOOST_AUTO_TEST_CASE(a_byte_order_mark_is_let_pass) {
  plan_in("\xEF\xBB\xBF" + short_plan());
  BOOST_TEST(only_error("\xEF\xBB\xBF").says.find("white space") != std::string::npos);
  BOOST_TEST(only_error("\xEF\xBB\xBF{'plan': 1}").says.find("single quote") != std::string::npos);
}

BOOST_AUTO_TEST_SUITE_END()

BOOST_AUTO_TEST_SUITE(lines)

BOOST_AUTO_TEST_CASE(are_the_same_whatever_ends_them) {
  const std::string plan = bytes_of("bad/several-mistakes.plan.json");
  const auto ended = [&](const std::string& end) {
    std::string bytes;
    for (const char c : plan) bytes += c == '\n' ? end : std::string(1, c);
    std::vector<int> lines;
    for (const auto& error : errors_of(bytes)) lines.push_back(error.line);
    return lines;
  };
  const std::vector<int> expected = {4, 5, 7, 7, 9, 9, 10};
  for (const std::string end : {"\n", "\r\n", "\r"})
    BOOST_TEST(ended(end) == expected, boost::test_tools::per_element());
}

BOOST_AUTO_TEST_CASE(a_number_at_the_end_of_a_line_has_its_own) {
  const std::string plan = "{\"plan\": 1,\n\"title\": 12\n,\"member\":\n34\n\n,\"start\": 5}";
  const auto errors = errors_of(plan);
  std::vector<int> lines;
  for (const auto& error : errors)
    if (error.where == "/title" || error.where == "/member" || error.where == "/start")
      lines.push_back(error.line);
  BOOST_TEST(lines == (std::vector<int>{2, 4, 6}), boost::test_tools::per_element());
  BOOST_TEST(only_error("12\n").line == 1);
  BOOST_TEST(only_error("\n12").line == 2);
}

BOOST_AUTO_TEST_CASE(every_node_of_a_tree_has_its_own) {
  Report report;
  const auto root =
      read_document("{\n\"a\": [1,\n-2.5e1,\ntrue, null],\n\"b\"\n:\n{\"c\": \"x\"}}", report);
  BOOST_REQUIRE(root.has_value());
  BOOST_TEST(report.empty());
  const Node& a = root->members[0].value;
  BOOST_TEST(root->at.line == 1);
  BOOST_TEST(a.at.line == 2);
  BOOST_TEST(a.items[0].at.line == 2);
  BOOST_TEST(a.items[1].at.line == 3);
  BOOST_TEST(a.items[1].number == -25.0);
  BOOST_TEST(a.items[1].text == "-2.5e1");
  BOOST_TEST(a.items[3].at.line == 4);
  BOOST_TEST(root->members[1].at.line == 5);
  BOOST_TEST(root->members[1].value.at.line == 7);
}

BOOST_AUTO_TEST_SUITE_END()

BOOST_AUTO_TEST_SUITE(wording)

BOOST_AUTO_TEST_CASE(a_misspelt_field_that_is_asked_for_is_told_once) {
  const auto errors = errors_of(with(short_plan(), "\"stages\"", "\"stagess\""));
  BOOST_TEST(errors.size() == 1U);
  BOOST_TEST(errors[0].write == "stages");
  // Nor are the vessels of a misspelt list missed in every step.
  const std::string plan = bytes_of("good/base.plan.json");
  BOOST_TEST(errors_of(with(plan, "\"vessels\"", "\"vesels\"")).size() == 1U);
}

BOOST_AUTO_TEST_CASE(of_a_name_that_stands_twice_the_first_counts) {
  const auto error = only_error(
      with(short_plan(), "\"liquid\"", "\"liquid\", \"form\": {\"x\": [1, {\"y\": 2}]}"));
  BOOST_TEST(error.where == "/yeast/form");
  BOOST_TEST(error.says.find("twice on line 3") != std::string::npos);
}

BOOST_AUTO_TEST_CASE(a_newer_plan_is_told_so_and_nothing_else) {
  const auto error = only_error(R"({"plan": 3, "brew": "something new"})");
  BOOST_TEST(error.where == "/plan");
  BOOST_TEST(error.says == "this plan says version 3: this program is older than the plan");
  for (const std::string version : {"0", "-1", "1.5", "true", "null", "[1]"})
    BOOST_TEST(only_error(with(short_plan(), "\"plan\": 1", "\"plan\": " + version)).write == "1");
}

BOOST_AUTO_TEST_CASE(no_message_shows_the_parsers_own_words) {
  for (const auto& name : plans_in("bad"))
    for (const auto& error : errors_of(bytes_of(name))) {
      BOOST_TEST(error.says.find("exception") == std::string::npos);
      BOOST_TEST(error.says.find("parse error") == std::string::npos);
      BOOST_TEST(error.says.find("literal") == std::string::npos);
    }
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
