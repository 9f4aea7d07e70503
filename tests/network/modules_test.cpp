#include "network/reading.hpp"

using namespace whichwire;

TEST_CASE("a module with nothing stated is always fitted, not locked, and listens to an unknown set") {
  const Network network = test::read(test::framed(R"("note": "bare")"));
  const Module& module = network.modules[0];
  CHECK(module.id == "A");
  CHECK_FALSE(module.optional);
  CHECK_FALSE(module.locked);
  CHECK_FALSE(module.passes_when_dead);
  CHECK_FALSE(module.address);
  CHECK_FALSE(module.listens_to);
  CHECK(module.power.empty());
  CHECK(network.note == "bare");
  CHECK(network.name == "file");
}

TEST_CASE("everything that a module states is kept") {
  const Network network = test::read(R"(
      "modules": {"A": {"name": "Engine", "roles": ["engine-control"], "aliases": ["DME", "motor"], "address": 0,
          "fitted": "optional", "locked": true, "passes_when_dead": true,
          "references": {"5V-1": {"pin": "B-17", "wire": "GY", "volts": 8, "loads": ["pedal", "rail"]}, "5V-2": {}},
          "listens_to": ["B"], "where": "left", "minutes": 4.5, "hazards": ["hot", "restraint"],
          "codes": {"U1402": {"lost": "B"}, "no messages from B": {"invalid": "B"}, "3F": {"bus": "BUS"}}},
        "B": {"listens_to": [], "fitted": "always", "locked": false}},
      "buses": {"BUS": {"protocol": "can-hs", "members": ["A", "B"]}})");
  const Module& module = network.modules[0];
  CHECK(module.name == "Engine");
  CHECK(module.roles == std::vector<std::string>{"engine-control"});
  CHECK(module.aliases == std::vector<std::string>{"DME", "motor"});
  CHECK(module.address == 0);
  CHECK(module.optional);
  CHECK(module.locked);
  CHECK(module.passes_when_dead);
  REQUIRE(module.references.size() == 2);
  CHECK(module.references[0].id == "5V-1");
  CHECK(module.references[0].pin == "B-17");
  CHECK(module.references[0].volts == 8);
  CHECK(module.references[0].loads == std::vector<std::string>{"pedal", "rail"});
  CHECK(module.references[1].volts == 5);
  CHECK(module.listens_to == std::vector<std::size_t>{1});
  CHECK(module.place.where == "left");
  CHECK(module.place.minutes == 4.5);
  CHECK(module.place.hazards == std::vector<std::string>{"hot", "restraint"});
  REQUIRE(module.own_codes.size() == 3);
  CHECK(module.own_codes[0].says == OwnCode::Says::lost);
  CHECK(module.own_codes[0].subject == 1);
  CHECK(module.own_codes[1].code == "no messages from B");
  CHECK(module.own_codes[1].says == OwnCode::Says::invalid);
  CHECK(module.own_codes[2].says == OwnCode::Says::bus_fault);
  CHECK(module.own_codes[2].subject == 0);
  REQUIRE(network.modules[1].listens_to);
  CHECK(network.modules[1].listens_to->empty());
  CHECK_FALSE(network.modules[1].optional);
}

TEST_CASE("a pin of a module has one use; the same pin at two modules is fine") {
  const std::string bus = R"(, "buses": {"BUS": {"protocol": "lin", "members": ["A", "B"]}})";
  CHECK(test::said(R"("modules": {"A": {"power": [{"pin": "1"}]}, "B": {"ground": [{"pin": "1"}]}})" + bus) == "");
  CHECK(test::said(R"("modules": {"A": {"power": [{"pin": "1"}], "ground": [{"pin": "1"}]}, "B": {}})" + bus) ==
        "modules.A.ground[0].pin: the pin `1` is in use already (the first is in line 1)\n");
}

TEST_CASE("an id that leads nowhere gets the nearest of its sort, and one of another sort is called what it is") {
  CHECK(test::said(R"("modules": {"ECM": {"listens_to": ["TMC", "BUS"]}, "TCM": {}},
                      "buses": {"BUS": {"protocol": "lin", "members": ["ECM", "TCM"]}})") ==
        "modules.ECM.listens_to[0]: there is no module `TMC`; did you mean `TCM`?\n"
        "modules.ECM.listens_to[1]: there is no module `BUS`; it is a bus\n");
}
