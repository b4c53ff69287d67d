#include "plan/fields.h"
#include "plan/parts.h"
#include "plan/pointer.h"
#include "plan/shape.h"

namespace starter {
namespace {

Readings read_measured(const Node* node, const std::string& where, Report& report) {
  const Fields fields(node, where, shape::measured, report);
  Readings readings;
  readings.volume = fields.quantity("volume", a_volume);
  readings.volume_at = fields.quantity("volume_at", a_temperature);
  readings.gravity = fields.quantity("gravity", a_gravity);
  readings.gravity_at = fields.quantity("gravity_at", a_temperature);
  readings.chill_time = fields.quantity("chill_time", a_duration);
  readings.growth_time = fields.quantity("growth_time", a_duration);
  readings.cells = fields.quantity("cells", a_cell_count);
  readings.cells_counted = fields.whole_number("cells_counted", 1, most_cells_counted);
  readings.settling_time = fields.quantity("settling_time", a_duration);
  readings.cells_kept = fields.quantity("cells_kept", a_cell_count);
  return readings;
}

/// \return whether the stage is ready wort, for which the gravity is asked.
bool read_extract(const Node* node, const std::string& where, Stage& stage, Report& report) {
  const Fields fields(node, where, shape::extract, report);
  const auto kind = fields.word<ExtractKind>("kind");
  if (kind) stage.extract_kind = *kind;
  stage.extract_solids = fields.quantity("solids", a_share);
  if (kind == ExtractKind::wort) {
    if (fields.has("mass"))
      fields.wrong("mass", "ready wort has no extract to weigh; its gravity and volume say it all",
                   "take the mass out, and state the stage's \"gravity\"");
    return true;
  }
  const bool kind_is_wrong = fields.has("kind") && !kind;
  if (!kind_is_wrong) fields.ask_for("mass", "how much extract is weighed", R"("mass": "110 g")");
  if (const auto mass = fields.quantity("mass", a_mass)) stage.extract_mass = *mass;
  return false;
}

void read_vessel_name(const Fields& fields, const VesselNames& vessels, Stage& stage,
                      std::vector<Assumption>& assumed, Report& report) {
  const std::string where = fields.where("vessel");
  if (const auto name = fields.name("vessel")) {
    stage.vessel = *name;
    vessels.check(*name, where, fields.find("vessel")->at, report);
    return;
  }
  if (fields.has("vessel") || !vessels.readable()) return;
  stage.vessel = vessels.only_grower();
  if (stage.vessel.empty()) {
    fields.ask_for("vessel", "the name of the vessel that the starter grows in",
                   R"("vessel": "flask")");
    return;
  }
  assumed.push_back({where, stage.vessel,
                     "No vessel is named for this stage, so it is taken to grow in the only one "
                     "that can hold a starter."});
}

Stage read_stage(const Node* node, const std::string& where, const VesselNames& vessels,
                 std::vector<Assumption>& assumed, Report& report) {
  const Fields fields(node, where, shape::stage, report);
  Stage stage;
  fields.ask_for("extract", "what the wort is made from",
                 R"("extract": {"kind": "light dry malt", "mass": "110 g"})");
  const Node* extract = fields.object("extract");
  const bool is_wort =
      extract != nullptr && read_extract(extract, fields.where("extract"), stage, report);
  if (is_wort) {
    fields.ask_for("water", "for ready wort its volume", R"("water": "1.2 L")");
    fields.ask_for("gravity", "how strong the ready wort is", R"("gravity": "1.037 SG")");
  } else {
    fields.ask_for("water", "how much water the extract goes into", R"("water": "1.2 L")");
  }
  if (const auto water = fields.quantity("water", a_volume)) stage.water = *water;
  stage.gravity = fields.quantity("gravity", a_gravity);
  stage.wort_volume = fields.quantity("wort_volume", a_volume);
  stage.boil_off = fields.quantity("boil_off", a_boil_off);
  read_vessel_name(fields, vessels, stage, assumed, report);
  if (const auto word = fields.word<Agitation>("agitation")) stage.agitation = *word;
  if (const auto warmth = fields.quantity("temperature", a_temperature))
    stage.temperature = *warmth;
  if (const auto duration = fields.quantity("duration", a_duration)) stage.duration = *duration;
  stage.measured = read_measured(fields.object("measured"), fields.where("measured"), report);
  return stage;
}

}  // namespace

void read_stages(const Node* node, const VesselNames& vessels, std::vector<Stage>& stages,
                 std::vector<Assumption>& assumed, Report& report) {
  if (node == nullptr) return;
  constexpr std::string_view example =
      R"([{"extract": {"kind": "light dry malt", "mass": "110 g"}, "water": "1.2 L"}])";
  if (node->items.empty()) {
    report.add("/stages", node->at, "this list is empty; a starter grows in one stage at least",
               std::string(example));
    return;
  }
  if (node->items.size() > most_stages) {
    report.add("/stages", node->at,
               "there are " + std::to_string(node->items.size()) + " stages; at most " +
                   std::to_string(most_stages) + " are read",
               "keep those the plan needs");
    return;
  }
  for (std::size_t i = 0; i < node->items.size(); ++i) {
    const Node& item = node->items[i];
    const std::string where = pointer_to("/stages", i);
    const bool is_object = item.kind == Node::Kind::object;
    if (!is_object)
      report.add(where, item.at, described(item) + " stands here; wanted is a stage in braces",
                 std::string(example.substr(1, example.size() - 2)));
    stages.push_back(is_object ? read_stage(&item, where, vessels, assumed, report) : Stage{});
  }
}

}  // namespace starter
