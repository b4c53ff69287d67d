#pragma once

/// \file
/// Asking a person line by line, on a terminal or from a file of answers.

#include <optional>
#include <string>

#include "command/questions.h"
#include "output/page.h"

namespace starter {

enum class Asked {
  answered,
  stopped,  ///< the input ended first
  wrong,    ///< an answer was wrong, and nobody is there to be asked again
};

/// Asks every question that applies and has no answer yet, on standard error, and reads the answers
/// from standard input. An empty line takes what is usual.
/// \param again whether a wrong answer is asked again, as on a terminal
Asked ask_questions(Answers& answers, bool again, const Look& look);

/// One line of standard input, without its end; at most 4000 bytes of it, the rest is passed over.
/// \return nothing at the end of the input
std::optional<std::string> next_line();

/// Whether a person can be asked: standard input and standard error are a terminal.
bool can_ask();

}  // namespace starter
