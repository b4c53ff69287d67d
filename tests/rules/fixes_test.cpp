// A fix mends what it is for and breaks nothing else.

#include <boost/test/unit_test.hpp>
#include <map>
#include <set>

#include "rules/case_files.h"
#include "rules/catalogue.h"
#include "rules/fixes.h"
#include "rules/knobs.h"

using namespace starter;
using nlohmann::ordered_json;

BOOST_AUTO_TEST_SUITE(fixes)

namespace {

/// The same rule at the same stage, told as more than possible.
const Finding* same(const std::vector<Finding>& findings, const Finding& f) {
  for (const Finding& other : findings)
    if (other.rule == f.rule && other.stage == f.stage && other.certainty != Certainty::possible)
      return &other;
  return nullptr;
}

int count(const std::vector<Finding>& findings, const Finding& f) {
  int found = 0;
  for (const Finding& other : findings)
    found +=
        other.rule == f.rule && other.stage == f.stage && other.certainty != Certainty::possible;
  return found;
}

void check_fix(const JudgedCase& one, const Finding& f) {
  const ordered_json mended = one.of.plan.patch(ordered_json::parse(f.fix->patch));
  JudgeOptions options;
  options.fixes = false;
  const Judgement after = judge(plan_from(mended), catalogue(), options);
  // Several findings of a rule in one stage are mended one by one.
  const int left = count(after.findings, f), before = count(one.judgement.findings, f);
  BOOST_CHECK_MESSAGE(left < before, f.rule->id << " still speaks after " << f.fix->patch << "\n"
                                                << (left ? same(after.findings, f)->says : ""));
  for (const Finding& now : after.findings) {
    if (now.severity < Severity::weakens || now.rule == f.rule) continue;
    const Finding* old = same(one.judgement.findings, now);
    const bool heard = old && old->severity >= now.severity;
    // What was behind the finding and yielded to it comes to light when that is mended.
    const auto& yields = now.rule->yields_to;
    const bool behind = std::find(yields.begin(), yields.end(), f.rule->id) != yields.end();
    BOOST_CHECK_MESSAGE(heard || behind, f.rule->id << " is mended by " << f.fix->patch
                                                    << ", but now " << now.rule->id << ": "
                                                    << now.says);
  }
}

}  // namespace

BOOST_AUTO_TEST_CASE(every_patch_mends_and_breaks_nothing) {
  std::set<std::string> worded, patched;
  int checked = 0;
  for (const JudgedCase& one : judged_cases()) {
    if (!one.of.breaks) continue;
    BOOST_TEST_CONTEXT(one.of.name())
    for (const Finding& f : one.judgement.findings) {
      if (!f.fix) continue;
      worded.insert(f.rule->id);
      if (f.fix->patch.empty()) continue;
      patched.insert(f.rule->id);
      check_fix(one, f);
      ++checked;
    }
  }
  BOOST_TEST_MESSAGE(worded.size()
                     << " of " << catalogue().size() << " rules give fixes in words, "
                     << patched.size() << " as patches; " << checked << " patches checked");
  BOOST_TEST(patched.size() >= 40U);
}

BOOST_AUTO_TEST_CASE(every_rule_that_names_a_fix_gives_one_in_a_case) {
  std::set<std::string> given;
  for (const JudgedCase& one : judged_cases())
    for (const Finding& f : one.judgement.findings)
      if (f.fix) given.insert(f.rule->id);
  for (const Rule& rule : catalogue())
    BOOST_CHECK_MESSAGE(rule.fixes.empty() || given.count(rule.id), rule.id << " never gives one");
}

BOOST_AUTO_TEST_CASE(a_short_plan_gets_words_and_no_patch_of_steps_it_has_not_written) {
  ordered_json plan = sound_example();
  plan.erase("steps");
  plan["place"]["tap_water"] = "27 °C";
  const Judgement j = judge(plan_from(plan), catalogue());
  for (const Finding& f : j.findings)
    if (f.fix && !f.fix->patch.empty())
      for (const auto& op : ordered_json::parse(f.fix->patch))
        BOOST_TEST(op.at("path").get<std::string>().rfind("/steps", 0) != 0U);
}

BOOST_AUTO_TEST_CASE(a_fix_that_moves_the_trouble_says_so_and_gives_no_patch) {
  ordered_json plan = sound_example();
  plan["beer"]["kind"] = "lager";
  const Judgement j = judge(plan_from(plan), catalogue());
  const auto f = std::find_if(j.findings.begin(), j.findings.end(),
                              [](const Finding& one) { return one.rule->id == "cells-enough"; });
  BOOST_REQUIRE((f != j.findings.end() && f->fix));
  BOOST_TEST(f->fix->says.find("– but then the boiling vessel does not hold that") !=
             std::string::npos);
  BOOST_TEST(f->fix->patch.empty());
}

namespace {

const Finding& finding_of(const Judgement& j, const char* rule) {
  const auto f = std::find_if(j.findings.begin(), j.findings.end(),
                              [&](const Finding& one) { return one.rule->id == rule; });
  BOOST_REQUIRE_MESSAGE(f != j.findings.end(), rule);
  return *f;
}

bool holds(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

ordered_json lesson_plan(const char* name) {
  return ordered_json::parse(file_text(std::string("lessons/") + name + "/plan.json"));
}

/// How each rule's fix is told.
std::map<std::string, std::string> fixes_of(const ordered_json& plan) {
  std::map<std::string, std::string> told;
  for (const Finding& f : judge(plan_from(plan), catalogue()).findings)
    if (f.fix) told[f.rule->id] = f.fix->says;
  return told;
}

}  // namespace

BOOST_AUTO_TEST_CASE(a_fix_that_makes_another_finding_worse_says_so) {
  // Fewer litres would crowd the cells enough, but the beer gets too few as it is.
  const Judgement j = judge(plan_from(lesson_plan("05-how-many-cells")), catalogue());
  const Finding& f = finding_of(j, "inoculation");
  BOOST_REQUIRE(f.fix);
  BOOST_TEST(holds(f.fix->says, "– but then the beer would get too few cells, more so than now"));
  BOOST_TEST(!holds(f.fix->patch, "/water"));
}

// Every lesson's plan that the printed fixes can mend is mended by them, one after the other.
BOOST_AUTO_TEST_CASE(fixes_followed_one_by_one_leave_nothing_unsaid) {
  for (const char* name : {"02-shuffled-cards", "03-how-much-extract", "05-how-many-cells",
                           "13-air-and-stirring", "18-yeast-that-waits", "20-the-exam"}) {
    ordered_json plan = lesson_plan(name);
    for (int turn = 0; turn < 15; ++turn) {
      const Judgement j = judge(plan_from(plan), catalogue());
      const auto next = std::find_if(j.findings.begin(), j.findings.end(), [](const Finding& f) {
        return f.severity > Severity::note && f.fix && !f.fix->patch.empty();
      });
      if (next == j.findings.end()) break;
      plan = plan.patch(ordered_json::parse(next->fix->patch));
    }
    const Judgement mended = judge(plan_from(plan), catalogue());
    // What stays is a fact that no patch may rewrite; its fix says what to buy or do.
    for (const Finding& f : mended.findings)
      BOOST_TEST((f.severity <= Severity::note || (f.fix && f.fix->patch.empty())),
                 name << ": " << f.rule->id << ": " << f.says);
  }
}

BOOST_AUTO_TEST_CASE(a_fix_names_the_stage_that_would_suffer_and_the_grams_to_weigh) {
  const Judgement j = judge(plan_from(lesson_plan("16-stepping-up")), catalogue());
  const Finding& f = finding_of(j, "weak-pack-first-step");
  BOOST_REQUIRE(f.fix);
  BOOST_TEST(holds(f.fix->says, "near 1.020, with 17 g of extract"));
  BOOST_TEST(holds(f.fix->says, ", in stage 2"));
}

BOOST_AUTO_TEST_CASE(a_cold_rest_before_the_pitch_goes_behind_the_growth) {
  const ordered_json early = sound_example().patch(
      ordered_json::parse(R"([{"op": "move", "from": "/steps/9", "path": "/steps/7"}])"));
  const Judgement j = judge(plan_from(early), catalogue());
  const Finding& f = finding_of(j, "pitch-before-crash");
  BOOST_REQUIRE(f.fix);
  BOOST_TEST(early.patch(ordered_json::parse(f.fix->patch))["steps"] == sound_example()["steps"]);
}

BOOST_AUTO_TEST_CASE(a_number_that_prints_like_the_bound_it_is_beyond_says_on_which_side) {
  ordered_json plan = lesson_plan("16-stepping-up");
  plan["stages"][1]["water"] = "2.98 L";
  plan["stages"][1]["extract"]["mass"] = "276 g";
  const Judgement j = judge(plan_from(plan), catalogue());
  const Finding& f = finding_of(j, "stage-step");
  BOOST_TEST(holds(f.says, "stage 2 is just over 10 times the stage before it"));
  BOOST_TEST(holds(f.margin, "just over 10"));
  // Where the two print differently, nothing is added.
  const Judgement far = judge(plan_from(lesson_plan("16-stepping-up")), catalogue());
  BOOST_TEST(!holds(finding_of(far, "stage-step").says, "just over"));
}

BOOST_AUTO_TEST_CASE(nobody_is_told_to_get_what_no_kitchen_holds) {
  // More than a vessel of 5 L grows: what else can be done is worked out.
  ordered_json lager = sound_example();
  lager["beer"]["kind"] = "lager";
  lager["beer"]["volume"] = "60 L";
  auto told = fixes_of(lager);
  BOOST_TEST(holds(told["cells-enough"], "packs and grow three starters, each in "),
             told["cells-enough"]);
  BOOST_TEST(holds(told["cells-enough"],
                   "a third of the yeast, as one starter in a vessel of 5 L is "
                   "too small."));
  lager["beer"]["volume"] = "28 L";
  told = fixes_of(lager);
  BOOST_TEST(holds(told["cells-enough"], "Grow two starters, each in "), told["cells-enough"]);
  lager["beer"]["volume"] = "1000 L";
  told = fixes_of(lager);
  BOOST_TEST(holds(told["cells-enough"], "Brew no more than "), told["cells-enough"]);
  // A batch for a bucket, in a flask.
  ordered_json batch = sound_example();
  batch["stages"][0]["water"] = "8 L";
  batch["stages"][0]["extract"]["mass"] = "800 g";
  told = fixes_of(batch);
  BOOST_TEST(holds(told["growth-headroom"], "over three vessels of 5 L"), told["growth-headroom"]);
  BOOST_TEST(holds(told["boil-headroom"], "in three parts, each in a vessel of 5 L"),
             told["boil-headroom"]);
  for (const char* litres : {"3 L", "8 L", "20 L", "60 L"}) {
    batch["stages"][0]["water"] = litres;
    for (const auto& [rule, says] : fixes_of(batch))
      for (const char* absurd : {"vessel of 10 L", "vessel of 15 L", "vessel of 20 L",
                                 "vessel of 85 L", "vessel of 100 L", " 48.5 kg of ice"})
        BOOST_TEST(!holds(says, absurd), rule << ": " << says);
  }
  // A larger one that the member has is used.
  ordered_json own = sound_example();
  own["beer"]["kind"] = "lager";
  own["beer"]["volume"] = "60 L";
  own["yeast"]["packs"] = 3;
  own["vessels"]["flask"]["capacity"] = "20 L";
  BOOST_TEST(holds(fixes_of(own)["cells-enough"], "Grow in "), fixes_of(own)["cells-enough"]);
}

BOOST_AUTO_TEST_CASE(each_share_of_a_starter_brings_its_share_of_the_cells) {
  const auto brings = [](double litres, double grams, double billion) {
    ordered_json plan = sound_example();
    plan["yeast"]["cells_per_pack"] = std::to_string(billion) + " billion";
    plan["stages"][0]["water"] = std::to_string(litres) + " L";
    plan["stages"][0]["extract"]["mass"] = std::to_string(grams) + " g";
    // What boils away is a share of it, as of what is boiled in parts.
    plan["stages"][0]["boil_off"] = std::to_string(litres / 10) + " L";
    plan["vessels"]["flask"]["capacity"] = "20 L";
    const Plan read = plan_from(plan);
    return work_out(read, unfold(read), Draw{}).cells_at_pitch.billion();
  };
  for (const int shares : {2, 3})
    BOOST_TEST(brings(6, 570, 300) / shares == brings(6.0 / shares, 570.0 / shares, 300.0 / shares),
               boost::test_tools::tolerance(0.01));
}

BOOST_AUTO_TEST_CASE(a_bath_is_never_told_to_be_drained) {
  ordered_json plan = sound_example();
  plan["place"]["tap_water"] = "28 °C";
  const std::string says = fixes_of(plan)["chill-reach"];
  BOOST_TEST(holds(says, "of ice"), says);
  BOOST_TEST(!holds(says, "0.5 L of bath water"), says);
}

BOOST_AUTO_TEST_CASE(what_is_a_fact_is_told_and_not_written) {
  ordered_json plan = sound_example();
  plan["yeast"]["packaged"] = "2026-10-01";
  plan["stages"][0]["boil_off"] = "400 mL";
  bool bought = false, gently = false;
  for (const Finding& f : judge(plan_from(plan), catalogue()).findings) {
    if (!f.fix) continue;
    BOOST_TEST(!holds(f.fix->patch, "/yeast/packaged"), f.fix->patch);
    BOOST_TEST(!holds(f.fix->patch, "/boil_off"), f.fix->patch);
    bought |= holds(f.fix->says, "Buy another pack, no more than");
    gently |= holds(f.fix->says, "oil so gently that only");
  }
  BOOST_TEST(bought);
  BOOST_TEST(gently);
}

BOOST_AUTO_TEST_CASE(without_fixes_none_are_worked_out) {
  ordered_json plan = sound_example();
  plan["stages"][0]["extract"]["mass"] = "180 g";
  JudgeOptions options;
  options.fixes = false;
  for (const Finding& f : judge(plan_from(plan), catalogue(), options).findings) BOOST_TEST(!f.fix);
}

BOOST_AUTO_TEST_CASE(fixes_are_told_in_the_members_units) {
  ordered_json plan = sound_example();
  plan["stages"][0]["extract"]["mass"] = "180 g";
  JudgeOptions options;
  options.units = UnitSystem::us;
  bool told = false;
  for (const Finding& f : judge(plan_from(plan), catalogue(), options).findings)
    if (f.rule->id == "extract-ratio") {
      BOOST_REQUIRE(f.fix);
      BOOST_TEST(f.fix->says.find(" oz of extract") != std::string::npos);
      told = true;
    }
  BOOST_TEST(told);
}

BOOST_AUTO_TEST_CASE(knobs_give_back_what_they_are_set_to) {
  for (const Knob& knob : knobs()) {
    BOOST_TEST_CONTEXT(knob.name) {
      ordered_json document = sound_example();
      document["steps"][11]["for"] = "2 h";
      document["steps"][2]["boil_off"] = "100 mL";
      Plan plan = plan_from(document);
      const auto now = knob.get(plan, 0);
      BOOST_REQUIRE(now);
      const bool shift = knob.name == "start" || knob.name == "brew_day";
      const double wanted = shift ? 5 : *now + 2 * knob.grain(*now);
      BOOST_TEST((wanted >= knob.least && wanted <= knob.most));
      knob.set(plan, 0, wanted);
      if (!shift) BOOST_TEST(*knob.get(plan, 0) == wanted, boost::test_tools::tolerance(1e-9));
      BOOST_TEST(!knob.show(wanted, UnitSystem::metric).empty());
      BOOST_TEST(!knob.show(wanted, UnitSystem::us).empty());
      const auto fields = knob.fields(plan, 0);
      BOOST_REQUIRE(!fields.empty());
      // Written into the document, the fields make the plan that the knob made.
      for (const auto& [path, value] : fields) document[ordered_json::json_pointer(path)] = value;
      const Plan read = plan_from(document);
      if (shift)
        BOOST_TEST((read.start == plan.start && read.beer.brew_day == plan.beer.brew_day));
      else
        BOOST_TEST(*knob.get(read, 0) == wanted, boost::test_tools::tolerance(0.01));
    }
  }
  BOOST_TEST(!find_knob("no such knob"));
  BOOST_TEST(find_knob("ice"));
}

BOOST_AUTO_TEST_CASE(knobs_of_things_that_are_not_there) {
  ordered_json document = sound_example();
  document.erase("start");
  document["beer"].erase("brew_day");
  document["steps"] = ordered_json::array({{{"do", "pitch"}}});
  const Plan plan = plan_from(document);
  for (const char* name : {"boil_for", "tub_capacity", "ice", "bath", "chill_to", "ice_from",
                           "start", "brew_day", "crash_for", "warm_to"})
    BOOST_TEST(!find_knob(name)->get(plan, 0), name);
}

BOOST_AUTO_TEST_SUITE_END()
