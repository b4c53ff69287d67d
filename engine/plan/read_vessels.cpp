#include "plan/fields.h"
#include "plan/parts.h"
#include "plan/pointer.h"
#include "plan/shape.h"
#include "quantity/words.h"

namespace starter {
namespace {

/// \return whether its kind could be read.
bool read_vessel(const Node* node, const std::string& where, Vessel& vessel, Report& report) {
  const Fields fields(node, where, shape::vessel, report);
  fields.ask_for("kind", "what it is: a conical flask, a jug, a pot, a tub",
                 R"("kind": "conical flask")");
  fields.ask_for("capacity", "how much it holds, to its mark", R"("capacity": "2 L")");
  const auto kind = fields.word<VesselKind>("kind");
  if (kind) vessel.kind = *kind;
  if (const auto capacity = fields.quantity("capacity", a_volume)) vessel.capacity = *capacity;
  if (const auto material = fields.word<Material>("material")) vessel.material = *material;
  vessel.opening = fields.quantity("opening", a_length);
  vessel.depth = fields.quantity("depth", a_length);
  vessel.diameter = fields.quantity("diameter", a_length);
  vessel.empty_mass = fields.quantity("empty_mass", a_mass);
  vessel.coil_allowed = fields.yes_or_no("coil_allowed").value_or(false);
  return kind.has_value();
}

}  // namespace

bool read_vessels(const Node* node, std::map<std::string, Vessel>& vessels, Report& report) {
  if (node == nullptr) return true;
  if (node->members.size() > most_vessels) {
    report.add("/vessels", node->at,
               "there are " + std::to_string(node->members.size()) + " vessels; at most " +
                   std::to_string(most_vessels) + " are read",
               "keep those the plan uses");
    return false;
  }
  bool readable = true;
  for (const auto& member : node->members) {
    const std::string where = pointer_to("/vessels", member.name);
    check_name(member.name, where, member.at, report);
    if (member.value.kind != Node::Kind::object) {
      report.add(where, member.value.at,
                 described(member.value) + " stands here; wanted is an object that describes " +
                     starter::quoted(member.name),
                 R"({"kind": "conical flask", "capacity": "2 L"})");
      readable = false;
      continue;
    }
    if (!read_vessel(&member.value, where, vessels[member.name], report)) readable = false;
  }
  return readable;
}

VesselNames::VesselNames(const std::map<std::string, Vessel>& declared, bool absent, bool readable)
    : absent_(absent), readable_(readable) {
  std::vector<std::string> growers;
  if (absent) {
    names_.emplace_back(assumed_vessel);
    growers = names_;
  }
  for (const auto& [name, vessel] : declared) {
    names_.push_back(name);
    if (vessel.kind != VesselKind::tub && vessel.kind != VesselKind::sink) growers.push_back(name);
  }
  if (growers.size() == 1) only_grower_ = growers.front();
}

void VesselNames::check(const std::string& name, const std::string& where, Position at,
                        Report& report) const {
  if (!readable_) return;
  for (const auto& known : names_)
    if (known == name) return;
  const std::vector<std::string_view> known(names_.begin(), names_.end());
  const auto nearest = nearest_word(name, known);
  std::string says = starter::quoted(name) + " is not among the plan's vessels";
  std::string write;
  if (nearest) {
    write = *nearest;
  } else {
    // A vessel is best called by what it is, so a name that is a kind tells what to declare.
    const auto kind = spelling(from_spelling<VesselKind>(name).value_or(VesselKind::jug));
    write = "in \"vessels\": " + starter::quoted(name) + R"(: {"kind": ")" + std::string(kind) +
            R"(", "capacity": "2 L"})";
    if (!absent_ && !known.empty()) says += ", which are " + one_of(known);
  }
  report.add(where, at, std::move(says), std::move(write));
}

}  // namespace starter
