// The published schema knows the same fields and words as the reader. That both agree on whole
// plans is checked by check_schema.py, with an independent validator.

#include <boost/test/unit_test.hpp>
#include <nlohmann/json.hpp>
#include <set>

#include "plan/kinds.h"
#include "plan/read.h"
#include "plan/shape.h"
#include "plan/words.h"
#include "plan_files.h"

namespace {

using namespace starter;
using Json = nlohmann::ordered_json;

Json schema() {
  return Json::parse(plan_schema());
}

std::vector<std::string> names_of(const Json& object) {
  std::vector<std::string> names;
  for (const auto& item : object.at("properties").items()) names.push_back(item.key());
  return names;
}

template <class Word>
std::vector<std::string> words() {
  std::vector<std::string> all;
  for (const auto& row : spellings<Word>()) all.emplace_back(row.text);
  return all;
}

std::vector<std::string> texts(std::span<const std::string_view> names) {
  return {names.begin(), names.end()};
}

void check_words(const Json& field, const std::vector<std::string>& words) {
  BOOST_TEST(field.at("enum").get<std::vector<std::string>>() == words,
             boost::test_tools::per_element());
}

BOOST_AUTO_TEST_SUITE(published_schema)

BOOST_AUTO_TEST_CASE(is_the_file_beside_the_reader) {
  const auto path =
      std::filesystem::path(STARTER_PLAN_SOURCE_DIR) / "engine" / "plan" / "plan.schema.json";
  BOOST_TEST(plan_schema() == file_bytes(path));
  BOOST_TEST(schema().at("$schema") == "https://json-schema.org/draft/2020-12/schema");
}

BOOST_AUTO_TEST_CASE(has_the_fields_of_the_reader) {
  const Json whole = schema();
  const Json& defs = whole.at("$defs");
  const Json& stage = defs.at("stage").at("properties");
  const std::vector<std::pair<Json, std::span<const std::string_view>>> pairs = {
      {whole, shape::plan},
      {defs.at("place"), shape::place},
      {defs.at("beer"), shape::beer},
      {defs.at("yeast"), shape::yeast},
      {defs.at("vessel"), shape::vessel},
      {defs.at("stage"), shape::stage},
      {stage.at("extract"), shape::extract},
      {stage.at("measured"), shape::measured},
      {defs.at("step"), shape::step},
  };
  for (const auto& [object, fields] : pairs) {
    BOOST_TEST(names_of(object) == texts(fields), boost::test_tools::per_element());
    BOOST_TEST(object.at("additionalProperties") == false);
  }
}

BOOST_AUTO_TEST_CASE(has_the_words_of_the_reader) {
  const Json whole = schema();
  const auto of = [&](const char* object, const char* field) {
    return whole.at("$defs").at(object).at("properties").at(field);
  };
  check_words(of("beer", "kind"), words<BeerKind>());
  check_words(of("yeast", "form"), words<YeastForm>());
  check_words(of("yeast", "flocculation"), words<Flocculation>());
  check_words(of("vessel", "kind"), words<VesselKind>());
  check_words(of("vessel", "material"), words<Material>());
  check_words(of("stage", "extract").at("properties").at("kind"), words<ExtractKind>());
  check_words(of("stage", "agitation"), words<Agitation>());
  check_words(of("step", "heat"), words<HeatSource>());
  check_words(of("step", "do").at("anyOf").at(0), words<Do>());
}

BOOST_AUTO_TEST_CASE(has_the_counts_of_the_reader) {
  const Json whole = schema();
  const Json& top = whole.at("properties");
  BOOST_TEST(top.at("stages").at("maxItems") == most_stages);
  BOOST_TEST(top.at("steps").at("maxItems") == most_steps);
  BOOST_TEST(top.at("vessels").at("maxProperties") == most_vessels);
  BOOST_TEST(whole.at("$defs").at("text").at("maxLength") == most_characters);
  const Json& yeast = whole.at("$defs").at("yeast").at("properties");
  BOOST_TEST(yeast.at("packs").at("maximum") == most_packs);
  BOOST_TEST(yeast.at("cells_counted").at("maximum") == most_cells_counted);
}

BOOST_AUTO_TEST_CASE(describes_every_field) {
  const Json whole = schema();
  for (const char* name : {"place", "beer", "yeast", "vessel", "stage", "step"})
    for (const auto& field : whole.at("$defs").at(name).at("properties").items())
      BOOST_TEST(field.value().contains("description"), name << ": " << field.key());
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
