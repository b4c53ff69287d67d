#pragma once

/// \file
/// Findings that a mentor accepts: kept with what the rule read, laid over a judgement, and open
/// again when that changes. accepted.schema.json documents the text they are kept as.
///
/// A danger can be acknowledged, but still shows and still counts.

#include <span>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "plan/read.h"
#include "rules/judge.h"

namespace starter {

/// The file that a plan's acceptances are kept in: "harvest.accepted.json" for "harvest.plan.json",
/// "plan.accepted.json" for "plan.json"; empty for standard input, which has none.
std::string acceptance_file_name(const std::string& plan);

/// What is wrong with a mentor's name or reason, as the whole of a sentence; empty when nothing is.
/// A blank one is told by the caller, who knows which it is.
std::string wrong_word(const std::string& text);

/// What to keep of a finding that is accepted.
/// \param on an ISO 8601 day, or empty.
AcceptanceRecord record_of(const Finding& finding, std::string by, std::string because,
                           std::string on);

struct AcceptedNow {
  std::vector<AcceptanceRecord> records;
  std::vector<AcceptanceRecord> replaced;  ///< words of somebody else, or other words, on the same
};

/// The records once these findings, of one rule and at one place, are accepted too. A newer word
/// takes the place of an older one on the same, and of one that no longer holds.
AcceptedNow accept_findings(std::span<const AcceptanceRecord> kept,
                            std::span<const Finding* const> findings, const std::string& by,
                            const std::string& because, const std::string& on);

/// What differs between two sets of readings, in the order of the newer.
std::vector<ReadingChange> changes_between(std::span<const Reading> was,
                                           std::span<const Reading> is);

/// Marks findings as accepted where the rule reads what it read then, as reopened where it reads
/// something else, and lists in `unused` what is no longer found at all. A record answers for one
/// finding at most: the one at its place, else, since steps move, one with the same readings.
void apply_acceptances(Judgement& judgement, std::span<const AcceptanceRecord> records);

using AcceptancesResult = std::variant<std::vector<AcceptanceRecord>, std::vector<PlanError>>;

/// Reads what write_acceptances wrote. All errors are reported at once. Never throws for any bytes
/// whatever.
AcceptancesResult read_acceptances(std::string_view bytes);

/// As JSON, with a last new line; equal records give equal bytes.
std::string write_acceptances(std::span<const AcceptanceRecord> records);

/// What read_acceptances reads, as a JSON Schema, draft 2020-12.
std::string acceptances_schema();

}  // namespace starter
