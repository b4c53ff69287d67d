#pragma once

/// \file
/// Where a number stands among the bounds of its rule, drawn in one line of text.

#include "output/page.h"
#include "rules/judge.h"

namespace starter {

/// "···· 50 ──── 80 ━━━━ 110 ──── 135 ·· ● 152 g/L": heavy line comfortable, thin line outside it,
/// dots outside the hard bounds.
/// \return nothing for a finding that is not of a range rule.
Pieces scale_of(const Finding& finding, const Judgement& judgement, UnitSystem units);

}  // namespace starter
