#include <doctest/doctest.h>

#include <nlohmann/json.hpp>

#include "running.hpp"

using namespace whichwire::test;

TEST_CASE("codes are explained in the order in which they are asked for") {
  const Run asked = run("whichwire codes u0100-87 U0073 'SPN 2000 FMI 9' U3FFF");
  CHECK(asked.status == 0);
  CHECK(asked.err == "");
  CHECK(asked.out == golden(WHICHWIRE_SOURCE_DIR "/tests/cli/golden/codes.txt", asked.out));
}

TEST_CASE("codes as JSON") {
  const Run asked = run("whichwire codes U0100-87 --json");
  CHECK(asked.status == 0);
  const auto json = nlohmann::json::parse(asked.out);
  CHECK(json["format"] == "whichwire.codes.v1");
  CHECK(json["codes"][0]["about"] == "engine-control");
}

TEST_CASE("words that are no codes are refused, each with its own message, and nothing is half explained") {
  const Run refused = run("whichwire codes U0100 Q0100 hello");
  CHECK(refused.status == 2);
  CHECK(refused.out == "");
  CHECK(refused.err ==
        "whichwire: 'Q0100' is not a code; write U0100, U0100-87 or SPN2000-9\n"
        "whichwire: 'hello' is not a code; write U0100, U0100-87 or SPN2000-9\n");
}
