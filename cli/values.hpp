// Values of options: what is allowed, and what is said of others.
#pragma once

#include <CLI/CLI.hpp>
#include <optional>
#include <string>
#include <whichwire/network.hpp>

namespace whichwire::cli {

/// A key state by its word; nullopt for an empty word.
std::optional<KeyState> key_of(const std::string& word);

/// --rates FILE.
void ask_for_rates(CLI::App& command, std::string& path);

CLI::Validator a_key_state();
CLI::Validator between(double low, double high);
CLI::Validator one_of(std::vector<std::string> words);

}  // namespace whichwire::cli
