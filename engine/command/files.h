#pragma once

/// \file
/// Reading what a person names on the command line, whatever it turns out to be.

#include <optional>
#include <string>
#include <string_view>
#include <variant>

#include "plan/read.h"

namespace starter {

/// The bytes of a file, or why it cannot be read.
using FileResult = std::variant<std::string, PlanError>;

/// Reads a plan file, or standard input for "-". At most one byte more than the largest plan is
/// read, so that a huge file is refused at no cost. Folders, devices and sockets are refused; a
/// pipe is read.
/// \param what it is to be, as texts call it
FileResult read_file(const std::string& name, std::string_view what = "plan file");

/// All of a file, however large; nothing when it cannot be read.
std::optional<std::string> read_whole(const std::string& name);

/// What a file is called in texts: "standard input" for "-".
std::string spoken_name(const std::string& name);

}  // namespace starter
