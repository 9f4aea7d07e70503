// Trouble codes as written, and their status.
#include <doctest/doctest.h>

#include <whichwire/code.hpp>

#include "scan/hex.hpp"
#include "scan/read_code.hpp"

using namespace whichwire;

namespace {
std::string read(std::string_view text) {
  const auto code = parse_code(text);
  return code ? text_of(*code) : "none";
}
}  // namespace

TEST_CASE("a code is read in every usual way of writing it") {
  CHECK(read("U0100") == "U0100");
  CHECK(read("u0100-87") == "U0100-87");
  CHECK(read("U010087") == "U0100-87");
  CHECK(read("U0100:87") == "U0100-87");
  CHECK(read(" U0100-1f\r\n") == "U0100-1F");
  CHECK(read("0xC10087") == "U0100-87");
  CHECK(read("0xC100") == "U0100");
  CHECK(read("0x4123") == "C0123");
  CHECK(read("P0A0F") == "P0A0F");
  CHECK(read("b3fff") == "B3FFF");
  CHECK(read("C0040-13") == "C0040-13");
}

TEST_CASE("a J1939 code is read in every usual way of writing it") {
  CHECK(read("SPN 2000 FMI 9") == "SPN 2000 FMI 9");
  CHECK(read("SPN2000-9") == "SPN 2000 FMI 9");
  CHECK(read("spn:639, fmi:13") == "SPN 639 FMI 13");
  CHECK(read("SPN 639/FMI 9") == "SPN 639 FMI 9");
  CHECK(read("SPN 639.2") == "SPN 639 FMI 2");
  CHECK(read("SPN=524287 FMI=31") == "SPN 524287 FMI 31");
  CHECK(read("SPN 639") == "SPN 639");
}

TEST_CASE("what is no code is not read as one") {
  for (const char* text :
       {"",        "U",          "U010",      "U4000",  "U01000",     "U0100-8",        "U0100-877",   "X0100",
        "U01G0",   "0100",       "U0100 87",  "SPN",    "SPN 524288", "SPN 639 FMI 32", "SPN x FMI 9", "0xC1",
        "0xC1008", "0xC1008787", "SPN 639 9", "UU0100", "U0100x",     "FMI 9"})
    CHECK_MESSAGE(!parse_code(text).has_value(), text);
}

TEST_CASE("a code at the beginning of a text ends where letters or digits do not run on") {
  const auto with_type = read_code("U0100-87 no messages");
  REQUIRE(with_type.has_value());
  CHECK(with_type->length == 8);
  const auto without = read_code("U0100: 87");
  REQUIRE(without.has_value());
  CHECK(without->length == 5);
  CHECK_FALSE(without->code.detail.has_value());
  CHECK(read_code("U0100-1234")->length == 5);
  CHECK_FALSE(read_code("U0100A").has_value());
  CHECK(read_code("SPN 639 active")->length == 7);
}

TEST_CASE("what a code is written as is read back, for every letter and number") {
  for (const char letter : {'P', 'C', 'B', 'U'}) {
    for (std::uint32_t number = 0; number < 0x4000; number += 7) {
      Code code{letter, number, std::nullopt};
      REQUIRE(parse_code(text_of(code)) == code);
      code.detail = static_cast<std::uint8_t>(number & 0xFFU);
      REQUIRE(parse_code(text_of(code)) == code);
      REQUIRE(parse_code("0x" + hex_text(*bytes_of(code), 6)) == code);
    }
  }
  for (std::uint32_t spn = 0; spn <= 0x7FFFF; spn += 997) {
    const Code code{'S', spn, static_cast<std::uint8_t>(spn % 32)};
    REQUIRE(parse_code(text_of(code)) == code);
    REQUIRE_FALSE(bytes_of(code).has_value());
  }
}

TEST_CASE("a status byte in words names every bit that is set") {
  CHECK(text_of_status(0x00) == "tested and passing");
  CHECK(text_of_status(0x09) == "fails now, confirmed");
  CHECK(text_of_status(0x50) == "not tested since the last clear, not tested this cycle");
  CHECK(text_of_status(0x80) == "asks for the warning lamp");
}

TEST_CASE("states and kinds have the words of the format") {
  CHECK(word_for(CodeState::not_tested) == "not-tested");
  CHECK(word_for(CodeState::current) == "current");
  CHECK(word_for(CodeKind::lost_communication) == "lost-communication");
  CHECK(word_for(CodeKind::self) == "self");
}
