#include <doctest/doctest.h>

#include <nlohmann/json.hpp>
#include <whichwire/render.hpp>

using namespace whichwire;

namespace {

const std::vector<FileChecked> files = {
    {"good.json", "network of 3 modules on 1 bus", {}},
    {"bad.json",
     "",
     {{"bad.json", 4, 12, "modules.ECM", "unknown key 'pwer', did you mean 'power'?", "  \"pwer\": []", 0}}}};

}  // namespace

TEST_CASE("mistakes come with place, line and caret, and each file with its outcome") {
  CHECK(text_of(files) ==
        "good.json: fine, a network of 3 modules on 1 bus\n"
        "bad.json:4:12: modules.ECM: unknown key 'pwer', did you mean 'power'?\n"
        "    \"pwer\": []\n"
        "             ^\n"
        "bad.json: 1 mistake\n");
}

TEST_CASE("mistakes as JSON name line, column and path") {
  const auto json = nlohmann::json::parse(json_of(files));
  CHECK(json == nlohmann::json::parse(R"({ "format": "whichwire.mistakes.v1", "files": [
    { "file": "good.json", "contents": "network of 3 modules on 1 bus", "mistakes": [] },
    { "file": "bad.json", "mistakes": [ { "line": 4, "column": 12, "path": "modules.ECM",
      "message": "unknown key 'pwer', did you mean 'power'?" } ] } ] })"));
}
