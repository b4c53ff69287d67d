#include "output/review_index.h"

#include <fmt/format.h>

#include <algorithm>
#include <functional>
#include <numeric>

#include "output/calendar_words.h"
#include "output/characters.h"
#include "output/html.h"
#include "output/plots.h"
#include "output/sheet_view.h"
#include "quantity/local_time.h"
#include "quantity/words.h"

namespace starter {
namespace {

using Rows = std::span<const ReviewRow>;

/// How bad a plan is, for sorting: a plan that cannot be used is the worst.
int standing_of(const ReviewRow& row) {
  if (!row.usable()) return 4;
  const auto worst = row.worst();
  return worst ? static_cast<int>(*worst) : 0;
}

std::string folded(const std::string& text) {
  return lower_ascii(visible(text));
}

/// A column of the list, and how the plans are sorted by it. Equals stay worst first, then in the
/// order of their files.
struct Column {
  const char* name;
  const char* file;
  const char* sorts;  ///< as aria-sort has it
  std::function<bool(const ReviewRow&, const ReviewRow&)> before;
};

/// Sorts by a text, rows that have none last.
template <class Text>
std::function<bool(const ReviewRow&, const ReviewRow&)> by(Text text) {
  return [text](const ReviewRow& a, const ReviewRow& b) {
    const std::string x = text(a), y = text(b);
    if (x.empty() != y.empty()) return y.empty();
    return x < y;
  };
}

std::vector<Column> columns_of_list() {
  return {
      {"Worst", "index.html", "descending",
       [](const ReviewRow& a, const ReviewRow& b) { return standing_of(a) > standing_of(b); }},
      {"Plan", "by-plan.html", "ascending",
       by([](const ReviewRow& r) { return folded(r.usable() ? r.title : r.plan); })},
      {"Member", "by-member.html", "ascending",
       by([](const ReviewRow& r) { return folded(r.member); })},
      {"Beer", "by-beer.html", "ascending", by([](const ReviewRow& r) { return folded(r.beer); })},
      {"Brew day", "by-brew-day.html", "ascending",
       by([](const ReviewRow& r) { return r.brew_day; })},
      {"To mend", "by-count.html", "descending",
       [](const ReviewRow& a, const ReviewRow& b) { return a.to_mend() > b.to_mend(); }},
  };
}

bool worst_first(const ReviewRow& a, const ReviewRow& b) {
  if (standing_of(a) != standing_of(b)) return standing_of(a) > standing_of(b);
  for (const Severity s : {Severity::danger, Severity::spoils, Severity::weakens, Severity::note})
    if (a.count(s) != b.count(s)) return a.count(s) > b.count(s);
  return false;
}

std::vector<std::size_t> sorted_by(Rows rows, const Column& column) {
  std::vector<std::size_t> order(rows.size());
  std::iota(order.begin(), order.end(), 0u);
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    if (column.before(rows[a], rows[b])) return true;
    if (column.before(rows[b], rows[a])) return false;
    return worst_first(rows[a], rows[b]);
  });
  return order;
}

Json unusable_view() {
  return {{"name", "unusable"}, {"sign", "✗"}, {"word", "cannot be used"}};
}

std::string day_of_row(const ReviewRow& row) {
  const auto at = read_time(row.brew_day);
  return at ? day_in_words(at->at) : "";
}

Json row_view(const ReviewRow& row) {
  Json out;
  out["severity"] = row.usable() ? severity_view(row.worst()) : unusable_view();
  out["title"] = row.usable() ? row.title : row.plan;
  out["sheet"] = "sheets/" + row.sheet;
  out["file"] = row.usable() ? row.plan : "";
  out["member"] = row.member;
  out["beer"] = row.beer;
  out["brew_day"] = row.usable() ? day_of_row(row) : "";
  out["to_mend"] = row.usable() ? std::to_string(row.to_mend())
                                : counted(static_cast<int>(row.errors.size()), "error", "errors");
  out["accepted"] = row.accepted() > 0 ? counted(row.accepted(), "accepted", "accepted") : "";
  return out;
}

}  // namespace

std::string counted(int count, const char* one, const char* more) {
  return fmt::format("{} {}", count, count == 1 ? one : more);
}

std::string share_in_words(int part, int whole, const char* what) {
  if (whole == 0) return counted(part, what, what);
  return fmt::format("{} of {} {} ({} %)", part, whole, what, (200 * part + whole) / (2 * whole));
}

Json standing_view(const ReviewTally& tally) {
  struct Part {
    Json severity;
    int count;
  };
  std::vector<Part> parts = {{unusable_view(), tally.unusable}};
  for (const Severity s : {Severity::danger, Severity::spoils, Severity::weakens})
    parts.push_back({severity_view(s), tally.by_worst[static_cast<std::size_t>(s)]});
  parts.push_back({severity_view(std::nullopt), tally.sound});
  std::vector<BarPart> bar;
  Json legend = Json::array();
  for (Part& part : parts) {
    if (part.count == 0) continue;
    bar.push_back(
        {static_cast<double>(part.count) / tally.plans, part.severity["name"].get<std::string>()});
    legend.push_back(Json({{"severity", part.severity}, {"count", part.count}}));
  }
  return {{"bar", {{"markup", bar_svg(bar)}}}, {"legend", std::move(legend)}};
}

std::vector<ReviewPage> index_pages(const Review& review, const ReviewTally& tally) {
  const std::vector<Column> columns = columns_of_list();
  std::vector<ReviewPage> pages;
  Json data;
  data["page_title"] = "Review of starter plans: " + review.name;
  data["folder"] = review.name;
  data["club"] = review.club;
  data["total"] = counted(tally.plans, "plan", "plans");
  data["standing"] = standing_view(tally);
  data["has_plans"] = tally.plans > 0;
  for (const Column& column : columns) {
    data["heads"] = Json::array();
    for (const Column& head : columns)
      data["heads"].push_back(
          Json({{"name", head.name},
                {"file", head.file},
                {"sorts", &head - &columns[0] == &column - &columns[0] ? head.sorts : ""}}));
    data["sorted_by"] = column.name;
    data["rows"] = Json::array();
    for (const std::size_t i : sorted_by(review.rows, column))
      data["rows"].push_back(row_view(review.rows[i]));
    pages.push_back({column.file, fill_page("review-index", data)});
  }
  return pages;
}

}  // namespace starter
