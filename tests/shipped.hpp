// The networks that come with the program.
#pragma once

#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>
#include <string>
#include <vector>
#include <whichwire/network.hpp>

namespace whichwire::test {

inline std::string path_of_shipped(const std::string& name) {
  return WHICHWIRE_SOURCE_DIR "/topologies/" + name + ".json";
}

inline Network shipped(const std::string& name) {
  auto result = load_network(path_of_shipped(name));
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

}  // namespace whichwire::test
