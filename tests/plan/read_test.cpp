// What a plan reads as: the fields of the example, and what is assumed of a short one.

#include <boost/test/unit_test.hpp>

#include "plan/read.h"
#include "plan_files.h"
#include "quantity/local_time.h"

namespace {

using namespace starter;
using namespace starter::literals;

BOOST_AUTO_TEST_SUITE(reading)

BOOST_AUTO_TEST_CASE(the_example) {
  const Plan plan = plan_in(example());
  BOOST_TEST(plan.title == "Starter for the harvest amber");
  BOOST_TEST(plan.member == "Wren");
  BOOST_REQUIRE(plan.start.has_value());
  BOOST_TEST(iso(*plan.start) == "2027-03-16T18:00");

  BOOST_TEST(plan.place.altitude.metres() == 240);
  BOOST_TEST(plan.place.tap_water.celsius() == 14);
  BOOST_TEST(plan.place.room.celsius() == 20);
  BOOST_TEST(plan.place.fridge.celsius() == 4);

  BOOST_CHECK(plan.beer.kind == BeerKind::ale);
  BOOST_TEST(plan.beer.volume.litres() == 20);
  BOOST_CHECK(plan.beer.gravity == Gravity::of(1.052_SG));
  BOOST_TEST(iso(plan.beer.brew_day.value()) == "2027-03-20T09:00");
  BOOST_TEST(plan.beer.ferment_at.celsius() == 19);
  BOOST_TEST(!plan.beer.yeast_due.has_value());
  BOOST_TEST(!plan.beer.keep_cells.has_value());

  BOOST_CHECK(plan.yeast.form == YeastForm::liquid);
  BOOST_TEST(plan.yeast.packs == 1);
  BOOST_TEST(plan.yeast.cells_per_pack.billion() == 100);
  BOOST_TEST(iso_day(plan.yeast.packaged.value()) == "2027-02-20");
  BOOST_TEST(plan.yeast.out_of_fridge.hours() == 3);

  BOOST_TEST(plan.vessels.size() == 2U);
  BOOST_CHECK(plan.vessels.at("tub").kind == VesselKind::tub);
  BOOST_TEST(plan.vessels.at("tub").capacity.litres() == 18);
  BOOST_CHECK(plan.vessels.at("tub").material == Material::plastic);

  BOOST_REQUIRE(plan.stages.size() == 1U);
  const Stage& stage = plan.stages.front();
  BOOST_TEST(stage.extract_mass.grams() == 110);
  BOOST_TEST(stage.water.litres() == 1.15);
  BOOST_TEST(stage.vessel == "flask");
  BOOST_CHECK(stage.agitation == Agitation::stir_plate);
  BOOST_TEST(stage.duration.hours() == 36);
  BOOST_TEST(plan.vessel_of(stage).capacity.litres() == 2);

  BOOST_REQUIRE(plan.steps.size() == 13U);
  const Step& boil = plan.steps[2];
  BOOST_CHECK(boil.does == Do::boil);
  BOOST_TEST(boil.path == "/steps/2");
  BOOST_TEST(boil.in.value() == "flask");
  BOOST_CHECK(boil.heat == HeatSource::gas);
  BOOST_CHECK(boil.lasts == 12_min);
  const Step& cover = plan.steps[3];
  BOOST_TEST(cover.with == std::vector<std::string>{"foil"}, boost::test_tools::per_element());
  BOOST_TEST(cover.during.value() == "boil");
  const Step& chill = plan.steps[4];
  BOOST_TEST(chill.bath->litres() == 10);
  BOOST_TEST(chill.ice->kilograms() == 1);
  BOOST_TEST(chill.ice_from->celsius() == 38);
  BOOST_TEST(chill.swirl);
  BOOST_TEST(chill.to->celsius() == 21);
  BOOST_TEST(plan.steps[5].items.size() == 3U);

  BOOST_TEST(plan.assumed.empty(), "the example leaves nothing out");
}

BOOST_AUTO_TEST_CASE(every_good_plan_is_read) {
  const auto names = plans_in("good");
  BOOST_TEST(names.size() >= 15U);
  for (const auto& name : names) BOOST_TEST_CONTEXT(name) {
      const Plan plan = plan_in(bytes_of(name));
      BOOST_TEST(!plan.stages.empty());
      BOOST_TEST(!plan.steps.empty());
      for (const auto& stage : plan.stages) BOOST_TEST(plan.vessels.count(stage.vessel) == 1U);
      for (const auto& step : plan.steps)
        BOOST_TEST(static_cast<std::size_t>(step.stage) < plan.stages.size());
      BOOST_REQUIRE(plan.source != nullptr);
      BOOST_TEST(*plan.source == bytes_of(name));
    }
}

BOOST_AUTO_TEST_CASE(written_lists_every_value_by_its_pointer) {
  const Plan plan = plan_in(bytes_of("good/bounds.plan.json"));
  BOOST_TEST(plan.wrote("/place"));
  BOOST_TEST(plan.wrote("/place/altitude"));
  BOOST_TEST(plan.wrote("/stages/0/extract/mass"));
  BOOST_TEST(plan.wrote("/vessels/a~1b~0c/capacity"), "RFC 6901 escapes / and ~");
  BOOST_TEST(!plan.wrote("/stages/0/vessel"), "assumed, not written");
  BOOST_TEST(!plan.wrote("/title"));
  const Plan step_up = plan_in(bytes_of("good/step-up.plan.json"));
  BOOST_TEST(step_up.wrote("/steps/5/items/2"));
  BOOST_TEST(!step_up.wrote("/steps/5/items/4"));
}

BOOST_AUTO_TEST_CASE(a_short_plan_lists_what_is_assumed) {
  const Plan plan = plan_in(short_plan());
  BOOST_TEST(plan.title == "Starter plan");
  BOOST_TEST(plan.member == "");
  BOOST_TEST(!plan.start.has_value());
  BOOST_TEST(!plan.beer.brew_day.has_value());
  BOOST_TEST(assumed_at(plan, "/title") == "Starter plan");
  BOOST_TEST(assumed_at(plan, "/place/altitude") == "100 m");
  BOOST_TEST(assumed_at(plan, "/place/tap_water") == "15 °C");
  BOOST_TEST(assumed_at(plan, "/place/room") == "20 °C");
  BOOST_TEST(assumed_at(plan, "/place/fridge") == "4 °C");
  BOOST_TEST(assumed_at(plan, "/beer/kind") == "ale");
  BOOST_TEST(assumed_at(plan, "/beer/ferment_at") == "19 °C");
  BOOST_TEST(assumed_at(plan, "/yeast/packs") == "1");
  BOOST_TEST(assumed_at(plan, "/yeast/cells_per_pack") == "100 billion");
  BOOST_TEST(assumed_at(plan, "/yeast/packaged") == "1 month");
  BOOST_TEST(assumed_at(plan, "/yeast/flocculation") == "medium");
  BOOST_TEST(assumed_at(plan, "/yeast/out_of_fridge") == "2 h");
  BOOST_TEST(assumed_at(plan, "/stages/0/extract/kind") == "light dry malt");
  BOOST_TEST(assumed_at(plan, "/stages/0/vessel") == "flask");
  BOOST_TEST(assumed_at(plan, "/stages/0/agitation") == "none");
  BOOST_TEST(assumed_at(plan, "/stages/0/temperature") == "20 °C");
  BOOST_TEST(assumed_at(plan, "/stages/0/duration") == "48 h");
  BOOST_TEST(assumed_at(plan, "/vessels") != "");
  BOOST_TEST(assumed_at(plan, "/steps") != "");
  BOOST_TEST(plan.assumed.size() == 19U);
  BOOST_TEST(plan.yeast.cells_per_pack.billion() == 100);
  BOOST_TEST(!plan.yeast.packaged.has_value());
}

BOOST_AUTO_TEST_CASE(defaults_may_be_a_clubs_own) {
  Defaults club;
  club.altitude = Altitude::metres(1600);
  club.ferment_lager = 9_degC;
  club.growth_unstirred = 72_h;
  const Plan plan =
      plan_in(with(short_plan(), "\"volume\"", "\"kind\": \"lager\", \"volume\""), club);
  BOOST_TEST(plan.place.altitude.metres() == 1600);
  BOOST_TEST(assumed_at(plan, "/place/altitude") == "1600 m");
  BOOST_TEST(plan.beer.ferment_at.celsius() == 9);
  BOOST_TEST(plan.stages[0].duration.hours() == 72);
}

BOOST_AUTO_TEST_CASE(the_fermentation_temperature_goes_by_the_kind_of_beer) {
  const auto usual = [](const std::string& kind) {
    return plan_in(with(short_plan(), "\"volume\"", "\"kind\": \"" + kind + "\", \"volume\""))
        .beer.ferment_at.celsius();
  };
  BOOST_TEST(usual("ale") == 19);
  BOOST_TEST(usual("lager") == 10);
  BOOST_TEST(usual("hybrid") == 16);
}

BOOST_AUTO_TEST_CASE(a_day_alone_begins_at_nine) {
  const std::string day =
      with(short_plan(), "\"volume\"", "\"brew_day\": \"2027-03-20\", \"volume\"");
  const Plan plan = plan_in(day);
  BOOST_TEST(iso(plan.beer.brew_day.value()) == "2027-03-20T09:00");
  BOOST_TEST(assumed_at(plan, "/beer/brew_day") == "2027-03-20T09:00");
  const Plan timed = plan_in(with(day, "2027-03-20", "2027-03-20T00:00"));
  BOOST_TEST(iso(timed.beer.brew_day.value()) == "2027-03-20T00:00");
  BOOST_TEST(assumed_at(timed, "/beer/brew_day") == "");
}

BOOST_AUTO_TEST_CASE(forms_of_yeast_have_their_own_defaults) {
  const auto of = [](const std::string& yeast) {
    return plan_in(with(short_plan(), "\"form\": \"liquid\"", yeast));
  };
  const Plan dry = of(R"("form": "dry")");
  BOOST_TEST(dry.yeast.pack_mass->grams() == 11);
  BOOST_TEST(assumed_at(dry, "/yeast/pack_mass") == "11 g");
  BOOST_TEST(dry.yeast.cells_per_pack.billion() == 0);
  BOOST_TEST(assumed_at(dry, "/yeast/packaged") == "");
  const Plan slurry = of(R"("form": "slurry", "slurry_volume": "100 mL")");
  BOOST_TEST(!slurry.yeast.slurry_density.has_value());
  BOOST_TEST(assumed_at(slurry, "/yeast/slurry_density") == "1.5 billion/mL");
  BOOST_TEST(assumed_at(slurry, "/yeast/packs") == "");
  const Plan counted = of(R"("form": "liquid", "viability": "85 %")");
  BOOST_TEST(counted.yeast.viability->percent() == 85);
  BOOST_TEST(assumed_at(counted, "/yeast/packaged") == "", "a measured viability needs no age");
}

BOOST_AUTO_TEST_CASE(the_assumed_flask_is_large_enough) {
  const auto capacity = [](const std::string& water) {
    const Plan plan = plan_in(with(short_plan(), "1.15 L", water));
    return plan.vessels.at("flask").capacity.litres();
  };
  BOOST_TEST(capacity("1.3 L") == 2);
  BOOST_TEST(capacity("1.31 L") == 5);
}

BOOST_AUTO_TEST_CASE(materials_go_by_the_kind_of_vessel) {
  const Plan plan = plan_in(short_plan_with(R"("vessels": {
      "a": {"kind": "conical flask", "capacity": "2 L"}, "b": {"kind": "sink", "capacity": "20 L"},
      "c": {"kind": "tub", "capacity": "20 L"}})"));
  BOOST_TEST(assumed_at(plan, "/vessels/a/material") == "borosilicate glass");
  BOOST_TEST(assumed_at(plan, "/vessels/b/material") == "stainless steel");
  BOOST_TEST(assumed_at(plan, "/vessels/c/material") == "plastic");
  BOOST_TEST(plan.stages[0].vessel == "a");
  for (const std::string kind : {"jug", "bottle", "jar"}) {
    const Plan one = plan_in(
        short_plan_with(R"("vessels": {"v": {"kind": ")" + kind + R"(", "capacity": "2 L"}})"));
    BOOST_CHECK(one.vessels.at("v").material == Material::soda_lime_glass);
  }
}

BOOST_AUTO_TEST_CASE(the_room_tells_the_growing_temperature) {
  const Plan plan = plan_in(short_plan_with(R"("place": {"room": "23 °C"})"));
  BOOST_TEST(plan.stages[0].temperature.celsius() == 23);
  BOOST_TEST(assumed_at(plan, "/stages/0/temperature") == "23 °C");
}

BOOST_AUTO_TEST_CASE(steps_tell_agitation_and_duration) {
  const auto stage = [](const std::string& steps) {
    return plan_in(short_plan_with("\"steps\": [" + steps + "]")).stages[0];
  };
  const Stage stirred = stage(R"({"do": "agitate", "with": "a clean stir bar", "for": "30 h"})");
  BOOST_CHECK(stirred.agitation == Agitation::stir_plate);
  BOOST_TEST(stirred.duration.hours() == 30);
  const Stage shaken = stage(R"({"do": "agitate"})");
  BOOST_CHECK(shaken.agitation == Agitation::shaken);
  BOOST_TEST(shaken.duration.hours() == 48);
  const Stage rested =
      stage(R"({"do": "rest", "for": "1 h"}, {"do": "pitch"}, {"do": "rest", "for": "60 h"})");
  BOOST_CHECK(rested.agitation == Agitation::none);
  BOOST_TEST(rested.duration.hours() == 60, boost::test_tools::tolerance(1e-12));
}

BOOST_AUTO_TEST_CASE(a_boil_step_governs_the_boil_off_of_its_stage) {
  const std::string stated = with(short_plan(), "\"1.15 L\"", R"("1.15 L", "boil_off": "200 mL")");
  BOOST_TEST(plan_in(stated).stages[0].boil_off->millilitres() == 200);
  const std::string both = with(stated, "{\"plan\": 1,",
                                R"({"plan": 1, "steps": [{"do": "boil", "boil_off": "0.1 L"}],)");
  BOOST_TEST(plan_in(both).stages[0].boil_off->millilitres() == 100);
}

BOOST_AUTO_TEST_CASE(an_unknown_step_is_kept_for_the_rules) {
  const Plan plan = plan_in(bytes_of("good/unknown-step.plan.json"));
  BOOST_TEST(plan.steps[0].verb == "hum");
  BOOST_TEST(!plan.steps[0].does.has_value());
  BOOST_TEST(plan.steps[0].into.value() == "a tune");
  const Plan warm = plan_in(short_plan_with(R"("steps": [{"do": "hum", "to": "30 °C"}])"));
  BOOST_TEST(warm.steps[0].to->celsius() == 30);
}

BOOST_AUTO_TEST_CASE(after_nothing_is_not_the_same_as_no_after) {
  const Plan plan = plan_in(bytes_of("good/after-nothing.plan.json"));
  BOOST_REQUIRE(plan.steps[0].after.has_value());
  BOOST_TEST(plan.steps[0].after->empty());
  BOOST_TEST(!plan.steps[1].after.has_value());
}

BOOST_AUTO_TEST_CASE(ready_wort_has_a_gravity_and_no_extract) {
  const Plan plan = plan_in(bytes_of("good/ready-wort.plan.json"));
  BOOST_CHECK(plan.stages[0].extract_kind == ExtractKind::wort);
  BOOST_TEST(plan.stages[0].extract_mass.grams() == 0);
  BOOST_CHECK(plan.stages[0].gravity == Gravity::of(9.2_degP));
}

BOOST_AUTO_TEST_SUITE_END()

// Both sides of every bound on values, as the last value that stands and the first that does not.
struct Bound {
  std::string from;  // in the plan below
  std::string stands;
  std::string refused;
};

BOOST_AUTO_TEST_SUITE(bounds)

BOOST_AUTO_TEST_CASE(hold_on_both_sides) {
  const std::string plan = short_plan_with(
      R"("place": {"altitude": "240 m", "room": "20 °C"},
         "vessels": {"flask": {"kind": "conical flask", "capacity": "2 L", "depth": "20 cm"}},
         "steps": [{"do": "boil", "for": "12 min", "boil_off": "0.1 L", "ice": "1 kg"}])");
  const std::vector<Bound> bounds = {
      {"240 m", "-430 m", "-431 m"},
      {"240 m", "9000 m", "9001 m"},
      {"20 °C", "-273.15 °C", "-273.16 °C"},
      {"20 °C", "0 K", "-0.01 K"},
      {"20 °C", "200 °C", "200.1 °C"},
      {"2 L", "0.001 L", "0 L"},
      {"2 L", "10000 L", "10000.1 L"},
      {"20 cm", "0.1 mm", "0 cm"},
      {"20 cm", "100 m", "101 m"},
      {"12 min", "0 min", "-1 min"},
      {"12 min", "3653 days", "3654 days"},
      {"0.1 L", "0 L", "-0.1 L"},
      {"1 kg", "1000 kg", "1000.1 kg"},
      {"1 kg", "0.1 g", "0 g"},
      {"1.050 SG", "0.98 SG", "0.979 SG"},
      {"1.050 SG", "1.2 SG", "1.201 SG"},
      {"1.050 SG", "0 °P", "-0.1 °P"},
      {"1.050 SG", "45 °P", "45.1 °P"},
      {"\"liquid\"", R"("liquid", "viability": "0 %")", R"("liquid", "viability": "-1 %")"},
      {"\"liquid\"", R"("liquid", "viability": "100 %")", R"("liquid", "viability": "100.1 %")"},
      {"\"liquid\"", R"("liquid", "packs": 1)", R"("liquid", "packs": 0)"},
      {"\"liquid\"", R"("liquid", "packs": 100)", R"("liquid", "packs": 101)"},
      {"\"liquid\"", R"("liquid", "cells_counted": 1)", R"("liquid", "cells_counted": 0)"},
      {"\"liquid\"", R"("liquid", "cells_per_pack": "1e15")",
       R"("liquid", "cells_per_pack": "1.1e15")"},
      {"\"liquid\"", R"("liquid", "cells_per_pack": "1 cells")",
       R"("liquid", "cells_per_pack": "0 billion")"},
      {"\"liquid\"", R"("liquid", "slurry_density": "100 billion/mL")",
       R"("liquid", "slurry_density": "101 billion/mL")"},
  };
  for (const auto& bound : bounds) BOOST_TEST_CONTEXT(bound.stands << " | " << bound.refused) {
      plan_in(with(plan, bound.from, bound.stands));
      BOOST_TEST(errors_of(with(plan, bound.from, bound.refused)).size() == 1U);
    }
}

BOOST_AUTO_TEST_CASE(counts_of_things) {
  const auto list = [](std::size_t count, const std::string& item) {
    std::string items;
    for (std::size_t i = 0; i < count; ++i) items += (i == 0 ? "" : ",") + item;
    return "[" + items + "]";
  };
  plan_in(short_plan_with("\"steps\": " + list(500, R"({"do": "rest"})")));
  errors_of(short_plan_with("\"steps\": " + list(501, R"({"do": "rest"})")));
  const std::string stages =
      R"("stages": )" + list(1, R"({"extract": {"mass": "110 g"}, "water": "1.15 L"})");
  const auto with_stages = [&](std::size_t count) {
    return with(short_plan(), stages,
                "\"stages\": " + list(count, R"({"extract": {"mass": "9 g"}, "water": "0.1 L"})"));
  };
  plan_in(with_stages(10));
  errors_of(with_stages(11));
  const auto with_title = [](std::size_t characters) {
    std::string title;
    for (std::size_t i = 0; i < characters; ++i) title += "é";
    return short_plan_with("\"title\": \"" + title + "\"");
  };
  plan_in(with_title(2000));
  errors_of(with_title(2001));
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
