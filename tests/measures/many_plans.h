#pragma once

// Plans that between them bring out every measure, every fact and every unknown.

#include <string>
#include <utility>
#include <vector>

#include "measured.h"

/// Two stages, the first in a pot and a jug, and what a member measured.
inline nlohmann::json two_stages() {
  return harvest_amber_json(R"([
    {"op": "add", "path": "/vessels/pot", "value": {"kind": "pot", "capacity": "5 L"}},
    {"op": "add", "path": "/vessels/carboy", "value": {"kind": "bottle", "capacity": "5 L"}},
    {"op": "replace", "path": "/beer", "value":
      {"kind": "lager", "volume": "40 L", "gravity": "12 °P", "brew_day": "2027-03-27",
       "ferment_at": "10 °C", "keep_cells": "50 billion"}},
    {"op": "add", "path": "/stages/0/gravity", "value": "1.035 SG"},
    {"op": "add", "path": "/stages/0/wort_volume", "value": "1.2 L"},
    {"op": "add", "path": "/stages/0/measured", "value":
      {"volume": "1.18 L", "volume_at": "26 °C", "gravity": "1.034 SG", "gravity_at": "26 °C"}},
    {"op": "add", "path": "/stages/1", "value":
      {"extract": {"kind": "light dry malt", "mass": "300 g"}, "water": "3 L", "vessel": "carboy",
       "agitation": "shaken", "temperature": "18 °C", "duration": "48 h",
       "measured": {"cells": "350 billion"}}},
    {"op": "replace", "path": "/steps", "value": [
      {"do": "weigh"}, {"do": "dissolve"}, {"do": "boil", "heat": "gas", "for": "12 min"},
      {"do": "cover", "with": "foil", "during": "boil"},
      {"do": "chill", "in": "tub", "to": "21 °C"},
      {"do": "sanitise", "items": ["thermometer", "pack", "stir bar"]},
      {"do": "check temperature"}, {"do": "pitch", "from": "pack"}, {"do": "agitate"},
      {"do": "crash", "for": "24 h"}, {"do": "decant"},
      {"do": "weigh"}, {"do": "dissolve", "in": "pot"},
      {"do": "boil", "in": "pot", "heat": "electric coil", "for": "15 min"},
      {"do": "chill", "in": "tub", "to": "18 °C", "ice": "2 kg", "bath_depth": "5 cm"},
      {"do": "sanitise", "items": ["carboy", "funnel", "thermometer"]},
      {"do": "move", "to": "carboy", "with": "funnel"}, {"do": "cover", "with": "foil"},
      {"do": "check temperature"}, {"do": "pitch", "from": "flask"},
      {"do": "agitate"}, {"do": "crash"}, {"do": "decant"}, {"do": "warm"},
      {"do": "pitch to beer"}]}])");
}

/// Three stages, no steps: the standard process.
inline nlohmann::json three_stages() {
  return nlohmann::json::parse(R"({
    "plan": 1,
    "beer": {"volume": "60 L", "gravity": "1.070 SG", "kind": "hybrid"},
    "yeast": {"form": "slurry", "slurry_volume": "20 mL", "packaged": "2027-01-01"},
    "vessels": {
      "jar": {"kind": "jar", "capacity": "1 L"},
      "flask": {"kind": "conical flask", "capacity": "3 L"},
      "bucket": {"kind": "pot", "capacity": "12 L", "material": "plastic"},
      "pot": {"kind": "pot", "capacity": "15 L"}
    },
    "stages": [
      {"extract": {"kind": "light liquid malt", "mass": "60 g"}, "water": "0.5 L", "vessel": "jar"},
      {"extract": {"kind": "light dry malt", "mass": "180 g"}, "water": "1.8 L", "vessel": "flask",
       "agitation": "stir plate"},
      {"extract": {"kind": "wort"}, "water": "8 L", "gravity": "9 °P", "vessel": "bucket"}
    ]
  })");
}

/// Named plans. The example is the first.
inline std::vector<std::pair<std::string, nlohmann::json>> many_plans() {
  std::vector<std::pair<std::string, nlohmann::json>> plans;
  auto example_with = [&](std::string name, const std::string& patch) {
    plans.emplace_back(std::move(name), harvest_amber_json(patch));
  };
  example_with("the example", "[]");
  plans.emplace_back("two stages", two_stages());
  plans.emplace_back("three stages", three_stages());

  example_with("no brew day", R"([{"op": "remove", "path": "/beer/brew_day"}])");
  example_with("no start", R"([{"op": "remove", "path": "/start"}])");
  example_with("no dates", R"([{"op": "remove", "path": "/start"},
                               {"op": "remove", "path": "/beer/brew_day"},
                               {"op": "remove", "path": "/yeast/packaged"}])");
  example_with("no chill", R"([{"op": "remove", "path": "/steps/4"}])");
  example_with("no boil", R"([{"op": "remove", "path": "/steps/2"}])");
  example_with("no pitch", R"([{"op": "remove", "path": "/steps/7"}])");
  example_with("no agitate", R"([{"op": "remove", "path": "/steps/8"}])");
  example_with("no crash", R"([{"op": "remove", "path": "/steps/9"}])");
  example_with("cold before it has grown",
               R"([{"op": "move", "from": "/steps/9", "path": "/steps/8"}])");
  example_with("no handover", R"([{"op": "remove", "path": "/steps/12"}])");
  example_with("ready wort", R"([
    {"op": "replace", "path": "/stages/0/extract", "value": {"kind": "wort"}},
    {"op": "add", "path": "/stages/0/gravity", "value": "1.037 SG"}])");
  for (const char* kind : {"wheat dry malt", "amber dry malt", "dark dry malt", "hopped dry malt",
                           "light liquid malt", "table sugar"})
    example_with(kind, set("/stages/0/extract/kind", "\"" + std::string(kind) + "\""));

  // Yeast.
  example_with("an old pack", set("/yeast/packaged", R"("2026-09-01")"));
  example_with("a pack of the year after", set("/yeast/packaged", R"("2028-02-20")"));
  example_with("an old pack, eased in",
               R"([{"op": "replace", "path": "/yeast/packaged", "value": "2026-09-01"},
                   {"op": "replace", "path": "/stages/0/extract/mass", "value": "60 g"}])");
  example_with("a count", set("/yeast/viability", R"("40 %")"));
  example_with("a count of the slurry", set("/yeast", R"(
    {"form": "slurry", "slurry_volume": "80 mL", "slurry_density": "1.2 billion/mL",
     "viability": "90 %", "cells_counted": 412})"));
  example_with("a slurry", set("/yeast", R"(
    {"form": "slurry", "slurry_volume": "80 mL", "packaged": "2027-03-01"})"));
  example_with("dry, in date",
               set("/yeast", R"({"form": "dry", "best_before": "2028-01-01", "packs": 2})"));
  example_with("dry, past its date",
               set("/yeast", R"({"form": "dry", "best_before": "2026-01-01"})"));

  // Vessels and heat.
  example_with("soda-lime", set("/vessels/flask/material", R"("soda-lime glass")"));
  example_with("plastic", set("/vessels/flask/material", R"("plastic")"));
  example_with("coil", set("/steps/2/heat", R"("electric coil")"));
  example_with("induction", set("/steps/2/heat", R"("induction")"));
  example_with("heat unsaid", R"([{"op": "remove", "path": "/steps/2/heat"}])");
  example_with("deep bath", set("/steps/4/bath_depth", R"("20 cm")"));
  example_with("hot wort into a cold jug", R"([
    {"op": "add", "path": "/vessels/jug", "value": {"kind": "jug", "capacity": "3 L"}},
    {"op": "add", "path": "/steps/4", "value": {"do": "move", "to": "jug"}}])");

  // Covers.
  example_with("sealed over the boil", set("/steps/3/sealed", "true"));
  example_with("sealed while hot",
               set("/steps/4", R"({"do": "cover", "with": "stopper", "sealed": true})"));
  example_with("sealed over live yeast",
               set("/steps/8", R"({"do": "cover", "with": "stopper", "sealed": true})"));
  example_with("sealed, unstirred", R"([
    {"op": "replace", "path": "/stages/0/agitation", "value": "none"},
    {"op": "add", "path": "/steps/8", "value": {"do": "cover", "with": "lid", "sealed": true}}])");
  example_with("uncovered", R"([{"op": "remove", "path": "/steps/3"}])");
  example_with("kept cold", set("/steps/5", R"({"do": "store", "at": "4 °C", "for": "24 h"})"));
  example_with("kept warm", set("/steps/5", R"({"do": "store", "for": "24 h"})"));
  example_with("kept sealed and warm",
               set("/steps/5", R"({"do": "store", "sealed": true, "for": "24 h"})"));
  example_with("unread", R"([{"op": "remove", "path": "/steps/6"}])");

  // Growth.
  example_with("still, as assumed", R"([{"op": "remove", "path": "/stages/0/agitation"},
                                        {"op": "replace", "path": "/steps/8",
                                         "value": {"do": "rest", "for": "24 h"}}])");
  example_with("still", set("/stages/0/agitation", R"("none")"));
  example_with("stage and step disagree", set("/steps/8/for", R"("4 h")"));
  example_with("ice at no moment", R"([{"op": "remove", "path": "/steps/4/ice_from"}])");
  example_with("no ice at a moment", R"([{"op": "remove", "path": "/steps/4/ice"}])");

  // Into the beer.
  example_with("large and whole", R"([{"op": "remove", "path": "/steps/10"}])");
  example_with("small and whole", R"([{"op": "remove", "path": "/steps/10"},
                                      {"op": "replace", "path": "/beer/volume", "value": "40 L"}])");
  example_with("tiny, decanted", set("/beer/volume", R"("100 L")"));
  example_with("at high krausen", R"([
    {"op": "replace", "path": "/steps", "value": [
      {"do": "weigh"}, {"do": "dissolve"}, {"do": "boil", "for": "12 min", "heat": "gas"},
      {"do": "chill", "to": "21 °C"}, {"do": "pitch"}, {"do": "agitate"},
      {"do": "krausen pitch"}]}])");

  // The graph.
  example_with("a loop", set("/steps/4/after", R"(["pitch"])"));
  example_with("a word unknown", set("/steps/8", R"({"do": "agitat"})"));
  return plans;
}
