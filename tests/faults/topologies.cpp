// The words of the faults of every network that comes with the program.
#include <filesystem>

#include "round_trip.hpp"

using namespace whichwire;

TEST_CASE("every fault of every network that comes with the program is read back from its own words") {
  const std::filesystem::path folder = std::filesystem::path(WHICHWIRE_SOURCE_DIR) / "topologies";
  for (const auto& file : std::filesystem::recursive_directory_iterator(folder)) {
    const std::string path = file.path().string();
    if (!path.ends_with(".json") || path.find("schema") != std::string::npos) continue;
    const NetworkResult loaded = load_network(path);
    CAPTURE(path);
    REQUIRE(loaded.network.has_value());
    test::check_round_trip(*loaded.network);
  }
}
