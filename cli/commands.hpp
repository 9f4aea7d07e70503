// The commands. Each registers itself with its options and, when it is the one asked for, leaves what to do in
// `chosen`.
#pragma once

#include <CLI/CLI.hpp>
#include <functional>

namespace whichwire::cli {

using Action = std::function<int()>;  ///< returns an ExitStatus

void add_locate(CLI::App& program, Action& chosen);
void add_check(CLI::App& program, Action& chosen);
void add_draw(CLI::App& program, Action& chosen);
void add_codes(CLI::App& program, Action& chosen);
void add_predict(CLI::App& program, Action& chosen);
void add_case(CLI::App& program, Action& chosen);
void add_compare(CLI::App& program, Action& chosen);
void add_fleet(CLI::App& program, Action& chosen);
void add_rates(CLI::App& program, Action& chosen);
void add_blindspots(CLI::App& program, Action& chosen);

}  // namespace whichwire::cli
