#pragma once

/// \file
/// What club practice supplies where a plan is silent.

#include "plan/model.h"
#include "plan/read.h"

namespace starter {

/// Fills in everything the member left out and lists it in `plan.assumed`.
/// \pre `plan.written` says what the member wrote, and what has no default is there: the beer's
///      volume and gravity, the yeast's form, the stages with their extract, water and vessel.
void supply_missing(Plan& plan, const Defaults& defaults);

}  // namespace starter
