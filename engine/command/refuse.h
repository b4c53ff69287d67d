#pragma once

/// \file
/// Saying why something cannot be done.

#include <string>

#include "command/options.h"

namespace starter {

/// Tells `says`, a sentence, on standard error, and what to write instead where that is known.
/// \return the end that belongs to it
Exit refuse(const std::string& says, const std::string& write = "");

}  // namespace starter
