#pragma once

/// \file
/// Services that tell of the rules, the cautions and the usual process, and a plan's numbers by
/// themselves: what the site's pages are made from. answer.h documents them. An engine that only
/// judges a member's plan is linked without them (club.h).

#include "browser/request.h"

namespace starter {

Json tell_measures(const Request& request);
Json tell_schedule(const Request& request);
Json explain(const Request& request);
Json tell_rows(const Request& request);
Json tell_cautions(const Request& request);
Json draw_rule(const Request& request);
Json draw_process(const Request& request);

}  // namespace starter
