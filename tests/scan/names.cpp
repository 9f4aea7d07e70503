// Every name that a scan may call a module by.
#include "scan/names.hpp"

#include <doctest/doctest.h>

#include "scan/van.hpp"

using namespace whichwire;

namespace {
const NameIndex& names() {
  static const NameIndex index(test::van());
  return index;
}
std::string meant(std::string_view name) {
  std::string all;
  for (const NameHit& hit : names().find(name)) all += (all.empty() ? "" : " ") + test::van().modules[hit.module].id;
  return all;
}
}  // namespace

TEST_CASE("a module is known by its id, name, alias, role and the role's trade names") {
  for (const char* name : {"ECM", "Engine control module", "engine computer", "Motorsteuerung", "engine-control", "PCM",
                           "powertrain control module"})
    CHECK_MESSAGE(meant(name) == "ECM", name);
  CHECK(meant("airbag") == "SRS");
  CHECK(meant("yaw rate sensor") == "SRS");
  CHECK(meant("nothing of the kind").empty());
}

TEST_CASE("the words of a name may stand in any order, with little words between") {
  CHECK(meant("module, engine control") == "ECM");
  CHECK(meant("the control module of the engine") == "ECM");
  CHECK(meant("driver side door module") == "DDM");
}

TEST_CASE("unit, controller and computer may stand for module at the end of a name") {
  CHECK(meant("engine control unit") == "ECM");
  CHECK(meant("body controller") == "BCM");
  CHECK(meant("climate computer") == "HVAC");
  CHECK(meant("trailer ECU") == "TRM");
}

TEST_CASE("a name that fits two modules means both") {
  CHECK(meant("door module") == "DDM PDM");
  CHECK(meant("door control B") == "PDM");
}

TEST_CASE("an id counts more than another module's name") {
  Network network = test::van();
  network.modules[test::module("RAD")].aliases.push_back("ecm");
  const NameIndex index(network);
  REQUIRE(index.find("ECM").size() == 1);
  CHECK(index.find("ECM")[0].module == test::module("ECM"));
}
