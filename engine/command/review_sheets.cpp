#include "command/review_sheets.h"

#include <set>
#include <utility>

#include "output/dot.h"
#include "output/html.h"
#include "output/sheet_view.h"
#include "output/svg.h"
#include "quantity/words.h"

namespace starter {
namespace {

/// "north/wren-amber.plan.json" as "north-wren-amber".
std::string slug_of(const std::string& plan) {
  constexpr std::size_t longest = 60;
  std::string name = lower_ascii(plan);
  for (const std::string_view ending : {".json", ".plan"})
    if (name.size() > ending.size() && name.ends_with(ending))
      name.resize(name.size() - ending.size());
  std::string slug;
  for (const char c : name) {
    const bool plain = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
    if (plain)
      slug += c;
    else if (!slug.empty() && slug.back() != '-')
      slug += '-';
    if (slug.size() == longest) break;
  }
  while (!slug.empty() && slug.back() == '-') slug.pop_back();
  return slug.empty() ? "plan" : slug;
}

}  // namespace

Sheet SheetMaker::make(const std::string& name, PlanInputs inputs) {
  const std::string file = inputs.name;
  JudgeOptions how;
  how.units = units_;
  JudgedFile judged = judge_inputs(std::move(inputs), practice_, how);
  if (auto* bad = std::get_if<Unusable>(&judged))
    return unusable_sheet(name, in_file(file, bad->file, std::move(bad->errors)));
  const auto& judgement = std::get<Judgement>(judged);
  return {review_row(judgement, practice_.rules(), units_),
          fill_page("sheet", view_of(judgement, name))};
}

Json SheetMaker::view_of(const Judgement& judgement, const std::string& name) {
  const Drawing drawing = drawing_of(judgement, {units_, false});
  if (!maker_) maker_ = std::make_unique<DiagramMaker>();
  auto made = maker_->make(dot_of(drawing), Picture::svg);
  SheetViewOptions options;
  options.units = units_;
  options.file = name;
  options.about = drawing.about;
  const auto* problem = std::get_if<DrawingProblem>(&made);
  if (!problem)
    options.svg = inline_svg(
        stand_alone_svg(std::get<std::string>(made), drawing.title, drawing.about), options.id);
  Json view = sheet_view(judgement, options);
  view["page_title"] = view["title"];
  view["no_picture"] = problem ? "There is no picture of the steps: " + problem->says + "." : "";
  return view;
}

Sheet unusable_sheet(const std::string& name, std::vector<PlanError> errors) {
  Json view = errors_view(name, errors);
  view["page_title"] = "Cannot be used yet: " + name;
  std::string page = fill_page("unusable", view);
  return {review_row(std::move(errors)), std::move(page)};
}

std::vector<std::string> sheet_names(const std::vector<std::string>& plans) {
  std::set<std::string> taken;
  std::vector<std::string> names;
  for (const std::string& plan : plans) {
    const std::string slug = slug_of(plan);
    std::string unique = slug;
    for (int k = 2; !taken.insert(unique).second; ++k) unique = slug + "-" + std::to_string(k);
    names.push_back(unique + ".html");
  }
  return names;
}

}  // namespace starter
