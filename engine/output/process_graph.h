#pragma once

/// \file
/// What a picture of a process shows, before it is a picture: steps in rows from first to last,
/// what joins them, what depends on what, and what was found where. Plain data; dot.h draws it.

#include <optional>
#include <string>
#include <vector>

#include "process/trade_order.h"
#include "quantity/write.h"
#include "rules/judge.h"

namespace starter {

/// A finding, short enough for a picture.
struct Badge {
  Severity severity = Severity::note;
  int times = 1;       ///< how often the rule finds the same here
  std::string title;   ///< of the rule
  std::string value;   ///< "152 g/L"; empty for rules without numbers
  std::string wanted;  ///< "80–110 g/L": where it is comfortable; may be empty
};

/// What joins a step.
struct Joining {
  enum class Kind {
    material,  ///< extract, water, ice, the beer
    yeast,     ///< the pack, the slurry, what the stage before has grown
    item,      ///< a thing whose cleanness does not matter here
    clean,     ///< a thing sanitised, boiled or steamed before
    unclean,   ///< a thing that meets boiled wort and was not cleaned before
  };
  Kind kind = Kind::item;
  std::string what;               ///< in the plan's words
  std::string key;                ///< "180 g", "100 billion cells"; may be empty
  std::string note;               ///< "clean: step 7", "not clean", "cleaned too late: step 9"
  bool assumed = false;           ///< the plan does not name it
  std::optional<int> cleaned_in;  ///< index into Drawing::nodes
};

struct DrawnStep {
  int step = -1;       ///< index in the plan; −1 for a missing one
  std::string number;  ///< "4"; empty for a missing one
  std::string words;   ///< "Boil in flask, gas"
  std::string verb;    ///< "Boil": the words, where there is room for few
  std::string key;     ///< "12 min"; may be empty
  Phase phase = Phase::wort;
  int stage = 0;
  bool missing = false;       ///< the trade needs it and the plan lacks it
  bool unknown = false;       ///< its word is not known
  bool critical = false;      ///< a delay here delays the yeast
  bool watched = false;       ///< the rule that is drawn looks at it
  std::optional<int> inside;  ///< laid inside that step; index into Drawing::nodes
  std::vector<Joining> joins;
  std::vector<Badge> badges;  ///< worst first
};

struct Arrow {
  enum class Kind {
    then,    ///< `to` starts when `from` is done
    trade,   ///< the same; the plan does not say it, the trade needs it
    during,  ///< `from` is laid inside `to`
    ghost,   ///< to or from a missing step
    fault,   ///< the trade wants `from` before `to`, and the plan has them the other way round
    ring,    ///< closes a circle of steps that wait for each other
    gap,     ///< steps between are left out of the picture
    rule,    ///< the rule that is drawn looks at this order
  };
  int from = 0;  ///< index into Drawing::nodes
  int to = 0;
  Kind kind = Kind::then;
  bool critical = false;
  std::optional<Badge> badge;
};

struct Drawing {
  std::string title;
  std::string member;
  std::vector<std::string> caption;  ///< sentences of our own under the title
  std::string about;                 ///< the picture in words, for who cannot see it
  std::vector<DrawnStep> nodes;      ///< in the order they happen: a row each
  std::vector<Arrow> arrows;
  int stages = 1;
  bool blank = false;     ///< a sheet to fill in
  bool standard = false;  ///< the trade's process, of no plan
};

struct DrawingOptions {
  UnitSystem units = UnitSystem::metric;
  bool blank = false;  ///< no findings, and boxes to fill in where numbers stand
};

/// A plan's process with what was found in it.
Drawing drawing_of(const Judgement& judgement, const DrawingOptions& options = {});

/// The trade's standard process, with the bounds of the catalogue as its numbers.
Drawing standard_drawing(const DrawingOptions& options = {});

/// The part of the standard process that a rule watches.
Drawing rule_drawing(const Rule& rule, const DrawingOptions& options = {});

/// The step that a place in the plan belongs to: a step itself, or the step that does what a field
/// of a stage, the yeast or the beer speaks of.
/// \return nothing when the plan has no step at all that fits.
std::optional<int> step_of_place(const Plan& plan, const Process& process, const std::string& where,
                                 int stage);

}  // namespace starter
