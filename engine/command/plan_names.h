#pragma once

/// \file
/// What the files made of plans are called.

#include <set>
#include <string>

namespace starter {

/// "harvest-amber" of "plans/harvest-amber.plan.json"; "plan" of standard input.
std::string plan_stem(const std::string& name);

/// Stems that are each given out once, so that plans of one name in several folders do not become
/// one file.
class StemsOnce {
 public:
  /// plan_stem(), with "-2", "-3" and so on where it is taken.
  std::string of(const std::string& name);

 private:
  std::set<std::string> taken_;
};

/// Whether there is a folder of this name.
bool is_folder(const std::string& name);

}  // namespace starter
