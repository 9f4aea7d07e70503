#include <doctest/doctest.h>

#include <nlohmann/json.hpp>

#include "running.hpp"

using namespace whichwire::test;

TEST_CASE("every network that is shipped is without mistakes") {
  const Run checked = run("whichwire check $(ls topologies/*.json | grep -v schema)");
  CHECK(checked.status == 0);
  CHECK(checked.err == "");
  CHECK(checked.out.find("topologies/compact-car.json: fine, a network of 10 modules on 1 bus\n") != std::string::npos);
  CHECK(checked.out.find("mistake") == std::string::npos);
}

TEST_CASE("a scan is checked alone or against its network") {
  const std::string scan = "samples/02-shown-as-not-fitted/scan.json";
  const Run alone = run("whichwire check " + scan);
  CHECK(alone.status == 0);
  CHECK(alone.out.starts_with(scan + ": fine, a scan of "));
  const Run against = run("whichwire check --network topologies/compact-car.json " + scan);
  CHECK(against.status == 0);
}

TEST_CASE("all mistakes of all files come at once, with place and suggestion, and the status is 2") {
  const std::string bad = scratch() + "/bad.json";
  write_text(bad, "{\n  \"format\": \"whichwire.network.v1\",\n  \"vehicel\": {},\n  \"modulse\": {}\n}\n");
  const Run checked = run("whichwire check " + bad + " topologies/compact-car.json nowhere.json");
  CHECK(checked.status == 2);
  CHECK(checked.out.find(bad + ":3:3: ") != std::string::npos);
  CHECK(checked.out.find(bad + ":4:3: ") != std::string::npos);
  CHECK(checked.out.find("did you mean") != std::string::npos);
  CHECK(checked.out.find("compact-car.json: fine") != std::string::npos);
  CHECK(checked.out.find("nowhere.json: no such file") != std::string::npos);
}

TEST_CASE("mistakes as JSON carry line, column and path") {
  const Run checked = run("whichwire check - --json", "{\"format\": \"whichwire.scan.v1\", \"modulse\": []}");
  CHECK(checked.status == 2);
  const auto json = nlohmann::json::parse(checked.out);
  CHECK(json["format"] == "whichwire.mistakes.v1");
  CHECK(json["files"][0]["file"] == "standard input");
  CHECK(json["files"][0]["mistakes"][0]["line"] == 1);
}

TEST_CASE("pasted text needs a network to be read") {
  const Run alone = run("whichwire check -", "ECM no reply\n");
  CHECK(alone.status == 2);
  CHECK(alone.out.find("can be read only with a network") != std::string::npos);
  const Run with = run("whichwire check - --network topologies/compact-car.json", "ECM no reply\nABS ok\nxyzzy\n");
  CHECK(with.status == 0);
  CHECK(with.out == "standard input: fine, a scan of 2 modules, 0 codes, 1 line not understood\n");
}
