// The lessons, embedded at build from lessons/ as one text: for each file a line with its path, a
// line with its size in bytes, its bytes and a new line.

#include <charconv>

#include "lesson/lesson.h"
#include "plan/json.h"

namespace starter {

extern const std::string_view lesson_files_text;

namespace {

using Files = std::map<std::string, std::string, std::less<>>;

Files embedded_files() {
  Files files;
  std::string_view rest = lesson_files_text;
  const auto line = [&rest] {
    const std::size_t end = rest.find('\n');
    const std::string_view text = rest.substr(0, end);
    rest.remove_prefix(end + 1);
    return text;
  };
  while (!rest.empty()) {
    const std::string_view path = line();
    const std::string_view digits = line();
    std::size_t size = 0;
    std::from_chars(digits.data(), digits.data() + digits.size(), size);
    files.emplace(path, rest.substr(0, size));
    rest.remove_prefix(size + 1);
  }
  return files;
}

const Files& files() {
  static const Files all = embedded_files();
  return all;
}

std::string file_at(const std::string& path) {
  const auto found = files().find(path);
  return found == files().end() ? "" : found->second;
}

}  // namespace

std::span<const Lesson> lessons() {
  // A test holds them free of faults.
  static const std::vector<Lesson> all = [] {
    std::vector<Lesson> read;
    for (const auto& [path, bytes] : files()) {
      const std::size_t slash = path.find('/');
      if (slash == std::string::npos || path.substr(slash + 1) != "lesson.md") continue;
      const std::string name = path.substr(0, slash);
      read.push_back(read_lesson({name, bytes, file_at(name + "/plan.json"),
                                  file_at(name + "/mended.json"), file_at(name + "/expected.json")})
                         .lesson);
    }
    return read;
  }();
  return all;
}

const Lesson* find_lesson(std::string_view name) {
  for (const Lesson& lesson : lessons()) {
    const std::string_view full = lesson.name;
    const std::string_view number = full.substr(0, 2);
    const bool short_number = number[0] == '0' && name == number.substr(1);
    if (name == full || name == full.substr(3) || name == number || short_number) return &lesson;
  }
  return nullptr;
}

const std::map<std::string, std::string>& not_taught() {
  static const std::map<std::string, std::string> reasons =
      parse_json(file_at("not-taught.json")).get<std::map<std::string, std::string>>();
  return reasons;
}

}  // namespace starter
