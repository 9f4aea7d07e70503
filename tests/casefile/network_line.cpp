// The network inside a case is the network of the file.
#include "casefile/jobs.hpp"
#include "shipped.hpp"

using namespace whichwire;
using namespace whichwire::test;

namespace {

std::string parts_of(const Network& network) {
  std::string text;
  for (const Module& module : network.modules) {
    text += module.id + "(" + module.name;
    for (const PowerPin& pin : module.power) text += "," + pin.pin + "=" + std::to_string(pin.feed);
    text += ")";
  }
  for (const Bus& bus : network.buses) {
    text += bus.id + std::to_string(bus.bit_rate);
    for (const Segment& segment : bus.segments)
      text += " " + segment.id + ":" + std::to_string(segment.length_m.value_or(-1));
  }
  for (const Feed& feed : network.feeds) text += feed.id + std::to_string(feed.amps.value_or(-1));
  return text;
}

}  // namespace

TEST_CASE("every shipped network, those that extend another included, is the same on one line") {
  int count = 0;
  for (const std::string& name : shipped_names()) {
    const std::string path = path_of_shipped(name);
    CAPTURE(path);
    const NetworkResult from_file = load_network(path);
    const NetworkLine line = network_line(text_at(path), path);
    REQUIRE(from_file.network);
    REQUIRE(line.json);
    CHECK(line.json->find('\n') == std::string::npos);
    CHECK(line.json->find("\"extends\"") == std::string::npos);
    const NetworkResult again = read_network(*line.json, "line");
    REQUIRE_MESSAGE(again.network, said(again.mistakes));
    CHECK(parts_of(*again.network) == parts_of(*from_file.network));
    ++count;
  }
  CHECK(count >= 9);
}

TEST_CASE("a network with mistakes is refused with all of them") {
  const NetworkLine line = network_line("{\"format\":\"whichwire.network.v1\",\"modulse\":{}}", "n.json");
  CHECK_FALSE(line.json);
  CHECK(said(line.mistakes).find("n.json:1:34: modulse: ") != std::string::npos);
}
