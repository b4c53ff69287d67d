#pragma once

/// \file
/// Sheets of judged plans, written to a folder as pages and as PDFs.

#include <memory>
#include <string>

#include "command/diagram.h"
#include "command/options.h"
#include "command/terminal.h"
#include "output/handout_view.h"

namespace starter {

/// Which files a sheet becomes.
struct SheetForms {
  bool html = true;
  bool pdf = true;
};

class HandoutMaker {
 public:
  /// `folder` is made when there is none.
  HandoutMaker(std::string folder, SheetForms forms, Output& out)
      : folder_(std::move(folder)), forms_(forms), out_(out) {}

  /// Whether the folder is there or could be made; told when not.
  bool ready() const;

  /// Draws the plan, and writes STEM.html and STEM.pdf, each beside and then renamed; tells each
  /// file that is written, and on standard error each that is not. \return the worst end
  Exit make(const std::string& stem, const Judgement& judgement, HandoutOptions options);

 private:
  void add_picture(const Judgement& judgement, HandoutOptions& options);
  Exit write(const std::string& file, const std::string& bytes);
  Exit write_pdf(const std::string& file, const std::string& html);

  std::string folder_;
  SheetForms forms_;
  Output& out_;
  std::unique_ptr<DiagramMaker> maker_;  ///< started by the first picture
  bool told_missing_ = false;            ///< that there is nothing to make PDFs with
};

}  // namespace starter
