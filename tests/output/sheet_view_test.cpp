#include "output/sheet_view.h"

#include <algorithm>
#include <set>

#include "output/cautions_of.h"
#include "output/html.h"
#include "output/label.h"
#include "output/svg.h"
#include "support.h"

using namespace starter;

namespace {

Json view_of(const Judgement& judgement) {
  SheetViewOptions options;
  options.file = "club/file.plan.json";
  return sheet_view(judgement, options);
}

std::string page_of(Json view) {
  view["page_title"] = view["title"];
  view["no_picture"] = "";
  return fill_page("sheet", view);
}

/// Every key of every object of a list is there in all of them: a missing one would be looked up in
/// the objects around it.
void check_keys(const Json& list) {
  for (const Json& entry : list)
    for (const auto& [key, value] : list.front().items())
      BOOST_TEST(entry.contains(key), key << " is missing");
}

}  // namespace

BOOST_AUTO_TEST_SUITE(sheet)

BOOST_AUTO_TEST_CASE(every_finding_stands_once_in_its_list) {
  const Judgement j = judged("faulty/many-at-once");
  const Json view = view_of(j);
  const std::size_t notes = static_cast<std::size_t>(
      std::count_if(j.findings.begin(), j.findings.end(),
                    [](const Finding& f) { return f.severity == Severity::note; }));
  BOOST_TEST(view["notes"].size() == notes);
  BOOST_TEST(view["findings"].size() == j.findings.size() - notes);
  BOOST_TEST(view["accepted_findings"].empty());
  BOOST_TEST(view["findings"][0]["severity"]["name"] == spelling(j.findings[0].severity));
  BOOST_TEST(view["verdict"]["severity"]["name"] == spelling(j.findings[0].severity));
  check_keys(view["findings"]);
  check_keys(view["steps"]);
  check_keys(view["numbers"]);
}

BOOST_AUTO_TEST_CASE(an_accepted_finding_is_shown_apart_with_who_why_and_when) {
  Judgement j = judged("faulty/rich-wort");
  const auto rich = std::find_if(j.findings.begin(), j.findings.end(),
                                 [](const Finding& f) { return f.rule->id == "extract-ratio"; });
  BOOST_REQUIRE(rich != j.findings.end());
  rich->accepted = Acceptance{"Tarn", "a strong porter wants it", "2027-02-01", false};
  const Json view = view_of(j);
  BOOST_REQUIRE(view["accepted_findings"].size() == 1u);
  BOOST_TEST(view["accepted_findings"][0]["rule"] == "extract-ratio");
  for (const Json& f : view["findings"]) BOOST_TEST(f["rule"] != "extract-ratio");
  BOOST_TEST(
      holds(page_of(view),
            "<strong>Accepted</strong> by Tarn on Mon 1 Feb 2027: “a strong porter wants it”."));
}

BOOST_AUTO_TEST_CASE(what_is_already_late_is_said_once) {
  const std::string late = page_of(view_of(judged("faulty/too-late")));
  BOOST_TEST(holds(late, "<p class=\"already-late\">Already late: steps 1–13.</p>"));
  BOOST_TEST(!holds(late, "May be late by: already late"));
  BOOST_TEST(!holds(late, "May be late by: ."));
  const std::string fine = page_of(view_of(judged("harvest-amber")));
  BOOST_TEST(!holds(fine, "Already late:"));
  BOOST_TEST(holds(fine, "May be late by: "));
}

BOOST_AUTO_TEST_CASE(an_acknowledged_danger_still_counts) {
  Judgement j = judged("faulty/hot-jug");
  BOOST_REQUIRE(j.findings[0].severity == Severity::danger);
  j.findings[0].accepted = Acceptance{"Tarn", "seen", "", true};
  const Json view = view_of(j);
  BOOST_TEST(view["accepted_findings"].empty());
  BOOST_TEST(view["verdict"]["severity"]["name"] == "danger");
  BOOST_TEST(holds(page_of(view), "by Tarn: “seen”. A danger still counts."));
}

BOOST_AUTO_TEST_CASE(each_caution_is_in_full_once_at_the_first_step_that_needs_it) {
  const Judgement j = judged("harvest-amber");
  const std::string page = page_of(view_of(j));
  const auto needed = cautions_of(j);
  BOOST_REQUIRE(!needed.empty());
  for (const NeededCaution& n : needed) {
    const std::string text = xml_text(n.caution->text);
    const std::size_t at = page.find(text);
    BOOST_TEST((at != std::string::npos), n.caution->id << " is missing");
    BOOST_TEST((page.find(text, at + 1) == std::string::npos), n.caution->id << " twice");
  }
}

BOOST_AUTO_TEST_CASE(ids_of_two_plans_on_a_page_differ) {
  const Judgement j = judged("faulty/many-at-once");
  SheetViewOptions one, two;
  one.id = "p1-";
  two.id = "p2-";
  const auto ids = [&j](const SheetViewOptions& o) {
    const std::string page = page_of(sheet_view(j, o));
    std::set<std::string> found;
    for (std::size_t at = 0; (at = page.find(" id=\"", at)) != std::string::npos; ++at)
      found.insert(page.substr(at, page.find('"', at + 5) - at));
    return found;
  };
  const auto a = ids(one), b = ids(two);
  BOOST_TEST(a.size() > 10u);
  BOOST_TEST(a.size() == b.size());
  for (const std::string& id : a) BOOST_TEST(b.count(id) == 0u, id);
}

BOOST_AUTO_TEST_CASE(an_inline_picture_keeps_its_texts_and_only_ids_of_ours) {
  const std::string svg =
      "<?xml?>\n<svg aria-labelledby=\"picture-title picture-desc\">\n"
      "<title id=\"picture-title\">picture-title &lt;b&gt;</title>\n"
      "<desc id=\"picture-desc\">d</desc>\n"
      "<g id=\"node1\" class=\"node\">\n<title>sheet</title>\n<text>Boil</text>\n</g>\n</svg>\n";
  BOOST_TEST(inline_svg(svg, "p2-") ==
             "<svg aria-labelledby=\"p2-picture-title p2-picture-desc\">\n"
             "<title id=\"p2-picture-title\">picture-title &lt;b&gt;</title>\n"
             "<desc id=\"p2-picture-desc\">d</desc>\n"
             "<g class=\"node\">\n<text>Boil</text>\n</g>\n</svg>\n");
  BOOST_TEST(inline_svg("no picture") == "");
}

BOOST_AUTO_TEST_SUITE_END()
