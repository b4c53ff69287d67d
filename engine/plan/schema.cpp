#include <string>
#include <string_view>

#include "plan/read.h"

namespace starter {

/// The bytes of plan.schema.json, embedded at build.
extern const std::string_view plan_schema_text;

std::string plan_schema() {
  return std::string(plan_schema_text);
}

}  // namespace starter
