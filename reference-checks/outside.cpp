#include "outside.h"

#include <sys/wait.h>

#include <cstdio>
#include <fstream>
#include <memory>
#include <sstream>
#include <stdexcept>

namespace reference {
namespace {

std::string here(const std::string& name) {
  return std::string(REFERENCE_CHECKS_DIR) + "/" + name;
}

/// What a shell command prints.
std::string output_of(const std::string& command) {
  std::FILE* pipe = popen(command.c_str(), "r");
  if (!pipe) throw std::runtime_error("cannot run: " + command);
  std::string all;
  char piece[4096];
  while (std::size_t n = std::fread(piece, 1, sizeof piece, pipe)) all.append(piece, n);
  const int status = pclose(pipe);
  if (!WIFEXITED(status) || WEXITSTATUS(status) != 0)
    throw std::runtime_error("failed: " + command + "\n" + all);
  return all;
}

Row numbers_in(std::string line) {
  for (char& c : line)
    if (c == ',') c = ' ';
  std::istringstream words(line);
  Row row;
  std::string word;
  while (words >> word) {
    std::size_t used = 0;
    row.push_back(std::stod(word, &used));
    if (used != word.size()) throw std::runtime_error("not a number: " + word);
  }
  return row;
}

std::vector<Row> rows_in(const std::string& text) {
  std::vector<Row> rows;
  std::istringstream lines(text);
  std::string line;
  while (std::getline(lines, line))
    if (!line.empty()) rows.push_back(numbers_in(line));
  return rows;
}

std::string here_document(const std::string& command, const std::string& text) {
  return command + " <<'END_OF_INPUT'\n" + text + "END_OF_INPUT\n";
}

}  // namespace

std::string text_of(const std::string& name) {
  std::ifstream file(here(name));
  if (!file) throw std::runtime_error("cannot read " + name);
  std::ostringstream all;
  all << file.rdbuf();
  return all.str();
}

std::vector<Row> table(const std::string& name) {
  std::istringstream lines(text_of("data/" + name));
  std::vector<Row> rows;
  std::string line;
  bool named = false;
  while (std::getline(lines, line)) {
    if (line.empty() || line[0] == '#') continue;
    if (named) rows.push_back(numbers_in(line));
    named = true;
  }
  if (rows.empty()) throw std::runtime_error("no rows in " + name);
  return rows;
}

std::vector<Row> ask(const std::string& script, const std::vector<Row>& questions) {
  std::ostringstream text;
  text.precision(17);
  for (const Row& row : questions) {
    for (double number : row) text << number << ' ';
    text << '\n';
  }
  const auto answers = rows_in(output_of(here_document(
      "PYTHONDONTWRITEBYTECODE=1 /usr/bin/python3 '" + here("outside/" + script) + "'",
      text.str())));
  if (answers.size() != questions.size())
    throw std::runtime_error(script + " did not answer every question");
  return answers;
}

std::vector<double> units(const std::vector<std::pair<std::string, std::string>>& conversions) {
  std::string text;
  for (const auto& [have, want] : conversions) text += have + "\n" + want + "\n";
  const auto rows =
      rows_in(output_of(here_document("units --terse --output-format '%.12g'", text)));
  if (rows.size() != conversions.size()) throw std::runtime_error("units did not answer all");
  std::vector<double> results;
  for (const Row& row : rows) results.push_back(row.at(0));
  return results;
}

}  // namespace reference
