#include "browser/club.h"

namespace starter {

const Club* club() {
  return nullptr;
}

}  // namespace starter
