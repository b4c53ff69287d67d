#pragma once

/// \file
/// What of the engine only clubs need, and the making of the site: practice files, what mentors
/// accept, and services that tell of the rules (reference.h). A member's own plan is judged without
/// them, so they are left out of the engine that a page loads first: club.cpp has them, no_club.cpp
/// has none, and a program or page links the one or the other.

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "plan/json.h"
#include "rules/acceptance.h"
#include "rules/judge.h"
#include "rules/practice.h"

namespace starter {

class Request;

/// What is answered when a request says `word` in "do".
struct Service {
  std::string_view word;
  Json (*carry_out)(const Request&);
};

/// Its services, whether they are linked or not.
inline constexpr std::string_view club_words[] = {
    "practice", "accepted", "accept",   "withdraw",  "measure",     "schedule",
    "explain",  "rows",     "cautions", "draw_rule", "draw_process"};

struct Club {
  /// \throws Refused where the practice file cannot be used.
  Practice (*practice)(std::string_view bytes);
  /// Acceptances kept beside the plan of that file name; errors tell their own file's name.
  AcceptancesResult (*acceptances)(const std::string& plan, std::string_view bytes);
  void (*apply)(Judgement& judgement, std::span<const AcceptanceRecord> records);
  /// Every word of a mentor's on the plan in a sentence: those that hold, those that no longer do,
  /// and at the end those on what is no longer found.
  Json (*words)(const Judgement& judgement);
  /// One for each of club_words.
  std::span<const Service> services;
};

/// nullptr where it is not linked.
const Club* club();

}  // namespace starter
