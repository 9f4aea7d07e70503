// JSON or pasted text, by how a text begins; and the encodings that pasted text comes in.
#include <doctest/doctest.h>

#include "scan/decode.hpp"
#include "scan/van.hpp"

using namespace whichwire;

TEST_CASE("a text that begins with a brace is JSON, after blanks, comments and a byte order mark") {
  const std::string json = R"({ "format": "whichwire.scan.v1", "modules": [ { "module": "ECM", "answer": "no" } ] })";
  for (const std::string& before :
       {std::string(), std::string(" \r\n\t"), std::string("// a remark { \n"), std::string("/* x */ /* y */\n")}) {
    const ScanResult result = read_any_scan(before + json, "scan", test::van());
    REQUIRE(result.scan.has_value());
    CHECK(result.lines.empty());
    CHECK(result.scan->modules[0].module == "ECM");
  }
}

TEST_CASE("anything else is pasted text") {
  const ScanResult result = read_any_scan("// ECM no response\nTCM ok {", "scan", test::van());
  REQUIRE(result.scan.has_value());
  CHECK(result.lines.size() == 2);
}

TEST_CASE("pasted text is read in UTF-16 and ISO 8859-1 as well") {
  const std::string latin = "Motorsteuerger\xE4t antwortet nicht";
  CHECK(decoded(latin) == "Motorsteuergerät antwortet nicht");
  CHECK(test::understood(latin) == "ECM: no answer\n");
  std::string little = "\xFF\xFE";
  std::string big = "\xFE\xFF";
  for (const char c : std::string("TCM ok")) {
    little += c;
    little += '\0';
    big += '\0';
    big += c;
  }
  CHECK(decoded(little) == "TCM ok");
  CHECK(decoded(big) == "TCM ok");
  CHECK(test::understood(little) == "TCM: answers\n");
  CHECK(decoded(std::string("\xFF\xFE\x3D\xD8\x00\xDE", 6)) == "\U0001F600");
  CHECK(decoded("\xEF\xBB\xBFTCM") == "TCM");
  CHECK(decoded("Gr\xC3\xBC\xDF") == "Grüß");
}
