#include "command/questions.h"

#include <algorithm>

#include "quantity/words.h"

namespace starter {
namespace {

using Json = nlohmann::ordered_json;

std::string given(const Answers& answers, std::string_view name, std::string_view usual) {
  const auto found = answers.find(name);
  return found == answers.end() || found->second.empty() ? std::string(usual) : found->second;
}
bool is_slurry(const Answers& a) {
  return given(a, "yeast", "liquid") == "slurry";
}
bool is_dry(const Answers& a) {
  return given(a, "yeast", "liquid") == "dry";
}
bool in_packs(const Answers& a) {
  return !is_slurry(a);
}
bool ages(const Answers& a) {
  return !is_dry(a);
}
/// A jug, a bottle or a jar must not be heated; a bare coil may break a flask, and induction does
/// not heat it.
bool boils_elsewhere(const Answers& a) {
  const std::string kind = given(a, "grows-in", "conical flask"), heat = given(a, "heat", "gas");
  if (kind == "pot") return false;
  return kind != "conical flask" || heat == "electric coil" || heat == "induction";
}

// Usual values are common practice, no source.
constexpr Question table[] = {
    {"title", "/title", "What do you call this starter?", "Starter for the plum porter",
     "My starter"},
    {"member", "/member", "Who are you?", "Wren, Lantern Lane Brewers; or empty", ""},
    {"kind", "/beer/kind", "Which kind of beer is it for?", "ale, lager or hybrid", "ale"},
    {"volume", "/beer/volume", "How much beer will you brew?", "20 L or 5 gal", "", true},
    {"gravity", "/beer/gravity", "How strong is its wort before fermentation?",
     "1.050 SG or 12.4 °P", "", true},
    {"brew-day", "/beer/brew_day", "On which day do you brew?",
     "2027-04-10, or 2027-04-10T09:00 with the hour", "", true},
    {"yeast", "/yeast/form", "What does the yeast come as?", "liquid, dry or slurry", "liquid"},
    {"packs", "/yeast/packs", "How many packs do you have?", "1", "1", false, in_packs},
    {"slurry-volume", "/yeast/slurry_volume", "How much slurry do you have?", "100 mL", "", true,
     is_slurry},
    {"packaged", "/yeast/packaged", "Which day of packaging, or of harvest, is written on it?",
     "2027-03-01; empty if unknown", "", false, ages},
    {"best-before", "/yeast/best_before", "Until when is it good, by its label?",
     "2028-01-31; empty if unknown", "", false, is_dry},
    {"keep-cells", "/beer/keep_cells", "How many cells do you want to keep for another batch?",
     "50 billion; empty for none", ""},
    {"altitude", "/place/altitude", "How high above the sea do you live?", "310 m or 1000 ft",
     "100 m", false, nullptr, true},
    {"tap-water", "/place/tap_water", "How cold is your tap water?", "14 °C or 57 °F", "15 °C",
     false, nullptr, true},
    {"room", "/place/room", "How warm is the room where the starter grows?", "20 °C or 68 °F",
     "20 °C", false, nullptr, true},
    {"heat", "/steps/0/heat", "What do you boil on?",
     "gas, electric coil, electric glass or induction", "gas", false, nullptr, true},
    {"grows-in", "/vessels/flask/kind", "What will the starter grow in?",
     "conical flask, jug, bottle, jar or pot", "conical flask", false, nullptr, true},
    {"flask", "/vessels/flask/capacity", "How much does the vessel it grows in hold, to its mark?",
     "2 L", "", true, nullptr, true},
    {"pot", "/vessels/pot/capacity", "How much does the pot hold that you boil in?", "5 L", "",
     true, boils_elsewhere, true},
    {"tub", "/vessels/tub/capacity", "How much does the tub or sink hold that you chill in?",
     "15 L", "15 L", false, nullptr, true},
    {"agitation", "/stages/0/agitation", "How will you move the growing starter?",
     "stir plate, shaken or none", "shaken", false, nullptr, true},
};

/// A plan in which one answer at a time is tried.
Json trial() {
  return Json::parse(R"({
    "plan": 1, "beer": {"volume": "20 L", "gravity": "1.050 SG"}, 
    "yeast": {"form": "liquid", "slurry_volume": "100 mL"},
    "vessels": {"flask": {"kind": "conical flask", "capacity": "2 L"},
                "pot": {"kind": "pot", "capacity": "5 L"},
                "tub": {"kind": "tub", "capacity": "15 L"}},
    "stages": [{"extract": {"mass": "110 g"}, "water": "1.1 L", "vessel": "flask"}],
    "steps": [{"do": "boil"}]})");
}

bool is_whole_number(const std::string& text) {
  return !text.empty() && text.size() < 10 &&
         std::all_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; });
}

/// What a starter cannot grow in is a word that the plan knows, so its reader lets it pass.
std::optional<PlanError> wrong_grower(const std::string& text) {
  if (text != "tub" && text != "sink") return std::nullopt;
  return PlanError{"", 0, "a starter does not grow in a " + text, "conical flask"};
}

/// What the reader of plans says of an answer; nothing when it can stand.
std::optional<PlanError> read_as_answer(const Question& question, const std::string& text) {
  Json plan = trial();
  put_answer(question, text, plan);
  const PlanResult result = read_plan(plan.dump());
  const auto* errors = std::get_if<std::vector<PlanError>>(&result);
  if (errors == nullptr || errors->empty()) return std::nullopt;
  PlanError error = errors->front();
  error.line = 0;
  return error;
}

/// Those texts of a hint, "1.2 L or 1200 L", that could stand as the answer; empty when none could.
std::string that_can_stand(const Question& question, std::string_view hint) {
  constexpr std::string_view between = " or ";
  std::string good;
  while (!hint.empty()) {
    const std::size_t end = std::min(hint.find(between), hint.size());
    const std::string one(hint.substr(0, end));
    if (!read_as_answer(question, one)) good += (good.empty() ? "" : std::string(between)) + one;
    hint.remove_prefix(std::min(end + between.size(), hint.size()));
  }
  return good;
}

/// What to write instead: the reader's guess at what was meant, where it made one that can stand;
/// else the question's own example, which fits better than the reader's for any such quantity.
std::string hint_for(const Question& question, const std::string& guess) {
  const auto of_nothing = read_as_answer(question, "?");
  const bool general = of_nothing && of_nothing->write == guess;
  const std::string hint = general ? "" : that_can_stand(question, guess);
  return hint.empty() ? std::string(question.example) : hint;
}

}  // namespace

std::span<const Question> questions() {
  return table;
}

bool applies(const Question& question, const Answers& answers) {
  return question.applies == nullptr || question.applies(answers);
}

std::optional<std::string> answer_to(const Question& question, const Answers& answers) {
  const std::string text = given(answers, question.name, question.usual);
  return text.empty() ? std::nullopt : std::optional(text);
}

void put_answer(const Question& question, const std::string& text, Json& plan) {
  Json& field = plan[Json::json_pointer(std::string(question.where))];
  if (question.name == "packs" && is_whole_number(text))
    field = std::stoi(text);
  else
    field = text;
}

std::optional<PlanError> wrong_answer(const Question& question, const std::string& text) {
  if (!valid_utf8(text))
    return PlanError{"", 0, "these bytes are not text in UTF-8", std::string(question.example)};
  if (question.name == "grows-in")
    if (auto wrong = wrong_grower(text)) return wrong;
  auto error = read_as_answer(question, text);
  if (error) error->write = hint_for(question, error->write);
  return error;
}

}  // namespace starter
