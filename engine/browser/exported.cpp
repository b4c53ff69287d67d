/// \file
/// What the page calls: answer() with the calling convention of C.

#include <cstddef>
#include <string>

#include "browser/answer.h"

/// The answer, ended by a zero byte; it stays until the next call. The page lays request and plan
/// into memory that it got from malloc().
extern "C" const char* starter_plan_answer(const char* request, std::size_t request_size,
                                           const char* plan, std::size_t plan_size) {
  static std::string kept;
  kept = starter::answer({request, request_size}, {plan, plan_size});
  return kept.c_str();
}
