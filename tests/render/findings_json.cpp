#include <doctest/doctest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>

#include "example.hpp"

using namespace whichwire;
using Json = nlohmann::ordered_json;

namespace {

/// Exit status of the schema validator of Debian's python3-jsonschema on this text.
int judged(const std::string& json) {
  const auto file =
      std::filesystem::temp_directory_path() / ("whichwire-findings-" + std::to_string(getpid()) + ".json");
  std::ofstream(file) << json;
  const std::string script =
      "import json,sys,jsonschema;jsonschema.Draft202012Validator(json.load(open(sys.argv[1]))).validate("
      "json.load(open(sys.argv[2])))";
  const std::string command = std::string(WHICHWIRE_PYTHON) + " -c '" + script + "' " + WHICHWIRE_SOURCE_DIR +
                              "/topologies/findings.schema.json " + file.string() + " 2>/dev/null";
  const int status = std::system(command.c_str());
  std::filesystem::remove(file);
  return WEXITSTATUS(status);
}

}  // namespace

TEST_CASE("findings are written exactly as documented") {
  const example::Page example;
  const Json json = Json::parse(json_of(example.findings()));
  const Json expected = Json::parse(R"({
    "format": "whichwire.findings.v1", "network": "moor", "scan": "scan.txt",
    "verdict": { "class": "module", "parts": ["ECM"], "probability": 0.901235, "headline": "One silent module: ECM" },
    "explanations": [
      { "probability": 0.9, "faults": [ { "fault": "open", "part": "ECM/A-27" } ],
        "alike": [ [ { "fault": "open", "part": "DRV-4", "line": "both" } ],
                   [ { "fault": "open", "part": "DRV-4", "line": "high" } ], [ { "fault": "dead", "part": "ECM" } ] ],
        "explains": ["ECM does not answer", "TCM stores U0100-87, current: misses ECM"],
        "leaves": ["SRS does not answer"] },
      { "probability": 0.06, "faults": [ { "fault": "open", "part": "F4" } ], "alike": [],
        "explains": ["ECM does not answer", "TCM stores U0100-87, current: misses ECM"], "leaves": ["TCM answers"] } ],
    "outside": 0.000033,
    "checks": [
      { "id": "feed-pin:ECM/A-27", "measure": "Unplug ECM and measure feed pin A-27 in its plug, loaded with a lamp",
        "at": { "part": "ECM", "pin": "A-27", "wire": "VT" }, "mode": "volts-loaded", "key": "run",
        "expect": [ { "if": "good", "low": 12.0, "high": 12.8 }, { "if": "0 V or dark", "low": 0.0, "high": 2.0 } ],
        "minutes": 6.0, "gain_bits": 0.812346, "cautions": ["No lamp on bus or sensor wires."] } ],
    "not_understood": ["line 2: Bluetooth kit v5", "module not in this network: Trailer unit"] })");
  CHECK(json == expected);
}

TEST_CASE("a fault says its line, what it touches, its bus and that it comes and goes, each only where it has one") {
  example::Page example;
  Fault shorted = moor::open_segment(moor::DRV, 1, Lines::high);
  shorted.kind = FaultKind::short_circuit;
  shorted.to = ShortTo::ground;
  shorted.comes_and_goes = true;
  const Fault holds = moor::module_fault(FaultKind::holds, moor::ABS, moor::DRV);
  example.ranking.explanations.front().faults = {shorted, holds, moor::open_segment(moor::LIN, 0)};
  const Json faults = Json::parse(json_of(example.findings()))["explanations"][0]["faults"];
  CHECK(faults == Json::parse(R"([
    { "fault": "short", "part": "DRV-2", "line": "high", "to": "ground", "comes_and_goes": true },
    { "fault": "holds", "part": "ABS", "bus": "DRV" },
    { "fault": "open", "part": "LIN-1" } ])"));
}

TEST_CASE("the bound on what is not listed is never rounded down") {
  example::Page example;
  example.ranking.outside = 1e-9;
  CHECK(Json::parse(json_of(example.findings()))["outside"] == 0.000001);
  example.ranking.outside = 0;
  CHECK(Json::parse(json_of(example.findings()))["outside"] == 0.0);
}

TEST_CASE("an independent validator finds the findings as the schema says, and a spoilt copy not") {
  const example::Page example;
  Json json = Json::parse(json_of(example.findings()));
  CHECK(judged(json.dump()) == 0);
  json["verdict"]["class"] = "curse";
  CHECK(judged(json.dump()) == 1);
}

TEST_CASE("every fault that a vehicle can have fits the schema") {
  example::Page example;
  example.ranking.explanations.front().alike.clear();
  for (const Fault& fault : faults_of(example.network)) example.ranking.explanations.front().alike.push_back({fault});
  CHECK(judged(json_of(example.findings())) == 0);
}

TEST_CASE("names with control characters are escaped in JSON and come back whole") {
  example::Page example;
  example.scan.modules.push_back({"\x1b[2J\x7f\xc2\x9b \xe2\x80\xae \xf3\xa0\x80\x81 K\xc3\xbchler", Answer::yes, {}});
  const std::string text = json_of(example.findings());
  for (char byte : text) CHECK((byte == '\n' || (static_cast<unsigned char>(byte) >= 0x20 && byte != 0x7f)));
  CHECK(text.find("\xc2\x9b") == std::string::npos);
  CHECK(text.find("\xe2\x80\xae") == std::string::npos);
  CHECK(text.find("K\xc3\xbchler") != std::string::npos);
  const Json last = Json::parse(text)["not_understood"].back();
  CHECK(last == "module not in this network: " + example.scan.modules.back().module);
}
