// The shipped networks, read once, and a network with its keys in another order.
#pragma once

#include <doctest/doctest.h>

#include <filesystem>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>
#include <whichwire/network.hpp>

#include "running.hpp"

namespace whichwire::test {

inline Network shipped(const std::string& name) {
  auto result = load_network(WHICHWIRE_SOURCE_DIR "/topologies/" + name + ".json");
  REQUIRE(result.network.has_value());
  return std::move(*result.network);
}

/// Every network in topologies/, in the order of their names.
inline std::vector<std::string> shipped_names() {
  std::vector<std::string> names;
  for (const auto& entry : std::filesystem::directory_iterator(WHICHWIRE_SOURCE_DIR "/topologies")) {
    const std::string file = entry.path().filename().string();
    if (file.ends_with(".json") && !file.ends_with(".schema.json")) names.push_back(entry.path().stem().string());
  }
  std::sort(names.begin(), names.end());
  return names;
}

/// The same file with the keys of every object sorted by name. Only of files that extend no other.
inline Network with_sorted_keys(const std::string& name) {
  const std::string text = read_text(WHICHWIRE_SOURCE_DIR "/topologies/" + name + ".json");
  auto result = read_network(nlohmann::json::parse(text, nullptr, true, true).dump(), name);
  REQUIRE(result.network.has_value());
  return std::move(*result.network);
}

}  // namespace whichwire::test
