// Tests: tests/cli/fleet.cpp.
#include "network_folder.hpp"

#include <algorithm>
#include <filesystem>
#include <whichwire/fleet.hpp>

#include "inputs.hpp"
#include "terminal.hpp"

namespace whichwire::cli {
namespace {

namespace fs = std::filesystem;

/// Schemas and scans may lie beside networks: a network says that it is one.
bool is_network(const std::string& text) {
  constexpr std::size_t early = 65536;
  const std::size_t format = text.substr(0, early).find("\"whichwire.network.v1\"");
  return format != std::string::npos && text.substr(0, format).find("\"$schema\"") == std::string::npos;
}

std::optional<std::vector<Network>> read_folder(const std::string& path) {
  std::vector<std::string> files;
  std::error_code error;
  for (fs::directory_iterator it(path, error), end; !error && it != end; it.increment(error)) {
    if (it->path().extension() == ".json") files.push_back(it->path().string());
  }
  std::ranges::sort(files);
  std::vector<Network> networks;
  bool fine = true;
  for (const std::string& file : files) {
    const Input input = read_input(file);
    if (input.error.empty() && !is_network(input.text)) continue;
    auto network = network_or_message(file);
    fine = fine && network;
    if (network) networks.push_back(std::move(*network));
  }
  if (!fine) return std::nullopt;
  return networks;
}

}  // namespace

std::optional<std::vector<Network>> networks_or_message(const std::string& path) {
  std::error_code ignored;
  if (!fs::is_directory(path, ignored)) {
    auto network = network_or_message(path);
    if (!network) return std::nullopt;
    std::vector<Network> one;
    one.push_back(std::move(*network));
    return one;
  }
  auto networks = read_folder(path);
  if (networks && networks->empty()) {
    message(path + ": no network description in this folder");
    return std::nullopt;
  }
  return networks;
}

}  // namespace whichwire::cli
