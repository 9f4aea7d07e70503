#include "network/reading.hpp"

using namespace whichwire;
using test::framed;

namespace {
using Live = std::array<bool, 4>;
}

TEST_CASE("feeds hang from each other up to the battery, and every kind is known") {
  const Network network = test::read(framed(R"("feeds": {
      "LINK": {"kind": "fusible-link", "amps": 100, "where": "battery tray", "minutes": 2, "hazards": ["hot"]},
      "KEY": {"kind": "switch", "from": "LINK", "live": ["run", "start"]},
      "R1": {"kind": "relay", "from": "KEY"},
      "F1": {"from": "R1", "amps": 7.5},
      "F2": {"kind": "fuse", "from": "battery"}})"));
  REQUIRE(network.feeds.size() == 5);
  CHECK(network.feeds[0].kind == Feed::Kind::fusible_link);
  CHECK(network.feeds[1].kind == Feed::Kind::switched);
  CHECK(network.feeds[2].kind == Feed::Kind::relay);
  CHECK(network.feeds[3].kind == Feed::Kind::fuse);
  CHECK(network.feeds[0].from == nowhere);
  CHECK(network.feeds[1].from == 0);
  CHECK(network.feeds[3].from == 2);
  CHECK(network.feeds[4].from == nowhere);
  CHECK(network.feeds[0].amps == 100);
  CHECK(network.feeds[0].place.where == "battery tray");
  CHECK(network.feeds[0].place.minutes == 2);
  CHECK(network.feeds[0].place.hazards == std::vector<std::string>{"hot"});
  CHECK(network.feeds[4].amps == std::nullopt);
}

TEST_CASE("a feed that does not say when it is live takes it from the one above, the battery being always live") {
  const Network network = test::read(framed(R"("feeds": {
      "F3": {"from": "F2"}, "F2": {"from": "KEY"}, "KEY": {"live": ["accessory", "run"]},
      "F1": {"from": "KEY", "live": ["run"]}, "F0": {}})"));
  const Live accessory_and_run{false, true, true, false};
  CHECK((network.feeds[0].live == accessory_and_run));
  CHECK((network.feeds[1].live == accessory_and_run));
  CHECK((network.feeds[2].live == accessory_and_run));
  CHECK((network.feeds[3].live == Live{false, false, true, false}));
  CHECK((network.feeds[4].live == Live{true, true, true, true}));
}

TEST_CASE("each circle of feeds is named once, and what hangs from it is not blamed") {
  CHECK(test::said(framed(R"("feeds": {"F9": {"from": "F1"}, "F1": {"from": "F2"}, "F2": {"from": "F1"}})")) ==
        "feeds.F2.from: feeds go in a circle: `F2` from `F1` from `F2`; each must come from the battery in the end\n");
}

TEST_CASE("a feed live below a feed that is not is a mistake, also where what is above is inherited") {
  CHECK(test::said(framed(
            R"("feeds": {"KEY": {"live": ["run"]}, "F1": {"from": "KEY"}, "F2": {"from": "F1", "live": ["off"]}})")) ==
        "feeds.F2.live: `F2` cannot be live with the key at `off`: `F1` above it is not\n");
}

TEST_CASE("pins know their feed, ground and colour, and one without a feed has one of its own") {
  const Network network = test::read(R"(
      "modules": {"A": {"power": [{"pin": "1", "feed": "F1", "wire": "RD"}, {"pin": "2"}, {"feed": "F1"}],
                        "ground": [{"pin": "3", "ground": "G1", "wire": "BN"}, {"pin": "4"}]}},
      "buses": {"BUS": {"protocol": "lin", "members": ["A"]}},
      "feeds": {"F1": {}}, "grounds": {"G0": {}, "G1": {"where": "sill", "minutes": 0}})");
  const Module& module = network.modules[0];
  REQUIRE(module.power.size() == 3);
  CHECK(module.power[0].feed == 0);
  CHECK(module.power[0].wire == "RD");
  CHECK(module.power[1].feed == nowhere);
  CHECK(module.power[2].pin == "");
  REQUIRE(module.ground.size() == 2);
  CHECK(module.ground[0].ground == 1);
  CHECK(module.ground[1].ground == nowhere);
  CHECK(network.grounds[1].place.where == "sill");
  CHECK(network.grounds[1].place.minutes == 0);
  CHECK(network.grounds[0].place.minutes == std::nullopt);
}
