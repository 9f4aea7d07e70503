// Whom a stored code means in the modules of a network.
#include "scan/accused.hpp"

#include <doctest/doctest.h>

#include "scan/van.hpp"

using namespace whichwire;

namespace {

CodeSeen code(const std::string& written) {
  CodeSeen seen;
  seen.written = written;
  seen.code = parse_code(written);
  return seen;
}

std::string accused(std::string_view reporter, const std::string& written) {
  const Accused found = accused_by(test::van(), reporter.empty() ? nowhere : test::module(reporter), code(written));
  std::string all(word_for(found.kind));
  for (const std::size_t module : found.modules) all += " " + test::van().modules[module].id;
  return all;
}

}  // namespace

TEST_CASE("a code means the module that has its role, also among other roles") {
  CHECK(accused("TCM", "U0100-87") == "lost-communication ECM");
  CHECK(accused("ABS", "U0123-87") == "lost-communication SRS");
  CHECK(accused("ECM", "U0103") == "lost-communication TCM");
  CHECK(accused("ECM", "U0102") == "lost-communication");
  CHECK(accused("BCM", "U0422-81") == "invalid-data BCM");
}

TEST_CASE("letters tell modules apart where the network's roles have them") {
  CHECK(accused("BCM", "U0199") == "lost-communication DDM");
  CHECK(accused("BCM", "U0200") == "lost-communication PDM");
  CHECK(accused("BCM", "U0201") == "lost-communication");
}

TEST_CASE("a J1939 code means the module at the address") {
  CHECK(accused("ECM", "SPN 2003 FMI 9") == "lost-communication TCM");
  CHECK(accused("ECM", "SPN 2011 FMI 19") == "invalid-data ABS");
  CHECK(accused("ECM", "SPN 639 FMI 9") == "bus-fault");
}

TEST_CASE("a maker's own code means what the reporter's network entry says, whatever its failure type") {
  CHECK(accused("ECM", "U1402") == "lost-communication TCM");
  CHECK(accused("ECM", "U1402-87") == "lost-communication TCM");
  CHECK(accused("ECM", "f3 12") == "lost-communication ABS");
  CHECK(accused("TCM", "U1402") == "other");
  CHECK(accused("", "U1402") == "other");
}

TEST_CASE("a maker's bus code means the bus") {
  Network network = test::van();
  const std::size_t ecm = test::module("ECM");
  network.modules[ecm].own_codes.push_back({"U1499-88", OwnCode::Says::bus_fault, 1});
  CHECK(accused_by(network, ecm, code("U1499-88")).bus == 1);
  CHECK(accused_by(network, ecm, code("U1499-88")).kind == CodeKind::bus_fault);
  CHECK(accused_by(network, ecm, code("U1499-87")).bus == nowhere);
}
