// Help that teaches: what the command is for, its arguments and options, and an example to type.
#pragma once

#include <CLI/CLI.hpp>
#include <string>

namespace whichwire::cli {

/// Gives the command its help page; its description is what CLI11 was told, `example` stands at the end.
void teach(CLI::App& command, const std::string& example);

/// `whichwire case start`: the words that choose the command.
std::string words_of(const CLI::App& command);

}  // namespace whichwire::cli
