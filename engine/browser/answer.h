#pragma once

/// \file
/// The engine behind one function, for a page that runs it in the browser: a request in JSON and
/// the bytes of a plan file go in, JSON comes out.
///
/// A request is an object; "do" says what is wanted, with these other members:
///
/// - `check` (`name`, `units`, `advice`: true): what `check --format json` prints; without
///   advice no fixes and nothing that would narrow a range, which take longer than all the rest
/// - `look` (`name`, `units`, `advice`: true, `numbers`: true): `check` as above, `schedule` as
///   below, and for people `key_numbers`, `numbers` (without them `check` has no `measures`
///   either), `steps`, and `words`, what a mentor said of findings: whether it `stands`
///   ("accepted", "reopened", "unused"), of which `finding` (counted from 0), the `rule` and the
///   place its record has (`where`), and how the program tells it (`says`)
/// - `calendar` (`units`): `ics`, an iCalendar file
/// - `draw` (`units`): `dot`, `title`, `about`
/// - `picture` (`svg`, `title`, `about`): `svg` that stands alone
/// - `change` (`patch`, RFC 6902): `plan`, the plan's text, changed
/// - `steps`: `plan`, its text with the usual steps in it
/// - `schema`: the JSON Schema of plans
///
/// and of those that an engine may be linked without (club.h):
///
/// - `measure` (`name`): what `measure --format json` prints
/// - `schedule` (`name`, `units`): what `schedule --format json` prints
/// - `explain` (`rule`, or nothing for all): what `explain --format json` prints
/// - `rows` (`rule`, `units`): `rows`, bounds and severities in words
/// - `cautions`: all cautions
/// - `draw_rule` (`rule`, `units`), `draw_process` (`units`): a rule, and the usual process, as
///   `draw` draws a plan
/// - `practice` (`name`): what the club's file changes: `club`, `rules` and `off`, in words; its
///   errors are told as a plan's
/// - `accepted` (`name`): `records`, each with the `rule` and `where` it says; errors likewise
/// - `accept` (`rule`, `where` it was found, `by`, `because`, `on`): `accepted`, the file that
///   `accept` writes
/// - `withdraw` (`rule`, `where` its record says): `accepted`, the file without it; one that
///   accepts nothing lies there as no file does
///
/// Two files may follow the plan's bytes, in this order: `accepted` is how many bytes the
/// acceptances kept beside the plan have, and `practice` how many a club's practice file has. All
/// that judges the plan heeds them as the program does; without them nothing is accepted and the
/// catalogue stands as it is. An engine that is linked without what only clubs need refuses both
/// files and those services.
///
/// `units` is "metric" or "us" and is of the texts only. `name` is what the plan's file is called.
/// A plan that cannot be used is told as `check` tells it; a request that cannot be carried out is
/// `{"error": "what is wrong"}`.

#include <string>
#include <string_view>

namespace starter {

/// Never throws, whatever the bytes. The answer is UTF-8 without a zero byte and ends in a line
/// feed.
std::string answer(std::string_view request, std::string_view plan) noexcept;

}  // namespace starter
