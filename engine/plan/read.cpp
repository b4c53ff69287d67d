#include "plan/read.h"

#include <memory>
#include <utility>

#include "plan/document.h"
#include "plan/fields.h"
#include "plan/parts.h"
#include "plan/pointer.h"
#include "plan/shape.h"
#include "plan/supply.h"

namespace starter {
namespace {

void list_written(const Node& node, const std::string& where, std::set<std::string>& written) {
  for (const auto& member : node.members) {
    const std::string place = pointer_to(where, member.name);
    written.insert(place);
    list_written(member.value, place, written);
  }
  for (std::size_t i = 0; i < node.items.size(); ++i) {
    const std::string place = pointer_to(where, i);
    written.insert(place);
    list_written(node.items[i], place, written);
  }
}

/// Whether the plan says that it is of a later version than this program reads.
bool is_newer(const Node& root) {
  const Node* version = root.find("plan");
  return version != nullptr && version->kind == Node::Kind::number && version->number >= 2;
}

void read_version(const Fields& fields) {
  fields.ask_for("plan", "the version of the plan's form, which is 1", R"("plan": 1)");
  const Node* version = fields.find("plan");
  if (version != nullptr && !(version->kind == Node::Kind::number && version->number == 1))
    fields.wrong("plan", described(*version) + " stands here; the version of the plan's form is 1",
                 "1");
}

/// The plan as written, nothing supplied.
Plan read_written(const Node& root, const Defaults& defaults, Report& report) {
  Plan plan;
  list_written(root, "", plan.written);
  const Fields fields(&root, "", shape::plan, report);
  read_version(fields);
  plan.title = fields.text("title").value_or("");
  plan.member = fields.text("member").value_or("");
  plan.start = fields.clock_time("start");

  fields.ask_for("beer", "the beer that the starter is for",
                 R"("beer": {"volume": "20 L", "gravity": "1.050 SG"})");
  fields.ask_for("yeast", "the yeast that is grown", R"("yeast": {"form": "liquid"})");
  constexpr std::string_view stages_example =
      R"("stages": [{"extract": {"kind": "light dry malt", "mass": "110 g"}, "water": "1.2 L"}])";
  fields.ask_for("stages", "the list of growths, often only one", std::string(stages_example));

  read_place(fields.object("place"), plan.place, report);
  read_beer(fields.object("beer"), defaults, plan.beer, plan.assumed, report);
  read_yeast(fields.object("yeast"), plan.yeast, report);

  const Node* vessels = fields.object("vessels");
  const bool readable =
      read_vessels(vessels, plan.vessels, report) &&
      (vessels != nullptr || !(fields.has("vessels") || fields.is_misspelt("vessels")));
  const bool no_vessels = vessels == nullptr || vessels->members.empty();
  const VesselNames names(plan.vessels, no_vessels, readable);
  read_stages(fields.list("stages", "[]"), names, plan.stages, plan.assumed, report);
  read_steps(fields.list("steps", R"([{"do": "boil"}])"), names, plan.stages, plan.steps,
             plan.assumed, report);
  return plan;
}

std::string in_kilobytes(std::size_t bytes) {
  return std::to_string(bytes / 1024) + " kB";
}

}  // namespace

PlanResult read_plan(std::string_view bytes, const Defaults& defaults) {
  Report report;
  if (bytes.size() > largest_plan) {
    report.add("", {},
               "the file is " + in_kilobytes(bytes.size()) + " large; a plan has at most " +
                   in_kilobytes(largest_plan),
               "");
    return report.in_file_order();
  }
  const auto root = read_document(bytes, report);
  if (!root) return report.in_file_order();
  if (root->kind != Node::Kind::object) {
    report.add("", root->at,
               described(*root) + " stands here; a plan is an object, its fields in braces",
               R"({"plan": 1})");
    return report.in_file_order();
  }
  if (is_newer(*root)) {
    // What a later version means by its fields is not for this one to judge.
    const Node& version = *root->find("plan");
    Report alone;
    alone.add(
        "/plan", version.at,
        "this plan says version " + short_number(version) + ": this program is older than the plan",
        "get the newer program, or write the plan for version 1");
    return alone.in_file_order();
  }
  Plan plan = read_written(*root, defaults, report);
  if (!report.empty()) return report.in_file_order();
  plan.source = std::make_shared<const std::string>(bytes);
  plan.read_with = std::make_shared<const Defaults>(defaults);
  supply_missing(plan, defaults);
  return plan;
}

}  // namespace starter
