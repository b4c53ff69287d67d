#include "suggest/sizing.h"

#include <algorithm>
#include <cmath>

#include "measures/workings.h"
#include "plan/json.h"
#include "plan/limits.h"
#include "plan/pointer.h"
#include "plan/write.h"
#include "quantity/write.h"
#include "science/extract.h"

namespace starter {
namespace {

using nlohmann::ordered_json;
constexpr auto metric = UnitSystem::metric;

// What is aimed at; common practice, no source.
constexpr double aimed_grams_a_litre = 95;                  ///< dry extract in the finished wort
constexpr double aimed_coverage = 1.15;                     ///< cells over need
constexpr double aimed_million_per_mL = 60;                 ///< into the first of several stages
constexpr double smallest_stage = 0.3;                      ///< L
constexpr double flask_sizes[] = {1, 2, 3, largest_flask};  ///< L, as flasks are sold
constexpr double largest_bought = largest_flask * most_filled;  ///< L of water, in a new flask
constexpr double longest_growth = 72;                           ///< h

std::size_t at(int i) {
  return static_cast<std::size_t>(i);
}

ordered_json add(const std::string& path, ordered_json value) {
  return {{"op", "add"}, {"path", path}, {"value", std::move(value)}};
}

double rounded(double value, double grain) {
  return round_to_digits(std::round(value / grain) * grain, 12);
}

double litre_grain(double litres) {
  return litres < 2 ? 0.05 : litres < 10 ? 0.1 : 0.5;
}

/// A stage that is being sized.
struct Size {
  double litres = 1;
  double grams = 96;
  double hours = 36;
  std::string vessel;
};

struct Moved {
  Agitation agitation = Agitation::shaken;
  std::optional<Temperature> temperature;
};

ordered_json stage_json(const Size& size, const Moved& moved) {
  ordered_json stage;
  stage["extract"] = {{"kind", "light dry malt"}, {"mass", write(Mass::grams(size.grams), metric)}};
  stage["water"] = write(Volume::litres(size.litres), metric);
  if (!size.vessel.empty()) stage["vessel"] = size.vessel;
  stage["agitation"] = std::string(spelling(moved.agitation));
  if (moved.temperature) stage["temperature"] = write(*moved.temperature, metric);
  stage["duration"] = write(Duration::hours(size.hours), metric);
  return stage;
}

/// Makes a plan of sizes, or nothing where they give none.
using Make = std::function<std::optional<Plan>(const std::vector<Size>&)>;

Workings worked(const Plan& plan) {
  return work_out(plan, unfold(plan), Draw{});
}

/// Extract for the strength aimed at, and the hours this growth needs, for the stage at `s`.
bool fit_extract_and_time(const Make& make, std::vector<Size>& sizes, std::size_t s) {
  for (int turn = 0; turn < 3; ++turn) {
    const auto plan = make(sizes);
    if (!plan) return false;
    const Workings workings = worked(*plan);
    const StageWorking& x = workings.stages[plan->stages.size() - sizes.size() + s];
    const double litres = x.volume.litres();
    const double dry = science::dry_malt_equivalent(x.wort).grams_per_litre();
    if (litres <= 0 || dry <= 0) return false;
    sizes[s].grams = std::max(1.0, std::round(sizes[s].grams * aimed_grams_a_litre / dry));
    const double needed = std::ceil(1.1 * x.growth_needed.hours() / 12) * 12;
    sizes[s].hours = std::clamp(needed, 12.0, longest_growth);
  }
  return true;
}

std::optional<double> coverage(const Make& make, const std::vector<Size>& sizes) {
  const auto plan = make(sizes);
  if (!plan) return std::nullopt;
  const Workings w = worked(*plan);
  if (w.cells_needed <= CellCount()) return std::nullopt;
  return w.cells_at_pitch / w.cells_needed;
}

/// Sizes the last stage so that the beer gets its cells: halving the interval, as what a stage
/// brings grows with its size. \return whether there is such a size.
bool fit_last(const Make& make, std::vector<Size>& sizes, double most) {
  Size& last = sizes.back();
  const auto covered = [&](double litres) -> std::optional<double> {
    last.litres = litres;
    last.grams = std::round(litres * aimed_grams_a_litre);
    if (!fit_extract_and_time(make, sizes, sizes.size() - 1)) return std::nullopt;
    return coverage(make, sizes);
  };
  double low = smallest_stage, high = most;
  const auto at_most = covered(high);
  if (!at_most || *at_most < aimed_coverage) return false;
  for (int turn = 0; turn < 9; ++turn) {
    const double middle = std::sqrt(low * high);
    const auto there = covered(middle);
    if (!there) return false;
    (*there < aimed_coverage ? low : high) = middle;
  }
  const double grain = litre_grain(high);
  const double marked = std::min(std::ceil(high / grain - 1e-9), std::floor(most / grain + 1e-9));
  return covered(rounded(marked * grain, grain)).has_value();
}

/// The member's vessels that may hold a starter, smallest first.
std::vector<std::pair<std::string, double>> growers(const Plan& plan) {
  std::vector<std::pair<std::string, double>> found;
  for (const auto& [name, vessel] : plan.vessels)
    if (may_grow(vessel) && plan.wrote(pointer_to("/vessels", name)))
      found.emplace_back(name, vessel.capacity.litres());
  std::stable_sort(found.begin(), found.end(),
                   [](const auto& a, const auto& b) { return a.second < b.second; });
  return found;
}

std::optional<std::string> vessel_for(const Plan& plan, double litres,
                                      const std::string& not_this) {
  for (const auto& [name, capacity] : growers(plan))
    if (name != not_this && capacity * most_filled >= litres) return name;
  return std::nullopt;
}

std::string free_name(const std::map<std::string, Vessel>& taken, const std::string& wanted) {
  std::string name = wanted;
  for (int n = 2; taken.count(name) > 0; ++n) name = wanted + " " + std::to_string(n);
  return name;
}

/// The flask as sold that holds a stage with room for foam, L.
double flask_for(double litres) {
  for (const double sold : flask_sizes)
    if (sold * most_filled >= litres) return sold;
  return largest_flask;
}

ordered_json flask_json(double litres) {
  return {{"kind", "conical flask"},
          {"capacity", write(Volume::litres(flask_for(litres)), metric)},
          {"material", "borosilicate glass"}};
}

std::string told(const Size& size, UnitSystem units) {
  return write(Volume::litres(size.litres), units) + " of water with " +
         write(Mass::grams(size.grams), units) + " of extract";
}

// --- steps ------------------------------------------------------------------------------------

/// Steps of the usual process as they stand in a plan, their baths measured out. A plan without
/// steps was measured with a bath and ice that suit it; those are written down.
ordered_json usual_steps(Plan plan) {
  const Workings w = worked(plan);
  for (const StageWorking& x : w.stages) {
    if (!x.chill) continue;
    Step& chill = plan.steps[at(x.chill->step)];
    double bath = x.chill->bath.litres();
    if (chill.in) bath = std::min(bath, plan.vessels.at(*chill.in).capacity.litres() * 0.6);
    chill.bath = Volume::litres(std::max(1.0, rounded(bath, bath < 10 ? 0.5 : 1)));
    chill.swirl = true;
    const double ice = std::ceil(x.chill->ice.kilograms() * 10 - 1e-9) / 10;
    if (ice <= 0) continue;
    chill.ice = Mass::kilograms(ice);
    chill.ice_from = Temperature::celsius(40);
  }
  plan.assumed.erase(std::remove_if(plan.assumed.begin(), plan.assumed.end(),
                                    [](const Assumption& a) { return a.where == "/steps"; }),
                     plan.assumed.end());
  return parse_json(write_plan(plan)).at("steps");
}

bool leads_to_the_beer(const Step& step) {
  return step.does == Do::warm || step.does == Do::pitch_to_beer || step.does == Do::krausen_pitch;
}

/// Adds the steps of the stage that `with_stage`, the plan without its steps, has more than `plan`.
void add_steps_of_new_stage(const Plan& plan, const Plan& with_stage, ordered_json& patch) {
  const int stage = static_cast<int>(plan.stages.size());
  const ordered_json usual = usual_steps(with_stage);
  std::size_t before = plan.steps.size();
  for (std::size_t i = 0; i < plan.steps.size(); ++i)
    if (plan.steps[i].stage == stage - 1 && leads_to_the_beer(plan.steps[i])) {
      before = i;
      break;
    }
  for (std::size_t i = before; i < plan.steps.size(); ++i)
    if (plan.wrote(plan.steps[i].path + "/stage"))
      patch.push_back(add(plan.steps[i].path + "/stage", stage + 1));
  std::size_t slot = before;
  for (std::size_t i = 0; i < with_stage.steps.size(); ++i) {
    const Step& step = with_stage.steps[i];
    if (step.stage != stage || leads_to_the_beer(step)) continue;
    ordered_json json = usual[i];
    if (slot == before) {
      ordered_json first = {{"do", json.at("do")}, {"stage", stage + 1}};
      for (const auto& item : json.items())
        if (!first.contains(item.key())) first[item.key()] = item.value();
      json = std::move(first);
    }
    patch.push_back(add("/steps/" + std::to_string(slot++), json));
  }
}

}  // namespace

bool lacks_only_stages(const ordered_json& document, const Defaults& defaults) {
  if (!document.is_object()) return false;
  if (document.contains("stages") &&
      !(document.at("stages").is_array() && document.at("stages").empty()))
    return false;
  ordered_json with = document;
  with["stages"] = ordered_json::array({stage_json({}, {})});
  const PlanResult read = read_plan(with.dump(), defaults);
  if (std::holds_alternative<Plan>(read)) return true;
  // With several vessels the stage has to name one.
  const auto& errors = std::get<std::vector<PlanError>>(read);
  return std::all_of(errors.begin(), errors.end(),
                     [](const PlanError& e) { return e.where == "/stages/0/vessel"; });
}

std::optional<Plan> with_any_stage(const ordered_json& document, const Defaults& defaults) {
  if (!document.is_object()) return std::nullopt;
  ordered_json bare = document;
  // With several vessels the stage has to name one.
  std::vector<std::string> names = {""};
  if (document.contains("vessels") && document.at("vessels").is_object())
    for (const auto& item : document.at("vessels").items()) names.push_back(item.key());
  for (const std::string& name : names) {
    Size first;
    first.vessel = name;
    bare["stages"] = ordered_json::array({stage_json(first, {})});
    if (auto known = plan_of_document(bare, defaults)) return known;
  }
  return std::nullopt;
}

std::optional<Sized> size_stages(const ordered_json& document, std::span<const Rule> rules,
                                 UnitSystem units, const Defaults& defaults) {
  const std::optional<Plan> known = with_any_stage(document, defaults);
  if (!known) return std::nullopt;
  const bool has_steps = known->wrote("/steps/0");
  const double living = worked(*known).cells_available.billion();

  double largest = largest_bought;
  for (const auto& own : growers(*known)) largest = std::max(largest, own.second * most_filled);

  std::optional<Sized> best;
  std::tuple<double, int, int> best_worth;
  for (int count = 1; count <= 3 && !(has_steps && count > 1); ++count) {
    ordered_json whole = document;
    std::vector<Size> sizes(at(count));
    const Make make = [&](const std::vector<Size>& now) {
      ordered_json stages = ordered_json::array();
      for (const Size& size : now) stages.push_back(stage_json(size, {}));
      whole["stages"] = std::move(stages);
      return plan_of_document(whole, defaults);
    };
    // To find the sizes, all grow in one flask that holds anything.
    ordered_json vessels =
        document.contains("vessels") ? document.at("vessels") : ordered_json::object();
    const std::string roomy = free_name(known->vessels, "roomy");
    whole["vessels"] = vessels;
    whole["vessels"][roomy] = {{"kind", "conical flask"}, {"capacity", "200 L"}};
    for (Size& size : sizes) size.vessel = roomy;
    bool fits = true;
    for (std::size_t s = 0; s + 1 < sizes.size() && fits; ++s) {
      const double litres = living * std::pow(4.0, static_cast<double>(s)) / aimed_million_per_mL;
      sizes[s].litres = std::max(smallest_stage, rounded(litres, litre_grain(litres)));
      if (sizes[s].litres > largest) fits = false;
      if (!fits) break;
      sizes[s].grams = std::round(sizes[s].litres * aimed_grams_a_litre);
      fits = fit_extract_and_time(make, sizes, s);
    }
    if (!fits || !fit_last(make, sizes, largest)) continue;

    // Then each gets a vessel: one of the member's, else one to be bought.
    Asks asks = Asks::nothing;
    std::string before;
    std::map<std::string, Vessel> taken = known->vessels;
    if (!document.contains("vessels")) taken.clear();
    for (Size& size : sizes) {
      if (const auto own = vessel_for(*known, size.litres, before)) {
        size.vessel = *own;
      } else if (size.litres > largest_bought + 1e-9) {
        fits = false;
        break;
      } else {
        size.vessel = free_name(taken, sizes.size() == 1    ? "flask"
                                       : &size == &sizes[0] ? "small flask"
                                                            : "large flask");
        taken[size.vessel] = Vessel();
        vessels[size.vessel] = flask_json(size.litres);
        asks = Asks::purchase;
      }
      before = size.vessel;
    }
    if (!fits) continue;
    whole["vessels"] = vessels;
    if (vessels.empty()) whole.erase("vessels");
    for (std::size_t s = 0; s < sizes.size(); ++s)
      if (!fit_extract_and_time(make, sizes, s)) fits = false;
    auto plan = fits ? make(sizes) : std::nullopt;
    if (!plan) continue;
    double found = 0;
    for (const Verdict& v : quick_verdicts(*plan, rules))
      if (v.severity >= Severity::weakens) found += std::pow(3.0, static_cast<int>(v.severity));
    const auto worth = std::tuple(found, static_cast<int>(asks), count);
    if (best && worth >= best_worth) continue;
    best_worth = worth;
    best.emplace();
    best->asks = asks;
    best->says = "grow in ";
    for (std::size_t s = 0; s < sizes.size(); ++s)
      best->says +=
          (s == 0 ? "" : ", then in ") + told(sizes[s], units) + " (“" + sizes[s].vessel + "”)";
    best->patch = ordered_json::array();
    if (whole.contains("vessels") &&
        (!document.contains("vessels") || document.at("vessels") != whole.at("vessels"))) {
      if (!document.contains("vessels"))
        best->patch.push_back(add("/vessels", whole.at("vessels")));
      else
        for (const auto& item : whole.at("vessels").items())
          if (!document.at("vessels").contains(item.key()))
            best->patch.push_back(add(pointer_to("/vessels", item.key()), item.value()));
    }
    ordered_json stages = add("/stages", whole.at("stages"));
    if (document.contains("stages")) stages["op"] = "replace";
    best->patch.push_back(std::move(stages));
    best->plan = std::move(*plan);
  }
  return best;
}

std::optional<int> packs_for_one_starter(const ordered_json& document, std::span<const Rule> rules,
                                         const Defaults& defaults) {
  if (document.at("yeast").value("form", "") == spelling(YeastForm::slurry)) return std::nullopt;
  ordered_json more = document;
  const ordered_json& packs = document.at("yeast").value("packs", ordered_json(1));
  if (!packs.is_number_integer()) return std::nullopt;
  for (int n = packs.get<int>() + 1; n <= most_packs_tried; ++n) {
    more["yeast"]["packs"] = n;
    if (size_stages(more, rules, UnitSystem::metric, defaults)) return n;
  }
  return std::nullopt;
}

std::optional<Way> step_up(const Plan& plan, UnitSystem units) {
  if (plan.stages.size() >= 3) return std::nullopt;
  if (plan.wrote("/steps") && plan.steps.size() + 15 > most_steps) return std::nullopt;
  const Stage& last = plan.stages.back();
  const std::string stage_path = "/stages/" + std::to_string(plan.stages.size() - 1);
  Moved moved;
  moved.agitation = last.agitation == Agitation::none ? Agitation::shaken : last.agitation;
  if (plan.wrote(stage_path + "/temperature")) moved.temperature = last.temperature;
  ordered_json patch;
  std::vector<Size> sizes(1);
  std::optional<std::string> bought;
  double capacity = 0;
  // Without its steps the plan gets the usual ones, of the new stage too.
  const auto assemble = [&](const std::vector<Size>& now, bool with_steps) {
    patch = ordered_json::array();
    if (bought) {
      const ordered_json flask = flask_json(capacity);
      if (plan.wrote("/vessels"))
        patch.push_back(add(pointer_to("/vessels", *bought), flask));
      else
        patch.push_back(add("/vessels", {{last.vessel, flask_json(0.5)}, {*bought, flask}}));
    }
    patch.push_back(add("/stages/-", stage_json(now.back(), moved)));
    if (!with_steps && plan.wrote("/steps"))
      patch.push_back({{"op", "remove"}, {"path", "/steps"}});
    return patched_plan(plan, patch);
  };
  const Make make = [&](const std::vector<Size>& now) { return assemble(now, false); };

  std::vector<std::pair<std::string, double>> choices;
  for (const auto& own : growers(plan))
    if (own.first != last.vessel) choices.push_back(own);
  choices.emplace_back("", 0);  // one to be bought
  for (const auto& [name, holds] : choices) {
    bought.reset();
    double most = holds * most_filled;
    if (name.empty()) {
      if (!plan.wrote("/vessels")) return std::nullopt;
      bought = free_name(plan.vessels, "large flask");
      capacity = largest_bought;
      most = largest_bought;
    }
    sizes[0].vessel = name.empty() ? *bought : name;
    if (!fit_last(make, sizes, most)) continue;
    if (bought) {
      capacity = sizes[0].litres;
      if (!fit_extract_and_time(make, sizes, 0)) continue;
    }
    const auto with_stage = make(sizes);
    if (!with_stage) continue;
    Way way;
    way.asks = bought ? Asks::purchase : Asks::taste;
    way.says = "grow once more, in " + told(sizes[0], units) + " (“" + sizes[0].vessel + "”";
    if (bought)
      way.says += ", a flask of " + write(Volume::litres(flask_for(capacity)), units) + " or more";
    way.says += "), and pitch that";
    const Plan usual = *with_stage;
    if (!assemble(sizes, true)) continue;
    way.patch = patch;
    if (plan.wrote("/steps")) add_steps_of_new_stage(plan, usual, way.patch);
    return way;
  }
  return std::nullopt;
}

std::optional<Way> written_steps(const Plan& plan) {
  if (plan.wrote("/steps/0")) return std::nullopt;
  Way way;
  way.says = "write the usual steps down, with a measured bath and its ice";
  way.patch.push_back({{"op", plan.wrote("/steps") ? "replace" : "add"},
                       {"path", "/steps"},
                       {"value", usual_steps(plan)}});
  return way;
}

std::optional<Way> evening_start(const Plan& plan) {
  if (plan.start || !plan.beer.brew_day) return std::nullopt;
  const auto latest = worked(plan).times.latest_start;
  if (!latest) return std::nullopt;
  constexpr std::int64_t day = 24 * 60, evening = 18 * 60;
  std::int64_t start = latest->minutes() / day * day + evening;
  if (start > latest->minutes()) start -= day;
  const LocalTime at_six = LocalTime::from_minutes(start);
  Way way;
  way.asks = Asks::time;
  way.says = "begin on " + spoken(at_six) + ", the last evening that leaves time enough";
  way.patch.push_back(add("/start", iso(at_six)));
  return way;
}

}  // namespace starter
