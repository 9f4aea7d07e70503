// Inputs of the command line: files and standard input, read whole, with a clear word where that fails.
#pragma once

#include <optional>
#include <string>
#include <whichwire/fault.hpp>
#include <whichwire/network.hpp>
#include <whichwire/scan.hpp>

namespace whichwire::cli {

struct Input {
  std::string name;  ///< for messages: the path, or `standard input`
  std::string text;
  std::string error;  ///< empty when it was read
};

/// Reads a file, or standard input for `-`. Larger than 256 MiB is refused.
Input read_input(const std::string& path);

/// Read or refused: where these give nothing, the reason has been said on standard error.
std::optional<Input> input_or_message(const std::string& path);
std::optional<Network> network_or_message(const std::string& path);
std::optional<Rates> rates_or_message(const std::string& path);  ///< the default rates for an empty path

}  // namespace whichwire::cli
