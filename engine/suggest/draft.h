#pragma once

/// \file
/// Changes of a plan that can be made, left out and made again.
///
/// JSON Patch (RFC 6902) names a step by where it stands, so a patch means something else once an
/// earlier one that brought or moved a step is left out. A StableOp names a step by who it is, and
/// is turned into a patch for the plan it meets.

#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <vector>

namespace starter {

/// Who stands where in a list of steps: a number for each, never used again.
class StepIds {
 public:
  explicit StepIds(std::size_t steps = 0);

  std::size_t size() const { return ids_.size(); }
  int at(std::size_t index) const { return ids_[index]; }
  std::optional<std::size_t> index_of(int id) const;
  /// A number that nothing had yet.
  int fresh() { return next_++; }
  void insert(std::size_t before, int id);
  void erase(std::size_t index);
  void assign(int first, std::size_t count);

 private:
  std::vector<int> ids_;
  int next_ = 0;
};

struct StableOp {
  enum class Kind { field, insert_step, remove_step, move_step, all_steps };
  Kind kind = Kind::field;
  std::string op;    ///< field: "add", "replace" or "remove"
  std::string path;  ///< field: JSON pointer, behind the step when there is one
  std::optional<int> step;
  std::optional<int> before;     ///< insert and move: the step it goes in front of; none: last
  nlohmann::ordered_json value;  ///< field, insert_step, all_steps
};

/// `patch` for the plan whose steps `ids` names; `ids` is what they are afterwards.
/// \return nothing for an operation that a fix never makes.
std::optional<std::vector<StableOp>> stable(const nlohmann::ordered_json& patch, StepIds& ids);

/// The operations as a patch for `document`, which is patched, as are the `ids` of its steps.
/// \return nothing when they do not fit: a step or a place they name is not there.
std::optional<nlohmann::ordered_json> rejoin(const std::vector<StableOp>& ops,
                                             nlohmann::ordered_json& document, StepIds& ids);

}  // namespace starter
