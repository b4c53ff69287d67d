#include "suggest/draft.h"

#include <algorithm>
#include <charconv>
#include <string_view>

namespace starter {
namespace {

using nlohmann::ordered_json;

constexpr std::string_view steps = "/steps";
constexpr auto nowhere = static_cast<std::size_t>(-1);

/// A pointer into the list of steps: the index, "-" as the end, and what follows.
struct StepPlace {
  std::size_t index = 0;
  std::string rest;
};

std::optional<StepPlace> step_place(const std::string& path, std::size_t count) {
  if (path.rfind("/steps/", 0) != 0) return std::nullopt;
  const std::size_t begin = steps.size() + 1;
  const std::size_t slash = path.find('/', begin);
  const std::string index = path.substr(begin, slash - begin);
  StepPlace place;
  if (slash != std::string::npos) place.rest = path.substr(slash);
  if (index == "-") {
    place.index = count;
    return place;
  }
  const auto end = index.data() + index.size();
  const auto read = std::from_chars(index.data(), end, place.index);
  if (read.ec != std::errc() || read.ptr != end || place.index > count) return std::nullopt;
  return place;
}

std::string step_path(std::size_t index) {
  return std::string(steps) + "/" + std::to_string(index);
}

std::optional<int> id_before(const StepIds& ids, std::size_t index) {
  return index < ids.size() ? std::optional(ids.at(index)) : std::nullopt;
}

std::optional<StableOp> stable_step(const ordered_json& op, const StepPlace& to, StepIds& ids) {
  const std::string what = op.at("op").get<std::string>();
  StableOp made;
  if (what == "add") {
    made.kind = StableOp::Kind::insert_step;
    made.value = op.at("value");
    made.before = id_before(ids, to.index);
    made.step = ids.fresh();
    ids.insert(to.index, *made.step);
    return made;
  }
  if (what == "move") {
    const auto from = step_place(op.at("from").get<std::string>(), ids.size());
    if (!from || !from->rest.empty() || from->index >= ids.size()) return std::nullopt;
    made.kind = StableOp::Kind::move_step;
    made.step = ids.at(from->index);
    ids.erase(from->index);
    if (to.index > ids.size()) return std::nullopt;
    made.before = id_before(ids, to.index);
    ids.insert(to.index, *made.step);
    return made;
  }
  if (to.index >= ids.size() || what != "remove") return std::nullopt;
  made.kind = StableOp::Kind::remove_step;
  made.step = ids.at(to.index);
  ids.erase(to.index);
  return made;
}

std::optional<StableOp> stable_op(const ordered_json& op, StepIds& ids) {
  StableOp made;
  made.op = op.at("op").get<std::string>();
  const std::string path = op.at("path").get<std::string>();
  if (op.contains("value")) made.value = op.at("value");
  if (path == steps) {
    if (made.op == "remove" || !made.value.is_array()) return std::nullopt;
    made.kind = StableOp::Kind::all_steps;
    made.step = ids.fresh();
    for (std::size_t i = 1; i < made.value.size(); ++i) ids.fresh();
    ids.assign(*made.step, made.value.size());
    return made;
  }
  const bool of_a_step = path.rfind("/steps/", 0) == 0;
  const auto place = step_place(path, ids.size());
  if (of_a_step && !place) return std::nullopt;
  if (place) {
    if (place->rest.empty()) return stable_step(op, *place, ids);
    if (place->index >= ids.size()) return std::nullopt;
    made.step = ids.at(place->index);
    made.path = place->rest;
  } else {
    made.path = path;
  }
  if (made.op != "add" && made.op != "replace" && made.op != "remove") return std::nullopt;
  return made;
}

/// "add" for what is not there yet and "replace" for what is; in lists as it was meant.
std::string op_for(const ordered_json& document, const std::string& path, const std::string& op) {
  if (op == "remove") return op;
  const ordered_json::json_pointer pointer(path);
  const auto parent = pointer.parent_pointer();
  if (!document.contains(parent) || !document.at(parent).is_object()) return op;
  return document.contains(pointer) ? "replace" : "add";
}

std::optional<ordered_json> patch_op(const StableOp& op, const ordered_json& document,
                                     StepIds& ids) {
  const std::size_t at = op.step ? ids.index_of(*op.step).value_or(nowhere) : nowhere;
  const std::size_t before = op.before ? ids.index_of(*op.before).value_or(nowhere) : ids.size();
  switch (op.kind) {
    case StableOp::Kind::all_steps:
      ids.assign(*op.step, op.value.size());
      return ordered_json{{"op", op_for(document, std::string(steps), op.op)},
                          {"path", std::string(steps)},
                          {"value", op.value}};
    case StableOp::Kind::insert_step:
      if (before == nowhere) return std::nullopt;
      ids.insert(before, *op.step);
      return ordered_json{{"op", "add"}, {"path", step_path(before)}, {"value", op.value}};
    case StableOp::Kind::remove_step:
      if (at == nowhere) return std::nullopt;
      ids.erase(at);
      return ordered_json{{"op", "remove"}, {"path", step_path(at)}};
    case StableOp::Kind::move_step: {
      if (at == nowhere || before == nowhere) return std::nullopt;
      ids.erase(at);
      const std::size_t to = before > at ? before - 1 : before;
      ids.insert(to, *op.step);
      return ordered_json{{"op", "move"}, {"from", step_path(at)}, {"path", step_path(to)}};
    }
    case StableOp::Kind::field:
      break;
  }
  if (op.step && at == nowhere) return std::nullopt;
  const std::string path = op.step ? step_path(at) + op.path : op.path;
  ordered_json made = {{"op", op_for(document, path, op.op)}, {"path", path}};
  if (op.op != "remove") made["value"] = op.value;
  return made;
}

}  // namespace

StepIds::StepIds(std::size_t count) {
  for (std::size_t i = 0; i < count; ++i) ids_.push_back(fresh());
}

std::optional<std::size_t> StepIds::index_of(int id) const {
  const auto found = std::find(ids_.begin(), ids_.end(), id);
  if (found == ids_.end()) return std::nullopt;
  return static_cast<std::size_t>(found - ids_.begin());
}

void StepIds::insert(std::size_t before, int id) {
  ids_.insert(ids_.begin() + static_cast<std::ptrdiff_t>(before), id);
}

void StepIds::erase(std::size_t index) {
  ids_.erase(ids_.begin() + static_cast<std::ptrdiff_t>(index));
}

void StepIds::assign(int first, std::size_t count) {
  ids_.clear();
  for (std::size_t i = 0; i < count; ++i) ids_.push_back(first + static_cast<int>(i));
}

std::optional<std::vector<StableOp>> stable(const ordered_json& patch, StepIds& ids) {
  std::vector<StableOp> made;
  for (const ordered_json& op : patch) {
    auto next = stable_op(op, ids);
    if (!next) return std::nullopt;
    made.push_back(std::move(*next));
  }
  return made;
}

std::optional<ordered_json> rejoin(const std::vector<StableOp>& ops, ordered_json& document,
                                   StepIds& ids) {
  ordered_json patch = ordered_json::array();
  try {
    for (const StableOp& op : ops) {
      auto next = patch_op(op, document, ids);
      if (!next) return std::nullopt;
      document = document.patch(ordered_json::array({*next}));
      patch.push_back(std::move(*next));
    }
  } catch (const ordered_json::exception&) {
    return std::nullopt;  // what it names is not there
  }
  return patch;
}

}  // namespace starter
