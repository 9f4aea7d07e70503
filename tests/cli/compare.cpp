// `compare` as the diagnostician types it: the van's two trims, with and without a scan.
#include <doctest/doctest.h>

#include <nlohmann/json.hpp>

#include "cli/judged.hpp"
#include "effort.hpp"
#include "running.hpp"

using namespace whichwire::test;

namespace {

const std::string golden_folder = WHICHWIRE_SOURCE_DIR "/tests/cli/golden/";
const std::string trims = "whichwire compare topologies/van-base.json topologies/van-high.json ";

void is_golden(const std::string& words, const std::string& file) {
  CAPTURE(words);
  const Run asked = run(trims + words);
  CHECK(asked.status == 0);
  CHECK(asked.err == "");
  CHECK(asked.out == golden(golden_folder + file, asked.out));
}

}  // namespace

TEST_CASE("the van's two trims are compared: what differs, and what that changes in a scan") {
  is_golden("", "compare.txt");
}

TEST_CASE("a scan taken with the wrong trim is seen" * doctest::skip(only_few())) {
  is_golden("--scan samples/14-wrong-trim-base/scan.txt", "compare-scan.txt");
}

TEST_CASE("comparisons as JSON are valid by their schema") {
  for (const std::string words : {"--json", "--json --scan samples/16-camera-silent/scan.txt"}) {
    CAPTURE(words);
    const Run asked = run(trims + words);
    CHECK(asked.status == 0);
    CHECK(judged(asked.out, "comparison") == "");
  }
  const auto json = nlohmann::json::parse(run(trims + "--json --scan samples/16-camera-silent/scan.txt").out);
  CHECK(json["fits"]["speaks_for"] == "b");
  CHECK(json["fits"]["strength"] == "very-strong");
  CHECK(json["fits"]["b"]["verdict"]["parts"][0] == "FCM");
  const Run broken = run("echo '{\"format\": \"whichwire.comparison.v1\"}'");
  CHECK(judged(broken.out, "comparison") != "");
}

TEST_CASE("a network compared with itself says that nothing differs") {
  const Run asked = run("whichwire compare topologies/tractor.json topologies/tractor.json");
  CHECK(asked.status == 0);
  CHECK(asked.out.find("Nothing: the two describe the same wiring.") != std::string::npos);
  CHECK(asked.out.find("only in") == std::string::npos);
}

TEST_CASE("no line of a comparison is wider than 80 columns") {
  const std::string page = run(trims + "--all --scan samples/16-camera-silent/scan.txt").out;
  CHECK(page.size() > 5000);
  std::size_t begin = 0;
  for (std::size_t end = page.find('\n'); end != std::string::npos; begin = end + 1, end = page.find('\n', begin)) {
    const std::string line = page.substr(begin, end - begin);
    CAPTURE(line);
    CHECK(line.size() <= 82);  // an ellipsis takes three bytes and one column
  }
}

TEST_CASE("networks and scans that cannot be read are refused with what is wrong in each") {
  const Run both = run("whichwire compare nowhere.json topologies/van-high.json");
  CHECK(both.status == 2);
  CHECK(both.err == "whichwire: nowhere.json: no such file\n");
  const Run function = run(trims + "--scan -", R"({"format": "whichwire.scan.v1", "modules": [],
  "functions": [{"function": "flying", "works": true}]})");
  CHECK(function.status == 2);
  CHECK(function.out == "");
  CHECK(function.err.find("standard input:2:30: functions[0].function: the network has no function `flying`") == 0);
  const Run missing = run("whichwire compare topologies/van-base.json");
  CHECK(missing.status == 2);
  CHECK(missing.err == "whichwire: B is required; `whichwire compare --help` shows how\n");
}
