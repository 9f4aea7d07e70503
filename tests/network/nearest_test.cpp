#include <doctest/doctest.h>

#include <whichwire/mistake.hpp>

using namespace whichwire;

TEST_CASE("a slip of the finger finds the word that was meant") {
  const std::vector<std::string> known{"segments", "members", "terminators", "bit_rate", "name"};
  CHECK(nearest("segmets", known) == "segments");
  CHECK(nearest("sgements", known) == "segments");
  CHECK(nearest("SEGMENTS", known) == "segments");
  CHECK(nearest("bitrate", known) == "bit_rate");
  CHECK(nearest("bit-rate", known) == "bit_rate");
  CHECK(nearest("nmae", known) == "name");
}

TEST_CASE("a word that resembles nothing gets no suggestion") {
  const std::vector<std::string> known{"segments", "members", "name"};
  CHECK(nearest("voltage", known).empty());
  CHECK(nearest("", known).empty());
  CHECK(nearest("x", {"y"}).empty());
  CHECK(nearest(std::string(1'000'000, 'a'), known).empty());
}

TEST_CASE("of two words equally near the first is taken, a nearer one always") {
  CHECK(nearest("ECN", {"ECU", "ECM"}) == "ECU");
  CHECK(nearest("DRV-22", {"DRV-1", "DRV-2"}) == "DRV-2");
}
