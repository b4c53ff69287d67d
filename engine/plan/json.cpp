#include "plan/json.h"

namespace starter {

Json parse_json(std::string_view bytes) {
  return Json::parse(bytes);
}

Json try_parse_json(std::string_view bytes) {
  return Json::parse(bytes, nullptr, false);
}

}  // namespace starter
