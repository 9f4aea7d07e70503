#include "network/reading.hpp"

using namespace whichwire;

TEST_CASE("an id names one thing, whatever sort the second one is of") {
  const std::string modules = R"("modules": {"A": {}, "B": {}}, )";
  const std::string frame =
      modules + R"("buses": {"X": {"protocol": "can-hs", "segments": {"S": {"from": "A", "to": "B"}}}}, )";
  CHECK(test::said(frame + R"("feeds": {"A": {}})") ==
        "feeds.A: the id `A` names a module already; an id names one thing (the first is in line 1)\n");
  CHECK(test::said(frame + R"("grounds": {"X": {}})") ==
        "grounds.X: the id `X` names a bus already; an id names one thing (the first is in line 1)\n");
  CHECK(
      test::said(frame + R"("points": {"S": {}})").starts_with("buses.X.segments.S: the id `S` names a point already"));
  CHECK(
      test::said(frame + R"("feeds": {"x": {}})") ==
      "feeds.x: the id `x` differs from `X` only in capital letters; an id names one thing (the first is in line 1)\n");
}

TEST_CASE("functions and pins have names of their own") {
  CHECK(test::said(test::framed(R"("functions": {"A": {"modules": ["A"]}}, "feeds": {"F1": {}})")) == "");
}

TEST_CASE("ids may hold dots, brackets, umlauts and signs, but no blank, slash or colon") {
  CHECK(test::said(R"("modules": {"Tür.v/l": {}}, "buses": {"X": {"protocol": "lin", "members": ["Tür.v/l"]}})")
            .starts_with("modules.Tür.v/l: `Tür.v/l` is no id"));
  const Network network =
      test::read(R"("modules": {"Tür.v[1]+電": {}}, "buses": {"X": {"protocol": "lin", "members": ["Tür.v[1]+電"]}})");
  CHECK(network.modules[0].id == "Tür.v[1]+電");
}
