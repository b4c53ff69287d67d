#pragma once

/// \file
/// A mentor's word and a club's on a finding, in sentences: what the program's text and the site's
/// pages say alike.

#include <string>
#include <string_view>

#include "plan/model.h"
#include "rules/accepted.h"
#include "rules/rule.h"

namespace starter {

/// "Tarn, 2027-02-01: “a strong porter wants it”."
std::string accepted_in_words(const Acceptance& word);

/// What is told beside the word on a danger.
inline constexpr std::string_view acknowledged_only =
    "Acknowledged only: it is a danger, so it still counts.";

/// "Tarn accepted this, but since then dry extract a litre, stage 1 was 152 g/L and is 189 g/L."
/// The first changes are told, and how many more there are.
std::string reopened_in_words(const Reopened& reopened);

/// "No longer needed: Tarn accepted ice-late at step 4, chill, and nothing is found there now."
std::string unused_in_words(const AcceptanceRecord& record, const Plan& plan);

/// "Lantern Lane: comfortable 85–105 g/L, not 80–110 g/L – two of our batches were slow."
std::string club_in_words(const ClubWord& word);

}  // namespace starter
