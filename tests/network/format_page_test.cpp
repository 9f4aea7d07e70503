// The examples of topologies/FORMAT.md are read as they stand there.
#include <doctest/doctest.h>

#include <filesystem>
#include <fstream>
#include <vector>
#include <whichwire/network.hpp>

#include "network/read_file.hpp"

using namespace whichwire;

namespace {

/// The fenced blocks of the page that hold JSON.
std::vector<std::string> blocks() {
  const FileText page = read_file(WHICHWIRE_SOURCE_DIR "/topologies/FORMAT.md", 1U << 20U);
  REQUIRE(page.text);
  const std::string open = "```jsonc\n";
  std::vector<std::string> all;
  for (std::size_t at = page.text->find(open); at != std::string::npos; at = page.text->find(open, at)) {
    at += open.size();
    all.push_back(page.text->substr(at, page.text->find("```", at) - at));
  }
  return all;
}

std::string said(const NetworkResult& result) {
  std::string all;
  for (const Mistake& mistake : result.mistakes) all += text_of(mistake);
  return all;
}

}  // namespace

TEST_CASE("the example of the format's page is a network without mistakes, and holds what the page says") {
  const std::vector<std::string> page = blocks();
  REQUIRE(page.size() == 2);
  const NetworkResult result = read_network(page[0], "page");
  CHECK(said(result) == "");
  REQUIRE(result.network);
  const Network& network = *result.network;
  CHECK(network.modules.size() == 6);
  CHECK(network.buses.size() == 4);
  CHECK(network.gateways.size() == 2);
  CHECK(network.vehicle.model == "Moor");
  const Feed& inherits = network.feeds[index_of(network.feeds, "F4")];
  CHECK(inherits.live == std::array<bool, 4>{false, false, true, true});
  CHECK(network.feeds[index_of(network.feeds, "F11")].live == std::array<bool, 4>{true, true, true, true});
  CHECK_FALSE(network.buses[index_of(network.buses, "BDY")].wired);
}

TEST_CASE("the second example of the format's page extends the first") {
  const std::vector<std::string> page = blocks();
  REQUIRE(page.size() == 2);
  const std::filesystem::path folder = std::filesystem::temp_directory_path() / "whichwire-format-page";
  std::filesystem::create_directories(folder);
  std::ofstream(folder / "base.json") << page[0];
  const NetworkResult result = read_network(page[1], (folder / "sport.json").string());
  std::filesystem::remove_all(folder);
  CHECK(said(result) == "");
  REQUIRE(result.network);
  const Network& network = *result.network;
  CHECK(network.vehicle.make == "Hollin");
  CHECK(network.vehicle.variant == "sport");
  CHECK(index_of(network.modules, "RLS") == nowhere);
  CHECK(index_of(network.modules, "SUS") != nowhere);
  CHECK(network.buses[index_of(network.buses, "DRV")].segments.size() == 6);
}
