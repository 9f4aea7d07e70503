#include "network/reading.hpp"

using namespace whichwire;

namespace {

std::string modules(std::string_view ids) {
  std::string all;
  for (const char id : ids) all += (all.empty() ? "\"" : ", \"") + std::string(1, id) + "\": {}";
  return "\"modules\": {" + all + "}, ";
}

std::string bus(std::string_view protocol, std::string_view segments) {
  return "\"buses\": {\"X\": {\"protocol\": \"" + std::string(protocol) + "\", \"segments\": {" +
         std::string(segments) + "}}}";
}

}  // namespace

TEST_CASE("a bus hangs together in whatever order its segments stand") {
  CHECK(test::said(modules("ABCD") + bus("can-hs", R"("S1": {"from": "A", "to": "B"}, "S2": {"from": "C", "to": "D"},
                                                      "S3": {"from": "D", "to": "B"})")) == "");
}

TEST_CASE("every piece of a bus but the first is named with all that is in it") {
  CHECK(test::said(modules("ABCDEF") + bus("can-hs", R"("S1": {"from": "A", "to": "B"}, "S2": {"from": "C", "to": "D"},
                                                        "S3": {"from": "E", "to": "F"})")) ==
        "buses.X.segments.S2: the bus is in pieces: no segment joins `C`, `D` to `A`\n"
        "buses.X.segments.S3: the bus is in pieces: no segment joins `E`, `F` to `A`\n");
}

TEST_CASE("the diagnostic connector joins nothing but by its own segments") {
  CHECK(test::said(modules("ABC") +
                   bus("can-hs", R"("S1": {"from": "A", "to": "B"}, "S2": {"from": "C", "to": "DLC"})")) ==
        "buses.X.segments.S2: the bus is in pieces: no segment joins `C`, `DLC` to `A`\n");
}

TEST_CASE("a ring that closes is fine, and a bus may hold a circle") {
  const std::string circle =
      R"("S1": {"from": "A", "to": "B"}, "S2": {"from": "B", "to": "C"}, "S3": {"from": "C", "to": "A"})";
  CHECK(test::said(modules("ABC") + bus("ring", circle)) == "");
  CHECK(test::said(modules("ABC") + bus("flexray", circle)) == "");
}

TEST_CASE("a ring with a loose end is refused, and so is one with a branch") {
  CHECK(test::said(modules("ABC") + bus("ring", R"("S1": {"from": "A", "to": "B"}, "S2": {"from": "B", "to": "C"})")) ==
        "buses.X: the ring is not closed: two segments meet at each of its ends, but not at `A`, `C`\n");
  CHECK(test::said(modules("ABCD") + bus("ring", R"("S1": {"from": "A", "to": "B"}, "S2": {"from": "B", "to": "C"},
                                                    "S3": {"from": "C", "to": "A"}, "S4": {"from": "A", "to": "D"})")) ==
        "buses.X: the ring is not closed: two segments meet at each of its ends, but not at `A`, `D`\n");
}

TEST_CASE("a T1 link joins two, points on the way not counted") {
  CHECK(test::said(modules("AB") + R"("points": {"X9": {}}, )" +
                   bus("ethernet-t1", R"("S1": {"from": "A", "to": "X9"}, "S2": {"from": "X9", "to": "B"})")) == "");
  CHECK(test::said(modules("AB") +
                   bus("ethernet-t1", R"("S1": {"from": "A", "to": "B"}, "S2": {"from": "B", "to": "DLC"})")) ==
        "buses.X: an ethernet-t1 link joins two; here are `A`, `B`, `DLC`: give each link a bus of its own\n");
}

TEST_CASE("the same address twice on a bus is said once, and on two buses not at all") {
  const std::string addressed = R"("modules": {"A": {"address": 7}, "B": {"address": 7}, "C": {}}, )";
  CHECK(
      test::said(
          addressed +
          R"("buses": {"X": {"protocol": "can-hs", "members": ["B", "A"]}, "Y": {"protocol": "can-hs", "members": ["A", "B", "C"]}})") ==
      "modules.B.address: `A` has the same address on the bus `X` (the first is in line 1)\n");
  CHECK(
      test::said(
          addressed +
          R"("buses": {"X": {"protocol": "can-hs", "members": ["A", "C"]}, "Y": {"protocol": "can-hs", "members": ["B", "C"]}})") ==
      "");
}

TEST_CASE("what a mistyped segment may have brought about is not told as a mistake of its own") {
  CHECK(
      test::said(modules("ABC") + bus("can-hs", R"("S1": {"from": "A", "to": "B"}, "S2": {"from": "B", "to": "D"})")) ==
      "buses.X.segments.S2.to: there is no module or point `D`\n");
}
