#pragma once

// The built program run as a child process.

#include <optional>
#include <string>
#include <vector>

struct Ran {
  int code = -1;  ///< exit code; −1 when a signal ended it
  std::string out;
  std::string error;
};

struct Setting {
  std::string input{};                       ///< on standard input
  std::vector<std::string> environment{};    ///< "NAME=value", on top of a bare one
  std::optional<unsigned short> terminal{};  ///< standard output is a terminal of this many columns
  std::string out_file{};                    ///< standard output goes here instead: "/dev/full"
  bool out_closed = false;                   ///< no standard output at all
  bool reader_gone = false;                  ///< standard output is a pipe that nobody reads
};

Ran run(const std::vector<std::string>& arguments, const Setting& setting = {});

/// A plan of the corpus: "harvest-amber", "faulty/rich-wort".
std::string plan_file(const std::string& name);

/// A new file in a folder of this run, deleted with it.
std::string written_file(const std::string& name, const std::string& bytes);

/// The folder that written_file uses.
std::string scratch_folder();

/// The path of a file of that name in it, which need not be there.
std::string in_scratch(const std::string& name);

/// All of a file; "" where there is none.
std::string bytes_of(const std::string& path);

bool holds(const std::string& text, const std::string& part);
