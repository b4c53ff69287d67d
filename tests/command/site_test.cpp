// The built site, copied to where a club wants it.

#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>

#include "child.h"

namespace {

namespace fs = std::filesystem;

void put(const fs::path& path, const std::string& bytes) {
  fs::create_directories(path.parent_path());
  std::ofstream(path, std::ios::binary) << bytes;
}

/// Whether a text says something, wherever its lines break.
bool says(std::string text, const std::string& part) {
  std::replace(text.begin(), text.end(), '\n', ' ');
  return text.find(part) != std::string::npos;
}

/// A folder of this test, with a small site in it.
struct Built {
  explicit Built(const std::string& name) : folder(fs::path(scratch_folder()) / name) {
    put(site() / "index.html", "<!doctype html>\n");
    put(site() / "site.webmanifest", "{}\n");
    put(site() / "script/engine.wasm", std::string("\0asm\1\0\0\0", 8));
  }
  fs::path site() const { return folder / "built"; }
  Ran to(const fs::path& out) const {
    return run({"site", "--from", site().string(), "-o", out.string()});
  }
  fs::path folder;
};

BOOST_AUTO_TEST_SUITE(site)

BOOST_AUTO_TEST_CASE(it_is_copied_byte_for_byte_and_again_over_an_older_one) {
  const Built built("site-copied");
  const fs::path out = built.folder / "public";
  const Ran first = built.to(out);
  BOOST_TEST(first.code == 0, first.error);
  BOOST_TEST(says(first.out, "3 files written"));
  BOOST_TEST(bytes_of(out / "script/engine.wasm") == bytes_of(built.site() / "script/engine.wasm"));
  put(built.site() / "index.html", "newer\n");
  BOOST_TEST(built.to(out).code == 0);
  BOOST_TEST(bytes_of(out / "index.html") == "newer\n");
}

BOOST_AUTO_TEST_CASE(a_folder_with_something_else_in_it_is_left_alone) {
  const Built built("site-taken");
  const fs::path out = built.folder / "letters";
  put(out / "letter.txt", "dear Wren\n");
  const Ran ran = built.to(out);
  BOOST_TEST(ran.code == 2);
  BOOST_TEST(says(ran.error, "holds something else"), ran.error);
  BOOST_TEST(!fs::exists(out / "index.html"));
  put(built.folder / "file", "x");
  BOOST_TEST(built.to(built.folder / "file").code == 2);
}

BOOST_AUTO_TEST_CASE(what_is_no_built_site_is_told) {
  const Built built("site-none");
  const Ran ran =
      run({"site", "--from", built.folder.string(), "-o", (built.folder / "out").string()});
  BOOST_TEST(ran.code == 2);
  BOOST_TEST(says(ran.error, "is not a built site"), ran.error);
  BOOST_TEST(run({"site"}).code == 2);
  BOOST_TEST(run({"site", "-o", ""}).code == 2);
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
