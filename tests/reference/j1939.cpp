// SAE J1939 numbers about networks and control units. Sources: open J1939 libraries (MIT) and a public fault list,
// which agree on SPN 2000 to 2255 = source address 0 to 255 and on the names of the network SPNs and FMIs.
#include <doctest/doctest.h>

#include <string>
#include <whichwire/code.hpp>

using namespace whichwire;

TEST_CASE("SPN 2000 + n is the module at source address n, for all 256 addresses") {
  for (int address = 0; address < 256; ++address) {
    const CodeMeaning meaning = meaning_of({'S', static_cast<std::uint32_t>(2000 + address), 9});
    REQUIRE(meaning.kind == CodeKind::lost_communication);
    REQUIRE(meaning.subject == "address:" + std::to_string(address));
  }
  CHECK(meaning_of({'S', 1999, 9}).kind == CodeKind::other);
  CHECK(meaning_of({'S', 2256, 9}).kind == CodeKind::other);
}

TEST_CASE("pairs of number and failure mode that public fault lists print are read as network statements") {
  for (const char* code : {"SPN 639 FMI 9", "SPN 1231 FMI 9", "SPN 1235 FMI 9", "SPN 625 FMI 31", "SPN 639 FMI 8"})
    CHECK_MESSAGE(meaning_of(*parse_code(code)).kind == CodeKind::bus_fault, code);
  CHECK(meaning_of(*parse_code("SPN 2251 FMI 9")).subject == "address:251");
  CHECK(meaning_of(*parse_code("SPN 2000 FMI 31")).kind == CodeKind::lost_communication);
  CHECK(meaning_of(*parse_code("SPN 2000 FMI 19")).kind == CodeKind::invalid_data);
}

TEST_CASE("preferred addresses carry the roles of the public address lists") {
  CHECK(role_at_address(0) == "engine-control");
  CHECK(role_at_address(3) == "transmission-control");
  CHECK(role_at_address(11) == "brake-system");
  CHECK(role_at_address(23) == "instrument-cluster");
  CHECK(role_at_address(33) == "body-control");
  CHECK(role_at_address(83) == "restraints");
}

// 19-bit number, 5-bit failure mode: the DM1 layout that two open libraries agree on.
TEST_CASE("a number holds 19 bits and a failure mode 5") {
  CHECK(parse_code("SPN 524287 FMI 31").has_value());
  CHECK_FALSE(parse_code("SPN 524288 FMI 1").has_value());
  CHECK_FALSE(parse_code("SPN 639 FMI 32").has_value());
}
