#include <algorithm>

#include "network/reading.hpp"

using namespace whichwire;

namespace {

/// Ids of the buses at the connector.
std::vector<std::string> at_connector(const Network& network) {
  std::vector<std::string> ids;
  for (const auto& pins : network.diagnostic_connector.buses) ids.push_back(network.buses[pins.bus].id);
  return ids;
}

bool has_stub(const Bus& bus) {
  return std::any_of(bus.segments.begin(), bus.segments.end(), [](const Segment& segment) {
    return segment.from.kind == End::Kind::diagnostic_connector || segment.to.kind == End::Kind::diagnostic_connector;
  });
}

const std::string four = R"("modules": {"A": {}, "B": {}, "C": {}, "D": {}}, )";
const std::string buses = R"("buses": {"X": {"protocol": "can-hs", "members": ["A", "B"]},
    "Y": {"protocol": "can-hs", "members": ["B", "C"]}, "Z": {"protocol": "lin", "members": ["C", "D"]}})";

}  // namespace

TEST_CASE("the connector keeps its pins, feeds, grounds and place") {
  const Network network = test::read(test::framed(R"("feeds": {"F": {}}, "grounds": {"G": {}},
      "diagnostic_connector": {"buses": {"BUS": {"high": "6", "low": "14"}}, "power": [{"pin": "16", "feed": "F"}],
        "ground": [{"pin": "4", "ground": "G"}, {"pin": "5"}], "where": "left", "minutes": 0.5, "hazards": []})"));
  const DiagnosticConnector& connector = network.diagnostic_connector;
  REQUIRE(connector.buses.size() == 1);
  CHECK(connector.buses[0].pins.high == "6");
  CHECK(connector.buses[0].pins.low == "14");
  CHECK(connector.power[0].feed == 0);
  CHECK(connector.ground.size() == 2);
  CHECK(connector.place.minutes == 0.5);
}

TEST_CASE("a bus that a segment leads to the connector is there without being listed") {
  const Network network = test::read(
      R"("modules": {"A": {}}, "buses": {"X": {"protocol": "lin", "segments": {"S": {"from": "DLC", "to": "A"}}}})");
  CHECK(at_connector(network) == std::vector<std::string>{"X"});
  CHECK(network.buses[0].segments.size() == 1);
}

TEST_CASE("where nothing is said a lone bus is at the connector, by a stub of its own") {
  const Network network = test::read(
      R"("modules": {"A": {}, "B": {}}, "buses": {"X": {"protocol": "can-hs", "segments": {"S": {"from": "A", "to": "B"}}}})");
  CHECK(at_connector(network) == std::vector<std::string>{"X"});
  REQUIRE(network.buses[0].segments.size() == 2);
  CHECK(network.buses[0].segments[1].id == "X:DLC");
  CHECK(network.buses[0].segments[1].from == End{End::Kind::module, 0});
}

TEST_CASE("where nothing is said buses without a gateway are all at the connector") {
  const Network network = test::read(four + buses);
  CHECK(at_connector(network) == std::vector<std::string>{"X", "Y", "Z"});
  for (const Bus& bus : network.buses) CHECK(has_stub(bus));
}

TEST_CASE(
    "where nothing is said buses that gateways join are behind the widest of them, and the others at the connector") {
  const Network network = test::read(four + buses + R"(, "gateways": {"B": {"joins": ["X", "Y"]}})");
  REQUIRE(network.buses.size() == 4);
  CHECK(network.buses[3].id == "DLC:B");
  CHECK(at_connector(network) == std::vector<std::string>{"DLC:B", "Z"});
  CHECK(has_stub(network.buses[3]));
  CHECK_FALSE(has_stub(network.buses[0]));
  CHECK(network.gateways[0].joins == std::vector<std::size_t>{0, 1, 3});
}

TEST_CASE("a second gateway leads on from the first") {
  const Network network =
      test::read(four + buses + R"(, "gateways": {"C": {"joins": ["Y", "Z"]}, "B": {"joins": ["X", "Y"]}})");
  CHECK(at_connector(network) == std::vector<std::string>{"DLC:C"});
}

TEST_CASE("where one bus is said to be at the connector nothing is assumed") {
  const Network network = test::read(four + buses + R"(, "diagnostic_connector": {"buses": {"Y": {}}})");
  CHECK(at_connector(network) == std::vector<std::string>{"Y"});
  CHECK_FALSE(has_stub(network.buses[0]));
}
