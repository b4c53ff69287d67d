#pragma once

/// \file
/// Coefficients that nobody knows exactly.

namespace starter::science {

/// A coefficient with the span in which about 95 % of cases fall. The functions of this folder take
/// plain numbers; whoever wants a range calls them with `low`, `likely` and `high` in turn.
///
/// Every constant of this type states its unit and its source where it is declared.
struct Uncertain {
  double low, likely, high;
};

}  // namespace starter::science
