#pragma once

/// \file
/// PDFs of pages, made by WeasyPrint in a process of its own.

#include <chrono>
#include <string>
#include <string_view>
#include <variant>

namespace starter {

struct PdfProblem {
  bool missing = false;  ///< there is no WeasyPrint on this computer
  std::string says;      ///< the end of a sentence
};

/// The page as PDF. `html` stands alone: what it points at is not fetched. The same page gives the
/// same bytes on one computer.
std::variant<std::string, PdfProblem> pdf_of(
    std::string_view html, std::chrono::milliseconds limit = std::chrono::minutes(2));

}  // namespace starter
