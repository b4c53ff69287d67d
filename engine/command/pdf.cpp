#include "command/pdf.h"

#include <fmt/format.h>

#include <array>
#include <cstdlib>
#include <fstream>
#include <optional>
#include <system_error>

#include "command/other_program.h"

namespace starter {

extern const std::string_view page_to_pdf_script;

namespace {

/// The Python that the installed `weasyprint` runs with: the first line of that script names it.
/// Its own command fetches what a page points at, so the same library is called with that
/// forbidden.
std::optional<std::string> python_of(const std::string& script) {
  std::ifstream file(script, std::ios::binary);
  std::array<char, 256> head{};
  file.read(head.data(), head.size());
  const std::string_view text(head.data(), static_cast<std::size_t>(file.gcount()));
  const std::string_view line = text.substr(0, text.find('\n'));
  if (!line.starts_with("#!/") || line.size() == text.size()) return std::nullopt;
  const std::string_view interpreter = line.substr(2, line.find(' ') - 2);
  if (interpreter.find("python") == std::string_view::npos) return std::nullopt;
  return std::string(interpreter);
}

/// What that program is told of its surroundings: where its fonts and caches are, and nothing of
/// the Python of whoever calls. The last two make equal pages equal files.
std::vector<std::string> surroundings() {
  std::vector<std::string> all;
  for (const char* name : {"HOME", "TMPDIR", "XDG_CACHE_HOME", "XDG_CONFIG_HOME", "XDG_DATA_HOME",
                           "XDG_DATA_DIRS", "FONTCONFIG_FILE", "FONTCONFIG_PATH"})
    if (const char* value = std::getenv(name)) all.push_back(fmt::format("{}={}", name, value));
  all.insert(all.end(),
             {"PATH=/usr/bin:/bin", "LC_ALL=C.UTF-8", "PYTHONHASHSEED=0", "SOURCE_DATE_EPOCH=0"});
  return all;
}

std::string last_line(std::string_view text) {
  while (!text.empty() && text.back() == '\n') text.remove_suffix(1);
  return std::string(text.substr(text.rfind('\n') + 1));
}

}  // namespace

std::variant<std::string, PdfProblem> pdf_of(std::string_view html,
                                             std::chrono::milliseconds limit) {
  const auto script = program_on_path("weasyprint");
  if (!script) return PdfProblem{true, "weasyprint is not installed"};
  const auto python = python_of(*script);
  if (!python)
    return PdfProblem{true, *script + " is not the Python script that Debian's package has"};
  ProgramLimits limits;
  limits.time = limit;
  ProgramRun run = run_program({*python, "-s", "-P", "-c", std::string(page_to_pdf_script)},
                               surroundings(), html, limits);
  switch (run.end) {
    case ProgramRun::End::exited:
      if (run.code == 0 && run.out.starts_with("%PDF-")) return std::move(run.out);
      return PdfProblem{
          false,
          "weasyprint gave up" + (run.error.empty() ? std::string() : ": " + last_line(run.error))};
    case ProgramRun::End::killed:
      return PdfProblem{false, fmt::format("weasyprint was ended by signal {}", run.code)};
    case ProgramRun::End::too_slow:
      return PdfProblem{
          false, fmt::format("weasyprint took more than {} s", (limit.count() + 999) / 1000)};
    case ProgramRun::End::too_much:
      return PdfProblem{false, "weasyprint wrote far more than a sheet can be"};
    case ProgramRun::End::not_started:
      break;
  }
  return PdfProblem{
      false, *python + " could not be started: " + std::generic_category().message(run.code)};
}

}  // namespace starter
