// Hand-worked from the rules of lib/effects/meanings.md over the invented Moor of tests/checks/moor.hpp.
#include <doctest/doctest.h>

#include <nlohmann/json.hpp>
#include <whichwire/render.hpp>

#include "checks/moor.hpp"

using namespace whichwire;
using namespace moor;

namespace {

/// The Moor, with listeners and roles so that codes can be expected.
Network listening_moor() {
  Network network = moor::network();
  network.modules[ECM].roles = {"engine-control"};
  network.modules[TCM].listens_to = {{ECM, ABS}};
  network.modules[ABS].listens_to = {{ECM}};
  network.modules[ABS].own_codes = {{"C1A40", OwnCode::Says::lost, ECM}};
  network.modules[BCM].listens_to = {{TCM}};
  network.functions.push_back({"crank", "Starter cranks", {BCM, ECM}, {{BCM, ECM}}});
  return network;
}

const ModuleSeen& of(const ExpectedScan& expected, const char* id) {
  for (const ModuleSeen& module : expected.scan.modules) {
    if (module.module == id) return module;
  }
  throw std::logic_error("no such module in the scan");
}

ExpectedScan expected_with(const Network& network, const std::vector<Fault>& faults) {
  return expected_scan(Effects(network), faults);
}

}  // namespace

TEST_CASE("a vehicle in order answers everywhere, stores nothing and works") {
  const ExpectedScan expected = expected_with(listening_moor(), {});
  for (const ModuleSeen& module : expected.scan.modules) {
    CAPTURE(module.module);
    CHECK(module.answer == (module.module == "WIP" ? Answer::not_polled : Answer::yes));  // no gateway leads to the LIN
    CHECK(module.codes.empty());
  }
  REQUIRE(expected.scan.functions.size() == 1);
  CHECK(expected.scan.functions[0].works);
}

TEST_CASE("those that listen to a dead module store a code about it: the maker's own, a standard one, or a sentence") {
  const ExpectedScan expected = expected_with(listening_moor(), {dead(ECM)});
  CHECK(of(expected, "ECM").answer == Answer::no);
  REQUIRE(of(expected, "TCM").codes.size() == 1);
  CHECK(of(expected, "TCM").codes[0].written == "U0100");
  CHECK(of(expected, "TCM").codes[0].state == CodeState::current);
  REQUIRE(of(expected, "ABS").codes.size() == 1);
  CHECK(of(expected, "ABS").codes[0].written == "C1A40");
  CHECK(of(expected, "BCM").codes.empty());
  CHECK(!expected.scan.functions[0].works);
  const ExpectedScan other = expected_with(listening_moor(), {dead(TCM)});
  REQUIRE(of(other, "BCM").codes.size() == 1);
  CHECK(of(other, "BCM").codes[0].written.empty());
  CHECK(of(other, "BCM").codes[0].misses == "TCM");
}

TEST_CASE("a fault that comes and goes leaves history codes and every answer") {
  Fault fault = dead(ECM);
  fault.comes_and_goes = true;
  const ExpectedScan expected = expected_with(listening_moor(), {fault});
  CHECK(of(expected, "ECM").answer == Answer::yes);
  REQUIRE(of(expected, "TCM").codes.size() == 1);
  CHECK(of(expected, "TCM").codes[0].state == CodeState::history);
  CHECK(expected.scan.functions[0].works);
}

TEST_CASE("a module without supply in this key state is not polled") {
  const ExpectedScan expected = expected_scan(Effects(listening_moor()), {}, {KeyState::off, false});
  CHECK(of(expected, "TCM").answer == Answer::not_polled);
  CHECK(of(expected, "BCM").answer == Answer::yes);
  CHECK(of(expected, "BCM").codes.empty());
}

TEST_CASE("a forecast says who is silent, which codes to expect and which functions fail") {
  const Network network = listening_moor();
  const std::vector<Fault> faults = {dead(ECM)};
  const ExpectedScan expected = expected_with(network, faults);
  const std::string page = text_of(Forecast{network, faults, expected});
  for (const char* words : {"key at run", "- ECM itself does not work", "silent: ECM", "TCM: U0100 (current)",
                            "TCM from ECM", "fail: Starter cranks"}) {
    CAPTURE(words);
    CHECK(page.find(words) != std::string::npos);
  }
  const auto json = nlohmann::json::parse(json_of(Forecast{network, faults, expected}));
  CHECK(json["format"] == "whichwire.prediction.v1");
  CHECK(json["faults"] == nlohmann::json::parse(R"([{ "fault": "dead", "part": "ECM" }])"));
  CHECK(json["answers"][1] == nlohmann::json::parse(R"({ "module": "ECM", "level": "down" })"));
  CHECK(json["functions"][0]["level"] == "down");
  CHECK(json["scan"]["format"] == "whichwire.scan.v1");
}
