// The examples of topologies/SCAN-FORMAT.md are read as they stand there.
#include <doctest/doctest.h>

#include "scan/van.hpp"

using namespace whichwire;

namespace {

std::string block(const std::string& open) {
  const std::string page =
      test::file_text(std::filesystem::path(WHICHWIRE_SOURCE_DIR) / "topologies" / "SCAN-FORMAT.md");
  const std::size_t at = page.find(open);
  REQUIRE(at != std::string::npos);
  const std::size_t from = at + open.size();
  return page.substr(from, page.find("```", from) - from);
}

}  // namespace

TEST_CASE("the JSON example of the scan format's page is a scan without mistakes") {
  const ScanResult result = read_any_scan(block("```jsonc\n"), "page", test::van());
  for (const Mistake& mistake : result.mistakes) MESSAGE(text_of(mistake));
  REQUIRE(result.scan.has_value());
  CHECK(result.lines.empty());
  CHECK(result.scan->modules.size() == 2);
  CHECK(result.scan->modules[0].codes[1].state == CodeState::history);
  CHECK(result.scan->modules[0].codes[2].misses == "ECM");
}

TEST_CASE("the pasted example of the scan format's page is understood in every line") {
  const ScanResult result = read_any_scan(block("```text\n"), "page", test::van());
  REQUIRE(result.scan.has_value());
  CHECK(result.lines.size() == 5);
  for (const LineRead& line : result.lines) {
    CHECK_FALSE(line.understood.empty());
    CHECK(line.understood.find("not read") == std::string::npos);
  }
  CHECK(result.scan->unit == "V-117");
  CHECK(result.scan->battery_volts == 12.4);
  CHECK(test::seen(*result.scan, "TCM")->codes[0].state == CodeState::current);
  CHECK(test::seen(*result.scan, "ABS")->codes[0].status == 0x28);
  CHECK(test::seen(*result.scan, "ECM")->answer == Answer::no);
  CHECK(test::seen(*result.scan, "PAM")->answer == Answer::not_fitted);
}
