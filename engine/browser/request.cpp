#include "browser/request.h"

#include <cstddef>

#include "browser/club.h"
#include "output/dot.h"
#include "quantity/words.h"
#include "rules/catalogue.h"

namespace starter {

Request::Request(Json said, std::string_view bytes) : said_(std::move(said)), plan_(bytes) {
  practice_bytes_ = taken("practice");
  accepted_bytes_ = taken("accepted");
  if (!has("practice")) practice_ = usual_practice(catalogue());
}

/// The last bytes, as many as the request says.
std::string_view Request::taken(const char* name) {
  const auto found = said_.find(name);
  if (found == said_.end()) return {};
  if (club() == nullptr)
    throw Refused{std::string("“") + name + "” is a club's file, and this engine reads none"};
  if (!found->is_number_unsigned() || found->get<std::size_t>() > plan_.size())
    throw Refused{std::string("“") + name + "” must be how many of the bytes are its own"};
  const std::string_view part = plan_.substr(plan_.size() - found->get<std::size_t>());
  plan_.remove_suffix(part.size());
  return part;
}

std::string Request::text(const char* name, const char* otherwise) const {
  const auto found = said_.find(name);
  if (found == said_.end()) return otherwise;
  if (!found->is_string()) throw Refused{std::string("“") + name + "” must be a text"};
  return found->get<std::string>();
}

bool Request::flag(const char* name, bool otherwise) const {
  const auto found = said_.find(name);
  if (found == said_.end()) return otherwise;
  if (!found->is_boolean()) throw Refused{std::string("“") + name + "” must be true or false"};
  return found->get<bool>();
}

const Json& Request::part(const char* name) const {
  const auto found = said_.find(name);
  if (found == said_.end()) throw Refused{std::string("“") + name + "” is missing"};
  return *found;
}

UnitSystem Request::units() const {
  const std::string word = text("units", "metric");
  if (word == "metric") return UnitSystem::metric;
  if (word == "us") return UnitSystem::us;
  throw Refused{"units are metric or us, not " + starter::quoted(word)};
}

const Rule& Request::rule() const {
  const std::string id = text("rule");
  if (const Rule* rule = find_rule(id)) return *rule;
  std::vector<std::string_view> ids;
  for (const Rule& known : catalogue()) ids.push_back(known.id);
  const auto nearest = nearest_word(id, ids);
  throw Refused{"there is no rule " + starter::quoted(id) + "." +
                (nearest ? " Did you mean " + *nearest + "?" : "")};
}

// That there is a club's file at all was looked at when the request was taken apart.

const Practice& Request::practice() const {
  if (!practice_) practice_ = club()->practice(practice_bytes_);
  return *practice_;
}

AcceptancesResult Request::accepted() const {
  if (!has("accepted")) return std::vector<AcceptanceRecord>();
  return club()->acceptances(name(), accepted_bytes_);
}

Judgement judged(const Request& request, Given given, bool advice) {
  const JudgeOptions how{request.units(), advice, advice};
  Judgement judgement = judge(std::move(given.plan), request.practice().rules(), how);
  if (const Club* mentors = club()) mentors->apply(judgement, given.accepted);
  return judgement;
}

Json drawing_json(const Drawing& drawing) {
  return {{"dot", dot_of(drawing)}, {"title", drawing.title}, {"about", drawing.about}};
}

}  // namespace starter
