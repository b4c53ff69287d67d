#pragma once

/// \file
/// Comparing the engine with the outside world, and keeping account of it.
///
/// A `Check` is one row of RESULTS.md: what is compared, with whom, over how many points, and the
/// worst difference found. Every point is asserted as well, so a row that is out of tolerance fails
/// the program that made it. When the environment variable REFERENCE_TALLIES names a folder, the
/// rows of a subject go into a file of that name there, from which page.py makes the page.
///
/// Example:
///
///     Check brix{"extract", "SG of whole degrees", "NBS Circular 440, Table 114",
///                Label::published, within(0.0001, "SG")};
///     brix.point(sg(10_degP).sg(), 1.04003, "10 °P");

#include <boost/test/unit_test.hpp>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <fstream>
#include <set>
#include <sstream>
#include <string>
#include <utility>

namespace reference {

/// What stands behind a reference value.
enum class Label {
  published,  ///< a source that can be looked up, or another program that carries it
  practice,   ///< common practice, no source
  memory,     ///< from memory, not confirmed
  identity,   ///< arithmetic or a conservation law; needs no source
};

inline const char* spelling(Label label) {
  switch (label) {
    case Label::published:
      return "published";
    case Label::practice:
      return "practice";
    case Label::memory:
      return "memory";
    case Label::identity:
      return "identity";
  }
  return "";
}

/// How far from the reference a point may lie.
struct Tolerance {
  enum class Kind { difference, share, span, at_least, at_most };
  Kind kind = Kind::difference;
  double most = 0;
  std::string unit;
};
/// A difference in that unit.
inline Tolerance within(double most, std::string unit) {
  return {Tolerance::Kind::difference, most, std::move(unit)};
}
/// A share of the reference value.
inline Tolerance share_of_value(double most) {
  return {Tolerance::Kind::share, most, ""};
}
/// The reference is a span, and the value lies in it; see `Check::between`.
inline Tolerance inside_the_span() {
  return {Tolerance::Kind::span, 0, ""};
}
/// The value is a figure of its own, bounded on one side; see `Check::bounded`.
inline Tolerance at_least(double bound, std::string unit) {
  return {Tolerance::Kind::at_least, bound, std::move(unit)};
}
inline Tolerance at_most(double bound, std::string unit) {
  return {Tolerance::Kind::at_most, bound, std::move(unit)};
}

class Check {
 public:
  Check(std::string subject, std::string what, std::string source, Label label, Tolerance tolerance)
      : subject_(std::move(subject)),
        what_(std::move(what)),
        source_(std::move(source)),
        label_(label),
        tolerance_(std::move(tolerance)),
        row_(next_row()) {}
  Check(const Check&) = delete;
  Check& operator=(const Check&) = delete;
  ~Check() {
    BOOST_TEST(points_ > 0, what_ << " compares something");
    write();
  }

  void point(double computed, double reference, const std::string& at = "") {
    double apart = std::abs(computed - reference);
    if (tolerance_.kind == Tolerance::Kind::share) apart /= std::abs(reference);
    note(apart, apart <= tolerance_.most, computed, at, " for ", reference);
  }

  void between(double computed, double low, double high, const std::string& at = "") {
    const double outside = std::max({low - computed, computed - high, 0.0});
    note(outside, outside <= 0, computed, at, " outside the span that begins at ", low);
  }

  void bounded(double computed, const std::string& at = "") {
    const bool at_least = tolerance_.kind == Tolerance::Kind::at_least;
    const bool good = at_least ? computed >= tolerance_.most : computed <= tolerance_.most;
    if (points_ == 0) worst_ = computed;
    worst_ = at_least ? std::min(worst_, computed) : std::max(worst_, computed);
    ++points_;
    BOOST_TEST(good, what_ << ", " << at << ": " << computed << " against " << tolerance_.most);
  }

 private:
  void note(double apart, bool good, double computed, const std::string& at, const char* says,
            double reference) {
    ++points_;
    if (!(apart <= worst_)) worst_ = apart;
    BOOST_TEST(good, what_ << ", " << at << ": " << computed << says << reference);
  }

  static int next_row() {
    static int rows = 0;
    return ++rows;
  }

  void write() const {
    const char* folder = std::getenv("REFERENCE_TALLIES");
    if (!folder) return;
    static std::set<std::string> begun;
    const auto mode = begun.insert(subject_).second ? std::ios::trunc : std::ios::app;
    std::ofstream file(std::string(folder) + "/" + subject_ + ".tsv", mode);
    std::ostringstream numbers;
    numbers.precision(9);
    numbers << points_ << '\t' << worst_ << '\t' << static_cast<int>(tolerance_.kind) << '\t'
            << tolerance_.most;
    file << row_ << '\t' << subject_ << '\t' << what_ << '\t' << source_ << '\t' << spelling(label_)
         << '\t' << numbers.str() << '\t' << tolerance_.unit << '\n';
    BOOST_TEST(file.good(), "the tally of " << subject_ << " is written");
  }

  std::string subject_, what_, source_;
  Label label_;
  Tolerance tolerance_;
  int row_;  ///< rows end in another order than they begin
  int points_ = 0;
  double worst_ = 0;
};

}  // namespace reference
