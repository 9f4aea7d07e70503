// Scans of many units: the sample's vans over and over.
#pragma once

#include <sstream>
#include <string>
#include <vector>

#include "running.hpp"

namespace whichwire::test {

inline const std::string vans = "samples/fleet/vans.ndjson";

inline std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) lines.push_back(line);
  return lines;
}

/// The sample's vans over and over, each with a unit of its own: `count` lines.
inline std::string many(std::size_t count) {
  const auto lines = lines_of(read_text(WHICHWIRE_SOURCE_DIR "/" + vans));
  std::string text;
  for (std::size_t i = 0; i < count; ++i) {
    std::string line = lines[i % lines.size()];
    line.replace(line.find("\"V-1"), 4, "\"N-" + std::to_string(i) + "-");
    text += line + "\n";
  }
  return text;
}

}  // namespace whichwire::test
