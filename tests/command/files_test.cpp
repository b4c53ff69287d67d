#include <sys/stat.h>
#include <unistd.h>

#include <boost/test/unit_test.hpp>
#include <filesystem>
#include <nlohmann/json.hpp>

#include "child.h"

using Json = nlohmann::ordered_json;

namespace {

/// The one error told of a file that cannot be used, in both forms.
std::string told_of(const std::string& file, const Setting& setting = {}) {
  const Ran text = run({"check", file}, setting);
  BOOST_TEST(text.code == 2);
  BOOST_TEST(text.out == "");
  BOOST_TEST(text.error != "");
  const Ran json = run({"check", "--format", "json", file}, setting);
  BOOST_TEST(json.code == 2);
  BOOST_TEST(json.error == "");
  const Json document = Json::parse(json.out);
  std::vector<std::string> keys;
  for (const auto& [key, unused] : document.at("errors").at(0).items()) keys.push_back(key);
  const std::vector<std::string> wanted = {"where", "line", "says", "write"};
  BOOST_TEST(keys == wanted, boost::test_tools::per_element());
  return document.at("errors").at(0).at("says").get<std::string>();
}

}  // namespace

BOOST_AUTO_TEST_SUITE(files)

BOOST_AUTO_TEST_CASE(what_is_no_plan_file_is_told_as_what_it_is) {
  BOOST_TEST(holds(told_of(scratch_folder() + "/nowhere.plan.json"), "there is no file"));
  BOOST_TEST(holds(told_of(""), "name of the file is empty"));
  BOOST_TEST(holds(told_of(scratch_folder()), "this is a folder"));
  BOOST_TEST(holds(told_of("/dev/zero"), "a device or a socket"));
  BOOST_TEST(holds(told_of("/dev/null"), "a device or a socket"));
  BOOST_TEST(holds(told_of("/proc/self/mem"), "cannot be read"));
  BOOST_TEST(holds(told_of(plan_file("harvest-amber") + "/x"), "is a file, not a folder"));
  BOOST_TEST(holds(told_of(std::string(5000, 'x')), "cannot be opened"));
  BOOST_TEST(holds(told_of(written_file("empty.plan.json", "")), "empty"));
  BOOST_TEST(holds(told_of("-"), "empty"));
}

BOOST_AUTO_TEST_CASE(a_file_that_may_not_be_read_is_told) {
  const std::string file = written_file("locked.plan.json", "{}");
  chmod(file.c_str(), 0);
  if (access(file.c_str(), R_OK) == 0) return;  // this user may read everything
  BOOST_TEST(holds(told_of(file), "may not read"));
}

BOOST_AUTO_TEST_CASE(a_loop_of_links_is_told) {
  const std::string link = scratch_folder() + "/loop.plan.json";
  std::error_code ignored;
  std::filesystem::remove(link, ignored);
  std::filesystem::create_symlink(link, link);
  BOOST_TEST(holds(told_of(link), "cannot be opened"));
}

BOOST_AUTO_TEST_CASE(a_huge_file_is_refused_and_the_largest_is_read) {
  const std::string huge = written_file("huge.plan.json", "");
  std::filesystem::resize_file(huge, 100'000'000);
  BOOST_TEST(holds(told_of(huge), "larger than 1024 kB"));
  const std::string largest = written_file("largest.plan.json", std::string(1 << 20, ' '));
  BOOST_TEST(!holds(told_of(largest), "larger than"));
  const std::string one_more = written_file("one-more.plan.json", std::string((1 << 20) + 1, ' '));
  BOOST_TEST(holds(told_of(one_more), "larger than"));
}

BOOST_AUTO_TEST_CASE(a_pipe_without_a_writer_does_not_hang) {
  const std::string pipe = scratch_folder() + "/pipe";
  BOOST_REQUIRE(mkfifo(pipe.c_str(), 0600) == 0);
  BOOST_TEST(holds(told_of(pipe), "empty"));
}

BOOST_AUTO_TEST_CASE(the_nearest_file_is_offered) {
  written_file("oak-porter.plan.json", "{}");
  const Ran ran = run({"check", scratch_folder() + "/oak-portr.plan.json"});
  BOOST_TEST(holds(ran.error, "oak-porter.plan.json"));
}

BOOST_AUTO_TEST_CASE(strange_names_are_shown_and_carried_safely) {
  const std::string name = "odd\x1b[31m\n\xff\xc2\x9b.plan.json";
  const Ran text = run({"check", name});
  BOOST_TEST(text.code == 2);
  BOOST_TEST(!holds(text.error, "\x1b"));
  BOOST_TEST(!holds(text.error, "\xff"));
  BOOST_TEST(holds(text.error, "\\u{1b}"));
  BOOST_TEST(holds(text.error, "\\xff"));
  const Json json = Json::parse(run({"check", "--format", "json", name}).out);
  BOOST_TEST(holds(json.at("plan").get<std::string>(), "\uFFFD"));
}

BOOST_AUTO_TEST_CASE(names_with_brackets_and_dashes_are_names) {
  const Ran brackets = run({"check", "--format", "json", "[a,b]", "[c]"});
  const Json json = Json::parse(brackets.out);
  BOOST_REQUIRE(json.is_array());
  BOOST_TEST(json.size() == 2u);
  BOOST_TEST(json[0].at("plan") == "./[a,b]");
  BOOST_TEST(holds(run({"check", "--", "-strange.plan.json"}).error, "-strange.plan.json"));
}

BOOST_AUTO_TEST_CASE(every_mistake_of_a_plan_has_its_line) {
  const Ran ran = run({"check", plan_file("bad/several-mistakes")});
  BOOST_TEST(ran.code == 2);
  BOOST_TEST(ran.out == "");
  BOOST_TEST(holds(ran.error, "line 4, /beer/volme"));
  BOOST_TEST(holds(ran.error, "Write   volume"));
  BOOST_TEST(holds(ran.error, "/steps/0/heat"));
  BOOST_TEST(!holds(ran.error, "\x1b"));
}

BOOST_AUTO_TEST_SUITE_END()
