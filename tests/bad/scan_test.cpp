// Refused scans, in JSON and as pasted text, with exactly what is said about them. The network is that of tests/scan.
#include <whichwire/scan.hpp>

#include "bad/golden.hpp"

using namespace whichwire;

namespace {

std::vector<Mistake> mistakes_of(const std::string& path) {
  static const NetworkResult van = load_network(std::string(WHICHWIRE_SOURCE_DIR) + "/tests/scan/van.json");
  REQUIRE(van.network.has_value());
  const std::string text = test::text_of_file(path);
  const bool pasted = path.ends_with(".txt");
  const ScanResult result = pasted ? read_pasted_scan(text, path, *van.network) : read_scan(text, path, &*van.network);
  CHECK(!result.scan);
  return result.mistakes;
}

}  // namespace

TEST_CASE("every refused scan is refused with exactly its text") {
  test::check_folder("scan", ".json", 20, mistakes_of);
}

TEST_CASE("every refused pasted text is refused with exactly its text") {
  test::check_folder("scan", ".txt", 5, mistakes_of);
}
