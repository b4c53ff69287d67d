#include <algorithm>
#include <cstdlib>
#include <map>

#include "output/plots.h"
#include "output/review_index.h"
#include "output/review_pages.h"
#include "support.h"

using namespace starter;

namespace {

ReviewRow row_from(const std::string& plan, const std::string& name) {
  ReviewRow row = review_row(judged(plan), catalogue(), UnitSystem::metric);
  row.plan = name;
  row.sheet = name + ".html";
  return row;
}

ReviewRow broken_row(const std::string& name) {
  ReviewRow row = review_row({{"/beer/volme", 7, "there is no such field", "volume"}});
  row.plan = name;
  row.sheet = name + ".html";
  return row;
}

std::vector<ReviewRow> a_club() {
  return {row_from("faulty/rich-wort", "a"), row_from("harvest-amber", "b"),
          row_from("faulty/hot-jug", "c"), broken_row("d"), row_from("faulty/rich-wort", "e")};
}

Review review_of(const std::vector<ReviewRow>& rows) {
  return {rows, catalogue(), UnitSystem::metric, "plans", "starter-plan test"};
}

/// The sheets of a page in the order of its rows.
std::string order_in(const std::vector<ReviewPage>& pages, const std::string& file) {
  const auto page =
      std::find_if(pages.begin(), pages.end(), [&](const ReviewPage& p) { return p.file == file; });
  BOOST_REQUIRE(page != pages.end());
  std::string order;
  const std::string link = "href=\"sheets/";
  for (std::size_t at = 0; (at = page->text.find(link, at)) != std::string::npos;) {
    at += link.size();
    order += page->text[at];
  }
  return order;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(review)

BOOST_AUTO_TEST_CASE(a_row_survives_its_json) {
  for (const ReviewRow& row : a_club()) {
    const auto again = row_from_json(Json::parse(row_json(row).dump()));
    BOOST_REQUIRE(again.has_value());
    BOOST_TEST(row_json(*again) == row_json(row));
  }
}

BOOST_AUTO_TEST_CASE(a_document_that_is_no_row_is_refused) {
  const Json good = row_json(a_club()[0]);
  for (const auto& [key, value] : good.items()) {
    if (key == "worst" || key == "counts") continue;  // told for others; worked out anew
    Json without = good;
    without.erase(key);
    BOOST_TEST(!row_from_json(without), key << " is not missed");
    Json wrong = good;
    wrong[key] = 7;
    BOOST_TEST(!row_from_json(wrong), key << " may be a number");
  }
  Json severity = good;
  severity["findings"][0]["severity"] = "awful";
  BOOST_TEST(!row_from_json(severity));
  BOOST_TEST(!row_from_json(Json({{"plan", "a"}, {"sheet", "a"}, {"errors", Json::array()}})));
}

BOOST_AUTO_TEST_CASE(a_number_stands_where_the_finding_of_its_rule_says) {
  int compared = 0;
  for (const char* plan : {"faulty/many-at-once", "faulty/rich-wort", "faulty/too-late"}) {
    const ReviewRow row = row_from(plan, "a");
    for (const ReviewFinding& f : row.findings) {
      const Rule* rule = find_rule(f.rule);
      BOOST_REQUIRE(rule != nullptr);
      if (rule->kind != RuleKind::range || f.certainty == Certainty::possible) continue;
      const bool stands =
          std::any_of(row.numbers.begin(), row.numbers.end(), [&](const ReviewNumber& n) {
            const Severity severity =
                std::abs(n.level) == 2 ? rule->outside_hard : rule->outside_comfortable;
            return n.rule == f.rule && n.level != 0 && severity == f.severity;
          });
      BOOST_TEST(stands, plan << ": " << f.rule);
      ++compared;
    }
  }
  BOOST_TEST(compared > 4);
}

BOOST_AUTO_TEST_CASE(plans_are_counted_by_their_worst_and_rules_by_plans) {
  const auto rows = a_club();
  const ReviewTally tally = tally_of(rows, catalogue());
  BOOST_TEST(tally.plans == 5);
  BOOST_TEST(tally.unusable == 1);
  BOOST_TEST(tally.sound == 1);
  BOOST_TEST(tally.by_worst[static_cast<std::size_t>(Severity::danger)] == 1);
  BOOST_TEST(tally.by_worst[static_cast<std::size_t>(Severity::spoils)] == 2);
  const auto rich = std::find_if(tally.rules.begin(), tally.rules.end(),
                                 [](const RuleTally& t) { return t.rule->id == "extract-ratio"; });
  BOOST_REQUIRE(rich != tally.rules.end());
  BOOST_TEST(rich->plans == 2);
  for (std::size_t i = 1; i < tally.rules.size(); ++i)
    BOOST_TEST(tally.rules[i - 1].plans >= tally.rules[i].plans);
  const auto spread = std::find_if(tally.spreads.begin(), tally.spreads.end(),
                                   [](const Spread& s) { return s.rule->id == "extract-ratio"; });
  BOOST_REQUIRE(spread != tally.spreads.end());
  BOOST_TEST(spread->values.size() == 4u);
  BOOST_TEST(spread->off() == 2);
}

BOOST_AUTO_TEST_CASE(an_accepted_finding_is_not_counted) {
  std::vector<ReviewRow> rows = {row_from("faulty/rich-wort", "a")};
  const int before = rows[0].to_mend();
  for (ReviewFinding& f : rows[0].findings)
    if (f.rule == "extract-ratio") f.accepted = true, f.counts = false;
  BOOST_TEST(rows[0].to_mend() == before - 1);
  BOOST_TEST(rows[0].accepted() == 1);
  for (const RuleTally& t : tally_of(rows, catalogue()).rules)
    BOOST_TEST(t.rule->id != "extract-ratio");
}

BOOST_AUTO_TEST_CASE(every_column_has_a_page_sorted_by_it) {
  auto rows = a_club();
  rows[0].member = "moss";
  rows[1].member = "Alder";
  rows[2].member = "";
  rows[4].member = "Wren";
  const auto pages = review_pages(review_of(rows), tally_of(rows, catalogue()));
  BOOST_TEST(order_in(pages, "index.html") == "dcaeb");
  BOOST_TEST(order_in(pages, "by-member.html") ==
             "baedc");  // nobody's last, the worst of them first
  const std::string by_count = order_in(pages, "by-count.html");
  std::map<char, int> to_mend;
  for (const ReviewRow& row : rows) to_mend[row.sheet[0]] = row.to_mend();
  for (std::size_t i = 1; i < by_count.size(); ++i)
    BOOST_TEST(to_mend[by_count[i - 1]] >= to_mend[by_count[i]]);
  for (const ReviewPage& page : pages)
    if (page.file != "common.html") BOOST_TEST(order_in(pages, page.file).size() == rows.size());
}

BOOST_AUTO_TEST_CASE(the_pages_say_whose_practice_judged_and_teach_dangers_first) {
  const auto rows = a_club();
  const ReviewTally tally = tally_of(rows, catalogue());
  Review review = review_of(rows);
  for (const ReviewPage& page : review_pages(review, tally))
    BOOST_TEST(!holds(page.text, "Judged by the practice of"));
  review.club = "Lantern Lane Brewers";
  review.folder = "/clubs/lane/spring";
  review.name = "spring";
  const auto pages = review_pages(review, tally);
  for (const ReviewPage& page : pages) {
    BOOST_TEST(holds(page.text, "Judged by the practice of Lantern Lane Brewers."), page.file);
    BOOST_TEST(!holds(page.text, "/clubs/lane"), page.file);
  }
  // One jug cracks, two worts are too rich: the jug's lesson is the first all the same.
  const std::string& common = pages.back().text;
  const auto danger = common.find("<h3>Lesson ");
  BOOST_REQUIRE(danger != std::string::npos);
  const std::string first = common.substr(danger, common.find("</li>", danger) - danger);
  const auto jug = std::find_if(tally.rules.begin(), tally.rules.end(),
                                [](const RuleTally& t) { return t.rule->id == "glass-shock"; });
  BOOST_REQUIRE(jug != tally.rules.end());
  BOOST_TEST(holds(first, jug->rule->title), first);
}

BOOST_AUTO_TEST_CASE(a_club_without_plans_has_pages_too) {
  const std::vector<ReviewRow> none;
  const auto pages = review_pages(review_of(none), tally_of(none, catalogue()));
  BOOST_TEST(pages.size() == 7u);
  BOOST_TEST(holds(pages.front().text, "There is no plan in this folder."));
}

BOOST_AUTO_TEST_CASE(a_histogram_holds_every_number_once) {
  const std::vector<PlottedNumber> numbers = {{-1000, true}, {82, false}, {95, false},
                                              {109, false},  {111, true}, {1e9, true}};
  const Histogram h = histogram_of(numbers, {80, 110});
  int fine = 0, off = 0;
  for (const Histogram::Bin& bin : h.bins) {
    fine += bin.fine;
    off += bin.off;
  }
  BOOST_TEST(fine == 3);
  BOOST_TEST(off == 3);
  BOOST_TEST(h.from <= 80);
  BOOST_TEST(h.to >= 110);
  const std::vector<PlottedNumber> one = {{5, false}};
  BOOST_TEST(holds(histogram_svg(histogram_of(one, {})), "class=\"column\""));
}

BOOST_AUTO_TEST_SUITE_END()
