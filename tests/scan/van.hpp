// The small invented network of these tests (van.json) and ways to read a text with it.
#pragma once

#include <doctest/doctest.h>

#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <whichwire/scan.hpp>

namespace whichwire::test {

inline const std::filesystem::path& scan_folder() {
  static const std::filesystem::path folder = std::filesystem::path(WHICHWIRE_SOURCE_DIR) / "tests" / "scan";
  return folder;
}

inline std::string file_text(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  REQUIRE_MESSAGE(in, path.string());
  std::ostringstream out;
  out << in.rdbuf();
  return out.str();
}

inline const Network& van() {
  static const Network network = [] {
    const NetworkResult result = load_network((scan_folder() / "van.json").string());
    for (const Mistake& mistake : result.mistakes) MESSAGE(text_of(mistake));
    REQUIRE(result.network.has_value());
    return *result.network;
  }();
  return network;
}

inline std::size_t module(std::string_view id) {
  const std::size_t index = index_of(van().modules, id);
  REQUIRE(index != nowhere);
  return index;
}

/// What was understood of each line of a pasted text, one a line; `?` for a line that was not placed.
inline std::string understood(std::string_view text) {
  std::string all;
  for (const LineRead& line : read_pasted_scan(text, "paste", van()).lines)
    all += (line.understood.empty() ? "?" : line.understood) + "\n";
  return all;
}

/// The scan of a pasted text that must say something.
inline Scan pasted(std::string_view text) {
  const ScanResult result = read_pasted_scan(text, "paste", van());
  REQUIRE(result.scan.has_value());
  return *result.scan;
}

inline const ModuleSeen* seen(const Scan& scan, std::string_view id) {
  for (const ModuleSeen& one : scan.modules)
    if (one.module == id) return &one;
  return nullptr;
}

}  // namespace whichwire::test
