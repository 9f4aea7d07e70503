#include "network/reading.hpp"

using namespace whichwire;

TEST_CASE("gateways, functions and the vehicle are kept") {
  const Network network =
      test::read(R"("vehicle": {"make": "Hollin", "model": "Moor", "model_year": 2018, "variant": "base"},
      "modules": {"A": {}, "B": {}}, "buses": {"X": {"protocol": "can-hs", "members": ["A", "B"]}, "Y": {"protocol": "can-hs", "members": ["B"]}},
      "gateways": {"B": {"joins": ["Y", "X"]}},
      "functions": {"crank": {"name": "Starter cranks", "modules": ["B", "A"], "messages": [{"from": "A", "to": "B"}]}, "A": {"modules": ["A"]}})");
  CHECK(network.vehicle.make == "Hollin");
  CHECK(network.vehicle.model == "Moor");
  CHECK(network.vehicle.model_year == 2018);
  CHECK(network.vehicle.variant == "base");
  CHECK(network.gateways[0].module == 1);
  REQUIRE(network.functions.size() == 2);
  CHECK(network.functions[0].name == "Starter cranks");
  CHECK(network.functions[0].modules == std::vector<std::size_t>{1, 0});
  REQUIRE(network.functions[0].messages.size() == 1);
  CHECK(network.functions[0].messages[0].from == 0);
  CHECK(network.functions[0].messages[0].to == 1);
}

TEST_CASE("a mistake in the outermost keys is told alone, without what follows from it") {
  CHECK(test::said(R"("modulse": {"A": {}}, "buses": {"X": {"protocol": "can-hs", "members": ["A"]}})") ==
        ": the key `modules` is missing\n"
        "modulse: the key `modulse` is not known; did you mean `modules`?\n");
}

TEST_CASE("comments stand anywhere between the values") {
  const NetworkResult result = read_network(
      "// first\n{ /* a */ \"format\" /* b */ : \"whichwire.network.v1\", // c\n\"modules\": {\"A\": {}},\n"
      "\"buses\": {\"X\": {\"protocol\": \"lin\", \"members\": [/* one */ \"A\"]}} } // last",
      "file");
  CHECK(test::said_of(result) == "");
  CHECK(result.network);
}
