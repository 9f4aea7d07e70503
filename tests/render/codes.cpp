#include <doctest/doctest.h>

#include <nlohmann/json.hpp>
#include <whichwire/render.hpp>

using namespace whichwire;

namespace {

std::vector<CodeAsked> asked(std::initializer_list<const char*> all) {
  std::vector<CodeAsked> codes;
  for (const char* one : all) codes.push_back({one, parse_code(one)});
  return codes;
}

}  // namespace

TEST_CASE("a lost-communication code points at the module that is named, not at the one that stores it") {
  const auto codes = asked({"u0100-87"});
  const std::string page = text_of(codes);
  CHECK(page.starts_with("U0100-87\n"));
  CHECK(page.find("Look at the module that is named") != std::string::npos);
  CHECK(page.find("About: engine-control") != std::string::npos);
  CHECK(page.find("Source: ") != std::string::npos);
}

TEST_CASE("codes as JSON name kind, subject, title and standard") {
  const auto codes = asked({"U0100", "SPN 2000 FMI 9"});
  const auto json = nlohmann::json::parse(json_of(codes));
  CHECK(json["format"] == "whichwire.codes.v1");
  REQUIRE(json["codes"].size() == 2);
  CHECK(json["codes"][0]["kind"] == word_for(CodeKind::lost_communication));
  CHECK(json["codes"][0]["about"] == "engine-control");
  CHECK(json["codes"][1]["code"] == "SPN 2000 FMI 9");
  for (const auto& code : json["codes"]) CHECK(!code["explanation"].get<std::string>().empty());
}

TEST_CASE("every generic code gives a page of short lines") {
  for (std::uint32_t number = 0; number < 0x500; ++number) {
    const std::vector<CodeAsked> one = {{"", Code{'U', number, std::uint8_t{0x87}}}};
    const std::string page = text_of(one);
    std::size_t begin = 0;
    for (std::size_t end = 0; (end = page.find('\n', begin)) != std::string::npos; begin = end + 1) {
      CHECK(end - begin <= 80);
    }
  }
}
