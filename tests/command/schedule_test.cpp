// `starter-plan schedule` as a person or a script runs it.

#include <sys/stat.h>
#include <unistd.h>

#include <boost/test/unit_test.hpp>
#include <filesystem>

#include "child.h"

namespace {

const std::string timeless =
    R"({"plan": 1, "title": "No clock",
        "beer": {"kind": "ale", "volume": "20 L", "gravity": "1.046 SG"},
        "yeast": {"form": "liquid", "packs": 1, "cells_per_pack": "100 billion"},
        "vessels": {"flask": {"kind": "conical flask", "capacity": "3 L",
                              "material": "borosilicate glass"}},
        "stages": [{"extract": {"kind": "light dry malt", "mass": "140 g"}, "water": "1.5 L",
                    "vessel": "flask", "temperature": "21 °C", "duration": "36 h"}]})";

BOOST_AUTO_TEST_SUITE(schedule)

BOOST_AUTO_TEST_CASE(a_plan_is_told_and_ends_well) {
  const Ran ran = run({"schedule", plan_file("harvest-amber")});
  BOOST_TEST(ran.code == 0);
  BOOST_TEST(ran.error == "");
  BOOST_TEST(holds(ran.out, "Step by step"));
  BOOST_TEST(holds(ran.out, "Over the days"));
  BOOST_TEST(ran.out.find('\x1b') == std::string::npos);
}

BOOST_AUTO_TEST_CASE(a_late_plan_is_told_and_ends_well_too) {
  const Ran ran = run({"schedule", plan_file("faulty/too-late")});
  BOOST_TEST(ran.code == 0);
  BOOST_TEST(holds(ran.out, "too late"));
}

BOOST_AUTO_TEST_CASE(a_calendar_file_is_written_whole_and_said_so) {
  const std::string file = in_scratch("harvest.ics");
  const Ran ran = run({"schedule", plan_file("harvest-amber"), "--ics", file});
  BOOST_TEST(ran.code == 0);
  BOOST_TEST(holds(ran.out, "events written to"));
  const std::string bytes = bytes_of(file);
  BOOST_TEST(bytes.starts_with("BEGIN:VCALENDAR\r\n"));
  BOOST_TEST(bytes.ends_with("END:VCALENDAR\r\n"));
  const Ran again = run({"schedule", plan_file("harvest-amber"), "--ics", "-"});
  BOOST_TEST(again.code == 0);
  BOOST_TEST(again.out == bytes);
  for (const auto& entry : std::filesystem::directory_iterator(scratch_folder()))
    BOOST_TEST(!holds(entry.path().filename().string(), "harvest.ics."), "left behind");
}

BOOST_AUTO_TEST_CASE(an_old_file_is_replaced_with_its_mode_and_a_link_is_kept) {
  const std::string file = written_file("old.ics", "old");
  BOOST_REQUIRE(chmod(file.c_str(), 0640) == 0);
  const std::string link = in_scratch("link.ics");
  BOOST_REQUIRE(symlink(file.c_str(), link.c_str()) == 0);
  const Ran ran = run({"schedule", plan_file("harvest-amber"), "--ics", link});
  BOOST_TEST(ran.code == 0);
  BOOST_TEST(std::filesystem::is_symlink(link));
  BOOST_TEST(bytes_of(file).starts_with("BEGIN:VCALENDAR"));
  struct stat seen {};
  BOOST_REQUIRE(stat(file.c_str(), &seen) == 0);
  BOOST_TEST((seen.st_mode & 0777) == 0640u);
}

BOOST_AUTO_TEST_CASE(what_cannot_be_written_ends_with_2) {
  for (const std::string& name : {in_scratch("none/x.ics"), scratch_folder()}) {
    const Ran ran = run({"schedule", plan_file("harvest-amber"), "--ics", name});
    BOOST_TEST(ran.code == 2, name);
    BOOST_TEST(holds(ran.error, "was not written"), ran.error);
  }
  BOOST_TEST(run({"schedule", plan_file("harvest-amber"), "--ics", ""}).code == 2);
  const Ran full = run({"schedule", plan_file("harvest-amber"), "--ics", "/dev/full"});
  BOOST_TEST(full.code == 2);
}

BOOST_AUTO_TEST_CASE(the_plan_is_never_overwritten) {
  const std::string bytes = bytes_of(plan_file("harvest-amber"));
  const std::string plan = written_file("mine.plan.json", bytes);
  const Ran ran = run({"schedule", plan, "--ics", plan});
  BOOST_TEST(ran.code == 2);
  BOOST_TEST(bytes_of(plan) == bytes);
}

BOOST_AUTO_TEST_CASE(without_any_clock_the_field_to_write_is_named) {
  const std::string plan = written_file("timeless.plan.json", timeless);
  BOOST_TEST(run({"schedule", plan}).code == 0);
  const std::string file = in_scratch("timeless.ics");
  for (const std::string& name : {file, std::string("-")}) {
    const Ran ran = run({"schedule", plan, "--ics", name});
    BOOST_TEST(ran.code == 2);
    BOOST_TEST(holds(ran.error, "\"start\""));
    BOOST_TEST(holds(ran.error, "\"brew_day\""));
    BOOST_TEST(!holds(ran.out, "VCALENDAR"));
  }
  BOOST_TEST(!std::filesystem::exists(file));
}

BOOST_AUTO_TEST_CASE(json_and_a_calendar_on_one_stream_is_refused) {
  const Ran ran = run({"schedule", plan_file("harvest-amber"), "--ics", "-", "--format", "json"});
  BOOST_TEST(ran.code == 2);
  BOOST_TEST(ran.out == "");
}

BOOST_AUTO_TEST_CASE(an_unusable_plan_ends_with_2_and_writes_nothing) {
  const std::string file = in_scratch("bad.ics");
  const Ran ran = run({"schedule", plan_file("bad/no-beer"), "--ics", file});
  BOOST_TEST(ran.code == 2);
  BOOST_TEST(!std::filesystem::exists(file));
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
