#pragma once

/// \file
/// Numbers from elsewhere: tables in files, and other programs asked at test time.
///
/// Whatever is missing or answers oddly throws, so that a check never passes for want of its
/// reference.

#include <string>
#include <utility>
#include <vector>

namespace reference {

using Row = std::vector<double>;

/// The rows of a table in data/: numbers between commas; lines that begin with # say where they are
/// from, and the first line without one names the columns.
std::vector<Row> table(const std::string& name);

/// A whole file of this folder.
std::string text_of(const std::string& name);

/// Asks a script of outside/, run with the system's own Python: one row of numbers in, one row out.
std::vector<Row> ask(const std::string& script, const std::vector<Row>& questions);

/// Asks GNU units to convert each pair; the numbers that come out.
std::vector<double> units(const std::vector<std::pair<std::string, std::string>>& conversions);

}  // namespace reference
