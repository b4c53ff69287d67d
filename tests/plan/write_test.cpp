// A plan that is written reads back as the same plan.

#include <boost/test/unit_test.hpp>
#include <sstream>

#include "plan/layout.h"
#include "plan/write.h"
#include "plan_files.h"
#include "quantity/write.h"

namespace {

using namespace starter;

/// Everything a plan holds, each number with all its digits.
class Portrait {
 public:
  explicit Portrait(const Plan& plan) {
    out_.precision(17);
    add(plan.title, plan.member, plan.start);
    add(plan.place.altitude, plan.place.tap_water, plan.place.room, plan.place.fridge);
    const Beer& beer = plan.beer;
    add(beer.kind, beer.volume, beer.gravity, beer.brew_day, beer.yeast_due, beer.ferment_at,
        beer.keep_cells);
    const Yeast& yeast = plan.yeast;
    add(yeast.form, yeast.flocculation, yeast.packs, yeast.cells_per_pack, yeast.packaged,
        yeast.pack_mass, yeast.best_before, yeast.slurry_volume, yeast.slurry_density,
        yeast.viability, yeast.cells_counted, yeast.measured_cells, yeast.out_of_fridge);
    for (const auto& [name, v] : plan.vessels)
      add(name, v.kind, v.material, v.capacity, v.opening, v.depth, v.diameter, v.empty_mass,
          v.coil_allowed);
    for (const auto& s : plan.stages) {
      add(s.extract_kind, s.extract_mass, s.extract_solids, s.water, s.gravity, s.wort_volume,
          s.boil_off, s.vessel, s.agitation, s.temperature, s.duration);
      const Readings& m = s.measured;
      add(m.volume, m.volume_at, m.gravity, m.gravity_at, m.chill_time, m.growth_time, m.cells,
          m.cells_counted, m.settling_time, m.cells_kept);
    }
    for (const auto& s : plan.steps)
      add(s.verb, s.id, s.stage, s.path, s.in, s.from, s.into, s.with, s.items, s.to, s.at, s.lasts,
          s.heat, s.sealed, s.after, s.during, s.bath, s.bath_depth, s.ice, s.ice_from, s.swirl,
          s.water);
    for (const auto& a : plan.assumed) add(a.where, a.value);
  }
  std::string text() const { return out_.str(); }

 private:
  template <class... Things>
  void add(const Things&... things) {
    (one(things), ...);
    out_ << '\n';
  }
  void one(const std::string& v) { out_ << '<' << v << '>'; }
  void one(int v) { out_ << ' ' << v; }
  void one(bool v) { out_ << ' ' << v; }
  void one(Temperature t) { out_ << ' ' << t.celsius(); }
  void one(Gravity g) { out_ << ' ' << static_cast<int>(g.scale) << ':' << g.value; }
  void one(LocalTime t) { out_ << ' ' << t.minutes(); }
  template <class Q>
  void one(const Scalar<Q>& q) {
    out_ << ' ' << q.base();
  }
  template <class Word>
  requires std::is_enum_v<Word>
  void one(Word w) { out_ << ' ' << static_cast<int>(w); }
  template <class T>
  void one(const std::optional<T>& v) {
    if (v)
      one(*v);
    else
      out_ << " -";
  }
  void one(const std::vector<std::string>& v) {
    out_ << '[' << v.size();
    for (const auto& text : v) one(text);
    out_ << ']';
  }
  std::ostringstream out_;
};

std::string portrait(const Plan& plan) {
  return Portrait(plan).text();
}

BOOST_AUTO_TEST_SUITE(writing)

BOOST_AUTO_TEST_CASE(every_good_plan_reads_back_the_same) {
  auto names = plans_in("good");
  names.push_back("harvest-amber.plan.json");
  for (const auto& name : names) BOOST_TEST_CONTEXT(name) {
      const Plan plan = plan_in(bytes_of(name));
      const std::string text = write_plan(plan);
      const Plan back = plan_in(text);
      BOOST_TEST(portrait(back) == portrait(plan));
      BOOST_TEST(write_plan(back) == text);
    }
}

BOOST_AUTO_TEST_CASE(what_is_assumed_is_left_to_the_club) {
  const Plan plan = plan_in(short_plan());
  BOOST_TEST(write_plan(plan) ==
             "{\n"
             "  \"plan\": 1,\n"
             "  \"beer\": {\"volume\": \"20 L\", \"gravity\": \"1.050 SG\"},\n"
             "  \"yeast\": {\"form\": \"liquid\"},\n"
             "  \"stages\": [\n"
             "    {\"extract\": {\"mass\": \"110 g\"}, \"water\": \"1.15 L\"}\n"
             "  ]\n"
             "}\n");
}

BOOST_AUTO_TEST_CASE(a_plan_made_by_a_program_is_written_whole) {
  Plan plan = plan_in(short_plan());
  plan.assumed.clear();  // as if every value had been chosen
  plan.written.clear();
  plan.place.room = Temperature::celsius(22.5);
  const Plan back = plan_in(write_plan(plan));
  BOOST_TEST(back.place.room.celsius() == 22.5);
  BOOST_TEST(back.wrote("/vessels/flask/material"));
  BOOST_TEST(back.steps.size() == plan.steps.size());
  BOOST_TEST(back.stages[0].duration.hours() == plan.stages[0].duration.hours());
  // Only the age of the yeast, which the model does not hold, is still open.
  BOOST_TEST(back.assumed.size() == 1U);
}

BOOST_AUTO_TEST_CASE(the_stage_of_a_step_is_said_where_it_could_be_mistaken) {
  Plan plan = plan_in(bytes_of("good/step-up.plan.json"));
  plan.written.clear();
  plan.steps.resize(4);
  plan.steps[2].stage = 1;
  plan.steps[3].stage = 0;
  const Plan back = plan_in(write_plan(plan));
  BOOST_TEST(back.steps[1].stage == 0);
  BOOST_TEST(back.steps[2].stage == 1);
  BOOST_TEST(back.steps[3].stage == 0);
}

BOOST_AUTO_TEST_CASE(numbers_are_as_short_as_they_can_be) {
  const auto written = [](const std::string& field, const std::string& typed) {
    const std::string text =
        write_plan(plan_in(short_plan_with("\"place\": {\"" + field + "\": \"" + typed + "\"}")));
    const auto at = text.find(field) + field.size() + 4;
    return text.substr(at, text.find('"', at) - at);
  };
  BOOST_TEST(written("room", "68 °F") == "20 °C");
  BOOST_TEST(written("room", "66 °F") == "66 °F");
  BOOST_TEST(written("room", "20.125 °C") == "20.125 °C");
  BOOST_TEST(written("altitude", "0.24 km") == "240 m");
  BOOST_TEST(written("altitude", "800 ft") == "800 ft");
}

BOOST_AUTO_TEST_CASE(odd_texts_survive) {
  const Plan plan = plan_in(short_plan_with(R"("title": "a \"b\" \\ \n c/é\t\ud83c\udf7a")"));
  BOOST_TEST(plan_in(write_plan(plan)).title == plan.title);
}

BOOST_AUTO_TEST_CASE(layout_is_for_people) {
  const std::string text = write_plan(plan_in(example()));
  BOOST_TEST(
      text.find(
          "    {\"do\": \"boil\", \"in\": \"flask\", \"heat\": \"gas\", \"for\": \"12 min\"},\n") !=
      std::string::npos);
  BOOST_TEST(text.find("  \"vessels\": {\n    \"flask\": {\"kind\": \"conical flask\"") !=
             std::string::npos);
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) BOOST_TEST(line.size() <= 130U, line);
  BOOST_TEST(lay_out(nlohmann::ordered_json::object()) == "{}\n");
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
