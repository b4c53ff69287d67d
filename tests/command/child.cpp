#include "child.h"

#include <fcntl.h>
#include <pty.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <boost/test/unit_test.hpp>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>

namespace {

/// A folder that goes when the test program ends.
struct Scratch {
  std::string path;
  Scratch() {
    std::string name = (std::filesystem::temp_directory_path() / "starter-plan-XXXXXX").string();
    BOOST_REQUIRE(mkdtemp(name.data()) != nullptr);
    path = name;
  }
  Scratch(const Scratch&) = delete;
  Scratch& operator=(const Scratch&) = delete;
  ~Scratch() {
    std::error_code ignored;
    std::filesystem::remove_all(path, ignored);
  }
};

int opened(const std::string& path, int flags) {
  const int fd = open(path.c_str(), flags | O_CLOEXEC, 0600);
  BOOST_REQUIRE(fd >= 0);
  return fd;
}

[[noreturn]] void become(const std::vector<std::string>& arguments, const Setting& setting,
                         std::array<int, 3> files) {
  for (int i = 0; i < 3; ++i)
    if (files[static_cast<std::size_t>(i)] >= 0) dup2(files[static_cast<std::size_t>(i)], i);
  if (setting.out_closed) close(STDOUT_FILENO);
  std::vector<std::string> words = {STARTER_PLAN_PROGRAM};
  words.insert(words.end(), arguments.begin(), arguments.end());
  std::vector<std::string> names = {"PATH=/usr/bin:/bin"};
  names.insert(names.end(), setting.environment.begin(), setting.environment.end());
  // What keeps the leaks of other people's libraries quiet, where this is built with sanitizers.
  if (const char* options = getenv("LSAN_OPTIONS"))
    names.push_back(std::string("LSAN_OPTIONS=") + options);
  const auto pointers = [](std::vector<std::string>& strings) {
    std::vector<char*> all;
    for (std::string& s : strings) all.push_back(s.data());
    all.push_back(nullptr);
    return all;
  };
  execve(STARTER_PLAN_PROGRAM, pointers(words).data(), pointers(names).data());
  _exit(127);
}

/// What a terminal showed until the program let go of it.
std::string shown_on(int terminal) {
  std::string all;
  std::array<char, 4096> piece{};
  for (;;) {
    const ssize_t got = read(terminal, piece.data(), piece.size());
    if (got <= 0) break;  // EIO: the other end is closed
    all.append(piece.data(), static_cast<std::size_t>(got));
  }
  std::string plain;
  for (const char c : all)
    if (c != '\r') plain += c;  // the terminal's own
  return plain;
}

}  // namespace

std::string scratch_folder() {
  static const Scratch scratch;
  return scratch.path;
}

std::string written_file(const std::string& name, const std::string& bytes) {
  const std::string path = in_scratch(name);
  std::ofstream(path, std::ios::binary) << bytes;
  return path;
}

std::string plan_file(const std::string& name) {
  return std::string(STARTER_PLAN_SOURCE_DIR "/tests/plans/") + name + ".plan.json";
}

Ran run(const std::vector<std::string>& arguments, const Setting& setting) {
  const std::string input = written_file("input", setting.input);
  const std::string out = written_file("out", ""), error = written_file("error", "");
  int terminal = -1, program_end = -1;
  std::array<int, 3> files = {opened(input, O_RDONLY), -1, opened(error, O_WRONLY | O_TRUNC)};
  if (setting.terminal) {
    winsize size{};
    size.ws_row = 50;
    size.ws_col = *setting.terminal;
    BOOST_REQUIRE(openpty(&terminal, &program_end, nullptr, nullptr, &size) == 0);
    files[1] = program_end;
  } else if (setting.reader_gone) {
    std::array<int, 2> ends{};
    BOOST_REQUIRE(pipe(ends.data()) == 0);
    close(ends[0]);
    files[1] = ends[1];
  } else {
    files[1] = opened(setting.out_file.empty() ? out : setting.out_file, O_WRONLY);
  }
  const pid_t child = fork();
  BOOST_REQUIRE(child >= 0);
  if (child == 0) {
    if (terminal >= 0) close(terminal);
    become(arguments, setting, files);
  }
  for (const int fd : files) close(fd);
  Ran ran;
  if (terminal >= 0) {
    ran.out = shown_on(terminal);
    close(terminal);
  }
  int status = 0;
  BOOST_REQUIRE(waitpid(child, &status, 0) == child);
  if (WIFEXITED(status)) ran.code = WEXITSTATUS(status);
  if (terminal < 0) ran.out = bytes_of(out);
  ran.error = bytes_of(error);
  return ran;
}

std::string in_scratch(const std::string& name) {
  return scratch_folder() + "/" + name;
}

std::string bytes_of(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  std::ostringstream all;
  all << file.rdbuf();
  return all.str();
}

bool holds(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}
