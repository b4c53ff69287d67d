#include "output/html.h"

#include <stdexcept>

#include "support.h"

using namespace starter;

namespace {

/// How often `part` stands in `text`.
std::size_t times(std::string_view text, std::string_view part) {
  std::size_t count = 0;
  for (std::size_t at = 0; (at = text.find(part, at)) != std::string_view::npos; at += part.size())
    ++count;
  return count;
}

Json unusable(const std::string& says) {
  return {{"page_title", "t"},
          {"file", "f"},
          {"errors",
           Json::array({Json({{"where", ""}, {"line", ""}, {"says", says}, {"write", ""}})})}};
}

}  // namespace

BOOST_AUTO_TEST_SUITE(html)

BOOST_AUTO_TEST_CASE(whatever_stands_in_the_data_is_shown_as_text) {
  const std::string page =
      fill_page("unusable", unusable("<script>x</script> & \"q\" 'a' {{file}} \x1b[31m \xff"));
  BOOST_TEST(!holds(page, "<script"));
  BOOST_TEST(holds(page,
                   "&lt;script&gt;x&lt;/script&gt; &amp; &quot;q&quot; &#39;a&#39; {{file}} "
                   "\\u{1b}[31m \\xff"));
}

BOOST_AUTO_TEST_CASE(an_empty_text_closes_its_section) {
  Json data = unusable("wrong");
  BOOST_TEST(!holds(fill_page("unusable", data), "Write:"));
  data["errors"][0]["write"] = "volume";
  BOOST_TEST(holds(fill_page("unusable", data), "Write: <code>volume</code>"));
}

BOOST_AUTO_TEST_CASE(only_markup_of_our_own_goes_in_as_it_is) {
  for (const PageFile& file : page_files()) {
    BOOST_TEST(times(file.text, "{{&") == 0u, file.name);
    BOOST_TEST(times(file.text, "{{{") == times(file.text, "markup}}}"), file.name);
  }
}

BOOST_AUTO_TEST_CASE(names_between_backticks_are_code_and_nothing_else_is_markup) {
  const auto shown = [](const std::string& says) {
    Json finding = {
        {"anchor", "a"},       {"severity", {{"name", "note"}, {"sign", "s"}, {"word", "w"}}},
        {"title", "t"},        {"place", "p"},
        {"says", says},        {"has_scale", false},
        {"margin", ""},        {"accepted", nullptr},
        {"reopened", nullptr}, {"fix", ""},
        {"advice", ""},        {"why", ""},
        {"sure", ""},          {"source", ""},
        {"rule", "r"}};
    const std::string page = fill_page("handout-finding", finding);
    const std::string before = "<p class=\"says\">";
    const auto from = page.find(before);
    BOOST_REQUIRE(from != std::string::npos);
    return page.substr(from + before.size(), page.find("</p>", from) - from - before.size());
  };
  BOOST_TEST(shown("write `growth_time` in `measured`.") ==
             "write <code>growth_time</code> in <code>measured</code>.");
  BOOST_TEST(shown("`<b>` & `{{rule}}`") == "<code>&lt;b&gt;</code> &amp; <code>{{rule}}</code>");
  BOOST_TEST(shown("one ` alone") == "one ` alone");
  BOOST_TEST(shown("`a` and ` one") == "<code>a</code> and ` one");
  BOOST_TEST(shown("``") == "<code></code>");
}

BOOST_AUTO_TEST_CASE(no_page_asks_for_anything_from_elsewhere) {
  for (const PageFile& file : page_files())
    for (const char* part : {"<script", "http:", "https:", "@import", "javascript:", " onclick"})
      BOOST_TEST(times(file.text, part) == 0u, file.name << " holds " << part);
}

BOOST_AUTO_TEST_CASE(an_unknown_template_and_a_bare_fraction_are_mistakes_of_ours) {
  BOOST_CHECK_THROW(fill_page("no-such-page", Json::object()), std::logic_error);
  BOOST_CHECK_THROW(fill_page("unusable", Json({{"file", 1.5}})), std::logic_error);
}

BOOST_AUTO_TEST_SUITE_END()
