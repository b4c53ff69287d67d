#include <filesystem>
#include <memory>

#include "command/commands.h"
#include "command/diagram.h"
#include "command/files.h"
#include "command/judged.h"
#include "command/plan_names.h"
#include "command/practice_option.h"
#include "command/refuse.h"
#include "command/rule_name.h"
#include "command/word_option.h"
#include "command/write_file.h"
#include "output/characters.h"
#include "output/dot.h"
#include "output/svg.h"
#include "quantity/words.h"

namespace starter {
namespace {

struct DrawOptions {
  std::vector<std::string> plans;
  bool process = false;
  std::string rule;
  std::string file;
  std::optional<Picture> picture;  ///< stated; else the file's ending tells it
  SheetOptions sheet;
  DrawingOptions drawing;
  PracticeOption practice;
};

std::string lower_ending(const std::string& file) {
  const std::string ending = std::filesystem::path(file).extension().string();
  return lower_ascii(ending.empty() ? "" : ending.substr(1));
}

/// The form of the picture; nothing after telling why there is none.
std::optional<Picture> form_of(const DrawOptions& options) {
  if (options.picture) return options.picture;
  if (options.file == "-") {
    refuse("standard output has no ending that tells the form; add --as svg, pdf, png or dot.");
    return std::nullopt;
  }
  const auto form = picture_from(lower_ending(options.file));
  if (!form)
    refuse("the ending of " + options.file +
           " tells no form of picture. Write .svg, .pdf, .png or .dot, or add --as.");
  return form;
}

class Drawer {
 public:
  Drawer(const DrawOptions& options, const Practice& practice, Output& out)
      : options_(options), practice_(practice), out_(out) {}

  Exit draw(const Drawing& drawing, Picture picture, const std::string& file) {
    SheetOptions sheet = options_.sheet;
    sheet.whole_page = picture == Picture::pdf;
    std::string dot = dot_of(drawing, sheet);
    std::string bytes;
    if (picture == Picture::dot) {
      bytes = std::move(dot);
    } else {
      auto made = maker().make(dot, picture);
      if (const auto* problem = std::get_if<DrawingProblem>(&made))
        return refuse(file + " was not drawn: " + problem->says + ".");
      bytes = std::get<std::string>(std::move(made));
      if (picture == Picture::svg) bytes = stand_alone_svg(bytes, drawing.title, drawing.about);
    }
    if (file == "-") return out_.write(bytes) ? Exit::sound : Exit::unusable;
    const auto problem = write_file(file, bytes);
    if (problem) return refuse(file + " was not written: " + *problem + ".");
    return Exit::sound;
  }

  /// Every plan to a file of its own name in the folder.
  Exit draw_all(Picture picture) {
    std::error_code problem;
    std::filesystem::create_directories(options_.file, problem);
    if (!is_folder(options_.file))
      return refuse(options_.file + " is no folder; several plans need one to be drawn into.");
    StemsOnce stems;
    const auto file_for = [&](const std::string& name) {
      return (std::filesystem::path(options_.file) /
              (stems.of(name) + "." + std::string(spelling(picture))))
          .string();
    };
    return draw_plans([&](const std::string& name) { return file_for(name); }, picture);
  }

  template <class FileFor>
  Exit draw_plans(FileFor file_for, Picture picture) {
    Told told;
    told.units = options_.drawing.units;
    Exit worst = Exit::sound;
    for (const std::string& name : options_.plans) {
      const std::string file = file_for(name);
      if (name != "-" && file != "-" && same_file(name, file)) {
        worst = refuse(file + " is the plan itself; give -o another file.");
        continue;
      }
      const auto how = JudgeOptions::findings_only(options_.drawing.units);
      const Exit end =
          tell_judged({name}, told, out_, practice_, how,
                      [&](const std::string&, const Judgement& judgement, const Look&) {
                        Saying saying;
                        saying.ends = draw(drawing_of(judgement, options_.drawing), picture, file);
                        return saying;
                      });
      worst = std::max(worst, end);
    }
    return worst;
  }

 private:
  /// Graphviz starts when the first picture needs it, and once.
  DiagramMaker& maker() {
    if (!maker_) maker_ = std::make_unique<DiagramMaker>();
    return *maker_;
  }

  const DrawOptions& options_;
  const Practice& practice_;
  Output& out_;
  std::unique_ptr<DiagramMaker> maker_;
};

/// What is wrong with the things to draw taken together; empty when nothing is.
std::string wrong_choice(const DrawOptions& o) {
  const int things = !o.plans.empty() + o.process + !o.rule.empty();
  if (things == 0) return "name a plan to draw, or --process, or --rule ID.";
  if (things > 1) return "a plan, --process and --rule are drawn one at a time; name one of them.";
  if (o.file.empty()) return "-o needs the name of a file.";
  if (std::count(o.plans.begin(), o.plans.end(), "-") > 1)
    return "standard input can be read once only.";
  return "";
}

Exit draw(const DrawOptions& options, Output& out) {
  const std::string wrong = wrong_choice(options);
  if (!wrong.empty()) return refuse(wrong);
  const auto practice = load_practice(options.practice);
  if (!practice) return Exit::unusable;
  Drawer drawer(options, *practice, out);
  const bool folder = options.plans.size() > 1 || is_folder(options.file) ||
                      (options.file.size() > 1 && options.file.back() == '/');
  if (!options.plans.empty() && folder) {
    if (options.file == "-") return refuse("several plans need a folder: -o DIR");
    return drawer.draw_all(options.picture.value_or(Picture::svg));
  }
  const auto picture = form_of(options);
  if (!picture) return Exit::unusable;
  if (!options.plans.empty())
    return drawer.draw_plans([&](const std::string&) { return options.file; }, *picture);
  if (options.process)
    return drawer.draw(standard_drawing(options.drawing), *picture, options.file);
  const Rule* rule = practice->find(options.rule);
  if (!rule)
    return refuse(no_such_rule(*practice, options.rule) +
                  " For all rules: starter-plan explain --all");
  return drawer.draw(rule_drawing(*rule, options.drawing), *picture, options.file);
}

}  // namespace

void add_draw(CLI::App& program, Chosen& chosen) {
  CLI::App* command = program.add_subcommand(
      "draw", "A plan's steps as a picture: what depends on what, and what to mend where");
  auto o = std::make_shared<DrawOptions>();
  command->add_option("PLAN", o->plans, "Plan files; - is standard input")->option_text("...");
  command
      ->add_option("-o,--output", o->file,
                   "The picture's file; a folder for several plans; - is standard output")
      ->required()
      ->option_text("FILE");
  add_word(
      *command, "--as", o->picture,
      {{"svg", Picture::svg}, {"pdf", Picture::pdf}, {"png", Picture::png}, {"dot", Picture::dot}},
      "The form, where the file's ending does not tell it");
  command->add_flag("--process", o->process, "Draw the usual process, of no plan");
  command->add_option("--rule", o->rule, "Draw the part of the process that a rule watches")
      ->option_text("ID");
  add_word(*command, "--paper", o->sheet.paper, {{"a4", Paper::a4}, {"letter", Paper::letter}},
           "The page to fill");
  command->add_flag("--large", o->sheet.large,
                    "For a projector: the shape of a screen, large type");
  command->add_flag("--blank", o->drawing.blank, "A workshop sheet: no findings, boxes to fill in");
  add_units(*command, o->drawing.units);
  add_practice(*command, o->practice);
  command->footer(
      "Ends with 0 when all is drawn, 2 when something cannot be used or written.\n\n"
      "Examples:\n"
      "  starter-plan draw harvest-amber.plan.json -o harvest-amber.svg\n"
      "  starter-plan draw --paper letter --blank harvest-amber.plan.json -o sheet.pdf\n"
      "  starter-plan draw *.plan.json -o pictures/ --as png\n"
      "  starter-plan draw --rule glass-shock --large -o glass.png");
  command->callback([o, &chosen] { chosen = [o](Output& out) { return draw(*o, out); }; });
}

}  // namespace starter
