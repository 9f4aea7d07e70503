// The networks of a fleet: one file, or all network descriptions of a folder.
#pragma once

#include <optional>
#include <string>
#include <vector>
#include <whichwire/network.hpp>

namespace whichwire::cli {

/// nullopt after saying why not: no network, one with mistakes, two of one name.
std::optional<std::vector<Network>> networks_or_message(const std::string& path);

}  // namespace whichwire::cli
