#pragma once

/// \file
/// Lays a plan's JSON out for people: short things on one line, nothing wider than it must be.

#include <string>

#include "plan/json.h"

namespace starter {

/// `plan` as the text of a plan file: two-space indent, objects and lists on one line where they
/// fit into 100 columns, else filled line by line; the lists of vessels, stages and steps always
/// one item a line or more. Ends with a line feed. Bytes that are not UTF-8 become U+FFFD.
std::string lay_out(const Json& plan);

}  // namespace starter
