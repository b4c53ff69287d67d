#pragma once

/// \file
/// The engine behind one function, for a page that runs it in the browser: a request in JSON and
/// the bytes of a plan file go in, JSON comes out.
///
/// A request is an object; "do" says what is wanted, with these other members:
///
/// - `check` (`name`, `units`, `fixes`: true): what `check --format json` prints
/// - `measure` (`name`): what `measure --format json` prints
/// - `schedule` (`name`, `units`): what `schedule --format json` prints
/// - `explain` (`rule`, or nothing for all): what `explain --format json` prints
/// - `look` (`name`, `units`, `fixes`: true): `check` and `schedule` as above, and for people
///   `key_numbers`, `numbers`, `visits`
/// - `rows` (`rule`, `units`): `rows`, bounds and severities in words
/// - `calendar` (`units`): `ics`, an iCalendar file
/// - `draw` (`units`, `rule` or `standard`): `dot`, `title`, `about`
/// - `picture` (`svg`, `title`, `about`): `svg` that stands alone
/// - `change` (`patch`, RFC 6902): `plan`, the plan's text, changed
/// - `steps`: `plan`, its text with the usual steps in it
/// - `schema`: the JSON Schema of plans
/// - `cautions`: all cautions
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
