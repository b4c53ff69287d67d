#include "plan/json.h"

namespace starter {

Json parse_json(std::string_view bytes) {
  return Json::parse(bytes);
}

Json try_parse_json(std::string_view bytes) {
  return Json::parse(bytes, nullptr, false);
}

Json object_for(std::size_t members) {
  Json made = Json::object();
  made.get_ref<Json::object_t&>().reserve(members);
  return made;
}

}  // namespace starter
