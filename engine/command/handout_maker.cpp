#include "command/handout_maker.h"

#include <filesystem>
#include <system_error>

#include "command/pdf.h"
#include "command/plan_names.h"
#include "command/refuse.h"
#include "command/write_file.h"
#include "output/characters.h"
#include "output/dot.h"
#include "output/layout.h"
#include "output/process_graph.h"
#include "output/svg.h"

namespace starter {

bool HandoutMaker::ready() const {
  std::error_code problem;
  std::filesystem::create_directories(folder_, problem);
  if (is_folder(folder_)) return true;
  refuse(folder_ + " is no folder and cannot be made one" +
         (problem ? ": " + problem.message() : "") + ". Give -o a folder.");
  return false;
}

Exit HandoutMaker::make(const std::string& stem, const Judgement& judgement,
                        HandoutOptions options) {
  add_picture(judgement, options);
  const std::string html = handout_page(judgement, options);
  const std::string file = (std::filesystem::path(folder_) / stem).string();
  Exit end = Exit::sound;
  if (forms_.html) end = write(file + ".html", html);
  if (forms_.pdf) end = std::max(end, write_pdf(file + ".pdf", html));
  return end;
}

/// A sheet without its picture is still worth having, so that a problem with the picture is told
/// and the sheet is made.
void HandoutMaker::add_picture(const Judgement& judgement, HandoutOptions& options) {
  DrawingOptions how;
  how.units = options.units;
  how.blank = options.kind != SheetKind::full;
  Drawing drawing = drawing_of(judgement, how);
  if (options.kind == SheetKind::workshop) {
    drawing.title = workshop_title;
    drawing.member.clear();
  }
  SheetOptions sheet;
  sheet.paper = options.paper;
  sheet.inset = picture_room(options.paper, options.large);
  const Layout layout = layout_of(drawing, sheet);
  options.picture_lies = layout.page_width > layout.page_height;
  if (!maker_) maker_ = std::make_unique<DiagramMaker>();
  for (std::size_t page = 0; page < layout.pages.size(); ++page) {
    auto made = maker_->make(dot_of(drawing, sheet, layout, page), Picture::svg);
    if (const auto* problem = std::get_if<DrawingProblem>(&made)) {
      options.svgs.clear();
      refuse("the picture of " + drawing.title + " was not drawn: " + problem->says + ".");
      return;
    }
    // The first page tells all of it in words.
    const std::string nth = std::to_string(page + 1);
    options.svgs.push_back(
        inline_svg(stand_alone_svg(std::get<std::string>(made),
                                   drawing.title + (page == 0 ? "" : ", page " + nth),
                                   page == 0 ? drawing.about : "The picture goes on."),
                   page == 0 ? "" : "p" + nth + "-"));
  }
}

Exit HandoutMaker::write(const std::string& file, const std::string& bytes) {
  if (const auto problem = write_file(file, bytes))
    return refuse(file + " was not written: " + *problem + ".");
  out_.write(visible(file) + "\n");  // a reader that has seen enough takes no sheet away
  return Exit::sound;
}

Exit HandoutMaker::write_pdf(const std::string& file, const std::string& html) {
  auto made = pdf_of(html);
  if (const auto* pdf = std::get_if<std::string>(&made)) return write(file, *pdf);
  const PdfProblem& problem = std::get<PdfProblem>(made);
  if (!problem.missing) return refuse(file + " was not made: " + problem.says + ".");
  if (!told_missing_)
    refuse(file + " was not made: " + problem.says +
           ". To make PDFs, install it: apt-get install weasyprint. " +
           (forms_.html ? "The .html sheet is there, and any browser prints it; with --html only "
                          "that is made."
                        : "With --html a page is made that any browser prints."));
  told_missing_ = true;
  return Exit::unusable;
}

}  // namespace starter
