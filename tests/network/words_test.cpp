#include <doctest/doctest.h>

#include <whichwire/network.hpp>

using namespace whichwire;

TEST_CASE("a pair has two lines, a single wire and a ring one") {
  CHECK(lines_of(Protocol::can_hs) == 2);
  CHECK(lines_of(Protocol::j1708) == 2);
  CHECK(lines_of(Protocol::lin) == 1);
  CHECK(lines_of(Protocol::k_line) == 1);
  CHECK(lines_of(Protocol::ring) == 1);
}

TEST_CASE("the id of an end is that of its module or point, or DLC") {
  Network network;
  network.modules.push_back({});
  network.modules[0].id = "ECM";
  network.points.push_back({"S1", Point::Kind::splice, {}});
  CHECK(id_of(network, {End::Kind::module, 0}) == "ECM");
  CHECK(id_of(network, {End::Kind::point, 0}) == "S1");
  CHECK(id_of(network, {End::Kind::diagnostic_connector, nowhere}) == "DLC");
}
