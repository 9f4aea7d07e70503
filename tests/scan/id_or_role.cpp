// A word that is one module's id, and also what another module is called by its role: `SAS` in the van of topologies/,
// whose high trim has the steering angle sensor inside the steering column module SCM.
#include "scan/van.hpp"

using namespace whichwire;

namespace {

Network topology(const char* file) {
  const NetworkResult result =
      load_network((std::filesystem::path(WHICHWIRE_SOURCE_DIR) / "topologies" / file).string());
  REQUIRE(result.network.has_value());
  return *result.network;
}

Answer answer_of(const Scan& scan, const char* name) {
  const ModuleSeen* const seen = test::seen(scan, name);
  REQUIRE_MESSAGE(seen != nullptr, name);
  return seen->answer;
}

/// The van of these tests, where `ABS` is now also a role of the module SRS, and `EPS` of the module TCM.
Network with_roles_of_others() {
  Network network = test::van();
  network.modules[test::module("SRS")].roles.emplace_back("abs");
  network.modules[test::module("TCM")].aliases.emplace_back("EPS");
  return network;
}

}  // namespace

TEST_CASE("a module's id wins over the role or alias of another module") {
  const Network network = with_roles_of_others();
  const Scan scan = *read_pasted_scan("ABS: no reply\nEPS ok\nSRS ok\n", "paste", network).scan;
  CHECK(answer_of(scan, "ABS") == Answer::no);
  CHECK(answer_of(scan, "EPS") == Answer::yes);
  CHECK(answer_of(scan, "SRS") == Answer::yes);
  CHECK(test::seen(scan, "TCM") == nullptr);
}

TEST_CASE("a module's id wins over a role in sentences and in JSON too") {
  const Network network = with_roles_of_others();
  const Scan said = *read_pasted_scan("TCM: no messages from ABS\n", "paste", network).scan;
  REQUIRE(said.modules[0].codes.size() == 1);
  CHECK(said.modules[0].codes[0].misses == "ABS");

  Network radio = test::van();
  radio.modules[test::module("RAD")].id = "radio";  // now an id that is also the name of a role
  const ScanResult json = read_scan(
      R"({ "format": "whichwire.scan.v1", "modules": [{ "module": "BCM", "answer": "yes",
           "codes": [{ "text": "no messages from the radio", "misses": "radio" }] }] })",
      "scan.json", &radio);
  REQUIRE(json.scan.has_value());
  CHECK(json.scan->modules[0].codes[0].misses == "radio");
}

TEST_CASE("a short role name leads to its module unless the same scan names that module by its id") {
  const Network high = topology("van-high.json");
  const Scan alone = *read_pasted_scan("SAS: no reply\nECM ok\n", "paste", high).scan;
  CHECK(answer_of(alone, "SCM") == Answer::no);

  const ScanResult both = read_pasted_scan("SAS: ok\nSCM: no reply\n", "paste", high);
  REQUIRE(both.scan.has_value());
  CHECK(answer_of(*both.scan, "SCM") == Answer::no);
  CHECK(answer_of(*both.scan, "SAS") == Answer::yes);
  CHECK(both.lines[0].understood.starts_with("`SAS`, not in this network"));
}

TEST_CASE("an id in brackets behind a role name is one module") {
  const Scan scan = *read_pasted_scan("SAS (SCM): no reply\nECM ok\n", "paste", topology("van-high.json")).scan;
  CHECK(answer_of(scan, "SCM") == Answer::no);
  CHECK(scan.modules.size() == 2);
}

TEST_CASE("a JSON scan that lists both the id and a role of one module is not refused for naming it twice") {
  const Network high = topology("van-high.json");
  const ScanResult both = read_scan(
      R"({ "format": "whichwire.scan.v1", "modules": [{ "module": "SAS", "answer": "yes" },
           { "module": "SCM", "answer": "no" }] })",
      "scan.json", &high);
  REQUIRE(both.mistakes.empty());
  CHECK(answer_of(*both.scan, "SAS") == Answer::yes);
  CHECK(answer_of(*both.scan, "SCM") == Answer::no);
  const ScanResult alone = read_scan(
      R"({ "format": "whichwire.scan.v1", "modules": [{ "module": "SAS", "answer": "yes" }] })", "scan.json", &high);
  REQUIRE(alone.mistakes.empty());
  CHECK(answer_of(*alone.scan, "SCM") == Answer::yes);
}

TEST_CASE("of two answers the one about the module's own name counts more than the one about its role") {
  const Network high = topology("van-high.json");
  const ScanResult result = read_pasted_scan("steering angle sensor: ok\nSCM: no reply\n", "paste", high);
  REQUIRE(result.scan.has_value());
  CHECK(result.lines[1].understood == "SCM: no answer; an earlier line says: answers, taken: no answer");
}

TEST_CASE("a role that two modules have is reported, and nothing is taken from it") {
  Network network = test::van();
  network.modules[test::module("SRS")].roles.emplace_back("hvac");
  const ScanResult result =
      read_pasted_scan("air conditioning control: no reply\nECM ok\nHVAC: ok\n", "paste", network);
  REQUIRE(result.scan.has_value());
  CHECK(result.lines[0].understood.find("may be") != std::string::npos);
  CHECK(answer_of(*result.scan, "HVAC") == Answer::yes);
}

TEST_CASE("an id that is only mentioned makes no stranger of the module's role name, in the text as in its JSON") {
  const Network high = topology("van-high.json");
  const Scan scan = *read_pasted_scan("ECM: no messages from SCM\nSAS: no reply\n", "paste", high).scan;
  CHECK(answer_of(scan, "SCM") == Answer::no);
  CHECK(*read_scan(json_of(scan), "paste", &high).scan == scan);
}
