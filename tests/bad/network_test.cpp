#include <whichwire/network.hpp>

#include "bad/golden.hpp"

using namespace whichwire;

TEST_CASE("every refused network is refused with exactly its text") {
  test::check_folder("network", ".json", 40, [](const std::string& path) {
    const NetworkResult result = load_network(path);
    CHECK(!result.network);
    return result.mistakes;
  });
}
