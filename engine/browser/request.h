#pragma once

/// \file
/// A request of a page's, as its services read it. answer.h documents its members.

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "output/json.h"
#include "output/process_graph.h"
#include "plan/json.h"
#include "plan/read.h"
#include "quantity/write.h"
#include "rules/acceptance.h"
#include "rules/judge.h"
#include "rules/practice.h"

namespace starter {

/// What stops a request from being carried out, in words.
struct Refused {
  std::string says;
};

/// A request and the plan it speaks of, with the files that belong to it. Its functions throw
/// Refused where a member is not what it must be.
class Request {
 public:
  /// \param bytes the plan's and those of the files that follow it; they must outlive the request.
  Request(Json said, std::string_view bytes);

  std::string text(const char* name, const char* otherwise = "") const;
  bool flag(const char* name, bool otherwise) const;
  const Json& part(const char* name) const;
  bool has(const char* name) const { return said_.contains(name); }

  UnitSystem units() const;
  const Rule& rule() const;
  std::string_view plan() const { return plan_; }
  /// What the plan's file is called.
  std::string name() const { return text("name", "-"); }
  PlanResult read() const { return read_plan(plan_, practice().defaults); }

  /// The usual one where the request has none. The pages look at a club's file before they use it.
  const Practice& practice() const;
  /// None where the request has none.
  AcceptancesResult accepted() const;

  std::string_view practice_bytes() const { return practice_bytes_; }
  std::string_view accepted_bytes() const { return accepted_bytes_; }

 private:
  std::string_view taken(const char* name);

  Json said_;
  std::string_view plan_, accepted_bytes_, practice_bytes_;
  mutable std::optional<Practice> practice_;
};

/// A plan that can be judged, with what a mentor accepted of it.
struct Given {
  Plan plan;
  std::vector<AcceptanceRecord> accepted;
};

/// By the request's practice, with what is accepted laid over it.
/// \param advice works out fixes, and what would narrow ranges.
Judgement judged(const Request& request, Given given, bool advice);

/// A drawing, for Graphviz in the page to draw.
Json drawing_json(const Drawing& drawing);

/// The answer that `tell` gives of the plan, or why it cannot be used, as the program tells it.
template <class Tell>
Json of_plan(const Request& request, Tell tell) {
  PlanResult plan = request.read();
  if (const auto* errors = std::get_if<std::vector<PlanError>>(&plan))
    return errors_json(request.name(), *errors);
  AcceptancesResult accepted = request.accepted();
  if (const auto* errors = std::get_if<std::vector<PlanError>>(&accepted))
    return errors_json(request.name(), *errors);
  return tell(Given{std::get<Plan>(std::move(plan)),
                    std::get<std::vector<AcceptanceRecord>>(std::move(accepted))});
}

}  // namespace starter
