/// \file
/// `check --format json --units UNITS PLAN PLAN...` by the engine alone: several plans, as one
/// array.

#include <fstream>
#include <iostream>
#include <iterator>
#include <string>
#include <vector>

#include "browser/answer.h"

namespace {

std::string bytes_of(const std::string& name) {
  std::ifstream file(name, std::ios::binary);
  if (!file) {
    std::cerr << "cannot read " << name << "\n";
    std::exit(3);
  }
  return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

/// As an item of an array: every line two columns further in.
std::string in_array(std::string text) {
  while (!text.empty() && text.back() == '\n') text.pop_back();
  std::string moved = "  ";
  for (const char c : text) moved += c == '\n' ? std::string("\n  ") : std::string(1, c);
  return moved;
}

}  // namespace

int main(int argc, char** argv) {
  const std::vector<std::string> arguments(argv + 1, argv + argc);
  if (arguments.size() < 6 || arguments[0] != "check" || arguments[1] != "--format" ||
      arguments[2] != "json" || arguments[3] != "--units") {
    std::cerr << "usage: check check --format json --units UNITS PLAN PLAN...\n";
    return 3;
  }
  std::cout << "[\n";
  for (std::size_t i = 5; i < arguments.size(); ++i) {
    // The names are of the test's own making, with nothing in them that JSON would escape.
    const std::string request =
        R"({"do": "check", "units": ")" + arguments[4] + R"(", "name": ")" + arguments[i] + "\"}";
    std::cout << (i > 5 ? ",\n" : "") << in_array(starter::answer(request, bytes_of(arguments[i])));
  }
  std::cout << "\n]\n";
}
