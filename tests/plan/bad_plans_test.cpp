// What the reader says of each plan in tests/plans/bad: where, on which line, why, and what to
// write. The expectations stand here and not beside the plans, so that no plan can be changed with
// them by mistake.

#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <set>
#include <string>
#include <vector>

#include "plan_files.h"

namespace {

using starter::PlanError;

struct Expected {
  std::string plan;
  std::string where;
  int line;
  std::string says;  // a part of it
  std::string write;
};

// Several rows of one plan are its errors in order.
const std::vector<Expected> expectations = {
    {"bad-escape", "", 2, R"~(a backslash before "q" means nothing in JSON)~", R"~(\\)~"},
    {"bare-gravity", "/beer/gravity", 3, "the number 1.050 has no unit", R"~("1.050 SG")~"},
    {"bare-minutes", "/steps/1/for", 11, "the number 12 has no unit", R"~("12 min")~"},
    {"bare-number", "/stages/0/water", 7, "the number 1.15 has no unit", R"~("1.15 L")~"},
    {"below-absolute-zero", "/place/room", 5, R"~("-274 °C" cannot stand here)~", "20 °C"},
    {"blank-name", "/steps/1/in", 11, "this is blank", "a name"},
    {"comma-in-number", "/stages/0/water", 7, R"~("1,15 L")~", "1.15 L"},
    {"comment", "", 2, "comments have no place in JSON, and `// ours` looks like one",
     "take the comment out"},
    {"control-character", "/title", 2, R"~(this text holds the control character "\u{1b}")~",
     "take it out"},
    {"curly-quotes", "", 4, "a curly quote stands at `“liquid”`", R"~("liquid")~"},
    {"day-first", "/beer/brew_day", 3, R"~("20.03.2027")~", "2027-03-20"},
    {"day-without-quotes", "", 4, R"~("2027-02-20" is not in double quotes)~", R"~("2027-02-20")~"},
    {"decimal-comma", "", 3, "`1,5` has a decimal comma", R"~("1.5")~"},
    {"duplicate-name", "/yeast/form", 5, R"~("form" stands on line 4 and again on line 5)~",
     "take one of them out"},
    {"eleven-stages", "/stages", 6, "there are 11 stages", "keep those the plan needs"},
    {"duplicate-step-id", "/steps/2/id", 12, "the step at /steps/0 has the same id",
     R"~("first again")~"},
    {"empty-stages", "/stages", 6, "this list is empty",
     R"~([{"extract": {"kind": "light dry malt", "mass": "110 g"}, "water": "1.2 L"}])~"},
    {"empty", "", 0, "the file is empty", ""},
    {"field-from-elsewhere", "/volume", 3, R"~(there is no field "volume" here)~",
     "move it to /beer or a stage's measured"},
    {"flag-as-text", "/steps/0/swirl", 10, R"~(the text "yes" stands here)~", "true"},
    {"half-a-pack", "/yeast/packs", 4, "the number 1.5 cannot stand here", "2"},
    {"heavy-gravity", "/beer/gravity", 3, R"~("1.201 SG" cannot stand here)~", "1.050 SG"},
    {"heavy-plato", "/beer/gravity", 3, R"~("45.1 °P" cannot stand here)~", "1.050 SG"},
    {"huge-mass", "/stages/0/extract/mass", 7, R"~("1001 kg" cannot stand here)~", "110 g"},
    {"huge-volume", "/beer/volume", 3, R"~("10001 L" cannot stand here)~", "20 L"},
    {"imperial", "/beer/volume", 3, R"~("5 imp gal")~", "22.7 L"},
    {"infinity", "", 4, R"~("-Infinity" is no number that a plan can hold)~",
     "a number with its unit"},
    {"invalid-utf-8", "", 4, "line 4 holds bytes that are not UTF-8",
     "save the file again as UTF-8"},
    {"leading-zero", "", 2, R"~("01" begins with a 0 too many)~", "1"},
    {"list-for-text", "/title", 2, "a list stands here", R"~("...")~"},
    {"mass-for-volume", "/stages/0/water", 7, R"~("1.15 kg")~", "1.15 L"},
    {"missing-colon", "", 2, R"~(a colon is wanted after the name "plan", but `1,` was found)~",
     ":"},
    {"missing-comma", "", 3, R"~(a comma is missing before `"yeast": {"form": "liquid"},`)~", ","},
    {"misspelt-field", "/beer/volme", 3, R"~(there is no field "volme" here)~", "volume"},
    {"move-to-undeclared", "/steps/0/to", 10,
     R"~("jugg" is not among the plan's vessels, which are flask)~",
     R"~(in "vessels": "jugg": {"kind": "jug", "capacity": "2 L"})~"},
    {"name-without-quotes", "", 4, R"~(the name "form" is not in double quotes)~", R"~("form")~"},
    {"negative-mass", "/stages/0/extract/mass", 7, R"~("-110 g" cannot stand here)~", "110 g"},
    {"nested-too-deep", "", 1, "lists and objects lie more than 64 deep in one another here", ""},
    {"negative-reading", "/stages/0/measured/growth_time", 8, R"~("-30 h" cannot stand here)~",
     "36 h"},
    {"newer-version", "/plan", 2, "this plan says version 2: this program is older than the plan",
     "get the newer program, or write the plan for version 1"},
    {"no-beer", "/beer", 1, R"~("beer" is missing)~",
     R"~("beer": {"volume": "20 L", "gravity": "1.050 SG"})~"},
    {"no-extract-mass", "/stages/0/extract/mass", 7, R"~("mass" is missing)~",
     R"~("mass": "110 g")~"},
    {"no-extract", "/stages/0/extract", 7, R"~("extract" is missing)~",
     R"~("extract": {"kind": "light dry malt", "mass": "110 g"})~"},
    {"no-packs", "/yeast/packs", 4, "the number 0 cannot stand here", "1"},
    {"no-stages", "/stages", 1, R"~("stages" is missing)~",
     R"~("stages": [{"extract": {"kind": "light dry malt", "mass": "110 g"}, "water": "1.2 L"}])~"},
    {"no-such-day", "/beer/brew_day", 3, R"~("2027-02-30")~", "2027-02-28"},
    {"no-unit", "/stages/0/water", 7, R"~("1.15")~", "1.15 L"},
    {"no-version", "/plan", 1, R"~("plan" is missing)~", R"~("plan": 1)~"},
    {"no-water", "/stages/0/water", 7, R"~("water" is missing)~", R"~("water": "1.2 L")~"},
    {"no-yeast-form", "/yeast/form", 4, R"~("form" is missing)~", R"~("form": "liquid")~"},
    {"no-yeast", "/yeast", 1, R"~("yeast" is missing)~", R"~("yeast": {"form": "liquid"})~"},
    {"not-a-number", "", 4, R"~("NaN" is no number that a plan can hold)~",
     "a number with its unit"},
    {"not-an-object", "", 1, "a list stands here", R"~({"plan": 1})~"},
    {"nul-byte-after-plan", "", 14, R"~(the control character "\u{0}" has no place here)~",
     "take it out"},
    {"null-value", "/beer/volume", 3, "null stands here", R"~(leave it out, or write "20 L")~"},
    {"number-too-large", "/yeast/packs", 4, R"~(the number "1e999" is too large for any plan)~",
     "a smaller number"},
    {"object-for-list", "/place", 9, "a list stands here", "{}"},
    {"only-a-tub", "/stages/0/vessel", 7, R"~("vessel" is missing)~", R"~("vessel": "flask")~"},
    {"over-ten-years", "/stages/0/duration", 7, R"~("3660 days" cannot stand here)~", "36 h"},
    {"packs-as-text", "/yeast/packs", 4, R"~(the text "2" stands here)~", "2"},
    {"python-true", "", 5, R"~("True" is spelt true in JSON)~", "true"},
    {"quantity-without-quotes", "", 3, R"~("20 L" is not in double quotes)~", R"~("20 L")~"},
    {"several-mistakes", "/beer/volme", 4, R"~(there is no field "volme" here)~", "volume"},
    {"several-mistakes", "/beer/gravity", 5, "the number 1.050 has no unit", R"~("1.050 SG")~"},
    {"several-mistakes", "/yeast/form", 7,
     R"~("liqid" is not a word that "form" takes: liquid, dry or slurry)~", "liquid"},
    {"several-mistakes", "/yeast/packs", 7, "the number 0 cannot stand here", "1"},
    {"several-mistakes", "/stages/0/extract/mass", 9, R"~("110" has no unit)~", "110 g"},
    {"several-mistakes", "/stages/0/vessel", 9, R"~("flsk" is not among the plan's vessels)~",
     "flask"},
    {"several-mistakes", "/steps/0/heat", 10,
     R"~("fire" is not a word that "heat" takes: gas, electric coil, electric glass, induction or none)~",
     "gas, electric coil, electric glass, induction or none"},
    {"share-over-hundred", "/yeast/viability", 4, R"~("101 %" cannot stand here)~", "85 %"},
    {"single-quotes", "", 4, "a single quote stands at `'liquid'`", R"~("liquid")~"},
    {"slurry-without-volume", "/yeast/slurry_volume", 4, R"~("slurry_volume" is missing)~",
     R"~("slurry_volume": "100 mL")~"},
    {"stage-out-of-range", "/steps/0/stage", 10, "there is no stage 2", "1"},
    {"stage-zero", "/steps/0/stage", 10, "there is no stage 0", "1"},
    {"start-without-clock", "/start", 2, "this names a day", "2027-03-16T18:00"},
    {"step-as-text", "/steps/0", 10, R"~(the text "weigh" stands here)~", R"~({"do": "weigh"})~"},
    {"step-without-do", "/steps/0/do", 10, R"~("do" is missing)~", R"~("do": "boil")~"},
    {"temperature-for-move-word", "/steps/0/to", 10, R"~("flask")~", "68 °F or 20 °C"},
    {"text-after-plan", "", 14, "there is one } more than was opened", "take it out"},
    {"text-for-object", "/yeast", 4, R"~(the text "liquid" stands here)~", "{}"},
    {"text-too-long", "/title", 2, "this text has 2001 characters", "shorten it"},
    {"too-high", "/place/altitude", 5, R"~("9001 m" cannot stand here)~", "240 m"},
    {"too-hot", "/place/room", 5, R"~("201 °C" cannot stand here)~", "20 °C"},
    {"too-many-cells", "/yeast/cells_per_pack", 4, R"~("1000001 billion" cannot stand here)~",
     "100 billion"},
    {"too-many-packs", "/yeast/packs", 4, "the number 101 cannot stand here", "100"},
    {"too-many-steps", "/steps", 9, "there are 501 steps", "keep those the plan needs"},
    {"too-many-vessels", "/vessels", 5, "there are 201 vessels", "keep those the plan uses"},
    {"trailing-comma-in-list", "", 12, "a comma stands before the closing ]", "take the comma out"},
    {"trailing-comma", "", 4, "a comma stands before the closing }", "take the comma out"},
    {"two-possible-vessels", "/stages/0/vessel", 7, R"~("vessel" is missing)~",
     R"~("vessel": "flask")~"},
    {"unclosed-file", "", 12, "the file ends before the { of line 1 is closed", "}"},
    {"unclosed-text", "", 4, R"~(the text `"liquid},` has no closing quote on its line)~",
     R"~(")~"},
    {"undeclared-stage-vessel", "/stages/0/vessel", 7,
     R"~("carboy" is not among the plan's vessels, which are flask)~",
     R"~(in "vessels": "carboy": {"kind": "jug", "capacity": "2 L"})~"},
    {"undeclared-tub", "/steps/0/in", 10,
     R"~("tub" is not among the plan's vessels, which are flask)~",
     R"~(in "vessels": "tub": {"kind": "tub", "capacity": "2 L"})~"},
    {"undeclared-vessel", "/steps/1/in", 11, R"~("flsk" is not among the plan's vessels)~",
     "flask"},
    {"unknown-field", "/hops", 2, R"~(there is no field "hops" here)~",
     "plan, title, member, start, place, beer, yeast, vessels, stages or steps"},
    {"utf-16", "", 1, "the file is in UTF-16", "save the file again as UTF-8"},
    {"version-as-text", "/plan", 2, R"~(the text "1" stands here)~", "1"},
    {"vessel-without-capacity", "/vessels/flask/capacity", 5, R"~("capacity" is missing)~",
     R"~("capacity": "2 L")~"},
    {"white-space-only", "", 1, "the file holds nothing but white space", ""},
    {"word-from-nowhere", "/yeast/form", 4,
     R"~("mushroom" is not a word that "form" takes: liquid, dry or slurry)~",
     "liquid, dry or slurry"},
    {"word-in-capitals", "/beer/kind", 3,
     R"~("Ale" is not a word that "kind" takes: ale, lager or hybrid)~", "ale"},
    {"wort-with-mass", "/stages/0/extract/mass", 7, "ready wort has no extract to weigh",
     R"~(take the mass out, and state the stage's "gravity")~"},
    {"wort-without-gravity", "/stages/0/gravity", 7, R"~("gravity" is missing)~",
     R"~("gravity": "1.037 SG")~"},
    {"wrong-bracket", "", 12, "the [ of line 9 is closed by the wrong bracket", "]"},
    {"wrong-word", "/beer/kind", 3,
     R"~("lagger" is not a word that "kind" takes: ale, lager or hybrid)~", "lager"},
    {"zero-volume", "/stages/0/water", 7, R"~("0 L" cannot stand here)~", "1.2 L"},
};

BOOST_AUTO_TEST_SUITE(bad_plans)

BOOST_AUTO_TEST_CASE(each_is_refused_with_located_reasons) {
  for (auto row = expectations.begin(); row != expectations.end();) {
    const auto next = std::find_if(row, expectations.end(),
                                   [&](const Expected& other) { return other.plan != row->plan; });
    BOOST_TEST_CONTEXT(row->plan) {
      const auto errors = errors_of(bytes_of("bad/" + row->plan + ".plan.json"));
      BOOST_TEST(errors.size() == static_cast<std::size_t>(next - row));
      for (std::size_t i = 0; i < errors.size() && row + static_cast<std::ptrdiff_t>(i) != next;
           ++i) {
        const Expected& wanted = *(row + static_cast<std::ptrdiff_t>(i));
        BOOST_TEST(errors[i].where == wanted.where);
        BOOST_TEST(errors[i].line == wanted.line);
        BOOST_TEST(errors[i].write == wanted.write);
        BOOST_TEST(errors[i].says.find(wanted.says) != std::string::npos,
                   '\'' << errors[i].says << "' lacks '" << wanted.says << '\'');
      }
    }
    row = next;
  }
}

BOOST_AUTO_TEST_CASE(each_has_an_expectation) {
  std::set<std::string> expected;
  for (const auto& row : expectations) expected.insert("bad/" + row.plan + ".plan.json");
  for (const auto& name : plans_in("bad"))
    BOOST_TEST(expected.count(name) == 1U, name << " has no expectation");
  BOOST_TEST(expected.size() == plans_in("bad").size());
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
