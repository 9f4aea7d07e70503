// The one place that knows terminals: width, colour, and where results and messages go.
#pragma once

#include <string>
#include <whichwire/render.hpp>

namespace whichwire::cli {

/// Up to 80 columns; colour only on a terminal, and never where the environment has NO_COLOR.
Look look_of_output();

bool input_is_terminal();

/// A result, to standard output. Returns the exit status: `failed` where it cannot be written.
int write_out(const std::string& text);

/// A message of the program, to standard error.
void message(const std::string& text);

/// Mistakes of an input with place, line and caret, to standard error.
void message(const std::vector<Mistake>& mistakes);

}  // namespace whichwire::cli
