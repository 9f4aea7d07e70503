// `blindspots` as the diagnostician types it, and the progress line of whatever takes longer than a second.
#include <doctest/doctest.h>

#include <nlohmann/json.hpp>

#include "cli/judged.hpp"
#include "running.hpp"

using namespace whichwire::test;

namespace {

const std::string golden_folder = WHICHWIRE_SOURCE_DIR "/tests/cli/golden/";

/// Columns of the widest line; bytes that continue a character are none.
std::size_t widest_line(const std::string& page) {
  std::size_t widest = 0, width = 0;
  for (const char byte : page) {
    width = byte == '\n' ? 0 : width + ((static_cast<unsigned char>(byte) & 0xc0U) != 0x80U ? 1 : 0);
    widest = std::max(widest, width);
  }
  return widest;
}

}  // namespace

TEST_CASE("blind spots name what is alike, the checks that part it, and what would help") {
  const Run asked = run("whichwire blindspots topologies/compact-car.json");
  CHECK(asked.status == 0);
  CHECK(asked.err == "");
  CHECK(asked.out == golden(golden_folder + "blindspots.txt", asked.out));
  CHECK(widest_line(asked.out) <= 80);
  const Run all = run("whichwire blindspots topologies/compact-car.json --all");
  CHECK(all.out.size() > 3 * asked.out.size());
  CHECK(widest_line(all.out) <= 80);
}

TEST_CASE("blind spots as JSON are valid by their schema, for every sort of network") {
  for (const std::string name : {"compact-car", "ring-saloon", "template-truck", "tractor"}) {
    CAPTURE(name);
    const Run asked = run("whichwire blindspots topologies/" + name + ".json --json");
    CHECK(asked.status == 0);
    CHECK(judged(asked.out, "blindspots") == "");
    const auto json = nlohmann::json::parse(asked.out);
    CHECK(json["alike"].size() > 5);
    CHECK(json["ways_to_show"] <= json["faults"]);
  }
  CHECK(judged(R"({"format": "whichwire.blindspots.v1"})", "blindspots") != "");
}

TEST_CASE("a network that cannot be read is refused by blindspots") {
  const Run asked = run("whichwire blindspots nowhere.json");
  CHECK(asked.status == 2);
  CHECK(asked.out == "");
  CHECK(asked.err == "whichwire: nowhere.json: no such file\n");
}
