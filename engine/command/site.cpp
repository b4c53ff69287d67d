#include <fmt/format.h>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <memory>
#include <optional>
#include <system_error>

#include "command/commands.h"
#include "command/write_file.h"
#include "output/page.h"
#include "quantity/words.h"

namespace starter {
namespace {

namespace fs = std::filesystem;

struct SiteOptions {
  std::string folder;
  std::string from;
};

Exit refuse(const std::string& says) {
  Page page(look_of(Stream::error, UnitSystem::metric));
  page.paragraph("starter-plan: " + says);
  complain(std::move(page).text());
  return Exit::unusable;
}

/// A file that every built site has, and nothing else is likely to.
constexpr const char* sign_of_a_site = "site.webmanifest";

bool is_site(const fs::path& folder) {
  std::error_code ignored;
  return fs::is_regular_file(folder / sign_of_a_site, ignored);
}

/// The built site that belongs to this program: as it is installed, or beside it in the build
/// folder.
std::optional<fs::path> own_site() {
  std::error_code problem;
  const fs::path program = fs::read_symlink("/proc/self/exe", problem);
  if (problem) return std::nullopt;
  for (const char* way : {"../share/starter-plan/site", "../../site"}) {
    const fs::path folder = (program.parent_path() / way).lexically_normal();
    if (is_site(folder)) return folder;
  }
  return std::nullopt;
}

/// Copies one file. \return why it was not, as the end of a sentence; nothing when it was.
std::optional<std::string> copied(const fs::path& from, const fs::path& to) {
  std::error_code problem;
  fs::create_directories(to.parent_path(), problem);
  if (problem) return problem.message();
  std::ifstream file(from, std::ios::binary);
  if (!file) return "the site's own file cannot be read";
  const std::string bytes{std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
  if (file.bad()) return "the site's own file cannot be read";
  return write_file(to.string(), bytes);
}

/// Whether something of somebody else's is in the folder.
bool is_taken(const fs::path& folder) {
  std::error_code problem;
  if (!fs::exists(folder, problem)) return false;
  return !is_site(folder) && !(fs::is_directory(folder, problem) && fs::is_empty(folder, problem));
}

Exit write_site(const SiteOptions& options, Output& out) {
  if (options.folder.empty()) return refuse("-o needs the name of a folder.");
  const std::optional<fs::path> from =
      options.from.empty() ? own_site() : std::optional<fs::path>(options.from);
  if (!from)
    return refuse(
        "the site has not been built. In the source folder run “bash site/build”, then this "
        "again.");
  if (!is_site(*from)) return refuse(starter::quoted(from->string()) + " is not a built site.");
  const fs::path to(options.folder);
  if (is_taken(to))
    return refuse(
        starter::quoted(options.folder) +
        " holds something else. Name an empty or a new folder, or one that has the site.");
  std::error_code problem;
  int count = 0;
  for (fs::recursive_directory_iterator entry(*from, problem), end; !problem && entry != end;
       entry.increment(problem)) {
    if (!entry->is_regular_file(problem)) continue;
    const fs::path file = to / entry->path().lexically_relative(*from);
    if (const auto why = copied(entry->path(), file))
      return refuse(file.string() + " was not written: " + *why + ".");
    ++count;
  }
  if (problem) return refuse("the built site cannot be read: " + problem.message() + ".");
  Page page(look_of(Stream::out, UnitSystem::metric));
  page.paragraph(
      fmt::format("{} files written to {}. Open index.html there, or put the folder on any "
                  "web space.",
                  count, options.folder));
  return out.write(std::move(page).text()) ? Exit::sound : Exit::unusable;
}

}  // namespace

void add_site(CLI::App& program, Chosen& chosen) {
  CLI::App* command = program.add_subcommand(
      "site", "The static site: self-check in the browser, for a web space or a memory stick");
  auto o = std::make_shared<SiteOptions>();
  command->add_option("-o,--output", o->folder, "The folder to write it to")
      ->required()
      ->option_text("DIR");
  command->add_option("--from", o->from, "A built site, where it is not beside the program")
      ->option_text("DIR");
  command->footer(
      "Ends with 0, or 2 when the site is not there or cannot be written.\n\n"
      "Example:\n"
      "  starter-plan site -o public");
  command->callback([o, &chosen] { chosen = [o](Output& out) { return write_site(*o, out); }; });
}

}  // namespace starter
