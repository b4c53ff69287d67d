#pragma once

#include <stdexcept>
#include <string>

#include "plan/read.h"
#include "rules/catalogue.h"
#include "rules/judge.h"

namespace starter {

/// A plan that ends with the beer, with what is given put in; every value as it stands in the file.
struct PlanText {
  std::string title = R"("Harbour bitter")";
  std::string member = R"("Wilf")";
  std::string start = R"("2027-04-06T18:00")";     ///< "" for none
  std::string brew_day = R"("2027-04-10T09:00")";  ///< "" for none
  std::string steps = R"({"do": "weigh"}, {"do": "dissolve", "in": "flask"},
    {"do": "boil", "in": "flask", "heat": "gas", "for": "12 min"},
    {"do": "cover", "with": "foil", "during": "boil"},
    {"do": "chill", "in": "tub", "bath": "12 L", "ice": "1 kg", "to": "21 °C", "for": "30 min"},
    {"do": "pitch", "from": "pack"}, {"do": "agitate"},
    {"do": "crash", "at": "4 °C", "for": "36 h"}, {"do": "decant"},
    {"do": "pitch to beer"})";

  Judgement judged() const {
    const std::string text =
        R"({"plan": 1, "title": )" + title + R"(, "member": )" + member +
        (start.empty() ? "" : R"(, "start": )" + start) +
        R"(, "beer": {"kind": "ale", "volume": "20 L", "gravity": "1.046 SG", "ferment_at": "19 °C")" +
        (brew_day.empty() ? "" : R"(, "brew_day": )" + brew_day) +
        R"(}, "yeast": {"form": "liquid", "packs": 1, "cells_per_pack": "100 billion"},
          "vessels": {"flask": {"kind": "conical flask", "capacity": "3 L",
                                "material": "borosilicate glass"},
                      "tub": {"kind": "tub", "capacity": "20 L", "material": "plastic"}},
          "stages": [{"extract": {"kind": "light dry malt", "mass": "140 g"}, "water": "1.5 L",
                      "vessel": "flask", "agitation": "stir plate", "temperature": "21 °C",
                      "duration": "36 h"}],
          "steps": [)" +
        steps + "]}";
    PlanResult result = read_plan(text);
    if (const auto* errors = std::get_if<std::vector<PlanError>>(&result))
      throw std::runtime_error(errors->front().where + ": " + errors->front().says);
    JudgeOptions quick;
    quick.fixes = false;
    return judge(std::get<Plan>(std::move(result)), catalogue(), quick);
  }
};

}  // namespace starter
