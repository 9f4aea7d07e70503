#include "network/reading.hpp"

using namespace whichwire;

namespace {

const std::string three = R"("modules": {"A": {}, "B": {}, "C": {}}, )";

}  // namespace

TEST_CASE("a wired bus keeps its segments, ends, pins, colours, terminators and names") {
  const Network network = test::read(
      three + R"("points": {"S1": {"where": "sill"}, "X1": {"kind": "inline-connector"}, "Y1": {"kind": "star"}},
      "buses": {"DRV": {"name": "Drivetrain", "protocol": "can-hs", "bit_rate": 500000, "called": ["can-high-speed", "bus-a"],
        "lines": {"high": {"colour": "GN/WH"}, "low": {"colour": "GN"}},
        "segments": {
          "D1": {"from": "A", "to": "S1", "length_m": 1.5, "area_mm2": 0.35, "pins": {"A": {"high": "7", "low": "8"}}},
          "D2": {"from": "S1", "to": "B", "pins": {"B": {"high": "1"}}},
          "D3": {"from": "S1", "to": "X1"}, "D4": {"from": "X1", "to": "Y1"}, "D5": {"from": "Y1", "to": "C"},
          "D6": {"from": "DLC", "to": "S1"}},
        "terminators": [{"at": "A"}, {"at": "X1", "ohms": 60.5}]}})");
  const Bus& bus = network.buses[0];
  CHECK(bus.id == "DRV");
  CHECK(bus.name == "Drivetrain");
  CHECK(bus.wired);
  CHECK(bus.bit_rate == 500000);
  CHECK(bus.high_colour == "GN/WH");
  CHECK(bus.low_colour == "GN");
  CHECK(bus.called == std::vector<std::string>{"can-high-speed", "bus-a"});
  CHECK(bus.commander == nowhere);
  REQUIRE(bus.segments.size() == 6);
  CHECK(bus.segments[0].id == "D1");
  CHECK(bus.segments[0].from == End{End::Kind::module, 0});
  CHECK(bus.segments[0].to == End{End::Kind::point, 0});
  CHECK(bus.segments[0].length_m == 1.5);
  CHECK(bus.segments[0].area_mm2 == 0.35);
  CHECK(bus.segments[0].from_pins.high == "7");
  CHECK(bus.segments[0].from_pins.low == "8");
  CHECK(bus.segments[0].to_pins.high == "");
  CHECK(bus.segments[1].to_pins.high == "1");
  CHECK(bus.segments[1].length_m == std::nullopt);
  CHECK(bus.segments[5].from.kind == End::Kind::diagnostic_connector);
  REQUIRE(bus.terminators.size() == 2);
  CHECK(bus.terminators[0].at == End{End::Kind::module, 0});
  CHECK(bus.terminators[0].ohms == 120);
  CHECK(bus.terminators[1].at == End{End::Kind::point, 1});
  CHECK(bus.terminators[1].ohms == 60.5);
  CHECK(network.points[0].kind == Point::Kind::splice);
  CHECK(network.points[0].place.where == "sill");
  CHECK(network.points[1].kind == Point::Kind::inline_connector);
  CHECK(network.points[2].kind == Point::Kind::star);
}

TEST_CASE("a bus known by its members hangs from a hidden centre by a stub each") {
  const Network network = test::read(three + R"("points": {"S1": {}},
      "buses": {"BDY": {"protocol": "can-hs", "members": ["C", "A", "B"], "terminators": [{"at": "A"}]}},
      "diagnostic_connector": {"buses": {"BDY": {"high": "6", "low": "14"}}})");
  const Bus& bus = network.buses[0];
  CHECK_FALSE(bus.wired);
  REQUIRE(network.points.size() == 2);
  CHECK(network.points[1].id == "BDY:centre");
  CHECK(network.points[1].kind == Point::Kind::hidden);
  REQUIRE(bus.segments.size() == 4);
  CHECK(bus.segments[0].id == "BDY:C");
  CHECK(bus.segments[0].from == End{End::Kind::point, 1});
  CHECK(bus.segments[0].to == End{End::Kind::module, 2});
  CHECK(bus.segments[1].id == "BDY:A");
  CHECK(bus.segments[3].id == "BDY:DLC");
  CHECK(bus.segments[3].to.kind == End::Kind::diagnostic_connector);
  CHECK(bus.terminators[0].at == End{End::Kind::module, 0});
}

TEST_CASE("every protocol has its word, and reads back as the word says") {
  for (std::uint8_t i = 0; i <= static_cast<std::uint8_t>(Protocol::ethernet_t1); ++i) {
    const auto protocol = static_cast<Protocol>(i);
    const std::string word(word_for(protocol));
    CHECK(!word.empty());
    const Network network = test::read(R"("modules": {"A": {}, "B": {}}, "buses": {"X": {"protocol": ")" + word +
                                       R"(", "members": ["A", "B"]}})");
    CHECK(network.buses[0].protocol == protocol);
  }
}

TEST_CASE("a LIN bus has a commander that is on it, and no other bus has one") {
  const std::string members = R"("members": ["A", "B", "C"], "commander": )";
  CHECK(test::read(three + R"("buses": {"L": {"protocol": "lin", )" + members + R"("B"}})").buses[0].commander == 1);
  CHECK(test::said(three + R"("buses": {"L": {"protocol": "k-line", )" + members + R"("B"}})") ==
        "buses.L.commander: only a lin bus has a commander, and this one is k-line\n");
}

TEST_CASE("a mistyped protocol brings no mistakes about lines or commander with it") {
  CHECK(
      test::said(three + R"("buses": {"L": {"protocol": "linn", "members": ["A", "B", "C"], "commander": "A",
                              "lines": {"low": {"colour": "BN"}}}})") ==
      "buses.L.protocol: `linn` is not known; `can-hs`, `can-ft`, `can-sw`, `j1850-vpw`, `j1850-pwm`, `k-line`, `lin`, "
      "`j1708`, `flexray`, `ring` or `ethernet-t1` is expected here; did you mean `lin`?\n");
}
